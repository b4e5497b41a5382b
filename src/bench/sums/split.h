// Where a list of quantities is cut.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace fallaway::sums {

// Commas part the values where there are any, spaces otherwise: "1.6 1.65 1.6 mm", "25.1 mm ± 0.2, 26.0 mm".
// In a list parted by spaces a number begins a value and a unit ends it. Refused (code "syntax", no path): an
// empty value, a comma between two digits (it could be a decimal comma), "1 3/8" without commas (one value or
// two?), more than 10 000 values.
Result<std::vector<std::string>> split_list(std::string_view text);

// The rows of a table, parted by semicolons or line ends; an empty last row is dropped.
std::vector<std::string> split_rows(std::string_view text);

// A value that waits for the unit at the end of its list: digits without any letter but an exponent.
bool lacks_unit(std::string_view value);

}  // namespace fallaway::sums
