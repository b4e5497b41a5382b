#include "neck_truth.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace fallaway::demo {
namespace {

using neck::kCentre;
using neck::What;

// Of the words of "nut tap": edges as a bench file means them.
constexpr double kMovesFrom = 0.02e-3;
constexpr double kClearFrom = 0.08e-3;
// How sharply a finger knows them: common practice, no source.
constexpr double kTapScatter = 0.005e-3;

// Room for every unknown, so that each is one.
neck::Prior everything() {
    const neck::Guess any{0, 1};
    return {.relief = any,
            .skew = any,
            .kink = any,
            .hump = any,
            .crown = any,
            .tilt = any,
            .slot = any,
            .action = any,
            .actions = {}};
}

double line(double x0, double z0, double x1, double z1, double x) {
    return z0 + (z1 - z0) * (x - x0) / (x1 - x0);
}

}  // namespace

NeckTruth::NeckTruth(const neck::Layout& layout, const neck::NeckBeam& wood)
    : model_(layout, everything()),
      shapes_(layout),
      moves_(layout),
      wood_(wood),
      state_(model_.unknowns().size()) {}

std::size_t NeckTruth::index_of(What what, int at) const {
    const auto& all = model_.unknowns();
    const bool by_string = what == What::slot || what == What::action;
    const auto found = std::find(all.begin(), all.end(), neck::Unknown{what, by_string ? at - 1 : at});
    if (found == all.end()) throw std::out_of_range("no such part of this neck");
    return static_cast<std::size_t>(found - all.begin());
}

void NeckTruth::set(What what, int at, double value) {
    state_[index_of(what, at)] = value;
}

double NeckTruth::of(What what, int at) const {
    return state_[index_of(what, at)];
}

void NeckTruth::scatter_crowns(double sd, numeric::Random& random) {
    for (int fret = 1; fret <= layout().frets; ++fret) {
        set(What::crown, fret, sd * random.normal());
        set(What::tilt, fret, sd / 2 * random.normal());
    }
}

void NeckTruth::set_height_at_12(int string, double height) {
    state_[index_of(What::action, string)] += height - open_height(string, 12);
}

void NeckTruth::bend(double more_relief) {
    for (int string = 1; string <= int(layout().strings.size()); ++string) {
        state_[index_of(What::action, string)] += moves_.open_height({.relief = more_relief}, string - 1, 12);
    }
    state_[index_of(What::relief, 0)] += more_relief;
}

void NeckTruth::move(int string, const neck::Moves& nut_or_saddle) {
    state_[index_of(What::action, string)] += moves_.open_height(nut_or_saddle, string - 1, 12);
    state_[index_of(What::slot, string)] += nut_or_saddle.nut;
}

double NeckTruth::value(const neck::Form& form) const {
    return numeric::mean_of({state_, {}}, form);
}

double NeckTruth::width_at(double x) const {
    return line(0, wood_.width_nut, fret_place(layout().frets), wood_.width_last, x);
}

double NeckTruth::thickness_at(double x) const {
    return line(0, wood_.depth_nut, fret_place(12), wood_.depth_12, x);
}

double NeckTruth::radius_at(double x) const {
    return neck::board_radius(layout().board, x);
}

double NeckTruth::fret_place(int fret) const {
    return neck::centre_place(layout(), fret);
}

double NeckTruth::fretted_height(int string, int held, int over) const {
    return value(model_.fretted_height(string - 1, held, over));
}

double NeckTruth::gap(int string, int from, int to, int over) const {
    return value(model_.gap(string - 1, from, to, over));
}

Dip NeckTruth::relief(int string, int from, int to) const {
    Dip deepest{-1, from};
    for (int fret = from + 1; fret < to; ++fret) {
        const double depth = gap(string, from, to, fret);
        if (depth > deepest.depth) deepest = {depth, fret};
    }
    return deepest;
}

double NeckTruth::nut_gap(int string) const {
    return std::max(0.0, value(model_.height_behind(string - 1, 2, 1)));
}

double NeckTruth::rock(int string, int fret) const {
    return value(model_.rock(string - 1, fret));
}

double NeckTruth::crown_height(int string, int fret) const {
    return value(model_.crown_height(string - 1, fret));
}

double NeckTruth::over_wire(int string) const {
    return value(model_.over_wire(string - 1, neck::kWirePlace));
}

double NeckTruth::pickup_gap(int string, double x, double top) const {
    const int last = layout().frets;
    const double over = line(model_.place(string - 1, last), value(model_.crown(string - 1, last)),
                             neck::speaking_length(layout(), string - 1), value(model_.saddle(string - 1)), x);
    return over - of(What::relief) * shapes_.at(x).bow - top;
}

void string_up(NeckTruth& neck, std::span<const StringTruth> strings) {
    for (std::size_t i = 0; i < strings.size(); ++i) {
        neck.set(What::slot, int(i) + 1, strings[i].slot);
        neck.set_height_at_12(int(i) + 1, strings[i].height_at_12);
    }
}

std::string_view heard(const NeckTruth& neck, int string, int fret, double pick) {
    const double from = neck.fret_place(fret);
    const double length = neck::speaking_length(neck.layout(), string - 1) - from;
    double touching = 1;  // the smallest swing that touches a crown ahead, m
    for (int over = fret + 1; over <= neck.layout().frets; ++over) {
        const double way = neck.fret_place(over) - from;
        const double excursion = std::min({1.0, way / pick, (length - way) / pick});
        touching = std::min(touching, neck.fretted_height(string, fret, over) / excursion);
    }
    if (touching < 0.25e-3) return "chokes";
    if (touching < 0.41e-3) return "buzzes";
    return touching < 0.47e-3 ? "rattles when struck hard" : "rings";
}

std::string_view rocker_word(const NeckTruth& neck, int string, int fret, numeric::Random& random) {
    const double felt = neck.rock(string, fret) + neck::Tools{}.click.sd * random.normal();
    return felt > neck::kClickFrom ? "click" : "no click";
}

std::string_view tap_word(const NeckTruth& neck, int string, numeric::Random& random) {
    const double felt = neck.nut_gap(string) + kTapScatter * random.normal();
    return felt < kMovesFrom ? "dead" : felt < kClearFrom ? "just moves" : "clear gap";
}

std::string_view wire_word(const NeckTruth& neck, int string, numeric::Random& random) {
    const double felt = neck.over_wire(string) + neck::Tools{}.wire.sd * random.normal();
    return felt > neck::kWireDeadZone ? "loose" : felt < -neck::kWireDeadZone ? "string lifts" : "held and rings";
}

}  // namespace fallaway::demo
