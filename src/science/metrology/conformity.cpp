#include "science/metrology/conformity.h"

#include <algorithm>
#include <cmath>

#include "science/numeric/distributions.h"
#include "science/numeric/roots.h"

namespace fallaway::metrology {
namespace {

// Below this ratio of the band to u no value in it reaches 95 % with room for a rounded u (JCGM 106 gives
// 0.954 at 4 for the middle of the band).
constexpr double kCoarseRatio = 4;
// Nobody reads a string height oftener than this; more repeats are no cure.
constexpr double kMostRepeats = 1000;

double within(double y, double u, double dof, const Limits& limits) {
    if (u == 0) {
        const bool inside = (!limits.lower || y >= *limits.lower) && (!limits.upper || y <= *limits.upper);
        return inside ? 1 : 0;
    }
    const auto tail = [&](double distance) { return numeric::student_t_sf(distance / u, dof); };
    double p = 1;
    if (limits.upper) p -= tail(*limits.upper - y);
    if (limits.lower) p -= tail(y - *limits.lower);
    // Far outside, 1 - tail - tail cancels; the difference of the two far tails does not.
    if (limits.lower && limits.upper && y > *limits.upper) p = tail(y - *limits.upper) - tail(y - *limits.lower);
    if (limits.lower && limits.upper && y < *limits.lower) p = tail(*limits.lower - y) - tail(*limits.upper - y);
    return std::clamp(p, 0.0, 1.0);
}

bool inside(double y, const Limits& limits) {
    return (!limits.lower || y >= *limits.lower) && (!limits.upper || y <= *limits.upper);
}

bool too_coarse(double u, const Limits& limits) {
    return limits.lower && limits.upper && u > 0 && (*limits.upper - *limits.lower) < kCoarseRatio * u;
}

Decision decision_for(double y, double u, double dof, const Limits& limits) {
    const double p = within(y, u, dof, limits);
    if (p >= kAcceptProbability && !too_coarse(u, limits)) return Decision::accept;
    // A value inside the limits has a small p only where u dwarfs the band: that is no proof of a fault.
    if (p <= 1 - kAcceptProbability && !inside(y, limits)) return Decision::reject;
    return Decision::cannot_tell;
}

// Distance to the limit that matters: the nearer one from inside, the broken one from outside.
double gap_to_limit(double y, const Limits& limits) {
    const double below = limits.lower ? std::abs(y - *limits.lower) : kInfiniteDof;
    const double above = limits.upper ? std::abs(*limits.upper - y) : kInfiniteDof;
    return std::min(below, above);
}

// The largest u at which the value is decided. With one limit it is the distance over t; with two it is
// smaller from inside (both tails count) and a little larger from outside.
double deciding_u(double y, double dof, const Limits& limits, double t95) {
    if (!limits.lower && !limits.upper) return 0;
    const double one_sided = gap_to_limit(y, limits) / t95;
    if (!limits.lower || !limits.upper || one_sided == 0) return one_sided;
    const bool is_inside = inside(y, limits);
    const double goal = is_inside ? kAcceptProbability : 1 - kAcceptProbability;
    const auto miss = [&](double u) { return within(y, u, dof, limits) - goal; };
    if (is_inside) {
        const numeric::Root root = numeric::find_root(miss, 0.25 * one_sided, one_sided);
        const double u = root.ok() ? root.x : one_sided;
        return std::min(u, (*limits.upper - *limits.lower) / kCoarseRatio);
    }
    const numeric::Root root = numeric::find_root(miss, one_sided, 1.25 * one_sided);
    return root.ok() ? root.x : one_sided;
}

int repeats_for(double u, double u_repeat, double u_needed) {
    if (!(u_repeat > 0)) return 0;
    const double rest = std::max(0.0, u * u - u_repeat * u_repeat);
    const double room = u_needed * u_needed - rest;
    if (!(room > 0)) return 0;
    const double times = std::ceil(u_repeat * u_repeat / room);
    return times <= kMostRepeats ? static_cast<int>(times) : 0;
}

}  // namespace

std::string_view name_of(Decision decision) {
    switch (decision) {
        case Decision::accept:
            return "accept";
        case Decision::reject:
            return "reject";
        case Decision::cannot_tell:
            return "cannot tell";
    }
    return "";
}

Conformity decide(const Uncertain& y, const Limits& limits, double u_repeat) {
    Conformity result;
    const double dof = std::floor(y.dof);
    if (y.u > 0 && dof < 1) {
        // Nothing is known of the scatter: every probability between 0 and 1 is defensible.
        result.p_conform = 0.5;
        result.tool_too_coarse = too_coarse(y.u, limits);
        return result;
    }
    const double used = y.u > 0 ? dof : kInfiniteDof;
    const double t95 = numeric::student_t_quantile(kAcceptProbability, used);
    result.p_conform = within(y.value, y.u, used, limits);
    result.decision = decision_for(y.value, y.u, used, limits);
    result.guard_band = t95 * y.u;
    result.tool_too_coarse = too_coarse(y.u, limits);
    result.u_needed = deciding_u(y.value, used, limits, t95);
    if (result.decision == Decision::cannot_tell) {
        result.repeats_needed = repeats_for(y.u, u_repeat, result.u_needed);
    }
    return result;
}

std::string_view name_of(Practice practice) {
    switch (practice) {
        case Practice::usual:
            return "usual";
        case Practice::at_the_edge:
            return "at the edge";
        case Practice::outside:
            return "outside";
    }
    return "";
}

PracticeResult against_practice(const Uncertain& y, const Limits& limits) {
    // Signed distance beyond each limit; a missing limit is never near.
    const double over = limits.upper ? y.value - *limits.upper : -kInfiniteDof;
    const double under = limits.lower ? *limits.lower - y.value : -kInfiniteDof;
    PracticeResult result;
    if (over > y.u || under > y.u) {
        result.practice = Practice::outside;
        result.beyond_upper = over > y.u;
        result.beyond_lower = under > y.u;
    } else if (over >= -y.u || under >= -y.u) {
        result.practice = Practice::at_the_edge;
        result.beyond_upper = over >= -y.u;
        result.beyond_lower = under >= -y.u;
    }
    return result;
}

}  // namespace fallaway::metrology
