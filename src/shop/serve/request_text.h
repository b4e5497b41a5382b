// Small texts of a request, read strictly.
#pragma once

#include <charconv>
#include <cstdint>
#include <optional>
#include <string_view>

namespace fallaway::serve {

// 16 lower-case hexadecimal digits.
inline bool is_id(std::string_view text) {
    return text.size() == 16 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

// 0 and up, digits alone.
inline std::optional<std::int64_t> whole_number(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size() || number < 0) return std::nullopt;
    return number;
}

}  // namespace fallaway::serve
