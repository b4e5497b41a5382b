// Walking over UTF-8.
#pragma once

#include <cstdint>
#include <string_view>

namespace fallaway::report {

// One code point and how many bytes it took; a byte that is not UTF-8 is U+FFFD and takes one.
struct CodePoint {
    char32_t value = 0xFFFD;
    std::size_t bytes = 1;
};

// The first code point of a text that is not empty. Overlong forms, surrogates and values over U+10FFFF are
// refused.
CodePoint first_code_point(std::string_view text);

// Characters that must not reach a terminal or a page: controls and the marks that turn the direction of writing.
bool is_disturbing(char32_t c);

// Columns in a terminal: 0 for combining marks, 2 for East Asian wide characters (the blocks that Unicode's
// EastAsianWidth.txt gives W throughout), else 1.
int columns_of(char32_t c);

}  // namespace fallaway::report
