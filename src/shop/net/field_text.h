// Steps through the text of a header field or a target. Shared by the files of this room only.
#pragma once

#include <string>
#include <string_view>

namespace fallaway::net {

inline char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

inline std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = lower(c);
    return out;
}

inline bool is_control(char c) {
    return (c >= 0 && c < 0x20) || c == 0x7F;
}

inline std::string_view trimmed(std::string_view text) {
    const std::size_t from = text.find_first_not_of(" \t");
    return from == text.npos ? std::string_view() : text.substr(from, text.find_last_not_of(" \t") - from + 1);
}

// The text before the first `separator`, which is taken away with it.
inline std::string_view take_until(std::string_view& text, char separator) {
    const std::size_t end = text.find(separator);
    const std::string_view taken = text.substr(0, end);
    text.remove_prefix(end == text.npos ? text.size() : end + 1);
    return taken;
}

}  // namespace fallaway::net
