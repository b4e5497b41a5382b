#include "bench/judgement/trouble.h"

#include <algorithm>
#include <cctype>
#include <span>
#include <string>

namespace fallaway::judgement {
namespace {

using Words = std::span<const std::string_view>;

// Beginnings of words, so that "buzzes" and "rattling" are met too. Common practice, no source.
constexpr std::string_view kNoise[] = {"buzz", "rattl", "chok", "fret out", "frets out", "fretting out",
                                       "dead", "sizzl", "zing", "sitar",    "clank",     "dies"};
constexpr std::string_view kTuning[] = {"tune", "tuning", "pitch", "intonat", "sharp",
                                        "flat", "drift",  "slips", "sour",    "detun"};
constexpr std::string_view kHum[] = {"hum",      "crackl", "noisy",  "cuts out", "cut out",  "scratch", "silent",
                                     "no sound", "output", "pickup", "volume",   "tone pot", "jack",    "switch"};

// What shows the cause, wherever it is read.
constexpr std::string_view kOfNoise[] = {"note",        "dead spot",     "rocker",          "rocker gap",
                                         "relief",      "nut gap",       "nut tap",         "nut wire",
                                         "fret height", "string height", "straightedge gap"};
constexpr std::string_view kOfTuning[] = {"pitch on arrival", "bend return", "bridge return", "intonation",
                                          "tuner lash",       "break angle", "neck joint",    "nut gap",
                                          "nut tap",          "string gauge"};
constexpr std::string_view kOfHum[] = {"jack resistance",   "pickup resistance", "pot resistance",
                                       "ground resistance", "switch sound",      "noise below a strum",
                                       "string balance",    "pickup gap"};

bool is_letter(char c) {
    return std::isalpha(static_cast<unsigned char>(c)) != 0;
}

bool begins_a_word(std::string_view text, std::string_view word) {
    for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        if (at == 0 || !is_letter(text[at - 1])) return true;
    }
    return false;
}

bool any_of(std::string_view text, Words words) {
    return std::ranges::any_of(words, [&](std::string_view word) { return begins_a_word(text, word); });
}

Words explained_by(Trouble trouble) {
    switch (trouble) {
        case Trouble::tuning:
            return kOfTuning;
        case Trouble::hum:
            return kOfHum;
        case Trouble::noise:
        case Trouble::unknown:
            return kOfNoise;
    }
    return {};
}

}  // namespace

Trouble trouble_of(const evidence::Complaint& complaint) {
    if (complaint.at.switch_position || complaint.at.pickup || complaint.at.control) return Trouble::hum;
    std::string text = complaint.text;
    std::ranges::transform(text, text.begin(),
                           [](char c) { return char(std::tolower(static_cast<unsigned char>(c))); });
    if (any_of(text, kNoise)) return Trouble::noise;
    if (any_of(text, kTuning)) return Trouble::tuning;
    if (any_of(text, kHum)) return Trouble::hum;
    return Trouble::unknown;
}

bool may_explain(Trouble trouble, std::string_view observable) {
    return std::ranges::count(explained_by(trouble), observable) > 0;
}

}  // namespace fallaway::judgement
