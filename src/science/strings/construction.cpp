#include "science/strings/construction.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace fallaway::strings {
namespace {

using std::numbers::pi;
using std::numbers::sqrt3;

constexpr double kInch = 25.4e-3;  // m

// What one layer of geometry leaves out (flats on a hex core, wire pressed out of round): common practice, no
// source.
double model_u(const Make& make) {
    switch (make.wrap) {
        case Wrap::plain:
            return 0;
        case Wrap::round:
            return make.core == Core::hex ? 0.02 : 0.01;
        case Wrap::ground:
            return 0.03;
        case Wrap::flat:
            return 0.03;
        case Wrap::tape:
            return 0.04;
    }
    return 0;
}

double area_of(Core core, double d) {
    return core == Core::hex ? sqrt3 / 2 * d * d : pi / 4 * d * d;
}

double second_moment_of(Core core, double d) {
    return core == Core::hex ? 5 * sqrt3 / 144 * std::pow(d, 4) : pi / 64 * std::pow(d, 4);
}

// Width over which the wrap is laid.
double seat_of(Core core, double d) {
    return core == Core::hex ? 2 / sqrt3 * d : d;
}

// Volume per length of one close layer of wire w round `seat`, of which `share` of each wire's circle is left.
double helix(double seat, double w, double share) {
    return share * pi * w / 4 * std::hypot(pi * (seat + w), w);
}

// What is left of a circle's area when a strip as deep as `ground` of its diameter is taken off.
double left_of_circle(double ground) {
    const double c = 1 - 2 * ground;
    return 1 - (std::acos(c) - c * std::sqrt(1 - c * c)) / pi;
}

// The figures that geometry rests on, in the order in which they are carried.
struct Sizes {
    double outer, core, core_density, wrap_density, ground, flat_fill, tape, tape_fill, tape_density, model;
};

double mass_by_geometry(const Make& make, const Sizes& s) {
    const double core = s.core_density * area_of(make.core, s.core);
    if (make.wrap == Wrap::plain) return core;
    const double seat = seat_of(make.core, s.core);
    const double ring = pi / 4 * (s.outer * s.outer - seat * seat);
    switch (make.wrap) {
        case Wrap::ground: {
            const double w = (s.outer - seat) / (2 - 2 * s.ground);
            return s.model * (core + s.wrap_density * helix(seat, w, left_of_circle(s.ground)));
        }
        case Wrap::flat:
            return s.model * (core + s.wrap_density * s.flat_fill * ring);
        case Wrap::tape: {
            const double inner = s.outer - 2 * s.tape;
            const double tape = pi / 4 * (s.outer * s.outer - inner * inner);
            return s.model * (core + s.wrap_density * helix(seat, (inner - seat) / 2, 1) +
                              s.tape_density * s.tape_fill * tape);
        }
        default:
            return s.model * (core + s.wrap_density * helix(seat, (s.outer - seat) / 2, 1));
    }
}

Estimate geometry_mass(const Make& make, Estimate core) {
    const auto f = [&make](std::span<const double> x) {
        const double core_now = make.wrap == Wrap::plain ? x[0] : x[1];
        return mass_by_geometry(make, {x[0], core_now, x[2], x[3], x[4], x[5], x[6], x[7], x[8], x[9]});
    };
    return carried(f, {make.outer_diameter, core, make.core_density, make.wrap_density, kGroundShare, kFlatFill,
                       kTapeThickness, kTapeFill, kNylonDensity, Estimate{1, model_u(make)}});
}

bool within(const Estimate& e, double low, double high) {
    return e.value >= low && e.value <= high && e.u >= 0 && std::isfinite(e.u) && e.u < e.value;
}

tl::unexpected<Error> out_of_range(const char* field, const Estimate& e, double low, double high,
                                   const char* unit) {
    return fail(
        "range", field,
        fmt::format("{:g} ± {:g} {}: expected {:g} to {:g} {}, its u at least 0 and smaller than the value",
                    e.value, e.u, unit, low, high, unit));
}

Result<Estimate> checked_core(const Make& make) {
    if (make.wrap == Wrap::plain) return make.outer_diameter;
    const Estimate core = make.core_diameter.value_or(usual_core_diameter(make.outer_diameter.value));
    if (!within(core, 50e-6, 6e-3)) return out_of_range("core_diameter", core, 50e-6, 6e-3, "m");
    const double tape = make.wrap == Wrap::tape ? 2 * (kTapeThickness.value + kTapeThickness.u) : 0;
    const double room = make.outer_diameter.value - make.outer_diameter.u - tape;
    if (!(seat_of(make.core, core.value + core.u) < room)) {
        return fail(
            "range", "core_diameter",
            fmt::format("{:g} m: no room for a wrap within {:g} m", core.value, make.outer_diameter.value));
    }
    return core;
}

}  // namespace

Estimate usual_core_diameter(double outer_diameter) {
    const double inch = outer_diameter / kInch;
    const double core = 0.0165 * kInch * std::pow(inch / 0.046, 0.288);
    return {core, core * (inch >= 0.020 && inch <= 0.056 ? 0.10 : 0.20)};
}

Result<Body> body_of(const Make& told) {
    Make make = told;
    if (make.wrap == Wrap::plain) make.core = Core::round;  // a plain string is drawn round
    if (!within(make.outer_diameter, 1e-4, 6e-3)) {
        return out_of_range("outer_diameter", make.outer_diameter, 1e-4, 6e-3, "m");
    }
    if (!within(make.core_density, 500, 22000)) {
        return out_of_range("core_density", make.core_density, 500, 22000, "kg/m3");
    }
    if (!within(make.wrap_density, 500, 22000)) {
        return out_of_range("wrap_density", make.wrap_density, 500, 22000, "kg/m3");
    }
    if (!within(make.core_modulus, 1e8, 1e12)) {
        return out_of_range("core_modulus", make.core_modulus, 1e8, 1e12, "Pa");
    }
    if (make.mass && !within(*make.mass, 1e-5, 0.2)) return out_of_range("mass", *make.mass, 1e-5, 0.2, "kg/m");
    const auto core = checked_core(make);
    if (!core) return tl::unexpected(core.error());

    const Core form = make.core;
    Body body;
    body.make = make;
    body.core_diameter = *core;
    body.geometry_mass = geometry_mass(make, *core);
    body.mass = make.mass.value_or(body.geometry_mass);
    body.packing = carried([](auto x) { return x[0] / (x[1] * pi / 4 * x[2] * x[2]); },
                           {body.mass, make.core_density, make.outer_diameter});
    body.core_area = carried([form](auto x) { return area_of(form, x[0]); }, {*core});
    body.second_moment = carried([form](auto x) { return second_moment_of(form, x[0]); }, {*core});
    body.stretch = carried([form](auto x) { return x[1] * area_of(form, x[0]); }, {*core, make.core_modulus});
    body.bending =
        carried([form](auto x) { return x[1] * second_moment_of(form, x[0]); }, {*core, make.core_modulus});
    return body;
}

}  // namespace fallaway::strings
