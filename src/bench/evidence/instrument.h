// One instrument as it is known before and between readings. Only the kind is required: whatever is absent here is
// assumed (assumptions.h), listed as "assumed, not measured", and yields to the first reading that knows better.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "science/base/quantity_text.h"

namespace fallaway::evidence {

enum class Kind { electric_guitar, electric_bass };
enum class Hand { right, left };

// String 1 is the thinnest.
struct StringSpec {
    std::optional<std::string> note;    // scientific pitch: "E4", "F#2", "Bb1"
    std::optional<QuantityText> gauge;  // outer diameter
    std::optional<std::string> core;    // "plain"(no wrap), "round", "hex"
    std::optional<std::string> wrap;    // "plain", "round", "ground", "flat", "tape"
    std::optional<QuantityText> scale;  // of this string alone (fanned frets)

    friend bool operator==(const StringSpec&, const StringSpec&) = default;
};

struct Fretwire {
    std::optional<QuantityText> height;  // new, over the fingerboard
    std::optional<QuantityText> width;
    std::optional<std::string> material;

    friend bool operator==(const Fretwire&, const Fretwire&) = default;
};

struct Bridge {
    std::optional<std::string> type;          // "fixed", "two-post", "pivot", "floating tailpiece"
    std::optional<std::string> height_screw;  // "M3", "4-40": pitch by thread name; absent: learn it from one turn
    std::optional<std::string> length_screw;

    friend bool operator==(const Bridge&, const Bridge&) = default;
};

struct TrussRod {
    std::optional<std::string> type;    // "single", "double", "none"
    std::optional<std::string> access;  // "head", "heel"
    std::optional<std::string> key;     // "5 mm hex"

    friend bool operator==(const TrussRod&, const TrussRod&) = default;
};

struct Pickup {
    std::string name;                 // "bridge", "neck", "middle"
    std::optional<std::string> type;  // "single coil", "humbucker", ...

    friend bool operator==(const Pickup&, const Pickup&) = default;
};

struct Instrument {
    Kind kind = Kind::electric_guitar;
    Hand hand = Hand::right;
    bool fretted = true;
    std::optional<std::string> maker;
    std::optional<std::string> model;
    std::optional<std::string> serial;
    std::optional<std::string> year;  // as claimed, free text
    std::vector<StringSpec> strings;  // empty: the usual number for the kind
    std::optional<QuantityText> scale;
    std::optional<int> frets;
    std::optional<bool> zero_fret;
    std::optional<QuantityText> radius;  // one for a cylinder, or nut and end for a compound board
    std::optional<QuantityText> radius_end;
    std::optional<Fretwire> fretwire;
    std::optional<Bridge> bridge;
    std::optional<TrussRod> truss_rod;
    std::optional<std::string> neck_joint;    // "bolt-on", "set", "through"
    std::optional<std::string> board_finish;  // "bare", "lacquered"
    std::optional<std::string> board_wood;
    std::vector<Pickup> pickups;
    std::vector<std::string> switch_positions;  // by name, in order
    std::vector<std::string> controls;          // "volume", "tone 1"
    std::optional<bool> battery;
    std::optional<bool> headless;

    friend bool operator==(const Instrument&, const Instrument&) = default;
};

// As stated, or the usual number for the kind (6 and 22; 4 and 20).
int string_count(const Instrument& instrument);
int fret_count(
    const Instrument& instrument);  // 0 for fretless only when stated: a fretless board keeps its positions
bool is_fanned(const Instrument& instrument);  // two strings with different scales

// "Ostrel Heron, OH-0412" or "electric guitar, six strings".
std::string describe(const Instrument& instrument);

}  // namespace fallaway::evidence
