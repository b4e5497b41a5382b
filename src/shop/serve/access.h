// Who is asking, and may they? Over loopback everybody may; over the network only devices that were let in.
#pragma once

#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <string_view>

#include "science/base/result.h"
#include "shop/app/shop.h"
#include "shop/net/server.h"
#include "shop/serve/pairing.h"
#include "shop/serve/rate_limit.h"

namespace fallaway::serve {

struct Asker {
    std::string device;  // "" when a page of this computer does not say
    std::string name;
    bool local = false;  // over loopback
};

class Access {
public:
    // `shop_clock` gives RFC 3339 texts, `seconds` a clock that never goes back.
    Access(app::Shop& shop, std::function<std::string()> shop_clock, std::function<double()> seconds);

    // Nobody: a request from the network without a good token.
    std::optional<Asker> asker(const net::Request& request);
    // Seconds to wait, 0 none. Loopback never waits; strangers share little, paired devices have plenty.
    int must_wait(const net::Request& request, const std::optional<Asker>& asker);
    // History names devices: a page of this computer is put among them when it first writes.
    void remember_local(const Asker& asker);

    struct Code {
        std::string text;   // "7KQ4-MX2P"
        std::string until;  // RFC 3339
    };
    Code make_code();
    struct LetIn {
        store::Device device;
        std::string cookie;  // value of Set-Cookie
    };
    // Errors: "forbidden" (no such code now), "many".
    Result<LetIn> let_in(std::string_view code, std::string_view name, const std::string& peer);
    int wait_after_tries() const { return static_cast<int>(kPeerSeconds); }

    Result<std::vector<store::Device>> paired() const;  // those taken out as well
    Result<void> take_out(std::string_view device);     // "missing": no such device

private:
    app::Shop& shop_;
    std::function<std::string()> clock_;
    std::function<double()> seconds_;
    PairingCodes codes_;
    RateLimit strangers_;
    RateLimit members_;
    std::mutex mutex_;
    std::set<std::string> local_;  // devices of this computer known to the store
};

}  // namespace fallaway::serve
