// Strings and instruments that the tests of this room share. Unit weights: one maker's, from memory.
#pragma once

#include <cmath>
#include <stdexcept>
#include <vector>

#include "science/strings/compensation.h"
#include "science/strings/pull.h"

namespace fallaway::strings {

inline constexpr double kInch = 25.4e-3;
inline constexpr double kPoundPerInch = 0.45359237 / kInch;  // kg/m
inline constexpr double kScale = 0.6477;
inline constexpr double kG3 = 195.9977;

template <class T>
T good(Result<T> result) {
    if (!result) throw std::runtime_error(result.error().path + ": " + result.error().message);
    return *std::move(result);
}

inline Make plain_wire(double gauge_inch) {
    Make make;
    make.outer_diameter = {gauge_inch * kInch, 5e-6};
    return make;
}

inline Make wound(double gauge_inch, double core_inch, Core core = Core::hex, Wrap wrap = Wrap::round) {
    Make make = plain_wire(gauge_inch);
    make.core = core;
    make.wrap = wrap;
    make.core_diameter = Estimate{core_inch * kInch, 0.1 * core_inch * kInch};
    return make;
}

inline Pull at_pitch(const Make& make, double hz, double scale = kScale) {
    return good(pull_of(good(body_of(make)), {scale, 0}, {hz, 0}));
}

// Even relief between frets 1 and 22, heights as a set-up leaves them; m.
struct Bench {
    double scale = kScale;
    double relief = 0.2e-3;
    double nut_over = 0.05e-3;  // over a fret at the nut
    double action = 1.75e-3;    // over fret 12
    int frets = 22;
    double u_height = 0;
};

inline StringPath path_on(const Bench& bench) {
    const auto place = [&](double fret) { return bench.scale * (1 - std::exp2(-fret / 12)); };
    const auto board = [&](double x) {
        const double u = (x - place(1)) / (place(22) - place(1));
        return -4 * bench.relief * u * (1 - u);
    };
    Heights h;
    h.saddle_x = bench.scale;
    h.nut_z = board(0) + bench.nut_over;
    h.saddle_z = h.nut_z + (board(place(12)) + bench.action - h.nut_z) * bench.scale / place(12);
    h.u_nut_z = h.u_saddle_z = bench.u_height;
    for (int fret = 1; fret <= bench.frets; ++fret) {
        const double x = place(fret);
        h.crowns.push_back({fret, x, board(x), usual_press_distance(x - place(fret - 1)), 0});
    }
    return good(path_of(h));
}

inline Response exactly(double kappa, double eps) {
    Response r;
    r.kappa = kappa;
    r.eps = eps;
    return r;
}

}  // namespace fallaway::strings
