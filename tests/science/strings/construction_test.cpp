#include "science/strings/construction.h"

#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "string_fixture.h"

namespace fallaway::strings {
namespace {

using std::numbers::pi;

TEST(Construction, APlainStringIsACylinder) {
    const Body body = good(body_of(plain_wire(0.010)));
    EXPECT_NEAR(body.mass.value, 7825 * pi / 4 * 0.254e-3 * 0.254e-3, 1e-12);
    EXPECT_DOUBLE_EQ(body.packing.value, 1);
    Make said_hex = plain_wire(0.010);
    said_hex.core = Core::hex;
    EXPECT_EQ(good(body_of(said_hex)).mass, body.mass);
    EXPECT_NEAR(body.second_moment.value, pi / 64 * std::pow(0.254e-3, 4), 1e-22);
}

// The mass of one turn, cut up: wire of length sqrt((pi (dc + w))^2 + w^2) a turn, w metres of string a turn.
TEST(Construction, AWrapIsAHelix) {
    Make make = wound(0.036, 0.016, Core::round);
    const double w = 0.010 * kInch;
    const double turn = std::hypot(pi * (0.016 * kInch + w), w) * pi / 4 * w * w * 7900;
    const double core = 7825 * pi / 4 * std::pow(0.016 * kInch, 2);
    EXPECT_NEAR(good(body_of(make)).mass.value, core + turn / w, 1e-9);
}

// Least packing of a close layer on a solid core: .811 on round, .798 on hex by corners (docs/strings.md).
TEST(Construction, PackingHasTheKnownMinimum) {
    for (const auto& [form, least] : {std::pair{Core::round, 0.811}, std::pair{Core::hex, 0.798}}) {
        double found = 1;
        for (double core = 0.05; core < 0.8; core += 0.005) {
            Make make = wound(0.100, 0.100 * core, form);
            make.core_density = make.wrap_density = {7850, 0};
            make.core_diameter->u = 0;
            if (const auto body = body_of(make)) found = std::min(found, body->packing.value);
        }
        EXPECT_NEAR(found, least, 0.001);
    }
}

// Published-style weights of wound strings, from memory, lie within twice the u that geometry claims for itself
// and the printed 3 %.
TEST(Construction, GeometryAgreesWithRememberedWeights) {
    const struct {
        double inch, lb_in;
    } kRows[] = {{.024, 10.857e-5}, {.026, 12.671e-5}, {.028, 14.666e-5}, {.030, 17.236e-5}, {.032, 19.347e-5},
                 {.036, 23.964e-5}, {.038, 26.471e-5}, {.042, 32.279e-5}, {.046, 38.216e-5}, {.049, 43.014e-5}};
    for (const auto& [inch, lb_in] : kRows) {
        Make make = plain_wire(inch);
        make.core = Core::hex;
        make.wrap = Wrap::round;
        const Estimate mass = good(body_of(make)).mass;
        const double printed = lb_in * kPoundPerInch;
        EXPECT_LE(std::abs(mass.value - printed), 2 * std::hypot(mass.u, 0.03 * printed)) << inch;
    }
}

TEST(Construction, AGivenMassOutranksGeometry) {
    Make make = wound(0.046, 0.0165);
    const Estimate geometry = good(body_of(make)).mass;
    make.mass = Estimate{6.8e-3, 0.2e-3};
    const Body body = good(body_of(make));
    EXPECT_EQ(body.mass, *make.mass);
    EXPECT_EQ(body.geometry_mass, geometry);
}

TEST(Construction, WrapsOrderByWhatTheyFill) {
    const auto mass = [](Wrap wrap) { return good(body_of(wound(0.046, 0.0165, Core::hex, wrap))).mass; };
    EXPECT_LT(mass(Wrap::tape).value, mass(Wrap::round).value);
    EXPECT_LT(mass(Wrap::round).value, mass(Wrap::ground).value);
    EXPECT_LT(mass(Wrap::ground).value, mass(Wrap::flat).value);
    EXPECT_LT(mass(Wrap::flat).value, 1.02 * 7900 * pi / 4 * std::pow(0.046 * kInch, 2));
    for (const Wrap wrap : {Wrap::round, Wrap::ground, Wrap::flat, Wrap::tape}) EXPECT_GT(mass(wrap).u, 0);
    EXPECT_GT(mass(Wrap::tape).u, mass(Wrap::round).u);
}

TEST(Construction, RefusesByName) {
    const auto path = [](auto change) {
        Make make = wound(0.046, 0.0165);
        change(make);
        const auto body = body_of(make);
        return body ? std::string("none") : body.error().path;
    };
    EXPECT_EQ(path([](Make&) {}), "none");
    EXPECT_EQ(path([](Make& m) { m.outer_diameter.value = 46e-3; }), "outer_diameter");
    EXPECT_EQ(path([](Make& m) { m.outer_diameter.value = NAN; }), "outer_diameter");
    EXPECT_EQ(path([](Make& m) { m.core_diameter->value = m.outer_diameter.value; }), "core_diameter");
    EXPECT_EQ(path([](Make& m) { m.core_diameter->u = -1e-6; }), "core_diameter");
    EXPECT_EQ(path([](Make& m) { m.core_density.value = 7.85; }), "core_density");
    EXPECT_EQ(path([](Make& m) { m.wrap_density.u = 9000; }), "wrap_density");
    EXPECT_EQ(path([](Make& m) { m.core_modulus.value = 200; }), "core_modulus");
    EXPECT_EQ(path([](Make& m) { m.mass = Estimate{6.8, 0.1}; }), "mass");
}

RC_GTEST_PROP(Construction, EveryFigureIsFiniteOrRefused, ()) {
    Make make;
    make.core = *rc::gen::element(Core::round, Core::hex);
    make.wrap = *rc::gen::element(Wrap::plain, Wrap::round, Wrap::ground, Wrap::flat, Wrap::tape);
    make.outer_diameter = {*rc::gen::inRange(90, 6100) * 1e-6, *rc::gen::inRange(0, 50) * 1e-6};
    make.core_diameter = Estimate{*rc::gen::inRange(40, 6000) * 1e-6, *rc::gen::inRange(0, 100) * 1e-6};
    const auto body = body_of(make);
    if (!body) {
        RC_ASSERT(!body.error().path.empty());
        return;
    }
    for (const Estimate& e :
         {body->mass, body->packing, body->core_area, body->second_moment, body->stretch, body->bending}) {
        RC_ASSERT(std::isfinite(e.value) && e.value > 0);
        RC_ASSERT(std::isfinite(e.u) && e.u >= 0);
    }
    const auto pull =
        pull_of(*body, {*rc::gen::inRange(200, 1200) * 1e-3, 1e-3}, {*rc::gen::inRange(16, 2000) * 1.0, 0.1});
    RC_ASSERT(pull.has_value());
    for (const Estimate& e : {pull->tension, pull->stress, pull->strain, pull->kappa, pull->eps}) {
        RC_ASSERT(std::isfinite(e.value) && std::isfinite(e.u) && e.value > 0);
    }
}

}  // namespace
}  // namespace fallaway::strings
