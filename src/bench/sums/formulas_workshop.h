// Inch fractions.
#pragma once

#include <string>

#include "science/base/quantity.h"

namespace fallaway::sums {

// The nearest whole number of `parts` of an inch (a power of two, 1 to 1024), in lowest terms: "1 3/8 in".
struct InchFraction {
    std::string text;
    Length error;  // fraction minus length
};
InchFraction nearest_inch_fraction(Length length, int parts);

}  // namespace fallaway::sums
