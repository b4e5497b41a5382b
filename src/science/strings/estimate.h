// A figure with its standard uncertainty, and how uncertainty is carried through a formula.
#pragma once

#include <functional>
#include <span>

namespace fallaway::strings {

struct Estimate {
    double value = 0;
    double u = 0;  // one standard uncertainty, in the unit of the value; 0: taken as exact

    friend bool operator==(const Estimate&, const Estimate&) = default;
};

// f at the values, with the u of independent inputs added in squares (JCGM 100:2008, 5.1.2). Sensitivities are
// half the difference of f at value + u and value - u, so a bent f is judged over the range that matters.
using Formula = std::function<double(std::span<const double>)>;
Estimate carried(const Formula& f, std::span<const Estimate> inputs);
Estimate carried(const Formula& f, std::initializer_list<Estimate> inputs);

// The sum of independent figures.
Estimate total(std::span<const Estimate> parts);

}  // namespace fallaway::strings
