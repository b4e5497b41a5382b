// The strings on one instrument: what each is made of, and how hard it pulls at pitch. A gauge is stated, read, or
// that of the usual set; a string that cannot be reckoned says why.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "bench/model/current.h"
#include "science/strings/choice.h"

namespace fallaway::model {

using metrology::Uncertain;

enum class GaugeFrom : std::uint8_t { stated, read, usual };

struct FittedString {
    int string = 1;
    std::string note;    // "E4"
    double pitch = 0;    // Hz, of A4 = 440 Hz
    Uncertain scale;     // m
    Uncertain gauge;     // m
    strings::Core core;  // of a plain string: round
    strings::Wrap wrap;
    GaugeFrom gauge_from = GaugeFrom::stated;
    bool kind_assumed = false;  // core or wrap is the usual one
    strings::MassFrom mass_from = strings::MassFrom::geometry;
    strings::Pull pull;
};

struct StringLeftOut {
    int string = 1;
    std::string because;  // "its gauge is not known: read it"
};

struct FittedStrings {
    std::vector<FittedString> strings;  // string 1 first
    std::vector<StringLeftOut> left_out;
    Uncertain pull;  // N, on the neck, of all that could be reckoned
};

// A gauge that was read and agrees with the stated or usual one within both their doubts is that one; else the
// reading stands, with its own u. A string that nobody described has a hex core, and is plain below 0.022 in
// (common practice, no source).
FittedStrings strings_of(const evidence::Bench& bench, const CurrentReadings& readings,
                         const evidence::Catalogue& catalogue);

}  // namespace fallaway::model
