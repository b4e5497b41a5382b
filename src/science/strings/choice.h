// Which string to put on: masses out of a table by gauge, how a string feels, and what fits a wanted feel.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/strings/pull.h"

namespace fallaway::strings {

// One row of a string table: one gauge of one kind, with its mass as printed or weighed.
struct StringRow {
    Core core = Core::round;
    Wrap wrap = Wrap::plain;
    Material material = Material::steel;
    double gauge = 0;                       // m, outer diameter as sold
    Estimate mass;                          // kg/m
    std::optional<Estimate> core_diameter;  // m
    std::optional<Estimate> core_modulus;   // Pa; absent: kSteelModulus
};

// The string that a row tells of; u of its gauge 5 um, common practice.
Make make_of(const StringRow& row);

// Printed masses differ between makers and from the scale by about this much, relative: one of three printed
// values checked was 4.8 % off.
inline constexpr double kPrintedMassU = 0.03;
// u of a mass taken between two rows by even packing, and of one beyond the table, relative: no source.
inline constexpr double kBetweenRowsU = 0.05;

enum class MassFrom : std::uint8_t { row, between_rows, geometry };

struct Gauged {
    Make make;
    MassFrom from = MassFrom::geometry;
    std::optional<std::size_t> row;  // the row, or the nearest lighter one of two
};

// A string by its gauge alone. The row of that gauge and kind where there is one (within 1 um); else, for wound
// strings, a mass between the two neighbouring rows by their packing; else geometry. A plain string is geometry
// unless it has a row. u of the gauge itself: 5 um, common practice. Error: code "range", path "gauge" (0.1 to 6
// mm); code "missing", path "gauge": a nylon gauge without a row of its own, which nothing else can tell.
Result<Gauged> string_of_gauge(std::span<const StringRow> rows, double gauge, Wrap wrap, Core core = Core::hex,
                               Material material = Material::steel);

// How a string feels under the finger, pressed at one fret and pushed aside there.
struct Feel {
    Estimate tension;          // N
    Estimate aside;            // m, pushed aside for the interval
    Estimate bend_force;       // N, then
    Estimate cents_per_metre;  // there, for a little more; for one metal it does not depend on the gauge
    Estimate sideways;         // N/m, against the first little push: T (1/l + 1/l2)
};
// fret 1..24, cents 10 to 500. Errors: code "range", path "fret", "cents" (beyond what half the length aside
// gives).
Result<Feel> feel_of(const Pull& pull, double scale, int fret = 12, double cents = 200);

enum class Match : std::uint8_t { tension, bend_force };

// What is wanted of one string.
struct Seat {
    Estimate scale;  // m
    Estimate pitch;  // Hz
    Match match = Match::tension;
    double wanted = 0;         // N
    std::optional<Wrap> wrap;  // absent: any
    Material material = Material::steel;
};

struct Candidate {
    std::size_t row = 0;
    Pull pull;
    Feel feel;       // at fret 12, a whole tone
    double off = 0;  // relative: (found - wanted)/wanted
    double u_off = 0;
    bool near_breaking = false;  // stress above kMostStrengthShare
};

// Above this share of the least strength of its wire a string is no choice: bends, slips and sharp edges need the
// rest (a bend of three semitones takes 1.41 times the stress); common practice, no source.
inline constexpr double kMostStrengthShare = 0.75;

// The rows that come nearest, best first, `most` of them; those near breaking last. Rows that cannot be computed
// (a pitch out of range) are an error of the seat: code and path as of pull_of, or "range", "wanted" (above 0).
Result<std::vector<Candidate>> nearest_rows(std::span<const StringRow> rows, const Seat& seat,
                                            std::size_t most = 3);

// The wanted pulls of a balanced set: every string the same share of the whole, or sloping evenly from the first
// to the last by `slope` (last over first), in the order of the strings. total N > 0, count >= 1, slope > 0.
std::vector<double> balanced_pulls(double total, std::size_t count, double slope = 1);

// Plain wire that pulls so much: d = sqrt(4 T/(pi rho))/(2 L f), m.
Estimate plain_gauge_for(Estimate tension, Estimate scale, Estimate pitch, Estimate density = kSteelDensity);
// Outside of a wound string (usual core, wrap as given) that pulls so much. Error: code "range", path "tension":
// no gauge from 0.4 to 4 mm does.
Result<double> wound_gauge_for(double tension, double scale, double pitch, Wrap wrap, Core core);

}  // namespace fallaway::strings
