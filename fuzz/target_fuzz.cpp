// Any bytes as the head of a request: its target, its Host and its Origin. What is let through is of a form that
// can do no harm: segments that stay below the folder they are looked for in, and hosts that are ours to the
// letter.
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "shop/net/guard.h"
#include "shop/net/target.h"

namespace {

using namespace fallaway;

void require(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "broken: %s\n", what);
    std::abort();
}

// Every byte escaped, so that only the meaning is left.
std::string escaped(std::string_view text) {
    std::string out;
    for (const char c : text) out += fmt::format("%{:02x}", static_cast<unsigned char>(c));
    return out;
}

std::string written(const net::Target& target) {
    std::string out;
    for (const auto& segment : target.path) out += "/" + escaped(segment);
    if (out.empty()) out = "/";
    char mark = '?';
    for (const auto& [name, value] : target.query) {
        out += mark + escaped(name) + "=" + escaped(value);
        mark = '&';
    }
    return out;
}

bool is_one_line(std::string_view text) {
    for (const char c : text) {
        if ((c >= 0 && c < 0x20) || c == 0x7F) return false;
    }
    return true;
}

void check_target(std::string_view raw) {
    const auto target = net::parse_target(raw);
    if (!target) {
        require(target.error().code == "syntax" && is_one_line(target.error().message), "a refusal says why");
        return;
    }
    const std::filesystem::path root = "/shop/page";
    std::filesystem::path place = root;
    for (const std::string& segment : target->path) {
        require(is_one_line(segment), "no control characters in a segment");
        place /= segment;
    }
    // By name alone, as a file system would go.
    const auto normal = place.lexically_normal();
    const auto below = normal.lexically_relative(root);
    require(target->path.empty() || (!below.empty() && *below.begin() != ".."), "never out of its folder");
    require(
        std::distance(below.begin(), below.end()) == std::ptrdiff_t(std::max<std::size_t>(target->path.size(), 1)),
        "as many segments as the file system sees");
    for (const auto& [name, value] : target->query) require(is_one_line(name + value), "no control characters");
    require(net::parse_target(written(*target)) == target, "written again, it means the same");
}

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

// The whole list of what may stand there, written out.
bool is_listed(std::string_view place, const net::Site& site) {
    for (const std::string& host : site.hosts) {
        const bool bare_v6 = host.find(':') != host.npos && !host.starts_with('[');
        const std::string name = lower(bare_v6 ? "[" + host + "]" : host);
        if (lower(place) == fmt::format("{}:{}", name, site.port)) return true;
        if (site.port == (site.tls ? 443 : 80) && lower(place) == name) return true;
    }
    return false;
}

void check_guard(std::string_view text, const net::Site& site) {
    require(net::host_is_ours(text, site) == is_listed(text, site), "a Host is ours when it is listed");
    const std::string scheme = site.tls ? "https://" : "http://";
    const bool ours = lower(text).starts_with(scheme) && is_listed(text.substr(scheme.size()), site);
    require(net::origin_is_ours(text, site) == ours, "an Origin is ours when it is listed");
    const std::string_view once[] = {text};
    const std::string_view twice[] = {text, text};
    require(net::check_host(once, site).has_value() == is_listed(text, site), "one Host that is ours");
    require(!net::check_host(twice, site), "never two");
    require(net::check_sender({"POST", text, "", "", false}, site).has_value() == ours, "nothing changes unasked");
    require(net::check_sender({"GET", text, "", "", true}, site).has_value() == ours, "no line for others");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const net::Site kSites[] = {{{"localhost", "127.0.0.1", "::1", "[::1]"}, 8080, false},
                                       {{"shop.local", "192.168.1.20", "fd00::2"}, 443, true},
                                       {{"localhost"}, 80, false}};
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    check_target(text);
    for (const net::Site& site : kSites) {
        check_guard(text, site);
        // Hardly found by chance: one that is ours, with the input behind it.
        check_guard(site.hosts.front() + std::string(text), site);
        check_guard((site.tls ? "https://" : "http://") + site.hosts.front() + std::string(text), site);
    }
    return 0;
}
