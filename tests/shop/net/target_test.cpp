#include "shop/net/target.h"

#include <gtest/gtest.h>

namespace fallaway::net {
namespace {

TEST(Target, TakesApartWhatOurPagesAskFor) {
    const std::pair<std::string_view, Target> cases[] = {
        {"/", {}},
        {"/api/visits/0123456789abcdef", {{"api", "visits", "0123456789abcdef"}, {}}},
        {"/visits/", {{"visits"}, {}}},
        {"/sums/saddle%20point", {{"sums", "saddle point"}, {}}},
        {"/R%C3%BAta/%F0%9F%8E%B8", {{"R\u00FAta", "\U0001F3B8"}, {}}},
        {"/a+b", {{"a+b"}, {}}},
        {"/...", {{"..."}, {}}},
        {"/a%2e.b", {{"a..b"}, {}}},
        {"/%252e%252e", {{"%2e%2e"}, {}}},  // decoded once only
        {"/?", {}},
        {"/api/visits?q=Ruta+Vell&limit=20", {{"api", "visits"}, {{"limit", "20"}, {"q", "Ruta Vell"}}}},
        {"/v?q=a%26b%3Dc%2Fd%2B", {{"v"}, {{"q", "a&b=c/d+"}}}},
        {"/v?a=1&a=2&&b&c=&d=e=f", {{"v"}, {{"a", "1"}, {"b", ""}, {"c", ""}, {"d", "e=f"}}}},
        {"/v?next=/../..", {{"v"}, {{"next", "/../.."}}}},  // a query is no path
    };
    for (const auto& [raw, expected] : cases) {
        const auto target = parse_target(raw);
        ASSERT_TRUE(target) << raw << ": " << target.error().message;
        EXPECT_EQ(*target, expected) << raw;
    }
}

TEST(Target, RefusesEverythingElse) {
    using namespace std::string_view_literals;
    const std::string_view bad[] = {
        "",
        "*",
        "visits",
        "http://localhost/visits",
        "localhost:80",
        "\\",
        "//",
        "//host/x",
        "/a//b",
        "/./a",
        "/a/.",
        // out of the folder: raw, escaped, half escaped, in both cases
        "/..",
        "/../etc/passwd",
        "/a/../b",
        "/a/..",
        "/%2e%2e/etc",
        "/%2E%2E",
        "/.%2e/x",
        "/%2e",
        "/a/%2e%2e/%2e%2e/b",
        // separators in disguise
        "/a%2fb",
        "/..%2f..%2fetc",
        "/a%5cb",
        "/..%5c..",
        "/a\\b",
        "/%2f",
        "/a/%2F",
        // bytes that are no text
        "/a%00",
        "/%00",
        "/a%0d%0aSet-Cookie:x",
        "/a%7f",
        "/a%1b",
        "/a\0b"sv,
        "/a b",
        "/a\tb",
        "/a#b",
        "/\xC3\xBA",
        "/\x7F",
        // broken escapes
        "/%",
        "/%4",
        "/%zz",
        "/%4g",
        "/a?q=%",
        "/a?q=%f",
        "/a?%=1",
        "/%u0041",
        // not UTF-8: overlong, surrogate, above U+10FFFF, cut short, stray
        "/%c0%ae%c0%ae/",
        "/%e0%80%ae",
        "/%f0%80%80%ae",
        "/%ed%a0%80",
        "/%f4%90%80%80",
        "/%f5%80%80%80",
        "/%c3",
        "/%e2%82",
        "/%f0%9f%8e",
        "/%80",
        "/%ff",
        "/%c3%28",
        "/a?q=%c0%80",
        "/a?q=%ff",
        "/a?q=%00",
        "/a?%00=1",
        "/a?q=a%0ab",
    };
    for (const std::string_view raw : bad) {
        const auto target = parse_target(raw);
        ASSERT_FALSE(target) << raw;
        EXPECT_EQ(target.error().code, "syntax");
        EXPECT_NE(target.error().message.find("expected"), std::string::npos) << target.error().message;
    }
}

}  // namespace
}  // namespace fallaway::net
