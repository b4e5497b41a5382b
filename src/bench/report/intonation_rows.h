// What page and plain text say of strings and intonation, in the same words.
#pragma once

#include <string>
#include <vector>

#include "bench/judgement/assessment.h"

namespace fallaway::report {

struct IntonationRow {
    std::string string;
    std::string read;    // cents: "4.6 ±0.3", "3.1 ±0.5 at 5, 4.6 ±0.3 at 12"
    std::string after;   // cents that fret 12 is left with
    std::string saddle;  // "back 1.20 ± 0.19 mm"
    std::string screw;   // "1 7/8 turns"
    std::string note;
};
std::vector<IntonationRow> rows_of(const model::Intonation& intonation);
// "M3, 0.5 mm a turn", "learn it from one turn".
std::string screw_words(const model::Intonation& intonation);
// What a reader has to know beside the rows.
std::string intonation_caution(const model::Intonation& intonation);

struct StringRow {
    std::string string;
    std::string note;
    std::string gauge;  // in brackets when it is the usual one
    std::string kind;
    std::string pull;
    std::string strength;
};
std::vector<StringRow> rows_of(const model::FittedStrings& fitted);
// "Pull on the neck, 6 strings: 462 ± 8 N", and what was left out.
std::vector<std::string> pull_words(const model::FittedStrings& fitted);

}  // namespace fallaway::report
