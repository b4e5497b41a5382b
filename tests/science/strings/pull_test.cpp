#include "science/strings/pull.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "string_fixture.h"

namespace fallaway::strings {
namespace {

RC_GTEST_PROP(Pull, TensionScalesWithTheSquareOfLengthAndPitch, ()) {
    const Make make = wound(0.046, 0.0165);
    const double scale = *rc::gen::inRange(300, 600) * 1e-3;
    const double pitch = *rc::gen::inRange(40, 400) * 1.0;
    const double t = at_pitch(make, pitch, scale).tension.value;
    RC_ASSERT(std::abs(at_pitch(make, pitch, 2 * scale).tension.value / t - 4) < 1e-9);
    RC_ASSERT(std::abs(at_pitch(make, 2 * pitch, scale).tension.value / t - 4) < 1e-9);
    RC_ASSERT(std::abs(retuned({t, 0}, 2, 1).value / t - 4) < 1e-9);
}

RC_GTEST_PROP(Pull, AThickerStringPullsMore, ()) {
    const double inch = *rc::gen::inRange(20, 100) * 1e-3;
    const auto pull = [](double gauge) {
        Make make = plain_wire(gauge);
        make.wrap = Wrap::round;
        make.core = Core::hex;
        return at_pitch(make, 82.4, kScale).tension.value;
    };
    RC_ASSERT(pull(inch + 0.001) > pull(inch));
}

// Stress, strain and kappa of a plain string know no gauge, nor does their u.
TEST(Pull, GaugeDropsOutOfPlainStress) {
    const Pull thin = at_pitch(plain_wire(0.009), 329.6276);
    const Pull thick = at_pitch(plain_wire(0.017), 329.6276);
    EXPECT_NEAR(thin.stress.value / thick.stress.value, 1, 1e-12);
    EXPECT_NEAR(thin.kappa.value / thick.kappa.value, 1, 1e-12);
    EXPECT_NEAR(thin.kappa.u / thick.kappa.u, 1, 1e-9);
    EXPECT_LT(thin.kappa.u / thin.kappa.value, 0.03);
}

TEST(Pull, AWoundStringsStretchIsKnownAsWellAsItsCore) {
    const Pull pull = at_pitch(wound(0.046, 0.0165), 82.4069);
    EXPECT_NEAR(pull.kappa.u / pull.kappa.value, 0.2, 0.02);  // area goes with the square of 10 %
    EXPECT_NEAR(pull.eps.u / pull.eps.value, 0.2, 0.02);      // E I with the fourth power, under a root
    EXPECT_NEAR(pull.kappa.value, 391, 25);                   // computed beside a remembered unit weight
}

TEST(Pull, OutsideTheTableThereIsNoStrength) {
    EXPECT_FALSE(at_pitch(plain_wire(0.030), 100).strength_share.has_value());
    EXPECT_TRUE(at_pitch(plain_wire(0.026), 100).strength_share.has_value());
    Make nylon = plain_wire(0.020);
    nylon.material = Material::nylon;
    EXPECT_FALSE(at_pitch(nylon, 100).strength_share.has_value());
}

TEST(Pull, RefusesByName) {
    const Body body = good(body_of(plain_wire(0.010)));
    EXPECT_EQ(pull_of(body, {647.7, 0}, {330, 0}).error().path, "scale");
    EXPECT_EQ(pull_of(body, {0.6477, 0}, {-1, 0}).error().path, "pitch");
    EXPECT_EQ(pull_of(body, {0.6477, NAN}, {330, 0}).error().path, "scale");
}

TEST(LoadChange, TheSameStringsShareTheirError) {
    Make make = wound(0.046, 0.0165);
    make.mass = Estimate{6.82e-3, 0.03 * 6.82e-3};
    const std::vector<Pull> before{at_pitch(make, 82.4069)};
    const std::vector<Pull> after{at_pitch(make, 73.4162)};
    const double t = before[0].tension.value;
    const double down = t * (1 - std::pow(73.4162 / 82.4069, 2));
    const auto same = good(load_change(before, after, Strings::same));
    EXPECT_NEAR(same.total.value, -down, 1e-9);
    EXPECT_NEAR(same.total.u, 0.03 * down, 1e-6);
    const auto others = good(load_change(before, after, Strings::others));
    EXPECT_GT(others.total.u, 3 * same.total.u);
    EXPECT_EQ(load_change(before, {}, Strings::same).error().path, "after");
}

TEST(LoadChange, ErrorsOfASetAddInSquares) {
    std::vector<Pull> set(6);
    for (Pull& string : set) string.tension = {70, 2};
    EXPECT_DOUBLE_EQ(set_pull(set).value, 420);
    EXPECT_DOUBLE_EQ(set_pull(set).u, std::sqrt(24));
}

}  // namespace
}  // namespace fallaway::strings
