#include "science/metrology/inspection.h"

#include <algorithm>
#include <cmath>

#include "science/numeric/distributions.h"

namespace fallaway::metrology {
namespace {

bool is_probability(double p) {
    return p >= 0 && p <= 1;
}

tl::unexpected<Error> not_a_probability(const char* name) {
    return fail("range", name, "expected a probability from 0 to 1");
}

}  // namespace

Result<double> escape_independent(std::span<const double> detection) {
    if (detection.empty()) return fail("missing", "detection", "expected at least one inspector");
    double escape = 1;
    for (const double d : detection) {
        if (!is_probability(d)) return not_a_probability("detection");
        escape *= 1 - d;
    }
    return escape;
}

Result<double> escape_shared(double mean_detection, double rho, int inspectors) {
    if (!is_probability(mean_detection)) return not_a_probability("mean_detection");
    if (!(rho >= 0 && rho < 1)) return fail("range", "rho", "expected a correlation from 0 to below 1");
    if (inspectors < 1) return fail("range", "inspectors", "expected at least one inspector");
    // (b + i)/(a + b + i) with a + b = (1 - rho)/rho, multiplied through by rho so that rho = 0 needs no limit.
    const double miss = (1 - mean_detection) * (1 - rho);
    double escape = 1;
    for (int i = 0; i < inspectors; ++i) escape *= (miss + i * rho) / (1 - rho + i * rho);
    return escape;
}

Result<FaultCount> faults_present(int first, int second, int both) {
    if (both < 0 || both > std::min(first, second)) {
        return fail("range", "both", "both cannot have found more than either found");
    }
    const double a = first;
    const double b = second;
    const double m = both;
    FaultCount count;
    count.total = (a + 1) * (b + 1) / (m + 1) - 1;
    count.se = std::sqrt((a + 1) * (b + 1) * (a - m) * (b - m) / ((m + 1) * (m + 1) * (m + 2)));
    count.unseen = count.total - (a + b - m);
    return count;
}

Result<double> pass_large_lot(int n, int c, double bad_share) {
    if (n < 1 || c < 0) return fail("range", "n", "expected n of 1 or more and c of 0 or more");
    if (!is_probability(bad_share)) return not_a_probability("bad_share");
    return numeric::binomial_cdf(c, n, bad_share);
}

Result<double> pass_lot(int lot, int bad, int n, int c) {
    if (lot < 1 || bad < 0 || bad > lot) return fail("range", "bad", "expected from 0 to the size of the lot");
    if (n < 1 || n > lot || c < 0) return fail("range", "n", "expected from 1 to the size of the lot");
    return numeric::hypergeometric_cdf(c, lot, bad, n);
}

Result<double> pass_defects(int n, int c, double defects_per_unit) {
    if (n < 1 || c < 0) return fail("range", "n", "expected n of 1 or more and c of 0 or more");
    if (!(defects_per_unit >= 0)) return fail("range", "defects_per_unit", "expected 0 or more");
    return numeric::poisson_cdf(c, n * defects_per_unit);
}

Result<double> bad_share_bound(int n, int bad, double confidence) {
    if (n < 1 || bad < 0 || bad > n) return fail("range", "bad", "expected from 0 to n, and n of 1 or more");
    if (!(confidence > 0 && confidence < 1)) return not_a_probability("confidence");
    if (bad == n) return 1.0;
    return numeric::beta_quantile(confidence, bad + 1.0, static_cast<double>(n - bad));
}

Result<Capability> capability(const Limits& limits, double mean, double sd, int n) {
    if (!limits.lower && !limits.upper) return fail("missing", "limits", "expected at least one limit");
    if (limits.lower && limits.upper && *limits.lower > *limits.upper) {
        return fail("range", "limits", "the lower limit lies above the upper");
    }
    if (!(sd > 0)) return fail("range", "sd", "expected a standard deviation above 0");
    Capability result;
    double nearest = std::numeric_limits<double>::infinity();
    if (limits.upper) {
        nearest = std::min(nearest, *limits.upper - mean);
        result.above = numeric::normal_sf((*limits.upper - mean) / sd);
    }
    if (limits.lower) {
        nearest = std::min(nearest, mean - *limits.lower);
        result.below = numeric::normal_sf((mean - *limits.lower) / sd);
    }
    if (limits.lower && limits.upper) result.cp = (*limits.upper - *limits.lower) / (6 * sd);
    result.cpk = nearest / (3 * sd);
    const double half = n >= 2 ? 1.96 * std::sqrt(1 / (9.0 * n) + result.cpk * result.cpk / (2.0 * (n - 1))) : 0;
    result.cpk_low = result.cpk - half;
    result.cpk_high = result.cpk + half;
    return result;
}

}  // namespace fallaway::metrology
