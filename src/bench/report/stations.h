// Which readings are written on the drawing of the neck, and where.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "bench/judgement/assessment.h"

namespace fallaway::report {

// Readings of one kind at one fret: a column of figures on the strings.
struct Station {
    std::string observable;  // "string height", "nut gap", "nut tap", "nut wire"
    int fret = 0;            // where the column stands
    std::optional<int> pressed;
    std::map<int, const judgement::Line*> strings;  // by string
    const judgement::Line* whole = nullptr;         // one figure for all strings

    std::string title() const;  // "fret 12", "nut tap", "fret 12, held at fret 1"
    // What all figures of the column share, and is therefore written once below: "mm ±0.05"; "" when they differ.
    std::string shared_unit() const;
};

// By fret. Of two readings of one place the later stage counts.
std::vector<Station> stations(const judgement::Assessment& assessment);

// The latest reading of the dip of the neck; null when there is none.
const judgement::Line* relief_line(const judgement::Assessment& assessment);

}  // namespace fallaway::report
