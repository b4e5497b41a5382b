#include "shop/net/guard.h"

#include <algorithm>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/net/field_text.h"

namespace fallaway::net {
namespace {

bool same_but_for_case(std::string_view a, std::string_view b) {
    return lower(a) == lower(b);
}

std::string_view without_brackets(std::string_view host) {
    return host.starts_with('[') && host.ends_with(']') ? host.substr(1, host.size() - 2) : host;
}

// A host that may be followed by ":" and a port. IPv6 stands in brackets here, so that the ":" is clear.
bool place_is_ours(std::string_view place, const Site& site) {
    const std::size_t bracket = place.find(']');
    const std::size_t colon = place.find(':', bracket == place.npos ? 0 : bracket);
    const std::string_view host = place.substr(0, colon);
    const bool own_port = site.port == (site.tls ? 443 : 80);
    if (colon == place.npos ? !own_port : place.substr(colon + 1) != fmt::format("{}", site.port)) return false;
    return std::ranges::any_of(site.hosts, [&](const std::string& ours) {
        const bool in_brackets = host.starts_with('[') && host.ends_with(']');
        const bool needs_brackets = ours.find(':') != ours.npos;
        return in_brackets == needs_brackets && same_but_for_case(without_brackets(host), without_brackets(ours));
    });
}

bool only_reads(std::string_view method) {
    return method == "GET" || method == "HEAD";
}

}  // namespace

bool host_is_ours(std::string_view host, const Site& site) {
    return place_is_ours(host, site);
}

bool origin_is_ours(std::string_view origin, const Site& site) {
    const std::string_view scheme = site.tls ? "https://" : "http://";
    if (!same_but_for_case(origin.substr(0, scheme.size()), scheme)) return false;
    return place_is_ours(origin.substr(scheme.size()), site);
}

Result<void> check_host(std::span<const std::string_view> hosts, const Site& site) {
    if (hosts.size() != 1) {
        return fail("syntax", "Host", fmt::format("{} Host headers, expected one", hosts.size()));
    }
    if (!host_is_ours(hosts.front(), site)) {
        return fail("host", "Host",
                    fmt::format("Host {}: expected a name or address of this shop", quote(hosts.front())));
    }
    return {};
}

Result<void> check_sender(const Sender& sender, const Site& site) {
    if (sender.origin && !origin_is_ours(*sender.origin, site)) {
        return fail("forbidden", "Origin",
                    fmt::format("Origin {}: expected a page of this shop", quote(*sender.origin)));
    }
    // Browsers that send it say who embeds or fetches; a link followed from elsewhere is no harm.
    const bool foreign =
        !sender.fetch_site.empty() && sender.fetch_site != "same-origin" && sender.fetch_site != "none";
    if (foreign && sender.fetch_mode != "navigate") {
        return fail("forbidden", "Sec-Fetch-Site",
                    fmt::format("Sec-Fetch-Site {}: expected a page of this shop", quote(sender.fetch_site)));
    }
    const bool told = sender.origin.has_value() || (!sender.live && sender.fetch_site == "same-origin");
    if (!told && (sender.live || !only_reads(sender.method))) {
        return fail("forbidden", "Origin", "no Origin: expected that of a page of this shop");
    }
    return {};
}

}  // namespace fallaway::net
