// The string behind the nut: its angle and pull there, what sticks, and what sets its height at the tuner. Metres,
// radians, newtons. Friction is dry (capstan); the string bends freely.
#pragma once

#include <span>
#include <vector>

namespace fallaway::neck {

// A string that runs straight down the board and then, over `run` of the same direction, drops by `drop` and goes
// sideways by `aside` turns by atan(hypot(drop, aside)/run) in all: acos(cos a cos b), a its fall along the
// string, b its turn in plan. run > 0. The string's own slope over the board, about 0.3 degree, is left out.
double turning_angle(double drop, double run, double aside = 0);
// Force on the bearing: 2 T sin(angle/2).
double force_at_turn(double tension, double angle);

// Difference of pull that friction can hold over a turn: T (exp(mu angle) - 1), and what that is in pitch. A pull
// that is off by so much sounds off by 600 log2(1 + dT/T) = 600 mu angle/ln 2 cents.
double held_by_friction(double tension, double friction, double angle);
double hang_up_cents(double friction, double angle);

// Where the string leaves the post: `top` is the height of its first wrap over some plane, each further wrap below
// it lowers the exit by one diameter.
double exit_height(double top, double wraps, double diameter);
// Wraps past the first that lower the exit from `drop_at_first` under the slot's floor to `drop_wanted`; 0 when it
// is as low already. diameter > 0.
double wraps_for(double drop_wanted, double drop_at_first, double diameter);
// Drop under the slot's floor at a distance from it, for an angle: of a post, or of a string tree.
double drop_for(double angle, double run);
// How much lower each post must stand than the first for the same angle at the nut: (run - run_1) tan(angle).
std::vector<double> stagger_for(std::span<const double> runs, double angle);

// Whether a pull upwards by `swing` at `pick` m from the saddle lifts the string from its slot: upward force there
// T swing/(length - pick) against the downward share T sin(angle) of the pull behind. Ratio down/up, over 1 it
// stays. swing > 0, pick < length. Rattles at a small angle come from the slot's shape sooner than from force.
double lift_off_margin(double swing, double length, double pick, double angle);

}  // namespace fallaway::neck
