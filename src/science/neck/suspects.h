// Readings that do not go together: whether the instrument is an unusual one, or which reading is the likely
// blunder and what to read to settle it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/neck/fit.h"

namespace fallaway::neck {

struct Suspect {
    std::size_t reading = 0;  // index among those given
    double probability = 0;   // that this one is the blunder, given that one is
};

// One blunder and who may have made it.
struct Suspicion {
    std::vector<Suspect> named;  // the fewest that hold 95 % together, most likely first; one alone is named
    // What to read, without a value: the one that is expected to tell most a minute of who it was. A lone suspect
    // is read again.
    Reading decider;
    std::optional<std::size_t> repeats;  // the reading it repeats; absent: a third one
    double bits = 0;                     // expected to be told by it; 0 for a lone suspect
};

// All unknowns of a kind together, in place of one place.
inline constexpr int kAll = -1;

struct Verdict {
    // What the readings say is not as it usually is, most telling first: a proud fret, an action out of hand. Not
    // a fault of the readings: the fits below leave these unknowns room.
    std::vector<Unknown> unusual;       // `at` may be kAll
    numeric::Gaussian start;            // the start that the fits below begin from
    NeckFit fit;                        // with all readings
    std::vector<Suspicion> suspicions;  // empty when the fit is consistent; one for each blunder found in turn
    NeckFit without;                    // with all but the suspects; `beside` holds those left, in their order

    bool consistent() const { return suspicions.empty(); }
};

// As long as the fit is not consistent (or its p is below .01), each part of the instrument that may be unusual
// (wider by: relief .5, crown .15, slot .3, action 1, skew .1, hump .2, tilt .1 mm, kink .01 rad) is weighed by
// Bayes against each reading that may be a blunder (of a size normal about nothing with sd 1 mm: a slip on a
// scale, a wrong line). One instrument in ten is taken to be unusual in a given way, one reading in a hundred to
// be a blunder, all readings alike. What is likeliest is believed: the part is given room, or the suspects are set
// aside; then all is looked at again. Widths and shares: common practice, no source.
Result<Verdict> examine(const NeckModel& model, std::span<const Reading> readings, const numeric::Gaussian& start,
                        const Tools& tools = {});
Result<Verdict> examine(const NeckModel& model, std::span<const Reading> readings, const Tools& tools = {});

}  // namespace fallaway::neck
