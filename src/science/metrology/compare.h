// Before and after, and one instrument among those seen earlier.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/base/result.h"

namespace fallaway::metrology {

// Paired differences after - before, one per place (string, fret). Source: Student 1908; exact Wilcoxon
// signed-rank with zeros dropped for n <= 20.
struct PairedChange {
    int n = 0;
    double mean = 0;
    double sd = 0;
    double t = 0;
    int dof = 0;
    double p_two_sided = 1;
    double ci95_low = 0;
    double ci95_high = 0;
    std::optional<double> signed_rank_p;  // exact, two-sided; absent above 20 non-zero pairs or with none
    bool real = false;                    // |mean| > 1.96 u of the mean, where only repeatability is left in u
};
// `u_single` is the repeatability of one reading with the tool used both times. Errors: fewer than 2 pairs.
Result<PairedChange> paired(std::span<const double> differences, double u_single);

// The place of `value` among past instruments of its class: Jeffreys interval of the percentile.
struct Rank {
    int n = 0;
    double below = 0;       // how many are smaller; a tie counts half
    double percentile = 0;  // (below + 0.5) / (n + 1), 0..1
    double ci95_low = 0;
    double ci95_high = 1;
    double median = 0;
    double mad = 0;        // median absolute deviation x 1.4826
    double robust_z = 0;   // (value - median) / mad; 0 when mad is 0
    bool too_few = false;  // n < 5: list the values instead
};
// Errors: no past values.
Result<Rank> rank(double value, std::span<const double> past);

}  // namespace fallaway::metrology
