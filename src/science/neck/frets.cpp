#include "science/neck/frets.h"

#include <cmath>
#include <numbers>

namespace fallaway::neck {
namespace {

double share_of_scale(int fret) {
    return -std::expm1(-fret * std::numbers::ln2 / 12);
}  // 1 - 2^(-fret/12)

}  // namespace

Length fret_place(Length scale, int fret) {
    return scale * share_of_scale(fret);
}

Length scale_from_fret(Length place, int fret) {
    return place / share_of_scale(fret);
}

Length fret_place_by_divisor(Length scale, int fret, double divisor) {
    return scale * (1 - std::pow(1 - 1 / divisor, fret));
}

Interval error_of_fret(Length place, Length scale, int fret) {
    const Length sounding = scale - place;
    const Length exact = scale - fret_place(scale, fret);
    return Interval::cents(1200 * std::log2(exact / sounding));
}

Length radius_from_sagitta(Length chord, Length sagitta) {
    return chord * (chord / sagitta) / 8 + sagitta / 2;
}

Length sagitta_from_radius(Length chord, Length radius) {
    const double half = chord / radius / 2;
    return radius * (half * half / (1 + std::sqrt(1 - half * half)));
}

Length saddle_move_for(Interval sharp, Length scale, int fret) {
    const double span = std::expm1(fret * std::numbers::ln2 / 12);  // 2^(fret/12) - 1
    return scale * (sharp.cents() * std::numbers::ln2 / 1200 / span);
}

Length saddle_height_for(Length change, int fret) {
    return change / share_of_scale(fret);
}

}  // namespace fallaway::neck
