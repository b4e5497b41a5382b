#include "science/strings/choice.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "string_fixture.h"

namespace fallaway::strings {
namespace {

constexpr double kE4 = 329.6276;

std::vector<StringRow> table() {
    std::vector<StringRow> rows;
    const auto add = [&](Wrap wrap, double inch, double lb_in) {
        const double mass = lb_in * 1e-5 * kPoundPerInch;
        rows.push_back({Core::hex, wrap, Material::steel, inch * kInch, {mass, kPrintedMassU * mass}, {}, {}});
    };
    for (const auto& [inch, lb] :
         {std::pair{.009, 1.794}, {.010, 2.215}, {.011, 2.680}, {.013, 3.744}, {.017, 6.402}}) {
        add(Wrap::plain, inch, lb);
    }
    for (const auto& [inch, lb] : {std::pair{.026, 12.671}, {.036, 23.964}, {.046, 38.216}})
        add(Wrap::round, inch, lb);
    return rows;
}

TEST(Choice, ARowOutranksItsNeighboursAndGeometry) {
    const auto rows = table();
    const auto row = good(string_of_gauge(rows, 0.036 * kInch, Wrap::round));
    EXPECT_EQ(row.from, MassFrom::row);
    EXPECT_EQ(*row.row, 6u);
    EXPECT_EQ(*row.make.mass, rows[6].mass);
    const auto between = good(string_of_gauge(rows, 0.030 * kInch, Wrap::round));
    EXPECT_EQ(between.from, MassFrom::between_rows);
    EXPECT_NEAR(between.make.mass->value / (17.236e-5 * kPoundPerInch), 1, 0.03);  // the row left out
    const auto beyond = good(string_of_gauge(rows, 0.056 * kInch, Wrap::round));
    EXPECT_EQ(beyond.from, MassFrom::geometry);
    EXPECT_FALSE(beyond.make.mass.has_value());
    EXPECT_EQ(good(string_of_gauge(rows, 0.012 * kInch, Wrap::plain)).from, MassFrom::geometry);
    EXPECT_EQ(string_of_gauge(rows, 0.028 * kInch, Wrap::plain, Core::round, Material::nylon).error().code,
              "missing");
    EXPECT_EQ(string_of_gauge(rows, 46e-3, Wrap::round).error().path, "gauge");
}

TEST(Choice, TheSameGaugeIsFoundForItsOwnPull) {
    const auto rows = table();
    for (std::size_t i = 0; i < 5; ++i) {
        Seat seat{{kScale, 0}, {kE4 / 1.5, 0}, Match::tension, 0, {}, Material::steel};
        const double speed = 2 * kScale * seat.pitch.value;
        seat.wanted = rows[i].mass.value * speed * speed;
        const auto found = good(nearest_rows(rows, seat));
        ASSERT_EQ(found.size(), 3u);
        EXPECT_EQ(found[0].row, i);
        EXPECT_NEAR(found[0].off, 0, 1e-9);
        EXPECT_NEAR(found[0].u_off, kPrintedMassU, 1e-9);
        EXPECT_LE(std::abs(found[1].off), std::abs(found[2].off));
    }
}

// Same feel two semitones lower: the pull returns when the mass goes up by 2^(4/12).
TEST(Choice, SameFeelAfterAChangeOfTuning) {
    const auto rows = table();
    const double now = rows[1].mass.value * std::pow(2 * kScale * kE4, 2);
    const auto found = good(nearest_rows(
        rows, {{kScale, 0}, {kE4 * std::exp2(-2 / 12.0), 0}, Match::tension, now, {}, Material::steel}));
    EXPECT_EQ(found[0].row, 2u);  // .010 becomes .011
}

TEST(Choice, AStringNearBreakingComesLast) {
    const auto rows = table();
    const auto found = good(nearest_rows(
        rows, {{kScale, 0}, {kE4 * std::exp2(4 / 12.0), 0}, Match::tension, 100, Wrap::plain, Material::steel}));
    for (const Candidate& candidate : found) EXPECT_TRUE(candidate.near_breaking);
    EXPECT_FALSE(
        good(nearest_rows(rows, {{kScale, 0}, {kE4, 0}, Match::tension, 70, Wrap::plain, Material::steel}))[0]
            .near_breaking);
    EXPECT_EQ(nearest_rows(rows, {{kScale, 0}, {kE4, 0}, Match::tension, 0, {}, Material::steel}).error().path,
              "wanted");
    EXPECT_EQ(nearest_rows(rows, {{647.7, 0}, {kE4, 0}, Match::tension, 70, {}, Material::steel}).error().path,
              "scale");
}

TEST(Choice, FeelOfAPlainString) {
    const Feel thin = good(feel_of(at_pitch(plain_wire(0.009), kE4), kScale));
    const Feel thick = good(feel_of(at_pitch(plain_wire(0.011), kE4), kScale));
    EXPECT_NEAR(thin.aside.value, thick.aside.value, 1e-9);  // the way to a whole tone knows no gauge
    EXPECT_NEAR(thin.cents_per_metre.value / thick.cents_per_metre.value, 1, 1e-6);
    EXPECT_NEAR(thick.bend_force.value / thin.bend_force.value, std::pow(11.0 / 9, 2), 1e-6);
    EXPECT_NEAR(thin.aside.value, 19.9e-3, 0.3e-3);
    EXPECT_GT(thick.bend_force.u, 0);
    EXPECT_EQ(feel_of(at_pitch(plain_wire(0.009), kE4), kScale, 30).error().path, "fret");
    EXPECT_EQ(feel_of(at_pitch(plain_wire(0.009), kE4), kScale, 12, 900).error().path, "cents");
}

TEST(Choice, BalancedPullsAddUp) {
    const auto even = balanced_pulls(420, 6);
    for (const double pull : even) EXPECT_DOUBLE_EQ(pull, 70);
    const auto sloping = balanced_pulls(420, 6, 1.2);
    EXPECT_NEAR(sloping.back() / sloping.front(), 1.2, 1e-12);
    double sum = 0;
    for (const double pull : sloping) sum += pull;
    EXPECT_NEAR(sum, 420, 1e-9);
    EXPECT_EQ(balanced_pulls(100, 1).size(), 1u);
}

RC_GTEST_PROP(Choice, GaugeForATensionIsTheInverse, ()) {
    const double tension = *rc::gen::inRange(30, 200) * 1.0;
    const double pitch = *rc::gen::inRange(80, 400) * 1.0;
    Make make;
    make.outer_diameter = {plain_gauge_for({tension, 1}, {kScale, 0}, {pitch, 0}).value, 0};
    RC_PRE(make.outer_diameter.value > 1e-4);
    RC_ASSERT(std::abs(at_pitch(make, pitch).tension.value / tension - 1) < 1e-9);
    const auto gauge = wound_gauge_for(tension, kScale, pitch / 2, Wrap::round, Core::hex);
    if (!gauge) return;
    make.outer_diameter.value = *gauge;
    make.wrap = Wrap::round;
    make.core = Core::hex;
    RC_ASSERT(std::abs(at_pitch(make, pitch / 2).tension.value / tension - 1) < 1e-4);
}

TEST(Choice, NoWoundStringForAnything) {
    EXPECT_EQ(wound_gauge_for(1e5, kScale, 100, Wrap::round, Core::hex).error().path, "tension");
    EXPECT_EQ(wound_gauge_for(NAN, kScale, 100, Wrap::round, Core::hex).error().path, "tension");
}

}  // namespace
}  // namespace fallaway::strings
