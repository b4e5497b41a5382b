// Instruments drawn from the default population, whose heights are worked out point by point with heights.h: a
// path that shares nothing with the linear forms of the fit but the shapes of the profile.
#pragma once

#include <cmath>
#include <span>
#include <vector>

#include "science/neck/beam.h"
#include "science/neck/heights.h"
#include "science/neck/neck_model.h"
#include "science/neck/readings.h"
#include "science/numeric/random.h"

namespace fallaway::neck {

// Six strings, 647.7 mm, 22 frets, 12 in radius.
inline Layout six_strings() {
    Layout layout;
    for (int i = 0; i < 6; ++i) {
        const double share = 1 - 2 * i / 5.0;  // 1 treble .. -1 bass
        layout.strings.push_back({17.5e-3 * share, 26.2e-3 * share, 0.6477, 0, 1e-3 + 0.4e-3 * i});
    }
    layout.board = {0.3048, 0.3048, 0.466};
    layout.frets = 22;
    layout.joint_fret = 16;
    layout.crown_height = 1.1e-3;
    return layout;
}

// Seven strings, fanned, on a cone.
inline Layout fanned() {
    Layout layout;
    for (int i = 0; i < 7; ++i) {
        const double share = 1 - 2 * i / 6.0;
        const double scale = 0.6477 + 0.0254 * i / 6.0;
        layout.strings.push_back({21e-3 * share, 30e-3 * share, scale, -0.008 * i / 6.0, 2e-3});
    }
    layout.board = {0.254, 0.4064, 0.48};
    layout.frets = 24;
    layout.joint_fret = 18;
    layout.crown_height = 1.2e-3;
    return layout;
}

struct SimulatedNeck {
    Layout layout;
    double relief = 0;
    double kink = 0;
    std::vector<double> crowns;  // fret 0 first; 0 at the nut unless it is a zero-fret
    std::vector<double> tilts;   // the same
    std::vector<double> slots;
    std::vector<double> actions;

