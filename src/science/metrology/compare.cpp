#include "science/metrology/compare.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "science/numeric/distributions.h"
#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

constexpr std::size_t kExactPairs = 20;

// Two-sided exact p of Wilcoxon's signed-rank sum. Ranks are doubled so that shared ranks stay whole, and the
// number of sign patterns for every sum is counted by adding one pair after the other.
std::optional<double> signed_rank_p(std::span<const double> differences) {
    std::vector<double> sizes;
    std::vector<bool> positive;
    for (const double d : differences) {
        if (d == 0) continue;
        sizes.push_back(std::abs(d));
        positive.push_back(d > 0);
    }
    if (sizes.empty() || sizes.size() > kExactPairs) return std::nullopt;
    const std::vector<double> ranks = numeric::ranks(sizes);
    std::vector<double> ways{1};
    std::size_t observed = 0;
    for (std::size_t i = 0; i < ranks.size(); ++i) {
        const auto doubled = static_cast<std::size_t>(std::lround(2 * ranks[i]));
        if (positive[i]) observed += doubled;
        std::vector<double> next(ways.size() + doubled, 0.0);
        for (std::size_t sum = 0; sum < ways.size(); ++sum) {
            next[sum] += ways[sum];
            next[sum + doubled] += ways[sum];
        }
        ways = std::move(next);
    }
    double at_most = 0;
    double at_least = 0;
    for (std::size_t sum = 0; sum < ways.size(); ++sum) {
        if (sum <= observed) at_most += ways[sum];
        if (sum >= observed) at_least += ways[sum];
    }
    return std::min(1.0, std::ldexp(2 * std::min(at_most, at_least), -static_cast<int>(ranks.size())));
}

}  // namespace

Result<PairedChange> paired(std::span<const double> differences, double u_single) {
    if (differences.size() < 2) {
        return fail("missing", "differences",
                    std::to_string(differences.size()) + " pairs given: expected at least 2");
    }
    if (!(u_single >= 0)) return fail("range", "u_single", "u of one reading must be 0 or more");
    PairedChange result;
    const double n = static_cast<double>(differences.size());
    result.n = static_cast<int>(differences.size());
    result.dof = result.n - 1;
    result.mean = numeric::mean(differences);
    result.sd = numeric::standard_deviation(differences);
    const double u_scatter = result.sd / std::sqrt(n);
    if (u_scatter > 0) {
        result.t = result.mean / u_scatter;
    } else if (result.mean != 0) {
        result.t = std::copysign(std::numeric_limits<double>::infinity(), result.mean);
    }
    result.p_two_sided = 2 * numeric::student_t_sf(std::abs(result.t), result.dof);
    const double half = numeric::student_t_quantile(0.975, result.dof) * u_scatter;
    result.ci95_low = result.mean - half;
    result.ci95_high = result.mean + half;
    result.signed_rank_p = signed_rank_p(differences);
    // Without a study of the tool the differences' own scatter must do.
    const double u_mean = u_single > 0 ? u_single * std::sqrt(2 / n) : u_scatter;
    result.real = std::abs(result.mean) > 1.96 * u_mean;
    return result;
}

Result<Rank> rank(double value, std::span<const double> past) {
    if (past.empty()) return fail("missing", "past", "no earlier instruments to compare with");
    constexpr int few = 5;
    Rank result;
    result.n = static_cast<int>(past.size());
    for (const double x : past) result.below += x < value ? 1 : x == value ? 0.5 : 0;
    result.percentile = (result.below + 0.5) / (result.n + 1);
    const double a = result.below + 0.5;
    const double b = result.n - result.below + 0.5;
    result.ci95_low = numeric::beta_quantile(0.025, a, b);
    result.ci95_high = numeric::beta_quantile(0.975, a, b);
    result.median = numeric::median(past);
    result.mad = numeric::scaled_mad(past);
    result.robust_z = result.mad > 0 ? (value - result.median) / result.mad : 0;
    result.too_few = result.n < few;
    return result;
}

}  // namespace fallaway::metrology
