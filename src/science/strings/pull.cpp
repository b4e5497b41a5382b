#include "science/strings/pull.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "science/strings/ideal.h"

namespace fallaway::strings {
namespace {

constexpr double pi = std::numbers::pi;

double tension_of(double mass, double scale, double pitch) {
    return string_tension(LinearDensity::kg_per_m(mass), Length::m(scale), Frequency::hz(pitch)).newton();
}

bool within(const Estimate& e, double low, double high) {
    return e.value >= low && e.value <= high && e.u >= 0 && e.u < e.value;
}

// All figures but the tension rest on mass, scale, pitch and the size and modulus of the core, carried together so
// that what they share is counted once.
void fill_stiffness(Pull& pull, const Body& body, Estimate scale, Estimate pitch) {
    const double shape = body.core_area.value / (body.core_diameter.value * body.core_diameter.value);
    const double bend_shape = body.second_moment.value / std::pow(body.core_diameter.value, 4);
    const std::initializer_list<Estimate> causes{body.mass, scale, pitch, body.core_diameter,
                                                 body.make.core_modulus};
    const auto area = [shape](auto x) { return shape * x[3] * x[3]; };
    const auto tension = [](auto x) { return tension_of(x[0], x[1], x[2]); };
    const auto eps = [=](auto x) { return std::sqrt(x[4] * bend_shape * std::pow(x[3], 4) / tension(x)) / x[1]; };
    pull.stress = carried([=](auto x) { return tension(x) / area(x); }, causes);
    pull.strain = carried([=](auto x) { return tension(x) / (x[4] * area(x)); }, causes);
    pull.kappa = carried([=](auto x) { return x[4] * area(x) / tension(x); }, causes);
    pull.eps = carried(eps, causes);
    pull.inharmonicity = carried([=](auto x) { return pi * pi * eps(x) * eps(x); }, causes);
    // A plain string's mass is its own core's: with it by geometry, gauge drops out of stress, strain and kappa.
    if (body.make.wrap != Wrap::plain || body.make.mass) return;
    const std::initializer_list<Estimate> plain{body.make.core_density, scale, pitch, body.make.core_modulus};
    pull.stress = carried([](auto x) { return tension_of(x[0], x[1], x[2]); }, plain);
    pull.strain = carried([](auto x) { return tension_of(x[0], x[1], x[2]) / x[3]; }, plain);
    pull.kappa = carried([](auto x) { return x[3] / tension_of(x[0], x[1], x[2]); }, plain);
}

void fill_strength(Pull& pull, const Body& body, Estimate pitch) {
    if (body.make.material != Material::steel) return;
    const auto least = music_wire_strength(Length::m(body.core_diameter.value));
    if (!least) return;
    const double strength = least->pascal();
    pull.strength_share = Estimate{pull.stress.value / strength, pull.stress.u / strength};
    pull.breaking_pitch =
        carried([](auto x) { return x[1] / std::sqrt(x[0]); }, {*pull.strength_share, Estimate{pitch.value, 0}});
}

}  // namespace

Result<Pull> pull_of(const Body& body, Estimate scale, Estimate pitch) {
    if (!within(scale, 0.2, 1.2)) {
        return fail("range", "scale", fmt::format("{:g} ± {:g} m: expected 0.2 to 1.2 m", scale.value, scale.u));
    }
    if (!within(pitch, 15, 2000)) {
        return fail("range", "pitch", fmt::format("{:g} ± {:g} Hz: expected 15 to 2000 Hz", pitch.value, pitch.u));
    }
    Pull pull;
    pull.tension = carried([](auto x) { return tension_of(x[0], x[1], x[2]); }, {body.mass, scale, pitch});
    fill_stiffness(pull, body, scale, pitch);
    fill_strength(pull, body, pitch);
    return pull;
}

Estimate set_pull(std::span<const Pull> strings) {
    std::vector<Estimate> tensions;
    for (const Pull& string : strings) tensions.push_back(string.tension);
    return total(tensions);
}

Result<LoadChange> load_change(std::span<const Pull> before, std::span<const Pull> after, Strings strings) {
    if (before.size() != after.size()) {
        return fail("range", "after",
                    fmt::format("{} strings: expected {} as before", after.size(), before.size()));
    }
    LoadChange change;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const Estimate& a = before[i].tension;
        const Estimate& b = after[i].tension;
        const double u = strings == Strings::same ? std::abs(b.u - a.u) : std::hypot(a.u, b.u);
        change.each.push_back({b.value - a.value, u});
    }
    change.total = total(change.each);
    return change;
}

Estimate retuned(Estimate tension, double scale_ratio, double pitch_ratio) {
    const double factor = scale_ratio * scale_ratio * pitch_ratio * pitch_ratio;
    return {tension.value * factor, tension.u * factor};
}

}  // namespace fallaway::strings
