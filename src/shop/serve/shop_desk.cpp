// What belongs to the whole shop: names, tools, rates, limits, the catalogue, sums.
#include <fmt/format.h>

#include "bench/sums/registry.h"
#include "shop/app/sums.h"
#include "shop/files/api.h"
#include "shop/files/sums_json.h"
#include "shop/serve/route.h"

namespace fallaway::serve::shop_desk {
namespace {

// Reads the body, does the one thing, answers the whole shop again.
template <class Decode, class Put>
net::Response change(Desk& desk, const Call& call, Decode decode, Put put) {
    const auto asked = decode(call.request.body);
    if (!asked) return refuse(asked.error());
    if (const auto done = put(*asked); !done) return refuse(done.error());
    return get(desk, call);
}

}  // namespace

net::Response get(Desk& desk, const Call& call) {
    files::api::Shop shop = desk.shop.shop();
    shop.opened = !desk.opened.address.empty();
    shop.address = desk.opened.page;
    shop.local = call.asker.local;
    shop.device = {call.asker.device, call.asker.name};
    return json(files::api::encode(shop));
}

net::Response put_name(Desk& desk, const Call& call) {
    return change(desk, call, files::api::decode_shop_name,
                  [&](const files::api::ShopName& asked) { return desk.shop.put_name(asked.name); });
}

net::Response put_person(Desk& desk, const Call& call) {
    return change(desk, call, files::api::decode_person,
                  [&](const files::api::Person& asked) { return desk.shop.put_person(asked); });
}

net::Response put_tool(Desk& desk, const Call& call) {
    return change(desk, call, files::api::decode_tool,
                  [&](const files::api::Tool& asked) { return desk.shop.put_tool(asked); });
}

net::Response put_rate(Desk& desk, const Call& call) {
    return change(desk, call, files::api::decode_rate,
                  [&](const files::api::Rate& asked) { return desk.shop.put_rate(asked); });
}

net::Response drop_rate(Desk& desk, const Call& call) {
    if (const auto done = desk.shop.drop_rate(call.parts[0]); !done) return refuse(call, done.error());
    return get(desk, call);
}

net::Response put_limit(Desk& desk, const Call& call) {
    return change(desk, call, files::api::decode_limit,
                  [&](const evidence::LimitOverride& asked) { return desk.shop.put_limit(asked); });
}

net::Response drop_limit(Desk& desk, const Call& call) {
    if (const auto done = desk.shop.drop_limit(call.parts[0]); !done) return refuse(call, done.error());
    return get(desk, call);
}

net::Response catalogue(Desk& desk, const Call&) {
    return desk.catalogue;
}

net::Response list_sums(Desk&, const Call&) {
    return json(files::sums_list_json());
}

net::Response run_sum(Desk&, const Call& call) {
    const auto asked = files::api::decode_sum(call.request.body);
    if (!asked) return refuse(asked.error());
    std::vector<std::string> words = {call.parts[0]};
    for (const auto& [key, text] : asked->inputs) words.push_back(key + "=" + text);
    const app::CommandOutput output = app::sums_command(words, false, true);
    if (output.exit_code == app::kDone) return json(output.out);
    net::Response response = json(output.err);
    response.status = sums::find(call.parts[0]) == nullptr ? 404 : 400;
    return response;
}

}  // namespace fallaway::serve::shop_desk
