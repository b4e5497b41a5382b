// One string at pitch: how hard it pulls, how near it is to breaking, how it stretches and stiffens. And what a
// whole set pulls, and what a change of set, tuning or scale does to that.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/strings/construction.h"

namespace fallaway::strings {

struct Pull {
    Estimate tension;        // N: mass (2 scale pitch)^2, Mersenne 1636
    Estimate stress;         // Pa, in the core, which carries all of the pull
    Estimate strain;         // tension / (E A): how much longer the core is than slack
    Estimate kappa;          // E A / tension: relative rise of tension for one unit of further strain
    Estimate eps;            // sqrt(E I / (tension scale^2)): bending stiffness (Fletcher 1964, JASA 36, 203)
    Estimate inharmonicity;  // B = pi^2 eps^2
    std::optional<Estimate> strength_share;  // stress over the least strength of music wire (ASTM A228) as thick
                                             // as the core; a hex core as its width across flats. Absent for nylon
                                             // and outside 0.008 to 0.026 in.
    std::optional<Estimate> breaking_pitch;  // Hz, where that share is 1
};

// scale 0.2 to 1.2 m, pitch 15 to 2000 Hz. Errors: code "range", path "scale" or "pitch".
// The same mass error is in tension, kappa and eps; that they share it is left out (kappa and eps are ruled by the
// core's own u).
Result<Pull> pull_of(const Body& body, Estimate scale, Estimate pitch);

// Pull of a set on the neck, errors of the single strings taken as independent.
Estimate set_pull(std::span<const Pull> strings);

// What another set, tuning or scale does. With the same strings as before, an error of mass is in both figures and
// scales with the change alone; with others the errors add in squares.
struct LoadChange {
    std::vector<Estimate> each;  // N, after less before, string by string
    Estimate total;              // N, on the neck
};
enum class Strings : std::uint8_t { same, others };
// Error: code "range", path "after": not as many strings as before.
Result<LoadChange> load_change(std::span<const Pull> before, std::span<const Pull> after, Strings strings);

// Turning the same string from one pitch or scale to another: tension (scale pitch)^2.
Estimate retuned(Estimate tension, double scale_ratio, double pitch_ratio);

}  // namespace fallaway::strings
