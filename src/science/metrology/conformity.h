// Decisions against limits. Strict ones (claims, agreed limits, critical checkpoints) follow JCGM 106:2012 and
// the default rule of ISO 14253-1:2017; soft ones only say where a value lies in common practice.
#pragma once

#include <optional>
#include <string_view>

#include "science/metrology/uncertainty.h"

namespace fallaway::metrology {

// Limits in SI units; a missing side is open. lower <= upper where both are given.
struct Limits {
    std::optional<double> lower;
    std::optional<double> upper;

    friend bool operator==(const Limits&, const Limits&) = default;
};

enum class Decision { accept, reject, cannot_tell };
std::string_view name_of(Decision decision);  // "accept", "reject", "cannot tell"

struct Conformity {
    Decision decision = Decision::cannot_tell;
    double p_conform = 0;          // probability that the true value lies within the limits
    double guard_band = 0;         // 1.645 u for one limit, in the unit of the value (Student's t for few dof)
    bool tool_too_coarse = false;  // (upper - lower) / u < 4: accept is impossible, reject stays possible
    double u_needed = 0;     // the standard uncertainty that would let this value be decided; 0 when none would
    int repeats_needed = 0;  // how many times as many readings would decide it; 0 when repeats cannot
};

inline constexpr double kAcceptProbability = 0.95;

// p_conform = F((upper - y)/u) - F((lower - y)/u), F normal, or Student's t with the truncated dof when finite.
// accept at p >= 0.95, reject at p <= 0.05 where y lies outside the limits (a u that dwarfs the band proves
// no fault). u = 0 decides by plain comparison (a limit itself conforms); below one degree of freedom
// nothing is decided.
// `u_repeat` is the part of u that repeats would shrink (0: unknown, repeats_needed stays 0).
Conformity decide(const Uncertain& y, const Limits& limits, double u_repeat = 0);

// Where a value lies against limits of common practice, which never pretend to 95 %.
enum class Practice { usual, at_the_edge, outside };
std::string_view name_of(Practice practice);  // "usual", "at the edge", "outside"

// outside: beyond a limit by more than u. at the edge: within u of a limit, on either side. usual: the rest.
struct PracticeResult {
    Practice practice = Practice::usual;
    bool beyond_lower = false;  // which side an `outside` or `at the edge` belongs to
    bool beyond_upper = false;
};
PracticeResult against_practice(const Uncertain& y, const Limits& limits);

}  // namespace fallaway::metrology
