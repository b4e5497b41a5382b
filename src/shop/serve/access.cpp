#include "shop/serve/access.h"

#include <algorithm>
#include <chrono>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "shop/files/digest.h"
#include "shop/net/certificate.h"
#include "shop/serve/request_text.h"

namespace fallaway::serve {
namespace {

constexpr std::string_view kCookie = "__Host-fallaway";
constexpr int kTokenBytes = 32;
constexpr long kCookieSeconds = 400L * 24 * 3600;  // the most that browsers keep one (RFC 6265bis)
constexpr std::string_view kOwnComputer = "the shop's computer";

// The first load takes some 15 files; a person types a code now and then.
constexpr double kStrangerBurst = 80;
constexpr double kStrangerPerSecond = 4;
// A tablet that comes back with a full outbox sends hundreds at once.
constexpr double kMemberBurst = 600;
constexpr double kMemberPerSecond = 60;

std::string cookie_of(const net::Request& request) {
    const auto header = request.headers.find("cookie");
    if (header == request.headers.end()) return "";
    std::string_view rest = header->second;
    while (!rest.empty()) {
        const std::size_t end = rest.find(';');
        std::string_view pair = rest.substr(0, end);
        rest = end == rest.npos ? "" : rest.substr(end + 1);
        while (pair.starts_with(' ')) pair.remove_prefix(1);
        const std::size_t equals = pair.find('=');
        if (equals != pair.npos && pair.substr(0, equals) == kCookie) return std::string(pair.substr(equals + 1));
    }
    return "";
}

std::string claimed_device(const net::Request& request) {
    std::string claimed;
    if (const auto header = request.headers.find("x-device"); header != request.headers.end()) {
        claimed = header->second;
    } else if (const auto query = request.query.find("device"); query != request.query.end()) {
        claimed = query->second;
    }
    return is_id(claimed) ? claimed : "";
}

std::string moment_in(double seconds) {
    const auto then = std::chrono::system_clock::now() + std::chrono::seconds(static_cast<long>(seconds));
    return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}", fmt::gmtime(std::chrono::system_clock::to_time_t(then)));
}

}  // namespace

Access::Access(app::Shop& shop, std::function<std::string()> shop_clock, std::function<double()> seconds)
    : shop_(shop),
      clock_(std::move(shop_clock)),
      seconds_(std::move(seconds)),
      codes_([] { return net::random_code(kCodeLetters); }),
      strangers_(kStrangerBurst, kStrangerPerSecond),
      members_(kMemberBurst, kMemberPerSecond) {}

std::optional<Asker> Access::asker(const net::Request& request) {
    if (request.loopback) return Asker{claimed_device(request), std::string(kOwnComputer), true};
    const std::string token = cookie_of(request);
    if (token.empty()) return std::nullopt;
    // Found by its hash, so the time that finding takes tells nothing of the token.
    const auto device = shop_.store().device_of_token(files::sha256_hex(token));
    if (!device || !*device) return std::nullopt;
    store::Device found = **device;
    const std::string now = clock_();
    if (found.seen.substr(0, 10) != now.substr(0, 10)) {
        found.seen = now;
        static_cast<void>(shop_.store().put_device(found));  // a shop that cannot be written still answers
    }
    return Asker{found.id, found.name, false};
}

int Access::must_wait(const net::Request& request, const std::optional<Asker>& asker) {
    if (request.loopback) return 0;
    return asker ? members_.take(asker->device, seconds_()) : strangers_.take(request.peer, seconds_());
}

void Access::remember_local(const Asker& asker) {
    if (!asker.local || asker.device.empty()) return;
    const std::lock_guard lock(mutex_);
    if (local_.contains(asker.device)) return;
    const auto devices = shop_.store().devices();
    if (!devices) return;
    const auto same = std::ranges::find(*devices, asker.device, &store::Device::id);
    if (same == devices->end()) {
        const std::string now = clock_();
        if (!shop_.store().put_device({asker.device, asker.name, "", now, now, false})) return;
    }
    local_.insert(asker.device);
}

Access::Code Access::make_code() {
    return {spaced_code(codes_.make(seconds_())), moment_in(kCodeSeconds)};
}

Result<Access::LetIn> Access::let_in(std::string_view code, std::string_view name, const std::string& peer) {
    const auto answer = codes_.use(code, peer, seconds_());
    if (answer.outcome == PairingCodes::Outcome::too_many) {
        return fail("many", "", fmt::format("too many wrong codes; the next try in {} s", answer.wait_s));
    }
    if (answer.outcome == PairingCodes::Outcome::wrong) {
        return fail("forbidden", "/code", "is not a code that is good now; the shop's computer makes a new one");
    }
    const std::string token = net::random_hex(kTokenBytes);
    const std::string now = clock_();
    const store::Device device{net::random_hex(8), std::string(name), files::sha256_hex(token), now, now, false};
    if (auto put = shop_.store().put_device(device); !put) return tl::unexpected(put.error());
    return LetIn{device, fmt::format("{}={}; Path=/; Max-Age={}; Secure; HttpOnly; SameSite=Strict", kCookie,
                                     token, kCookieSeconds)};
}

Result<std::vector<store::Device>> Access::paired() const {
    auto devices = shop_.store().devices();
    if (devices) std::erase_if(*devices, [](const store::Device& device) { return device.token_hash.empty(); });
    return devices;
}

Result<void> Access::take_out(std::string_view id) {
    const auto devices = paired();
    if (!devices) return tl::unexpected(devices.error());
    const auto found = std::ranges::find(*devices, id, &store::Device::id);
    if (found == devices->end()) return fail("missing", "device", fmt::format("\"{}\": no such device", id));
    store::Device device = *found;
    device.revoked = true;
    return shop_.store().put_device(device);
}

}  // namespace fallaway::serve
