// Notes, frequencies and cents in twelve-tone equal temperament.
// Source: ISO 16:1975 (A4 = 440 Hz); f = A4 * 2^((n - 69)/12), the cent is 1/1200 octave.
#pragma once

#include <string>
#include <string_view>

#include "science/base/quantity.h"
#include "science/base/result.h"

namespace fallaway::sums {

// Notes are numbered in semitones so that A4 is 69, C4 60. "E2", "F#3", "Bb1", "G♯4"; octaves -1 to 9.
// Errors: code "note", no path.
Result<int> note_number(std::string_view name);
// "E2", "F#3": sharps only.
std::string note_name(int number);

Frequency frequency_of_note(int number, Frequency a4);

struct NearestNote {
    int number = 0;
    Interval above;  // how far the frequency lies above the note; negative below
};
// f, a4 > 0.
NearestNote nearest_note(Frequency f, Frequency a4);

}  // namespace fallaway::sums
