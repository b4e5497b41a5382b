#include "shop/net/target.h"

#include <optional>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/net/field_text.h"

namespace fallaway::net {
namespace {

int hex_digit(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    if (c >= 'a' && c <= 'f') return c - 'a' + 10;
    if (c >= 'A' && c <= 'F') return c - 'A' + 10;
    return -1;
}

// RFC 3629, section 4: no overlong forms, no surrogates, nothing above U+10FFFF.
bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const auto at = [&](std::size_t k) {
            return i + k < text.size() ? static_cast<unsigned char>(text[i + k]) : 0;
        };
        const auto follows = [&](std::size_t k) { return (at(k) & 0xC0) == 0x80; };
        const unsigned first = at(0);
        if (first < 0x80) {
            i += 1;
        } else if (first >= 0xC2 && first < 0xE0 && follows(1)) {
            i += 2;
        } else if ((first & 0xF0) == 0xE0 && follows(1) && follows(2)) {
            if ((first == 0xE0 && at(1) < 0xA0) || (first == 0xED && at(1) > 0x9F)) return false;
            i += 3;
        } else if (first >= 0xF0 && first < 0xF5 && follows(1) && follows(2) && follows(3)) {
            if ((first == 0xF0 && at(1) < 0x90) || (first == 0xF4 && at(1) > 0x8F)) return false;
            i += 4;
        } else {
            return false;
        }
    }
    return true;
}

// Nothing when an escape is broken or what it gives is no text.
std::optional<std::string> decoded(std::string_view raw, bool plus_is_blank) {
    std::string out;
    out.reserve(raw.size());
    for (std::size_t i = 0; i < raw.size(); ++i) {
        char c = raw[i];
        if (c == '%') {
            const int high = i + 2 < raw.size() ? hex_digit(raw[i + 1]) : -1;
            const int low = i + 2 < raw.size() ? hex_digit(raw[i + 2]) : -1;
            if (high < 0 || low < 0) return std::nullopt;
            c = static_cast<char>(high * 16 + low);
            i += 2;
        } else if (c == '+' && plus_is_blank) {
            c = ' ';
        }
        if (is_control(c)) return std::nullopt;
        out += c;
    }
    if (!is_utf8(out)) return std::nullopt;
    return out;
}

bool is_plain_segment(std::string_view segment) {
    return !segment.empty() && segment != "." && segment != ".." && segment.find_first_of("/\\") == segment.npos;
}

tl::unexpected<Error> refused(std::string_view what, std::string_view expected) {
    return fail("syntax", "", fmt::format("request target: {}, expected {}", quote(what), expected));
}

}  // namespace

Result<Target> parse_target(std::string_view raw) {
    if (!raw.starts_with('/')) return refused(raw, "a path that begins with \"/\"");
    for (const char c : raw) {
        if (c <= 0x20 || c == 0x7F || c == '#' || c == '\\') return refused(raw, "a path with such bytes escaped");
    }
    Target target;
    const std::size_t question = raw.find('?');
    std::string_view path = raw.substr(0, question).substr(1);
    while (!path.empty()) {
        const std::string_view part = take_until(path, '/');
        auto segment = decoded(part, false);
        if (!segment || !is_plain_segment(*segment)) return refused(part, "a plain name between the \"/\"");
        target.path.push_back(std::move(*segment));
    }
    std::string_view query = question == raw.npos ? std::string_view() : raw.substr(question + 1);
    while (!query.empty()) {
        std::string_view field = take_until(query, '&');
        if (field.empty()) continue;
        const auto name = decoded(take_until(field, '='), true);
        auto value = decoded(field, true);
        if (!name || !value) return refused(field, "escaped UTF-8 text in the query");
        target.query.emplace(*name, std::move(*value));
    }
    return target;
}

}  // namespace fallaway::net
