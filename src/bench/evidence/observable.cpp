#include "bench/evidence/observable.h"

#include <algorithm>
#include <array>

namespace fallaway::evidence {
namespace {

using D = Dimension;
using Words = std::span<const std::string_view>;

constexpr std::array<std::string_view, 3> kNutTap = {"dead", "just moves", "clear gap"};
constexpr std::array<std::string_view, 4> kNutWire = {"loose", "held and rings", "string lifts", "rattles"};
constexpr std::array<std::string_view, 2> kRocker = {"no click", "click"};
constexpr std::array<std::string_view, 4> kRing = {"rings", "rattles when struck hard", "buzzes", "chokes"};
constexpr std::array<std::string_view, 2> kDeadSpot = {"none", "dead spot"};
constexpr std::array<std::string_view, 4> kFretEnd = {"clean", "cloth marks", "catches", "tears"};
constexpr std::array<std::string_view, 2> kHolds = {"firm", "moves"};
constexpr std::array<std::string_view, 3> kPole = {"centred", "a little off", "off"};
constexpr std::array<std::string_view, 4> kSwitchSound = {"works as claimed", "works otherwise", "weak", "dead"};

constexpr double kMm = 1e-3;
constexpr double kDegree = 0.017453292519943295;
constexpr double kTurn = 6.283185307179586;

// name, says, dimension, words, needs, allows, default tool, plausible low and high (SI)
// A row stays a row.
// clang-format off
const Observable kObservables[] = {
    // setting
    {"string height", "underside of the string over the crown of a fret", D::length, {}, kFret,
     kString | kPressed | kSide, "string-height gauge", -1 * kMm, 12 * kMm},
    {"relief", "dip of the neck under a straight line, string pressed at two frets", D::length, {}, 0,
     kString | kFret | kCapo | kPressed | kSide, "feeler leaves", -2 * kMm, 4 * kMm},
    {"straightedge gap", "light under a straightedge that lies on the crowns of two frets, over a fret between them",
     D::length, {}, kFret, kString | kCapo | kPressed | kSide, "feeler leaves", -0.5 * kMm, 4 * kMm},
    {"relief a day later", "the same relief read again 12 hours or more after, for balance with the room",
     D::length, {}, 0, kString | kFret | kCapo | kPressed | kSide, "feeler leaves", -2 * kMm, 4 * kMm},
    {"relief drift", "relief a day later less the relief before, same tool and places", D::length, {}, 0,
     kString | kPressed | kSide, "dial indicator", -2 * kMm, 2 * kMm},
    {"nut gap", "light under the string at fret 1, held between frets 2 and 3", D::length, {}, 0,
     kString | kPressed, "feeler leaves", 0, 2 * kMm},
    {"nut tap", "the same gap by tapping the string over fret 1", D::length, kNutTap, 0, kString, ""},
    {"nut wire", "a piece of this instrument's fret wire laid against the nut", D::length, kNutWire, 0, kString,
     ""},
    {"intonation", "fretted twelfth against the open octave", D::interval, {}, kString, kFret, "tuner", -100, 100},
    {"pitch on arrival", "pitch of the open string against what it should be", D::interval, {}, kString, 0,
     "tuner", -1200, 1200},
    {"bend return", "pitch after three firm bends against before", D::interval, {}, kString, 0, "tuner", -200,
     200},
    {"bridge return", "pitch after a dive and a pull against before", D::interval, {}, kString, 0, "tuner", -300,
     300},
    {"pickup gap", "underside of the string to the pickup, string held at the last fret", D::length, {}, kPickup,
     kString | kSide | kPressed, "steel rule 0.5 mm", 0, 30 * kMm},
    {"saddle travel left", "height or length adjustment left, the smaller way", D::length, {}, 0, kString,
     "steel rule 0.5 mm", 0, 30 * kMm},
    {"break angle", "angle of the string behind the nut", D::angle, {}, 0, kString, "angle gauge", 0,
     60 * kDegree},
    {"tuner lash", "knob turn back before the pitch drops", D::angle, {}, 0, kString, "angle gauge", 0, kTurn},
    // frets and neck
    {"rocker", "a short straight edge over three frets", D::length, kRocker, kFret, kSide | kString, ""},
    {"rocker gap", "leaf that fits under the rocker", D::length, {}, kFret, kSide | kString, "feeler leaves", 0,
     1 * kMm},
    {"fret height", "crown over the fingerboard", D::length, {}, 0, kFret | kSide | kString, "dial indicator",
     0.1 * kMm, 3 * kMm},
    {"fret width", "crown from edge to edge where it meets the fingerboard", D::length, {}, 0, kFret,
     "digital caliper", 0.5 * kMm, 5 * kMm},
    {"fret overhang", "fret end past the wood", D::length, {}, 0, kFret | kSide, "dial indicator", -1 * kMm,
     3 * kMm},
    {"fret end", "what a thin cloth drawn along the edge does", D::length, kFretEnd, 0, kFret | kSide, ""},
    {"twist", "angle between sticks at fret 1 and fret 12", D::angle, {}, 0, 0, "angle gauge", -10 * kDegree,
     10 * kDegree},
    {"board radius", "radius of the fingerboard", D::length, {}, 0, kFret | kSpot, "radius gauges", 50 * kMm,
     5000 * kMm},
    {"nut to last fret", "front of the nut to the centre of the last fret", D::length, {}, 0, kFret | kString,
     "steel rule 0.5 mm", 100 * kMm, 1000 * kMm},
    {"scale length", "twice the way from nut to fret 12, or as derived by the reader", D::length, {}, 0, kString,
     "steel rule 0.5 mm", 300 * kMm, 1200 * kMm},
    {"nut width", "width of the nut", D::length, {}, 0, 0, "digital caliper", 20 * kMm, 90 * kMm},
    {"string spread", "centres of the outer strings", D::length, {}, 0, kSpot | kFret, "digital caliper", 15 * kMm,
     150 * kMm},
    {"string gap unevenness", "largest difference between two gaps of neighbouring strings at the nut", D::length,
     {}, 0, 0, "digital caliper", 0, 10 * kMm},
    {"room at the edge", "outer string to where the bevel of the fret end starts, at the last fret", D::length, {},
     kSide, kFret, "digital caliper", -3 * kMm, 15 * kMm},
    {"board edge room", "outer string to the edge of the board, at the last fret", D::length, {}, kSide, kFret,
     "digital caliper", -3 * kMm, 20 * kMm},
    {"fret count", "frets on the board", D::count, {}, 0, 0, "eye", 0, 40},
    {"string gauge", "outer diameter of the string", D::length, {}, kString, 0, "digital caliper", 0.1 * kMm,
     5 * kMm},
    {"neck thickness", "thickness of neck and fingerboard", D::length, {}, kFret, 0, "digital caliper", 10 * kMm,
     40 * kMm},
    {"neck width", "width of the neck", D::length, {}, kFret, 0, "digital caliper", 20 * kMm, 110 * kMm},
    {"pocket gap", "gap beside the neck in its pocket", D::length, {}, 0, kSide, "feeler leaves", 0, 5 * kMm},
    {"neck joint", "neck pushed sideways by hand", D::length, kHolds, 0, 0, ""},
    {"seam opening", "leaf that enters a glued seam", D::length, {}, 0, kSpot, "feeler leaves", 0, 5 * kMm},
    {"largest mark", "longest side of the worst mark in the finish", D::length, {}, 0, kSpot, "steel rule 0.5 mm",
     0, 1000 * kMm},
    // whole instrument
    {"weight", "without case and strap", D::mass, {}, 0, 0, "hanging scale", 0.5, 15},
    {"outer size", "longest length, width or depth over the hardware, for a case or a parcel", D::length, {},
     kSpot, 0, "tape measure", 10 * kMm, 2000 * kMm},
    {"head dive", "force at the nut that holds the neck level on the strap", D::force, {}, 0, 0, "spring scale", 0,
     50},
    {"rest in the room", "how long the closed case stood in the work room", D::time, {}, 0, 0, "clock", 0, 3e7},
    // ear
    {"note", "an evenly struck note, unplugged", D::length, kRing, 0, kString | kFret, ""},
    {"dead spot", "a short ring, apart from rattle", D::length, kDeadSpot, 0, kString | kFret, ""},
    {"ring time", "time for the level to fall by 60 dB", D::time, {}, kString | kFret, 0, "recorder", 0.01, 120},
    {"string balance", "loudest against softest string of a pickup", D::level, {}, 0, kPickup | kSwitch,
     "level meter", 0, 60},
    {"noise below a strum", "noise with strings damped under a plain strum, same lead and room", D::level, {}, 0,
     kSwitch, "level meter", -20, 140},
    // electrics
    {"jack resistance", "at the jack, nothing plugged in else, controls full", D::resistance, {}, 0,
     kSwitch | kPickup | kControl, "multimeter", 0, 1e8},
    {"pickup resistance", "at the pickup's own leads", D::resistance, {}, kPickup, 0, "multimeter", 0, 1e8},
    {"pot resistance", "end to end", D::resistance, {}, kControl, 0, "multimeter", 0, 1e8},
    {"ground resistance", "jack sleeve to bare metal", D::resistance, {}, 0, kSpot, "multimeter", 0, 1e8},
    {"switch sound", "each position tapped and played", D::length, kSwitchSound, kSwitch, kPickup, ""},
    {"pole alignment", "strings over the poles", D::length, kPole, 0, kPickup | kString, ""},
    {"coil temperature", "of the pickup when its ohms were read", D::temperature, {}, 0, kPickup, "thermometer",
     233.15, 353.15},
    {"agreement fraction", "share of lines that a second look found the same", D::ratio, {}, 0, 0, "", 0, 1},
};
// clang-format on

const WordRange kWordRanges[] = {
    {"nut tap", "dead", std::nullopt, 0.02 * kMm},
    {"nut tap", "just moves", 0.02 * kMm, 0.08 * kMm},
    {"nut tap", "clear gap", 0.08 * kMm, std::nullopt},
};

}  // namespace

std::span<const Observable> observables() {
    return kObservables;
}

const Observable* find_observable(std::string_view name) {
    const auto found = std::ranges::find(kObservables, name, &Observable::name);
    return found == std::end(kObservables) ? nullptr : found;
}

std::optional<WordRange> range_of_word(std::string_view observable, std::string_view word) {
    for (const WordRange& range : kWordRanges) {
        if (range.observable == observable && range.word == word) return range;
    }
    return std::nullopt;
}

}  // namespace fallaway::evidence
