// How far the string stands over every crown it is not held at: open and held at each fret, over each later one.
#pragma once

#include <span>
#include <vector>

#include "science/neck/neck_model.h"

namespace fallaway::neck {

struct Clearance {
    int string = 0;
    int held = 0;      // fret; 0 is the open string
    int over = 0;      // fret, above held
    double value = 0;  // m; negative: the string would run through metal
    double u = 0;      // m

    bool next_fret() const { return over == held + 1; }
};

// By string, then held, then over. On a fretless board: over the marks.
std::vector<Clearance> clearances(const NeckModel& model, const numeric::Gaussian& state);

// The one with the least room. Of none: all zero.
Clearance smallest(std::span<const Clearance> all);
// The `count` with the least room for their uncertainty, least value/u first.
std::vector<Clearance> binding(std::vector<Clearance> all, std::size_t count);

}  // namespace fallaway::neck
