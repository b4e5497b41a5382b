#include "shop/net/guard.h"

#include <gtest/gtest.h>

namespace fallaway::net {
namespace {

const Site kLocal{{"localhost", "127.0.0.1", "::1"}, 8080, false};
const Site kShop{{"192.168.1.20", "bench.local", "[fd00::7]"}, 443, true};

TEST(Guard, KnowsItsOwnHosts) {
    for (const std::string_view host : {"localhost:8080", "LocalHost:8080", "127.0.0.1:8080", "[::1]:8080"}) {
        EXPECT_TRUE(host_is_ours(host, kLocal)) << host;
    }
    // 443 is the scheme's own port, so it may be left out.
    for (const std::string_view host :
         {"192.168.1.20", "192.168.1.20:443", "Bench.LOCAL", "[fd00::7]", "[FD00::7]:443"}) {
        EXPECT_TRUE(host_is_ours(host, kShop)) << host;
    }
}

TEST(Guard, KnowsNoOtherHosts) {
    for (const std::string_view host : {"",
                                        ":8080",
                                        "localhost",
                                        "localhost:",
                                        "localhost:80",
                                        "localhost:08080",
                                        "localhost:8080x",
                                        "localhost.:8080",
                                        "rebind.example:8080",
                                        "localhost.example:8080",
                                        "example.localhost:8080",
                                        "127.0.0.1.example:8080",
                                        "127.0.0.2:8080",
                                        "127.1:8080",
                                        "2130706433:8080",
                                        "0x7f.0.0.1:8080",
                                        "::1:8080",
                                        "[::1",
                                        "[::1]",
                                        "::1]:8080",
                                        "[::1]x:8080",
                                        "[localhost]:8080",
                                        "[0:0:0:0:0:0:0:1]:8080",
                                        "[::1%lo]:8080",
                                        "localhost:8080,localhost:8080",
                                        "user@localhost:8080",
                                        " localhost:8080",
                                        "localhost :8080",
                                        "localhost:8080/",
                                        "*:8080"}) {
        EXPECT_FALSE(host_is_ours(host, kLocal)) << host;
    }
    EXPECT_FALSE(host_is_ours("localhost:8080", Site{{}, 8080, false}));
}

TEST(Guard, KnowsItsOwnOrigins) {
    EXPECT_TRUE(origin_is_ours("http://localhost:8080", kLocal));
    EXPECT_TRUE(origin_is_ours("http://[::1]:8080", kLocal));
    EXPECT_TRUE(origin_is_ours("https://bench.local", kShop));
    for (const std::string_view origin :
         {"", "null", "http://", "https://localhost:8080", "http://localhost", "http://localhost:3000",
          "http://rebind.example:8080", "http://localhost:8080.example", "http://localhost:8080/", "file://",
          "ws://localhost:8080", "http://localhost:8080 http://localhost:8080", "localhost:8080",
          "http:/localhost:8080", "data:text/html,x"}) {
        EXPECT_FALSE(origin_is_ours(origin, kLocal)) << origin;
    }
    EXPECT_FALSE(origin_is_ours("http://bench.local", kShop));
}

TEST(Guard, AsksForExactlyOneHost) {
    EXPECT_TRUE(check_host(std::vector<std::string_view>{"localhost:8080"}, kLocal));
    EXPECT_EQ(check_host({}, kLocal).error().code, "syntax");
    EXPECT_EQ(check_host(std::vector<std::string_view>{"localhost:8080", "localhost:8080"}, kLocal).error().code,
              "syntax");
    const auto rebound = check_host(std::vector<std::string_view>{"rebind.example:8080"}, kLocal);
    EXPECT_EQ(rebound.error().code, "host");
    EXPECT_NE(rebound.error().message.find("\"rebind.example:8080\""), std::string::npos);
}

struct SenderCase {
    Sender sender;
    bool welcome;
};

TEST(Guard, LetsInOnlyWhatOurPagesSend) {
    constexpr std::string_view ours = "http://localhost:8080";
    constexpr std::string_view foreign = "http://rebind.example";
    const SenderCase cases[] = {
        {{"GET", {}, "", "", false}, true},  // typed into the address line, or not from a browser
        {{"HEAD", {}, "", "", false}, true},
        {{"GET", ours, "same-origin", "cors", false}, true},
        {{"GET", {}, "none", "navigate", false}, true},
        {{"GET", {}, "cross-site", "navigate", false}, true},  // a link followed
        {{"GET", {}, "cross-site", "no-cors", false}, false},  // an image or script embedded elsewhere
        {{"GET", {}, "same-site", "no-cors", false}, false},   // another port of this machine
        {{"GET", foreign, "", "", false}, false},
        {{"GET", "null", "", "", false}, false},
        {{"POST", {}, "", "", false}, false},
        {{"POST", ours, "", "", false}, true},
        {{"POST", {}, "same-origin", "cors", false}, true},
        {{"POST", {}, "none", "navigate", false}, false},
        {{"POST", {}, "cross-site", "navigate", false}, false},  // a form on another site
        {{"POST", foreign, "same-origin", "cors", false}, false},
        {{"POST", ours, "cross-site", "cors", false}, false},
        {{"POST", "null", "cross-site", "navigate", false}, false},
        {{"PUT", foreign, "", "", false}, false},
        {{"DELETE", {}, "", "", false}, false},
        {{"GET", ours, "", "", true}, true},
        {{"GET", {}, "", "", true}, false},
        {{"GET", {}, "same-origin", "websocket", true}, false},
        {{"GET", foreign, "", "", true}, false},
    };
    for (const auto& [sender, welcome] : cases) {
        const auto outcome = check_sender(sender, kLocal);
        EXPECT_EQ(outcome.has_value(), welcome) << sender.method << " " << sender.origin.value_or("-") << " "
                                                << sender.fetch_site << " " << sender.live;
        EXPECT_EQ(outcome ? "" : outcome.error().code, welcome ? "" : "forbidden");
    }
}

}  // namespace
}  // namespace fallaway::net