    double profile(const ProfileShapes& shapes, double x) const {
        const Shapes at = shapes.at(x);
        return relief * at.bow + kink * at.past_joint;
    }
};

inline SimulatedNeck draw_neck(const Layout& layout, const Prior& prior, numeric::Random& random) {
    const auto draw = [&](const Guess& guess) { return guess.mean + guess.sd * random.normal(); };
    SimulatedNeck neck{.layout = layout, .relief = draw(prior.relief), .kink = draw(prior.kink)};
    for (int fret = 0; fret <= layout.frets; ++fret) {
        const bool crown = fret > 0 || layout.zero_fret;
        neck.crowns.push_back(crown ? draw(prior.crown) : 0);
        neck.tilts.push_back(crown ? draw(prior.tilt) : 0);
    }
    for (std::size_t i = 0; i < layout.strings.size(); ++i) {
        neck.slots.push_back(layout.zero_fret ? 0 : draw(prior.slot));
        neck.actions.push_back(draw(prior.action));
    }
    return neck;
}

// The supports of one string, or of the centre line (nut and saddle then unused).
struct Points {
    CrownLine crowns;
    double nut = 0;
    double saddle = 0;
};

inline double tilt_share(const Layout& layout, int string, int fret) {
    const int last = int(layout.strings.size()) - 1;
    const auto y = [&](int s) { return string_y(layout, s, fret_place(layout, s, fret)); };
    return 2 * y(string) / (y(0) - y(last));
}

inline Points points_of(const SimulatedNeck& neck, int string) {
    const Layout& layout = neck.layout;
    const ProfileShapes shapes(layout);
    Points points;
    if (string == kCentre) {
        for (int fret = 1; fret <= layout.frets; ++fret) {
            points.crowns.x.push_back(centre_place(layout, fret));
            points.crowns.z.push_back(neck.profile(shapes, points.crowns.x.back()) + layout.crown_height +
                                      neck.crowns[std::size_t(fret)]);
        }
        return points;
    }
    const double x_nut = layout.strings[std::size_t(string)].x_nut;
    const auto profile = [&](double x) { return neck.profile(shapes, x); };  // x along the centre line
    std::vector<double> errors;
    for (int fret = 0; fret <= layout.frets; ++fret) {
        errors.push_back(neck.crowns[std::size_t(fret)] +
                         neck.tilts[std::size_t(fret)] * tilt_share(layout, string, fret));
    }
    points.nut = profile(x_nut) - board_drop(layout, string, 0) + layout.crown_height + errors[0] +
                 neck.slots[std::size_t(string)];
    const CrownLine smooth = crowns_under(layout, string, profile);
    points.saddle = saddle_for(smooth, points.nut, 12, neck.actions[std::size_t(string)]);
    points.crowns = crowns_under(layout, string, profile, std::span(errors).subspan(1));
    return points;
}

inline double true_value(const SimulatedNeck& neck, const Reading& r) {
    const Points p = points_of(neck, r.string);
    switch (r.kind) {
        case Kind::open_height:
            return open_height(p.crowns, p.nut, p.saddle, r.fret);
        case Kind::fretted_height:
            return fretted_height(p.crowns, p.saddle, r.from, r.fret);
        case Kind::gap:
            return height_under(p.crowns, r.from, r.to, r.fret);
        case Kind::nut_gap:
            return height_behind(p.crowns, p.nut, r.from, r.fret);
        case Kind::rock:
            return rock(p.crowns, r.fret - 1, r.fret, r.fret + 1);
        case Kind::crown_height: {
            const double side = r.string == kCentre ? 0 : tilt_share(neck.layout, r.string, r.fret);
            return neck.layout.crown_height + neck.crowns[std::size_t(r.fret)] +
                   side * neck.tilts[std::size_t(r.fret)];
        }
        case Kind::nut_wire: {
            const double length = speaking_length(neck.layout, r.string);
            const ProfileShapes shapes(neck.layout);
            const double wire =
                neck.profile(shapes, neck.layout.strings[std::size_t(r.string)].x_nut + kWirePlace) -
                board_drop(neck.layout, r.string, kWirePlace) + neck.layout.crown_height;
            return p.nut + (p.saddle - p.nut) * kWirePlace / length - wire;
        }
    }
    return NAN;
}

// The reading as a tool would give it: with its error. A word falls as the erring height lies.
inline Reading take(const SimulatedNeck& neck, Reading r, numeric::Random& random) {
    const double shown = true_value(neck, r) + r.sd * random.normal();
    r.low = r.high = shown;
    return r;
}

// The basic 14: relief under both outer strings (over the middle fret of the two), every string at 1 and at 12.
inline std::vector<Reading> basic_places(const Layout& layout) {
    const int last = int(layout.strings.size()) - 1;
    std::vector<Reading> all;
    for (const int string : {0, last}) {
        all.push_back(with_number({Kind::gap, string, 8, 1, layout.frets}, 0, {0.015e-3, 1}));
    }
    for (const int fret : {1, 12}) {
        for (int s = 0; s <= last; ++s) {
            all.push_back(with_number({Kind::open_height, s, fret}, 0, {0.05e-3, 0.25}));
        }
    }
    return all;
}

// The full 54: those, nut gaps, heights at 17, rockers over 2 to 21, a straightedge over eight frets.
inline std::vector<Reading> full_places(const Layout& layout) {
    auto all = basic_places(layout);
    for (int s = 0; s < int(layout.strings.size()); ++s) {
        all.push_back(with_number({Kind::nut_gap, s, 1, 2}, 0, {0.015e-3, 0.5}));
        all.push_back(with_number({Kind::open_height, s, 17}, 0, {0.05e-3, 0.25}));
    }
    for (int fret = 2; fret <= 21; ++fret) {
        all.push_back(with_number({Kind::rock, kCentre, fret}, 0, {0.012e-3, 0.5}));
    }
    for (const int fret : {3, 5, 7, 9, 12, 15, 17, 19}) {
        all.push_back(with_number({Kind::gap, kCentre, fret, 1, layout.frets}, 0, {0.012e-3, 0.5}));
    }
    return all;
}

inline std::vector<Reading> take_all(const SimulatedNeck& neck, std::vector<Reading> places,
                                     numeric::Random& random) {
    for (Reading& r : places) r = take(neck, r, random);
    return places;
}

// With what a hand and an ear add: every fret rocked for a click, a piece of wire against every slot, the gap over
// fret 1 tapped. The word falls as the height, read with its own error, lies between its edges.
inline std::vector<Reading> with_words(std::vector<Reading> readings, const SimulatedNeck& neck,
                                       numeric::Random& random) {
    const auto shown = [&](const Reading& place, const Tool& tool) {
        return take(neck, with_number(place, 0, tool), random).low;
    };
    for (int fret = 2; fret < neck.layout.frets; ++fret) {
        const double rock = shown({Kind::rock, 0, fret}, Tools{}.click);
        readings.push_back(rocker_word(0, fret, rock > kClickFrom));
    }
    for (int s = 0; s < int(neck.layout.strings.size()); ++s) {
        const double wire = shown({Kind::nut_wire, s}, Tools{}.wire);
        const Wire word = wire > kWireDeadZone ? Wire::loose : wire < -kWireDeadZone ? Wire::lifts : Wire::right;
        readings.push_back(wire_word(s, word));
        const double gap = shown({Kind::nut_gap, s, 1, 2}, Tools{}.nut_gap);
        for (const Tap tap : {Tap::dead, Tap::just_moves, Tap::clear_gap}) {
            const Reading r = tap_word(s, 2, tap);
            if (r.low < gap && gap <= r.high) readings.push_back(r);
        }
    }
    return readings;
}

}  // namespace fallaway::neck
