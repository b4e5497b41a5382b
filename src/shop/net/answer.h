// What leaves: a response as bytes, with the headers that every answer carries.
#pragma once

#include <string>
#include <string_view>

#include "shop/net/server.h"

namespace fallaway::net {

// The one error shape, {"error": {"code", "path", "message"}}.
Response refusal(int status, const Error& error);

// If-None-Match (RFC 9110, section 13.1.2): weak comparison; "*" fits every tag. `etag` without quotes, not empty.
bool etag_matches(std::string_view if_none_match, std::string_view etag);

// Accept-Encoding (RFC 9110, section 12.5.3): gzip, x-gzip or "*" with a weight above 0.
bool accepts_gzip(std::string_view accept_encoding);

// RFC 1952, the same bytes for the same input. Empty for what does not get smaller.
std::string gzip(std::string_view bytes);

// What of a request bears on how its answer is written.
struct Asked {
    bool head = false;  // a HEAD: headers as for GET, no body
    bool tls = false;
    bool keep_alive = true;
    std::string host;  // checked; "" when there was none of ours
    std::string if_none_match;
    std::string accept_encoding;
};

struct Outgoing {
    std::string head;  // status line and headers, with the empty line
    std::string body;
};

// A header of the response goes before ours of the same name. `date` as HTTP writes it. A response that would
// break the message (control characters in a header) becomes a 500.
Outgoing compose(Response response, const Asked& asked, std::string_view date);

// "Sat, 28 Nov 2026 09:10:00 GMT", RFC 9110, section 5.6.7.
std::string http_date(std::int64_t seconds_since_1970);

}  // namespace fallaway::net
