#include "science/neck/readings.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace fallaway::neck {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr int kMostFrets = 36;
// What a tap tells: below it the string is dead, above it stands clear.
constexpr double kJustMovesFrom = 0.01e-3;
constexpr double kClearFrom = 0.04e-3;

bool on_board(Kind kind) {
    return kind == Kind::gap || kind == Kind::rock || kind == Kind::crown_height;
}

using Fault = tl::unexpected<Error>;

Fault out_of_range(std::size_t i, const char* field, double value, const std::string& expected) {
    return fail("range", fmt::format("/readings/{}/{}", i, field),
                fmt::format("{} is {}: expected {}", field, value, expected));
}

// Lowest and highest fret each kind can be read over.
Result<void> check_frets(const Layout& layout, const Reading& r, std::size_t i) {
    const int last = layout.frets;
    const int first = layout.zero_fret ? 0 : 1;
    const auto within = [](int value, int low, int high) { return value >= low && value <= high; };
    const auto expect = [&](const char* field, int value, int low, int high) -> Result<void> {
        if (within(value, low, high)) return {};
        return out_of_range(i, field, value, fmt::format("{} to {}", low, high));
    };
    switch (r.kind) {
        case Kind::open_height:
            return expect("fret", r.fret, 1, last);
        case Kind::fretted_height:
            return expect("from", r.from, 1, last - 1).and_then([&] {
                return expect("fret", r.fret, r.from + 1, last);
            });
        case Kind::nut_gap:
            return expect("from", r.from, 2, last).and_then([&] { return expect("fret", r.fret, 1, r.from - 1); });
        case Kind::gap:
            return expect("from", r.from, first, last - 2)
                .and_then([&] { return expect("to", r.to, r.from + 2, last); })
                .and_then(
                    [&] { return r.fret == 0 ? Result<void>{} : expect("fret", r.fret, r.from + 1, r.to - 1); });
        case Kind::rock:
            return expect("fret", r.fret, first + 1, last - 1);
        case Kind::crown_height:
            return expect("fret", r.fret, first, last);
        case Kind::nut_wire:
            return {};
    }
    return fail("unknown", fmt::format("/readings/{}/kind", i), "kind is none of those known");
}

Result<void> check_one(const Layout& layout, const Reading& r, std::size_t i) {
    const int strings = int(layout.strings.size());
    const int lowest = on_board(r.kind) ? kCentre : 0;
    if (r.string < lowest || r.string >= strings) {
        return out_of_range(i, "string", r.string, fmt::format("{} to {}", lowest, strings - 1));
    }
    if (!(r.sd > 0) || std::isinf(r.sd)) return out_of_range(i, "sd", r.sd, "more than 0 m");
    if (!(r.minutes > 0) || std::isinf(r.minutes)) return out_of_range(i, "minutes", r.minutes, "more than 0 min");
    if (std::isnan(r.low) || r.low == kInfinity) return out_of_range(i, "low", r.low, "a length in m");
    if (!(r.low <= r.high) || r.high == -kInfinity) return out_of_range(i, "high", r.high, "at least low");
    return check_frets(layout, r, i);
}

}  // namespace

Reading with_number(Reading place, double value, const Tool& tool) {
    return with_interval(place, value, value, tool);
}

Reading with_interval(Reading place, double low, double high, const Tool& tool) {
    place.low = low;
    place.high = high;
    place.sd = tool.sd;
    place.minutes = tool.minutes;
    return place;
}

Reading rocker_word(int string, int fret, bool clicks, const Tool& tool) {
    const Reading place{.kind = Kind::rock, .string = string, .fret = fret};
    return clicks ? with_interval(place, kClickFrom, kInfinity, tool)
                  : with_interval(place, -kInfinity, kClickFrom, tool);
}

Reading wire_word(int string, Wire word, const Tool& tool) {
    const Reading place{.kind = Kind::nut_wire, .string = string};
    if (word == Wire::loose) return with_interval(place, kWireDeadZone, kInfinity, tool);
    if (word == Wire::lifts) return with_interval(place, -kInfinity, -kWireDeadZone, tool);
    return with_interval(place, -kWireDeadZone, kWireDeadZone, tool);
}

Reading tap_word(int string, int held, Tap word, const Tool& tool) {
    const Reading place{.kind = Kind::nut_gap, .string = string, .fret = 1, .from = held};
    if (word == Tap::dead) return with_interval(place, -kInfinity, kJustMovesFrom, tool);
    if (word == Tap::clear_gap) return with_interval(place, kClearFrom, kInfinity, tool);
    return with_interval(place, kJustMovesFrom, kClearFrom, tool);
}

Prior fitting(Prior prior, std::span<const Reading> readings) {
    const bool sides = std::any_of(readings.begin(), readings.end(), [](const Reading& r) {
        return (r.kind == Kind::rock || r.kind == Kind::crown_height) && r.string != kCentre;
    });
    if (!sides) prior.tilt = {};
    return prior;
}

bool same_place(const Reading& a, const Reading& b) {
    return a.kind == b.kind && a.string == b.string && a.fret == b.fret && a.from == b.from && a.to == b.to;
}

Form form_of(const NeckModel& model, const Reading& r) {
    switch (r.kind) {
        case Kind::open_height:
            return model.open_height(r.string, r.fret);
        case Kind::fretted_height:
            return model.fretted_height(r.string, r.from, r.fret);
        case Kind::gap:
            return model.gap(r.string, r.from, r.to, r.fret == 0 ? model.deepest_fret(r.from, r.to) : r.fret);
        case Kind::nut_gap:
            return model.height_behind(r.string, r.from, r.fret);
        case Kind::rock:
            return model.rock(r.string, r.fret);
        case Kind::crown_height:
            return model.crown_height(r.string, r.fret);
        case Kind::nut_wire:
            return model.over_wire(r.string, kWirePlace);
    }
    return {};
}

numeric::Observation observation_of(const NeckModel& model, const Reading& r) {
    const double u = r.kind == Kind::crown_height ? std::hypot(r.sd, kSeatScatter) : r.sd;
    return {form_of(model, r), r.low, r.high, u};
}

Result<void> check(const Layout& layout) {
    if (layout.strings.empty()) return fail("missing", "/layout/strings", "strings is empty: expected 1 or more");
    if (layout.frets < 1 || layout.frets > kMostFrets) {
        return fail("range", "/layout/frets",
                    fmt::format("frets is {}: expected 1 to {}", layout.frets, kMostFrets));
    }
    for (std::size_t i = 0; i < layout.strings.size(); ++i) {
        const StringLine& line = layout.strings[i];
        const double last = line.scale > 0 ? fret_place(layout, int(i), std::max(layout.frets, 12)) : 0;
        if (std::isfinite(line.scale) && line.scale > 0 && line.scale + line.setback > last) continue;
        return fail("range", fmt::format("/layout/strings/{}/scale", i),
                    fmt::format("scale is {} m, setback {} m: expected a saddle past the last fret", line.scale,
                                line.setback));
    }
    return {};
}

Result<void> check(const Layout& layout, std::span<const Reading> readings) {
    if (auto fine = check(layout); !fine) return fine;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (auto fine = check_one(layout, readings[i], i); !fine) return fine;
    }
    return {};
}

}  // namespace fallaway::neck
