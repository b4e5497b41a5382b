#include "bench/evidence/check_parts.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_set>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "science/base/near_word.h"
#include "science/base/quote.h"

namespace fallaway::evidence {
namespace {

constexpr int kMostPositions = 40;  // of a fretless board whose frets are stated as none

constexpr std::array<std::string_view, 6> kOnlyWithFrets{"rocker",        "rocker gap", "fret height",
                                                         "fret overhang", "fret end",   "nut wire"};

struct PartName {
    unsigned part;
    std::string_view key;
    std::string_view with_article;
};
constexpr std::array<PartName, 9> kParts{{{kString, "string", "a string"},
                                          {kFret, "fret", "a fret"},
                                          {kSide, "side", "a side"},
                                          {kSwitch, "switch", "a switch position"},
                                          {kPickup, "pickup", "a pickup"},
                                          {kControl, "control", "a control"},
                                          {kPressed, "pressed", "a fret where the string is held"},
                                          {kCapo, "capo", "a fret with a capo"},
                                          {kSpot, "spot", "a spot"}}};

unsigned parts_of(const Place& place) {
    unsigned parts = kNoPlace;
    if (place.string) parts |= kString;
    if (place.fret) parts |= kFret;
    if (place.side) parts |= kSide;
    if (place.switch_position) parts |= kSwitch;
    if (place.pickup) parts |= kPickup;
    if (place.control) parts |= kControl;
    if (place.pressed) parts |= kPressed;
    if (place.capo) parts |= kCapo;
    if (place.spot) parts |= kSpot;
    return parts;
}

void check_fret(int fret, const std::string& path, const Ground& ground, Faults& faults) {
    if (fret >= 0 && fret <= ground.frets) return;
    const std::string_view noun = ground.instrument.fretted ? "fret" : "position";
    const std::string cure =
        ground.frets_stated ? "" : " (assumed; state \"frets\" of the instrument if it has more)";
    faults.add("range", path, fmt::format("{}: no such {}, expected 0 to {}{}", fret, noun, ground.frets, cure));
}

void check_name(const std::optional<std::string>& name, std::span<const std::string> stated, std::string_view noun,
                const std::string& path, Faults& faults) {
    if (!name || stated.empty()) return;
    const std::vector<std::string_view> known(stated.begin(), stated.end());
    check_known(*name, known, noun, path, faults);
}

std::vector<std::string> pickup_names(const Instrument& instrument) {
    std::vector<std::string> names;
    for (const Pickup& pickup : instrument.pickups) names.push_back(pickup.name);
    return names;
}

void check_all_unique(std::span<const std::string> values, const std::string& list_path, const std::string& key,
                      std::string_view noun, Faults& faults) {
    std::vector<std::string> paths;
    for (std::size_t i = 0; i < values.size(); ++i) paths.push_back(fmt::format("{}/{}{}", list_path, i, key));
    check_unique(values, paths, noun, faults);
}

void check_length(const std::optional<QuantityText>& length, std::string_view observable, const std::string& path,
                  Faults& faults) {
    if (length) check_quantity(*find_observable(observable), *length, path, faults);
}

void check_scales(const Instrument& instrument, Faults& faults) {
    const auto own =
        std::ranges::count_if(instrument.strings, [](const StringSpec& s) { return s.scale.has_value(); });
    if (own > 0 && instrument.scale) {
        faults.add("duplicate", "/instrument/scale",
                   fmt::format("{}: the strings have scales of their own, state one or the other",
                               quote(instrument.scale->typed)));
    } else if (own > 0 && own < std::ssize(instrument.strings)) {
        faults.add("missing", "/instrument/strings",
                   fmt::format("{} of {} strings have a scale, expected all of them or none", own,
                               instrument.strings.size()));
    }
}

// "-1 to 12 mm", in the unit of output.
std::string range_text(const Observable& observable) {
    const Unit& unit = units_of(observable.dimension).front();
    const auto rounded = [&unit](double si) {
        const double value = from_si(si, unit);
        return std::abs(value) < 1e-9 ? 0.0 : value;
    };
    return fmt::format("{:.6g} to {:.6g}{}{}", rounded(observable.plausible_low),
                       rounded(observable.plausible_high), unit.symbol.empty() ? "" : " ", unit.symbol);
}

}  // namespace

Ground ground_of(const Bench& bench) {
    Ground ground{bench.instrument, string_count(bench.instrument), fret_count(bench.instrument),
                  bench.instrument.frets.has_value()};
    if (!bench.instrument.fretted && ground.frets == 0) ground.frets = kMostPositions;
    if (ground.frets_stated) return ground;
    for (const Reading& reading : bench.readings) {
        const auto* count = reading.value ? std::get_if<QuantityText>(&*reading.value) : nullptr;
        if (reading.what != "fret count" || count == nullptr) continue;
        ground.frets = static_cast<int>(std::clamp(count->si, 0.0, static_cast<double>(kMostPositions)));
        ground.frets_stated = true;
    }
    return ground;
}

void check_place(const Place& place, const std::string& path, const Ground& ground, Faults& faults) {
    const Instrument& instrument = ground.instrument;
    if (place.string && (*place.string < 1 || *place.string > ground.strings)) {
        const bool stated = !instrument.strings.empty();
        faults.add("range", path + "/string",
                   fmt::format("{}: no such string, expected 1 to {}{}", *place.string, ground.strings,
                               stated ? "" : " (assumed; state \"strings\" of the instrument if it has more)"));
    }
    if (place.fret) check_fret(*place.fret, path + "/fret", ground, faults);
    if (place.pressed) check_fret(*place.pressed, path + "/pressed", ground, faults);
    if (place.capo) check_fret(*place.capo, path + "/capo", ground, faults);
    if (place.side && *place.side != "bass" && *place.side != "treble") {
        faults.add("unknown", path + "/side",
                   fmt::format("{}: no such side, expected \"bass\" or \"treble\"", quote(*place.side)));
    }
    check_name(place.switch_position, instrument.switch_positions, "switch position", path + "/switch", faults);
    check_name(place.pickup, pickup_names(instrument), "pickup", path + "/pickup", faults);
    check_name(place.control, instrument.controls, "control", path + "/control", faults);
}

void check_place_of(const Observable& observable, const Place& place, const std::string& path,
                    const Ground& ground, Faults& faults) {
    if (!ground.instrument.fretted && std::ranges::find(kOnlyWithFrets, observable.name) != kOnlyWithFrets.end()) {
        faults.add("unknown", path + "/what",
                   fmt::format("{}: cannot be read on a fretless board", quote(observable.name)));
        return;
    }
    const unsigned given = parts_of(place);
    for (const PartName& part : kParts) {
        const bool needed = (observable.needs & part.part) != 0;
        const bool allowed = needed || (observable.allows & part.part) != 0;
        const bool has = (given & part.part) != 0;
        const std::string at = fmt::format("{}/at/{}", path, part.key);
        if (needed && !has) {
            faults.add("missing", at,
                       fmt::format("missing, {} is read at {}", observable.name, part.with_article));
        }
        if (has && !allowed) {
            faults.add("unknown", at, fmt::format("{} is not read at {}", observable.name, part.with_article));
        }
    }
}

void check_quantity(const Observable& observable, const QuantityText& value, const std::string& path,
                    Faults& faults) {
    if (!observable.words.empty()) {
        faults.add("type", path,
                   fmt::format("{}: {} is told in words, {}", quote(value.typed), observable.name,
                               hint(value.typed, observable.words)));
        return;
    }
    if (value.unit == nullptr || value.unit->dimension != observable.dimension) {
        faults.add("unit", path,
                   fmt::format("{}: {} is a {}, expected one such as \"{}\"", quote(value.typed), observable.name,
                               name_of(observable.dimension), example_of(observable.dimension)));
        return;
    }
    // A value typed at the very limit must pass whatever its unit rounds to.
    const double slack = 1e-9 * std::max(std::abs(observable.plausible_low), std::abs(observable.plausible_high));
    if (value.si >= observable.plausible_low - slack && value.si <= observable.plausible_high + slack) return;
    faults.add("range", path,
               fmt::format("{}: not plausible for {}, expected {}", quote(value.typed), observable.name,
                           range_text(observable)));
}

void check_value(const Observable& observable, const Value& value, const std::string& path, Faults& faults) {
    if (const auto* quantity = std::get_if<QuantityText>(&value)) {
        check_quantity(observable, *quantity, path, faults);
        return;
    }
    const auto& word = std::get<std::string>(value);
    if (!observable.words.empty()) {
        check_known(word, observable.words, "word for this", path, faults);
        return;
    }
    faults.add("type", path,
               fmt::format("{}: {} is a quantity, expected one such as \"{}\"", quote(word), observable.name,
                           example_of(observable.dimension)));
}

const Observable* check_observable(std::string_view name, const std::string& path, Faults& faults) {
    const Observable* observable = find_observable(name);
    if (observable != nullptr) return observable;
    std::vector<std::string_view> names;
    for (const Observable& known : observables()) names.push_back(known.name);
    check_known(name, names, "observable", path, faults);
    return nullptr;
}

void check_instrument(const Instrument& instrument, Faults& faults) {
    const std::string path = "/instrument";
    check_length(instrument.scale, "scale length", path + "/scale", faults);
    const std::string radius_path = path + (instrument.radius_end ? "/radius/nut" : "/radius");
    check_length(instrument.radius, "board radius", radius_path, faults);
    check_length(instrument.radius_end, "board radius", path + "/radius/end", faults);
    if (instrument.radius_end && !instrument.radius) {
        faults.add("missing", path + "/radius/nut", "missing, a radius at the end needs one at the nut");
    }
    if (instrument.fretwire)
        check_length(instrument.fretwire->height, "fret height", path + "/fretwire/height", faults);
    for (std::size_t i = 0; i < instrument.strings.size(); ++i) {
        const StringSpec& string = instrument.strings[i];
        const std::string at = fmt::format("{}/strings/{}", path, i);
        check_length(string.gauge, "string gauge", at + "/gauge", faults);
        check_length(string.scale, "scale length", at + "/scale", faults);
        if (string.note && !note_number(*string.note)) {
            faults.add(
                "syntax", at + "/note",
                fmt::format("{}: not the name of a note, expected one such as \"E4\"", quote(*string.note)));
        }
    }
    if (instrument.frets && (*instrument.frets < 0 || *instrument.frets > kMostPositions)) {
        faults.add("range", path + "/frets",
                   fmt::format("{}: expected 0 to {}", *instrument.frets, kMostPositions));
    }
    check_scales(instrument, faults);
    check_all_unique(pickup_names(instrument), path + "/pickups", "/name", "pickup", faults);
    check_all_unique(instrument.switch_positions, path + "/switch_positions", "", "switch position", faults);
    check_all_unique(instrument.controls, path + "/controls", "", "control", faults);
}

void check_unique(std::span<const std::string> values, std::span<const std::string> paths, std::string_view noun,
                  Faults& faults) {
    std::unordered_set<std::string_view> seen;
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (seen.insert(values[i]).second) continue;
        faults.add("duplicate", paths[i], fmt::format("{}: this {} stands twice", quote(values[i]), noun));
    }
}

bool check_known(std::string_view word, std::span<const std::string_view> known, std::string_view noun,
                 const std::string& path, Faults& faults) {
    if (std::ranges::find(known, word) != known.end()) return true;
    faults.add("unknown", path, fmt::format("{}: no such {}, {}", quote(word), noun, hint(word, known)));
    return false;
}

}  // namespace fallaway::evidence
