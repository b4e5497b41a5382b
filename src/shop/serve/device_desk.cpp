// Devices: letting a tablet in, and out again.
#include <fmt/format.h>

#include "shop/files/api.h"
#include "shop/net/certificate.h"
#include "shop/serve/route.h"

namespace fallaway::serve::device_desk {

net::Response make_code(Desk& desk, const Call&) {
    if (desk.opened.address.empty()) {
        return refuse(Error{"conflict", "",
                            "this shop answers only on its own computer; start it with --open-to and an address"});
    }
    const Access::Code code = desk.access.make_code();
    files::api::Pairing pairing;
    pairing.code = code.text;
    pairing.until = code.until;
    pairing.url = fmt::format("{}pair?code={}", desk.opened.page, code.text);
    pairing.trust_url = desk.opened.trust;
    auto qr = net::qr_svg(pairing.url);
    if (!qr) return refuse(qr.error());
    pairing.qr_svg = std::move(*qr);
    return json(files::api::encode(pairing));
}

net::Response pair(Desk& desk, const Call& call) {
    const auto asked = files::api::decode_pair(call.request.body);
    if (!asked) return refuse(asked.error());
    if (call.request.loopback) {
        return refuse(Error{"conflict", "", "the shop's computer itself needs no pairing"});
    }
    const auto let_in = desk.access.let_in(asked->code, asked->name, call.request.peer);
    if (!let_in) {
        net::Response response = refuse(let_in.error());
        if (response.status == 429) {
            response.headers.emplace_back("Retry-After", fmt::format("{}", desk.access.wait_after_tries()));
        }
        return response;
    }
    net::Response response =
        json(files::api::encode(files::api::Paired{{let_in->device.id, let_in->device.name}}));
    response.headers = {{"Set-Cookie", let_in->cookie}};
    return response;
}

net::Response list(Desk& desk, const Call& call) {
    const auto paired = desk.access.paired();
    if (!paired) return refuse(paired.error());
    files::api::Devices devices;
    for (const store::Device& device : *paired) {
        devices.devices.push_back({device.id, device.name, device.paired, device.seen, device.revoked,
                                   device.id == call.asker.device && !call.asker.local});
    }
    return json(files::api::encode(devices));
}

net::Response take_out(Desk& desk, const Call& call) {
    if (const auto done = desk.access.take_out(call.parts[0]); !done) return refuse(call, done.error());
    desk.hub.close_device(call.parts[0]);
    return list(desk, call);
}

}  // namespace fallaway::serve::device_desk
