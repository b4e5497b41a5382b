#include "science/strings/ideal.h"

#include <array>
#include <cmath>
#include <numbers>

namespace fallaway::strings {
namespace {

constexpr double kFreeFall = 9.80665;                                      // m/s^2, CGPM 1901
constexpr double kPascalPerKsi = 4.4482216152605e3 / (25.4e-3 * 25.4e-3);  // exact definition

struct WireRow {
    double inch;
    double ksi;
};

// ASTM A228, minimum tensile strength, as reprinted by a wire maker.
constexpr std::array<WireRow, 13> kMusicWire{{{0.008, 399},
                                              {0.009, 393},
                                              {0.010, 387},
                                              {0.011, 382},
                                              {0.012, 377},
                                              {0.013, 373},
                                              {0.014, 369},
                                              {0.016, 362},
                                              {0.018, 356},
                                              {0.020, 350},
                                              {0.022, 345},
                                              {0.024, 341},
                                              {0.026, 337}}};

double wave_speed(Length scale, Frequency pitch) {
    return 2 * scale.m() * pitch.hz();
}

}  // namespace

LinearDensity plain_density(Length diameter, Density density) {
    const double d = diameter.m();
    return LinearDensity::kg_per_m(density.kg_per_m3() * std::numbers::pi * d * d / 4);
}

Force string_tension(LinearDensity mass, Length scale, Frequency pitch) {
    const double c = wave_speed(scale, pitch);
    return Force::newton(mass.kg_per_m() * c * c);
}

Pressure plain_stress(Density density, Length scale, Frequency pitch) {
    const double c = wave_speed(scale, pitch);
    return Pressure::pascal(density.kg_per_m3() * c * c);
}

Frequency pitch_at_stress(Pressure strength, Density density, Length scale) {
    return Frequency::hz(std::sqrt(strength.pascal() / density.kg_per_m3()) / (2 * scale.m()));
}

std::optional<Pressure> music_wire_strength(Length diameter) {
    constexpr double kRounding = 1e-9;
    const double inch = diameter.inch();
    if (!(inch >= kMusicWire.front().inch - kRounding && inch <= kMusicWire.back().inch + kRounding)) {
        return std::nullopt;
    }
    std::size_t upper = 1;
    while (upper + 1 < kMusicWire.size() && kMusicWire[upper].inch < inch) ++upper;
    const WireRow& a = kMusicWire[upper - 1];
    const WireRow& b = kMusicWire[upper];
    return Pressure::pascal(std::lerp(a.ksi, b.ksi, (inch - a.inch) / (b.inch - a.inch)) * kPascalPerKsi);
}

Length lying_sag(Frequency pitch) {
    return Length::m(kFreeFall / (32 * pitch.hz() * pitch.hz()));
}

Angle break_angle(Length drop, Length run) {
    return Angle::rad(std::atan2(drop.m(), run.m()));
}

Force force_on_bearing(Force tension, Angle turn) {
    return tension * (2 * std::sin(turn.rad() / 2));
}

}  // namespace fallaway::strings
