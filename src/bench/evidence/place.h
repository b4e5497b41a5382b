// Where on the instrument a reading, a rating or a complaint belongs.
#pragma once

#include <compare>
#include <optional>
#include <string>

namespace fallaway::evidence {

// String 1 is the thinnest. A place without a string means the whole instrument.
struct Place {
    std::optional<int> string;        // 1..strings
    std::optional<int> fret;          // 0 (open or nut) .. frets
    std::optional<std::string> side;  // "bass", "treble"
    std::optional<std::string> switch_position;
    std::optional<std::string> pickup;
    std::optional<std::string> control;
    std::optional<int> pressed;  // fret at which the string was held down while reading, or a straightedge ended
    std::optional<int> capo;     // the lower fret of such a line, 1 where nothing is said
    std::optional<std::string> spot;  // free words

    friend auto operator<=>(const Place&, const Place&) = default;
};

// "string 6, fret 12", "fret 9, treble side", "whole instrument".
std::string describe(const Place& place);

// A short stable key for ids: "s6.f12", "f9.treble", "" for the whole instrument.
std::string key_of(const Place& place);

}  // namespace fallaway::evidence
