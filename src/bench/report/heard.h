// What was heard, note by note, from the readings `note` and `dead spot`.
#pragma once

#include <string>
#include <vector>

#include "bench/evidence/bench.h"

namespace fallaway::report {

enum class Sound { not_tried, rings, rattles, buzzes, chokes };

struct HeardNote {
    Sound sound = Sound::not_tried;
    bool dead_spot = false;
    evidence::Stage stage = evidence::Stage::arrival;
};

struct HeardMap {
    int strings = 0;
    int frets = 0;
    std::vector<HeardNote> notes{};         // string by string, fret 0 first
    std::vector<evidence::Stage> stages{};  // in which something was heard

    const HeardNote& at(int string, int fret) const { return notes[(string - 1) * (frets + 1) + fret]; }
    bool any() const { return !stages.empty(); }
};

// A later stage outranks an earlier one. Within a stage a reading of one note outranks one of a whole string or
// fret, and that one "played all, all rang", which names no place.
HeardMap heard_map(const evidence::Bench& bench);

std::string words_of(const HeardNote& note);  // "buzzes, dead spot", "not tried"

}  // namespace fallaway::report
