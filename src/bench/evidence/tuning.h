// Names of notes, and the notes that the strings of an instrument are taken to have.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bench/evidence/instrument.h"

namespace fallaway::evidence {

// Semitones above C-1 for a name in scientific pitch notation: "A4" is 69, "Bb1" and "A#1" are 34. Octaves -1 to
// 9, one sharp (#) or flat (b). Absent for anything else.
std::optional<int> note_number(std::string_view name);

// The note of each string, string 1 first: as stated, else the usual one for the kind and number of strings. A
// string with no stated note and no usual one has "".
std::vector<std::string> tuning_of(const Instrument& instrument);

// Strings (numbers from 1) that a name may mean: "E2" by pitch, "E" in any octave. Empty when none does.
std::vector<int> strings_named(const Instrument& instrument, std::string_view name);

}  // namespace fallaway::evidence
