// Screw threads and inch fractions.
#pragma once

#include <string>
#include <string_view>

#include "science/base/quantity.h"
#include "science/base/result.h"

namespace fallaway::sums {

struct Thread {
    std::string name;  // "M3", "4-40", "pitch 0.5 mm"
    Length pitch;      // travel of one turn
    std::string source;
};

// A thread by its name in ISO 261 ("M3" is the coarse one, "M3x0.35" a fine one) or ASME B1.1 ("4-40", "1/4-20"),
// or a pitch with its unit ("0.5 mm", "1/40 in"). Errors: code "thread", no path: unknown name, a pitch outside
// 0.1 to 3 mm.
Result<Thread> thread_named(std::string_view text);

// The nearest whole number of `parts` of an inch (a power of two, 1 to 1024), in lowest terms: "1 3/8 in".
struct InchFraction {
    std::string text;
    Length error;  // fraction minus length
};
InchFraction nearest_inch_fraction(Length length, int parts);

}  // namespace fallaway::sums
