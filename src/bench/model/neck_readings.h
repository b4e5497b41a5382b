// Between a bench file's readings and those that the neck's geometry understands.
#pragma once

#include <string>
#include <vector>

#include "bench/model/current.h"
#include "science/neck/readings.h"

namespace fallaway::model {

// One reading of the neck and where in the file it comes from.
struct NeckReading {
    neck::Reading reading;
    const evidence::Reading* from = nullptr;
};

// All that speak of the neck as it is now: of each thing at each place those that count, stale ones left out. One
// height for the whole instrument, or for a side, is taken as that of its outer strings.
std::vector<NeckReading> neck_readings(const CurrentReadings& readings, const neck::Layout& layout);

// What a reading of the neck is called in a bench file, and where.
struct Asked {
    std::string observable;
    evidence::Place at;

    friend bool operator==(const Asked&, const Asked&) = default;
};
Asked asked_for(const neck::Reading& reading, const neck::Layout& layout);

// "String height, string 6, fret 12".
std::string describe(const Asked& asked);

}  // namespace fallaway::model
