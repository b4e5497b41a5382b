// Propagation of distributions by drawing from them. Source: JCGM 101:2008.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "science/base/result.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::metrology {

// Table 1 of JCGM 101. `spread` is the standard uncertainty of a normal and the scale of a Student's t
// input; for every other shape it is the half width.
enum class Draw { normal, student_t, rectangular, triangular, arcsine, trapezoidal, curvilinear_trapezoidal };

struct DrawnInput {
    std::string name;
    Draw shape = Draw::normal;
    double centre = 0;
    double spread = 0;
    // student_t: degrees of freedom; trapezoidal: share of the width that is flat (0..1);
    // curvilinear_trapezoidal: how inexactly the ends are known (0..spread). Unused by the others.
    double detail = 0;
};
// Standard uncertainty that the first-order law uses for this input.
double standard_uncertainty(const DrawnInput& input);

using Model = std::function<double(std::span<const double> inputs)>;

struct MonteCarloOptions {
    std::size_t draws = 200'000;  // the limit when adaptive
    std::uint64_t seed = 1;
    double probability = 0.95;
    int stable_digits = 0;                  // above 0: stop once this many digits of u are settled (7.9)
    std::vector<Correlation> correlations;  // between normal inputs only
};

struct MonteCarloResult {
    std::size_t draws = 0;
    double mean = 0;
    double u = 0;
    double symmetric_low = 0;  // equal probability outside on both sides (7.7.2)
    double symmetric_high = 0;
    double shortest_low = 0;  // 7.7.3
    double shortest_high = 0;
    double one_sided_high = 0;     // the value that is exceeded with 1 - probability
    bool stable = true;            // false when adaptive and the limit of draws came first
    double first_order_value = 0;  // the model at the centres
    double first_order_u = 0;      // law of propagation with numerical sensitivities
    // Clause 8: both ends of the first-order interval lie within half a unit of the second digit of u of
    // the symmetric interval's. False also where every sensitivity is zero.
    bool first_order_valid = true;
};

// Errors: no inputs, a spread or detail out of range, fewer than 1000 draws, a correlation of an input that
// is not normal, correlations that contradict each other, a model value that is not finite.
Result<MonteCarloResult> propagate(std::span<const DrawnInput> inputs, const Model& model,
                                   const MonteCarloOptions& options = {});

// Half a unit in the last of `digits` significant digits of u (JCGM 101, 7.9.2); 0 for u = 0.
double half_last_digit(double u, int digits);

}  // namespace fallaway::metrology
