// Is a request meant for us, and was it sent by a page of ours? Names that others point at our address (DNS
// rebinding) and pages of other sites are kept out here.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace fallaway::net {

// How a listener is reached.
struct Site {
    std::vector<std::string> hosts;  // names and addresses without port; IPv6 with or without its brackets
    std::uint16_t port = 0;
    bool tls = false;
};

// "localhost:8080", "[::1]:8080": one of the hosts, whatever the case, with our port. The port may be left out
// where it is the scheme's own (80, 443).
bool host_is_ours(std::string_view host, const Site& site);

// "http://localhost:8080": our scheme, then as above. "null" is nobody's.
bool origin_is_ours(std::string_view origin, const Site& site);

// Every Host line of a request: there must be one, and it ours. Errors: "syntax", "host".
Result<void> check_host(std::span<const std::string_view> hosts, const Site& site);

// What the head of a request tells of its sender.
struct Sender {
    std::string_view method;
    std::optional<std::string_view> origin;
    std::string_view fetch_site;  // Sec-Fetch-Site, "" when absent
    std::string_view fetch_mode;  // Sec-Fetch-Mode
    bool live = false;            // asks for a WebSocket
};

// Error "forbidden": sent by a page that is not ours, or nobody can say by whom. What changes something needs an
// Origin of ours or "Sec-Fetch-Site: same-origin", a WebSocket always an Origin; what only reads may come without.
Result<void> check_sender(const Sender& sender, const Site& site);

}  // namespace fallaway::net
