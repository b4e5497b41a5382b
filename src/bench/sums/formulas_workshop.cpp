#include "bench/sums/formulas_workshop.h"

#include <cmath>
#include <cstdlib>
#include <numeric>

#include <fmt/format.h>

namespace fallaway::sums {

InchFraction nearest_inch_fraction(Length length, int parts) {
    const auto steps = std::lround(length.inch() * parts);
    const long whole = std::abs(steps) / parts;
    const long rest = std::abs(steps) % parts;
    const long common = std::gcd(rest, static_cast<long>(parts));
    const std::string sign = steps < 0 ? "-" : "";
    const std::string fraction = rest == 0 ? "" : fmt::format("{}/{}", rest / common, parts / common);
    const std::string number = rest == 0    ? fmt::format("{}", whole)
                               : whole == 0 ? fraction
                                            : fmt::format("{} {}", whole, fraction);
    return {sign + number + " in", Length::inch(static_cast<double>(steps) / parts) - length};
}

}  // namespace fallaway::sums
