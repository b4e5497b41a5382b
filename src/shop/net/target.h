// The request target (RFC 9112, section 3.2.1), taken apart and held to what our own pages ask for.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace fallaway::net {

struct Target {
    std::vector<std::string> path;             // decoded segments; "/" has none
    std::map<std::string, std::string> query;  // decoded, "+" is a blank; the first of equal names

    friend bool operator==(const Target&, const Target&) = default;
};

// "/visits/7?q=a%20b". Decoded once, never twice. One "/" at the end is dropped. Refused with code "syntax":
// another form than a path, a fragment, bytes that had to be escaped, a broken escape, what is not UTF-8 when
// decoded, control characters, and segments that are empty, "." or "..", or hold "/" or "\" once decoded: a
// segment may be joined to a file's name without harm.
Result<Target> parse_target(std::string_view raw);

}  // namespace fallaway::net
