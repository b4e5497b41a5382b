// The closed list of what a reading can be about: its name in a bench file, its kind of quantity or its words, and
// where on the instrument it can be taken.
#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "science/base/dimension.h"

namespace fallaway::evidence {

// Parts of a place that an observable needs or allows (see Place). Bits.
enum PlacePart : unsigned {
    kNoPlace = 0,
    kString = 1u << 0,
    kFret = 1u << 1,
    kSide = 1u << 2,     // "bass", "treble"
    kSwitch = 1u << 3,   // switch position, by name
    kPickup = 1u << 4,   // pickup, by name
    kControl = 1u << 5,  // "volume", "tone", ...
    kPressed = 1u << 6,  // fret(s) where the string was held
    kSpot = 1u << 7,     // free words: "back of head", "horn"
    kCapo = 1u << 8,     // the lower of the two frets that a line lies on
};

struct Observable {
    std::string_view name;                    // "string height": the word in the file
    std::string_view says;                    // one sentence for documents and tooltips
    Dimension dimension;                      // ignored when `words` is not empty
    std::span<const std::string_view> words;  // for what is told in words: "dead", "just moves", "clear gap"
    unsigned needs = kNoPlace;                // parts that a reading must give
    unsigned allows = kNoPlace;               // parts it may give besides
    std::string_view default_tool;  // tool kind assumed when a reading names none ("" when it needs none)
    double plausible_low = 0;       // SI; a value outside is refused as a slip of the unit or the point
    double plausible_high = 0;
};

std::span<const Observable> observables();
const Observable* find_observable(std::string_view name);

// Readings in words that stand for a range of a quantity: a tapped nut gap is "dead" (0 to 0.02 mm), "just moves"
// (0.02 to 0.08 mm) or "clear gap" (over 0.08 mm). Common practice, no source.
struct WordRange {
    std::string_view observable;
    std::string_view word;
    std::optional<double> low;   // SI
    std::optional<double> high;  // SI
};
std::optional<WordRange> range_of_word(std::string_view observable, std::string_view word);

}  // namespace fallaway::evidence
