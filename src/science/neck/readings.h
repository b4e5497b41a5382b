// What is read on a neck, by number or by word, and what a tool is good for. Lengths in metres.
#pragma once

#include <limits>
#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/neck/neck_model.h"

namespace fallaway::neck {

enum class Kind {
    open_height,     // open string over a fret
    fretted_height,  // over a fret, the string held at a lower one (`from`)
    gap,             // under a straight line over two crowns, capo and finger or straightedge: relief and the like
    nut_gap,         // over a fret between nut and finger (`from`)
    rock,            // how far a crown stands over the line of its neighbours
    crown_height,    // of a crown over the wood
    nut_wire,        // of the open string over a loose piece of this wire laid against the nut
};

// A number when low == high; else the true height, as the tool or the hand shows it, lies between: an end may be
// infinite. `sd` is the tool's, at the edges of a word too.
struct Reading {
    Kind kind = Kind::open_height;
    int string = kCentre;  // 0.. ; kCentre only for gap, rock and crown_height
    int fret = 0;          // over which; 0 for a gap: where the default shape lies deepest
    int from = 0;          // where it is held, or the lower of the two crowns
    int to = 0;            // the upper of the two crowns
    double low = 0;
    double high = 0;
    double sd = 0;       // > 0
    double minutes = 1;  // > 0, what taking it costs

    bool is_number() const { return low == high; }
};

struct Tool {
    double sd = 0;
    double minutes = 1;
};

// Of each kind of reading. geometry: feelers .01-.015 mm, height gauges .05, calipers .02; common practice, no
// source. Minutes include moving on to the next place.
struct Tools {
    Tool height{0.05e-3, 0.25};
    Tool fretted{0.05e-3, 0.4};
    Tool relief{0.015e-3, 1};          // feeler under a capoed and held string
    Tool straightedge{0.012e-3, 0.5};  // feeler under a long straightedge
    Tool nut_gap{0.015e-3, 0.5};
    Tool rocker{0.012e-3, 0.5};  // with a leaf, a number
    Tool click{0.005e-3, 0.15};  // with the ear: how sharply the hand's threshold is known
    Tool caliper{0.02e-3, 0.5};
    Tool wire{0.007e-3, 0.25};
};

// A rocker clicks from about .02 to .03 mm (common practice, no source).
inline constexpr double kClickFrom = 0.025e-3;
// Within so much of touching a piece of wire neither rattles nor lifts the string (common practice, no source).
inline constexpr double kWireDeadZone = 0.02e-3;
// How far along the string the top of a piece of wire laid against the nut stands: half its bead and a hair.
inline constexpr double kWirePlace = 1.75e-3;
// A caliper reads a crown over the wood beside it; how the fret is seated over its neighbours it does not see.
inline constexpr double kSeatScatter = 0.015e-3;

// What was read as a number.
Reading with_number(Reading place, double value, const Tool& tool);
// What was read between two feelers (goes, does not go), or as a word.
Reading with_interval(Reading place, double low, double high, const Tool& tool);

Reading rocker_word(int string, int fret, bool clicks, const Tool& tool = Tools{}.click);

enum class Wire { loose, right, lifts };  // slot high, right, low
Reading wire_word(int string, Wire word, const Tool& tool = Tools{}.wire);

// Gap over fret 1 by tapping the string there, held between 2 and 3. Edges: common practice, no source.
enum class Tap { dead, just_moves, clear_gap };
Reading tap_word(int string, int held, Tap word, const Tool& tool = Tools{}.nut_gap);

// The prior to fit these readings with: tilted crowns are unknowns only where some reading tells one side of a
// fret from the other (a rocker or caliper under a string); elsewhere they count as level.
Prior fitting(Prior prior, std::span<const Reading> readings);

// Where two readings read the same thing, by whatever tool.
bool same_place(const Reading& a, const Reading& b);

// The height a reading is of. Only for readings that passed check().
Form form_of(const NeckModel& model, const Reading& reading);
// With the tool's sd, for a caliper with the scatter of the seats too.
numeric::Observation observation_of(const NeckModel& model, const Reading& reading);

// Errors: "range", "missing" or "unknown" with the path /readings/<i>/<field>, or /layout/<field>.
Result<void> check(const Layout& layout);
Result<void> check(const Layout& layout, std::span<const Reading> readings);

}  // namespace fallaway::neck
