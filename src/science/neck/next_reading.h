// Which reading to take next: the one that tells most, for its minutes, about the clearances with the least room.
#pragma once

#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/neck/neck_model.h"
#include "science/neck/readings.h"

namespace fallaway::neck {

// All that a bench would read on such an instrument, as numbers, without a value: low and high are 0. A fretless
// board has no rocker, crowns or nut gaps.
std::vector<Reading> usual_readings(const Layout& layout, const Tools& tools = {});

struct Proposal {
    Reading reading;
    // Root mean square u of the binding clearances before it and after it, m.
    double u_before = 0;
    double u_after = 0;
    double gain = 0;  // fall of their mean variance, m^2 a minute
};

// The best `count` of the usual readings in the order to take them, each counted with those before it; those taken
// are left out. What binds is settled at the start: the 12 clearances least in value/u. Fewer when nothing is left
// that tells anything. Expected gains need no values: they follow from spreads alone (Fedorov 1972, Theory of
// optimal experiments: sequential design). Errors: those of check().
Result<std::vector<Proposal>> next_readings(const NeckModel& model, const numeric::Gaussian& state,
                                            std::span<const Reading> taken, std::size_t count,
                                            const Tools& tools = {});

}  // namespace fallaway::neck
