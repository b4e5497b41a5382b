#include <array>

#include "model_fixture.h"

namespace fallaway::model::testing {
namespace {

// 10 to 46 at 647.7 mm: pull and stretch as computed for the project by other code from the same unit weights.
TEST(Strings, OfTheUsualSetPullAndStretchAsComputedElsewhere) {
    const FittedStrings fitted = strings_on(guitar());
    constexpr std::array kPull{72.1, 68.4, 73.7, 81.9, 86.9, 77.8};
    constexpr std::array kStretch{141.0, 250.0, 397.0, 268.0, 309.0, 391.0};
    ASSERT_EQ(fitted.strings.size(), 6u);
    EXPECT_TRUE(fitted.left_out.empty());
    double sum = 0;
    for (std::size_t i = 0; i < 6; ++i) {
        const FittedString& string = fitted.strings[i];
        EXPECT_NEAR(string.pull.tension.value, kPull[i], 0.005 * kPull[i]) << i;
        EXPECT_NEAR(string.pull.kappa.value, kStretch[i], 0.01 * kStretch[i]) << i;
        EXPECT_EQ(string.gauge_from, GaugeFrom::usual);
        EXPECT_TRUE(string.kind_assumed);
        EXPECT_EQ(string.mass_from, strings::MassFrom::row);
        EXPECT_EQ(string.wrap, i < 3 ? strings::Wrap::plain : strings::Wrap::round);
        sum += kPull[i];
    }
    EXPECT_NEAR(fitted.pull.value, sum, 1);
    EXPECT_NEAR(fitted.pull.u, 0.03 * sum / std::sqrt(6), 2);  // printed masses: 3 % each, by themselves
}

TEST(Strings, AStatedStringIsTheStatedOne) {
    Bench bench = guitar();
    string_of(bench, "E4", "0.011 in");
    bench.instrument.strings[0].wrap = "plain";
    const FittedStrings fitted = strings_on(bench);
    ASSERT_EQ(fitted.strings.size(), 1u);
    EXPECT_EQ(fitted.strings[0].gauge_from, GaugeFrom::stated);
    EXPECT_FALSE(fitted.strings[0].kind_assumed);
    EXPECT_NEAR(fitted.strings[0].pull.tension.value, 87.2, 0.5);  // 0.0000268 lb/in, Mersenne by hand
}

TEST(Strings, AGaugeThatWasReadBearsTheUsualOneOutOrTakesItsPlace) {
    Bench bench = guitar();
    read(bench, "string gauge", 1, {}, "0.26 mm");
    read(bench, "string gauge", 2, {}, "0.28 mm");
    const FittedStrings fitted = strings_on(bench);
    EXPECT_EQ(fitted.strings[0].gauge_from, GaugeFrom::read);
    EXPECT_NEAR(fitted.strings[0].gauge.value, 0.254e-3, 1e-9);
    EXPECT_EQ(fitted.strings[1].gauge_from, GaugeFrom::read);
    EXPECT_NEAR(fitted.strings[1].gauge.value, 0.28e-3, 1e-9);
    // A plain string's mass goes with its section: what the caliper leaves open counts twice.
    const Uncertain gauge = fitted.strings[1].gauge;
    EXPECT_NEAR(fitted.strings[1].pull.tension.u / fitted.strings[1].pull.tension.value, 2 * gauge.u / gauge.value,
                0.01);
}

TEST(Strings, ABassHasItsUsualSetAndAFifthStringNeedsItsGauge) {
    Bench four;
    four.instrument.kind = Kind::electric_bass;
    EXPECT_EQ(strings_on(four).strings.size(), 4u);
    Bench five = four;
    for (const char* note : {"G2", "D2", "A1", "E1", "B0"}) string_of(five, note, "");
    const FittedStrings none = strings_on(five);
    EXPECT_TRUE(none.strings.empty());
    ASSERT_EQ(none.left_out.size(), 5u);
    EXPECT_EQ(none.left_out[4].string, 5);
    EXPECT_EQ(none.left_out[4].because, "its gauge is not known: read it");
    read(five, "string gauge", 5, {}, "3.30 mm");
    const FittedStrings one = strings_on(five);
    ASSERT_EQ(one.strings.size(), 1u);
    EXPECT_EQ(one.strings[0].string, 5);
    EXPECT_NEAR(one.strings[0].pull.tension.value, 155, 25);  // a .130 low B at 864 mm pulls 35 lbf or so
}

TEST(Strings, OnAFannedBoardPullGoesWithTheSquareOfTheScale) {
    Bench fanned;
    string_of(fanned, "E4", "0.010 in", "640 mm");
    string_of(fanned, "E4", "0.010 in", "680 mm");
    const FittedStrings fitted = strings_on(fanned);
    ASSERT_EQ(fitted.strings.size(), 2u);
    EXPECT_NEAR(fitted.strings[1].pull.tension.value / fitted.strings[0].pull.tension.value,
                (680.0 / 640) * (680.0 / 640), 1e-9);
}

TEST(Strings, WithoutANoteOrWithAGaugeThatCannotBeIsLeftOutWithTheReason) {
    Bench bench = guitar();
    string_of(bench, "E4", "0.010 in");
    bench.instrument.strings.push_back({});  // two strings: no usual tuning, no usual set
    string_of(bench, "C-1", "0.010 in");     // 8 Hz
    const FittedStrings fitted = strings_on(bench);
    EXPECT_EQ(fitted.strings.size(), 1u);
    ASSERT_EQ(fitted.left_out.size(), 2u);
    EXPECT_EQ(fitted.left_out[0].because, "its note is not known");
    EXPECT_NE(fitted.left_out[1].because.find("pitch"), std::string::npos) << fitted.left_out[1].because;
}

}  // namespace
}  // namespace fallaway::model::testing
