// Foreign text inside a message.
#pragma once

#include <string>
#include <string_view>

namespace fallaway {

// The text between double quotes, safe to print on a terminal or a page: control characters, marks that turn
// the direction of writing and bytes that are not UTF-8 appear as \n, \t or \x1b; what is longer than
// 40 characters is cut and ends in "...".
std::string quote(std::string_view text);

}  // namespace fallaway
