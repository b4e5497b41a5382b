#include "science/metrology/uncertainty.h"

#include <cmath>
#include <set>
#include <utility>

#include "science/numeric/distributions.h"
#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

std::string quoted(const std::string& name) {
    return "\"" + name + "\"";
}

Result<void> check(std::span<const Contribution> parts) {
    for (const Contribution& part : parts) {
        if (!(part.u >= 0)) {
            return fail("range", "u", "contribution " + quoted(part.name) + ": u must be 0 or more");
        }
        if (!(part.dof >= 0)) {
            return fail("range", "dof", "contribution " + quoted(part.name) + ": dof must be 0 or more");
        }
        if (!std::isfinite(part.sensitivity) || !std::isfinite(part.u)) {
            return fail("range", "sensitivity",
                        "contribution " + quoted(part.name) + ": sensitivity and u must be finite");
        }
    }
    return {};
}

Result<void> check(std::span<const Correlation> correlations, std::size_t count) {
    std::set<std::pair<std::size_t, std::size_t>> seen;
    for (const Correlation& c : correlations) {
        const std::string pair = std::to_string(c.i) + " and " + std::to_string(c.j);
        if (c.i >= count || c.j >= count || c.i == c.j) {
            return fail(
                "range", "correlation",
                "correlation between " + pair + ": expected two different numbers below " + std::to_string(count));
        }
        if (!(std::abs(c.r) <= 1)) {
            return fail("range", "r", "correlation between " + pair + ": r must lie between -1 and 1");
        }
        if (!seen.insert(std::minmax(c.i, c.j)).second) {
            return fail("duplicate", "correlation", "correlation between " + pair + " is given twice");
        }
    }
    return {};
}

// G.2b. Parts without uncertainty say nothing about the degrees of freedom.
double welch_satterthwaite(std::span<const Contribution> parts, double u) {
    double sum = 0;
    for (const Contribution& part : parts) {
        const double share = std::abs(part.sensitivity) * part.u / u;
        if (share > 0) sum += std::pow(share, 4) / part.dof;
    }
    return sum > 0 ? 1 / sum : kInfiniteDof;
}

}  // namespace

double standard_from_limit(double half_width, Shape shape) {
    switch (shape) {
        case Shape::normal_k1:
            return half_width;
        case Shape::normal_k2:
            return half_width / 2;
        case Shape::rectangular:
            return half_width / std::sqrt(3.0);
        case Shape::triangular:
            return half_width / std::sqrt(6.0);
        case Shape::arcsine:
            return half_width / std::sqrt(2.0);
    }
    return half_width;
}

Result<CombinedUncertainty> combine(std::span<const Contribution> parts,
                                    std::span<const Correlation> correlations) {
    if (const auto ok = check(parts); !ok) return tl::unexpected(ok.error());
    if (const auto ok = check(correlations, parts.size()); !ok) return tl::unexpected(ok.error());
    double variance = 0;
    bool any_sensitivity = parts.empty();
    for (const Contribution& part : parts) {
        variance += std::pow(part.sensitivity * part.u, 2);
        any_sensitivity = any_sensitivity || part.sensitivity != 0;
    }
    const double uncorrelated = variance;
    for (const Correlation& c : correlations) {
        variance += 2 * c.r * parts[c.i].sensitivity * parts[c.i].u * parts[c.j].sensitivity * parts[c.j].u;
    }
    // Perfectly opposed parts leave a rounding error of either sign, which is not a contradiction.
    if (variance < -1e-12 * uncorrelated) {
        return fail("range", "correlations", "these correlations contradict each other: the variance is negative");
    }
    CombinedUncertainty result;
    result.u = std::sqrt(std::max(0.0, variance));
    result.dof = result.u > 0 ? welch_satterthwaite(parts, result.u) : kInfiniteDof;
    result.dof_used = std::floor(result.dof);
    result.first_order_valid = any_sensitivity;
    return result;
}

double coverage_factor(double p, double dof) {
    const double whole = std::floor(dof);
    if (whole < 1) return std::numeric_limits<double>::infinity();
    return numeric::student_t_quantile(0.5 + 0.5 * p, whole);
}

Result<Uncertain> type_a(std::span<const double> values) {
    if (values.empty()) return fail("missing", "values", "no values: expected at least one reading");
    const double n = static_cast<double>(values.size());
    return Uncertain{numeric::mean(values), numeric::standard_deviation(values) / std::sqrt(n), n - 1};
}

Uncertain fuse(const Uncertain& older, const Uncertain& newer) {
    if (newer.u == 0) return newer;
    if (older.u == 0) return older;
    // Weights from the ratio, so that neither square underflows for readings in micrometres.
    const double ratio = newer.u / older.u;
    const double weight = ratio * ratio / (1 + ratio * ratio);
    Uncertain result;
    result.value = newer.value + weight * (older.value - newer.value);
    result.u = newer.u / std::sqrt(1 + ratio * ratio);
    const Contribution parts[] = {{"older", weight, older.u, older.dof},
                                  {"newer", 1 - weight, newer.u, newer.dof}};
    result.dof = welch_satterthwaite(parts, result.u);
    return result;
}

Agreement agreement(const Uncertain& a, const Uncertain& b) {
    const double apart = std::abs(a.value - b.value);
    if (apart == 0) return {0, true};
    const double en = apart / (2 * std::hypot(a.u, b.u));
    return {en, en <= 1};
}

}  // namespace fallaway::metrology
