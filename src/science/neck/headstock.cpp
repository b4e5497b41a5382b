#include "science/neck/headstock.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "science/strings/ideal.h"

namespace fallaway::neck {

double turning_angle(double drop, double run, double aside) {
    // Not by acos, which would lose the digits of a small angle.
    return std::atan2(std::hypot(drop, aside), run);
}

double force_at_turn(double tension, double angle) {
    return strings::force_on_bearing(Force::newton(tension), Angle::rad(angle)).newton();
}

double held_by_friction(double tension, double friction, double angle) {
    return tension * std::expm1(friction * angle);
}

double hang_up_cents(double friction, double angle) {
    return 600 * friction * angle / std::numbers::ln2;
}

double exit_height(double top, double wraps, double diameter) {
    return top - wraps * diameter;
}

double wraps_for(double drop_wanted, double drop_at_first, double diameter) {
    return std::max(0.0, (drop_wanted - drop_at_first) / diameter);
}

double drop_for(double angle, double run) {
    return run * std::tan(angle);
}

std::vector<double> stagger_for(std::span<const double> runs, double angle) {
    std::vector<double> lower;
    for (const double run : runs) lower.push_back(drop_for(angle, run - runs.front()));
    return lower;
}

double lift_off_margin(double swing, double length, double pick, double angle) {
    return std::sin(angle) * (length - pick) / swing;
}

}  // namespace fallaway::neck
