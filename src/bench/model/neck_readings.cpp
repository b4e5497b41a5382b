#include "bench/model/neck_readings.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

namespace fallaway::model {
namespace {

using evidence::Place;
using neck::kCentre;
using neck::Kind;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kLeastU = 0.002e-3;  // no tool of this trade is surer; keeps a typed ± 0 from ruling alone
constexpr int kHeldAtTwo = 2;         // "held between frets 2 and 3": the string rests on crown 2

// The strings that a place speaks of: the one it names, the outer one of its side, else both outer ones.
std::vector<int> strings_of(const Place& at, const neck::Layout& layout) {
    const int last = int(layout.strings.size()) - 1;
    if (at.string) return {std::clamp(*at.string - 1, 0, last)};
    if (at.side) return {*at.side == "bass" ? last : 0};
    if (last == 0) return {0};
    return {0, last};
}

// Where a line or a fret is meant rather than a string.
int string_or_centre(const Place& at, const neck::Layout& layout) {
    if (!at.string && !at.side) return kCentre;
    return strings_of(at, layout).front();
}

neck::Reading height(const Place& at, int string) {
    neck::Reading reading{.kind = Kind::open_height, .string = string, .fret = at.fret.value_or(0)};
    if (at.pressed && *at.pressed > 0) {
        reading.kind = Kind::fretted_height;
        reading.from = *at.pressed;
    }
    return reading;
}

neck::Reading line(const Place& at, const neck::Layout& layout, bool over_a_fret) {
    return {.kind = Kind::gap,
            .string = string_or_centre(at, layout),
            .fret = over_a_fret ? at.fret.value_or(0) : 0,
            .from = at.capo.value_or(1),
            .to = at.pressed.value_or(layout.frets)};
}

class Collector {
public:
    Collector(const CurrentReadings& readings, const neck::Layout& layout)
        : readings_(readings), layout_(layout) {}

    std::vector<NeckReading> take() && {
        for (const std::string_view what : {std::string_view("string height"), kHeldHeight}) heights(what);
        reliefs();
        each("straightedge gap", [&](const Current& c) { number(c, line(c.at, layout_, true)); });
        nut();
        crowns();
        return std::move(found_);
    }

private:
    template <class Function>
    void each(std::string_view what, const Function& function) {
        for (const Current& current : readings_.of(what)) {
            if (current.taken.stale_because.empty()) function(current);
        }
    }

    // Kept only where the geometry can take it: a place off this neck has been told of elsewhere.
    void keep(const Current& current, const neck::Reading& reading) {
        if (!neck::check(layout_, std::span(&reading, 1))) return;
        found_.push_back({reading, current.from.front()});
    }

    // `scale`: what one unit of the reading is of the height meant.
    void number(const Current& current, neck::Reading reading, double scale = 1) {
        const bool whole = current.from.size() == 1;
        const metrology::Uncertain& y = whole ? current.taken.as_read : current.taken.y;
        reading.low = reading.high = y.value * scale;
        reading.sd = std::max(y.u * scale, kLeastU);
        keep(current, reading);
    }

    void interval(const Current& current, neck::Reading reading, const neck::Reading& word) {
        reading.low = word.low;
        reading.high = word.high;
        reading.sd = word.sd;
        keep(current, reading);
    }

    void heights(std::string_view what) {
        each(what, [&](const Current& c) {
            if (c.at.fret.value_or(0) < 1) return;
            for (const int string : strings_of(c.at, layout_)) number(c, height(c.at, string));
        });
    }

    // One as it was held; several have been brought to the whole neck before they were made into one.
    void reliefs() {
        each("relief", [&](const Current& c) {
            Place at = c.from.size() == 1 ? c.from.front()->at : c.at;
            if (c.from.size() > 1) at.fret.reset();
            number(c, line(at, layout_, at.fret.has_value()));
        });
    }

    void nut() {
        each("nut gap", [&](const Current& c) {
            for (const int string : strings_of(c.at, layout_)) {
                number(c, {.kind = Kind::nut_gap,
                           .string = string,
                           .fret = 1,
                           .from = c.from.front()->at.pressed.value_or(kHeldAtTwo)});
            }
        });
        each("nut tap", [&](const Current& c) {
            const auto range = evidence::range_of_word("nut tap", c.taken.word);
            if (!range) return;
            for (const int string : strings_of(c.at, layout_)) {
                neck::Reading tapped = neck::tap_word(string, kHeldAtTwo, neck::Tap::just_moves);
                tapped.low = range->low.value_or(-kInfinity);
                tapped.high = range->high.value_or(kInfinity);
                keep(c, tapped);
            }
        });
        each("nut wire", [&](const Current& c) {
            const auto word = wire(c.taken.word);
            if (!word) return;
            for (const int string : strings_of(c.at, layout_)) keep(c, neck::wire_word(string, *word));
        });
    }

    static std::optional<neck::Wire> wire(std::string_view word) {
        if (word == "loose") return neck::Wire::loose;
        if (word == "held and rings") return neck::Wire::right;
        if (word == "string lifts") return neck::Wire::lifts;
        return std::nullopt;  // "rattles": the wrong piece
    }

    void crowns() {
        each("rocker", [&](const Current& c) {
            const int fret = c.at.fret.value_or(0);
            keep(c, neck::rocker_word(string_or_centre(c.at, layout_), fret, c.taken.word == "click"));
        });
        // A leaf under the end that stands off shows twice the middle crown's height over its neighbours.
        each("rocker gap", [&](const Current& c) {
            number(c,
                   {.kind = Kind::rock, .string = string_or_centre(c.at, layout_), .fret = c.at.fret.value_or(0)},
                   0.5);
        });
        each("fret height", [&](const Current& c) {
            if (!c.at.fret) return;  // one height for the wire, not for a crown
            number(c, {.kind = Kind::crown_height, .string = string_or_centre(c.at, layout_), .fret = *c.at.fret});
        });
    }

    const CurrentReadings& readings_;
    const neck::Layout& layout_;
    std::vector<NeckReading> found_;
};

}  // namespace

std::vector<NeckReading> neck_readings(const CurrentReadings& readings, const neck::Layout& layout) {
    return Collector(readings, layout).take();
}

Asked asked_for(const neck::Reading& reading, const neck::Layout& layout) {
    Asked asked;
    if (reading.string != kCentre) asked.at.string = reading.string + 1;
    if (reading.fret > 0) asked.at.fret = reading.fret;
    switch (reading.kind) {
        case Kind::open_height:
            asked.observable = "string height";
            break;
        case Kind::fretted_height:
            asked.observable = "string height";
            asked.at.pressed = reading.from;
            break;
        case Kind::gap:
            asked.observable = reading.fret > 0 ? "straightedge gap" : "relief";
            if (reading.from != 1) asked.at.capo = reading.from;
            if (reading.to != layout.frets) asked.at.pressed = reading.to;
            break;
        case Kind::nut_gap:
            asked.observable = "nut gap";
            asked.at.fret.reset();
            if (reading.from != kHeldAtTwo) asked.at.pressed = reading.from;
            break;
        case Kind::rock:
            asked.observable = reading.is_number() ? "rocker gap" : "rocker";
            break;
        case Kind::crown_height:
            asked.observable = "fret height";
            break;
        case Kind::nut_wire:
            asked.observable = "nut wire";
            break;
    }
    return asked;
}

std::string describe(const Asked& asked) {
    std::string text = asked.observable;
    text.front() = char(std::toupper(static_cast<unsigned char>(text.front())));
    return asked.at == Place{} ? text : fmt::format("{}, {}", text, evidence::describe(asked.at));
}

}  // namespace fallaway::model
