#include "science/neck/beam.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace fallaway::neck {
namespace {

constexpr int kPoints = 601;  // straight lines between them are within 2e-6 of the deepest dip

double mean_over_strings(const Layout& layout, double share, double error) {
    double sum = 0;
    for (const StringLine& line : layout.strings) sum += line.x_nut + line.scale * share;
    return sum / static_cast<double>(layout.strings.size()) + error;
}

double share_of_scale(double fret) {
    return -std::expm1(-fret * std::numbers::ln2 / 12);
}

}  // namespace

double half_ellipse_moment(double half_width, double depth) {
    constexpr double kShape = std::numbers::pi / 8 - 8 / (9 * std::numbers::pi);
    return half_width * depth * depth * depth * kShape;
}

double centre_place(const Layout& layout, int fret) {
    const auto measured = static_cast<std::size_t>(fret);
    const double error = fret >= 1 && measured <= layout.fret_errors.size() ? layout.fret_errors[measured - 1] : 0;
    return mean_over_strings(layout, share_of_scale(fret), error);
}

double centre_place_of_joint(const Layout& layout) {
    return mean_over_strings(layout, share_of_scale(layout.joint_fret), 0);
}

std::vector<double> clamped_deflection(std::span<const double> curvature, double step) {
    std::vector<double> w(curvature.size(), 0.0);
    double slope = 0;  // towards the nut: dw/d(joint - x)
    for (std::size_t i = curvature.size(); i-- > 1;) {
        const double near = curvature[i];
        const double far = curvature[i - 1];
        w[i - 1] = w[i] + slope * step + (near / 3 + far / 6) * step * step;
        slope += (near + far) / 2 * step;
    }
    return w;
}

BentNeck::BentNeck(const Layout& layout, const NeckBeam& beam)
    : first_(centre_place(layout, 1)),
      last_(centre_place(layout, layout.frets)),
      joint_(centre_place_of_joint(layout)) {
    const double widening = (beam.width_last - beam.width_nut) / last_;
    const double deepening = (beam.depth_12 - beam.depth_nut) / mean_over_strings(layout, share_of_scale(12), 0);
    std::vector<double> curvature;
    curvature.reserve(kPoints);
    for (int i = 0; i < kPoints; ++i) {
        const double x = joint_ * i / (kPoints - 1);
        const double area_moment =
            half_ellipse_moment((beam.width_nut + widening * x) / 2, beam.depth_nut + deepening * x);
        curvature.push_back(beam.offset / (beam.modulus * area_moment));
    }
    rise_ = clamped_deflection(curvature, joint_ / (kPoints - 1));
}

double BentNeck::at(double x) const {
    if (x >= joint_) return 0;
    const double place = x / joint_ * (kPoints - 1);
    const auto i = static_cast<std::size_t>(std::clamp(std::floor(place), 0.0, kPoints - 2.0));
    return rise_[i] + (rise_[i + 1] - rise_[i]) * (place - static_cast<double>(i));
}

double BentNeck::over_chord(double x) const {
    return at(x) - (at(first_) + (at(last_) - at(first_)) * (x - first_) / (last_ - first_));
}

double BentNeck::deepest_dip() const {
    double deepest = 0;
    for (int i = 0; i < kPoints; ++i) {
        const double x = first_ + (last_ - first_) * i / (kPoints - 1);
        deepest = std::max(deepest, -over_chord(x));
    }
    return deepest;
}

BeamBend bend_under(const Layout& layout, const NeckBeam& beam, double load) {
    const BentNeck neck(layout, beam);
    int deepest = 2;
    for (int fret = 3; fret < layout.frets; ++fret) {
        if (neck.over_chord(centre_place(layout, fret)) < neck.over_chord(centre_place(layout, deepest)))
            deepest = fret;
    }
    return {.moment = load * beam.offset,
            .relief = load * neck.deepest_dip(),
            .deepest_fret = deepest,
            .nut_lift = load * neck.at(0)};
}

}  // namespace fallaway::neck
