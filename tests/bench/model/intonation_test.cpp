#include <array>

#include "model_fixture.h"
#include "science/strings/intonation.h"

namespace fallaway::model::testing {
namespace {

// Heights as a set-up leaves them: slots 0.05 mm over a zero-fret, 1.75 mm over fret 12, relief 0.2 mm.
Bench set_up(const std::string& scale = "647.7 mm") {
    Bench bench = guitar(scale);
    for (int string = 1; string <= 6; ++string) {
        read(bench, "string height", string, 1, "0.18 mm");
        read(bench, "string height", string, 12, "1.75 mm");
    }
    read(bench, "relief", 3, 8, "0.20 mm");
    return bench;
}

const StringIntonation& string_in(const std::optional<Intonation>& intonation, int string) {
    return intonation->strings.at(std::size_t(string - 1));
}

StringIntonation after_reading(Bench bench, int string, const std::string& cents, std::optional<int> fret = {}) {
    read(bench, "intonation", string, fret, cents);
    return string_in(intonation_on(bench), string);
}

// Saddle setbacks of 10 to 46 at 647.7 mm, least squares over frets 1 to 17, computed for the project by other
// code.
TEST(Intonation, WithNothingReadTellsWhereSaddlesWillWantToStand) {
    const auto intonation = intonation_on(set_up());
    ASSERT_TRUE(intonation.has_value());
    constexpr std::array kSetback{1.4e-3, 2.5e-3, 4.1e-3, 2.8e-3, 3.3e-3, 4.1e-3};
    for (int string = 1; string <= 6; ++string) {
        const StringIntonation& one = string_in(intonation, string);
        ASSERT_TRUE(one.setback.has_value());
        EXPECT_FALSE(one.move.has_value());
        EXPECT_NEAR(one.setback->value, kSetback[std::size_t(string - 1)], 0.2e-3) << string;
        EXPECT_GT(one.setback->u, 0.1e-3);
        EXPECT_LT(one.setback->u, 1e-3);
    }
}

TEST(Intonation, WithNothingKnownAtAllIsWiderAndStillThere) {
    const auto bare = intonation_on(Bench{});
    ASSERT_TRUE(bare.has_value());
    const auto known = intonation_on(set_up());
    for (int string = 1; string <= 6; ++string) {
        EXPECT_GT(string_in(bare, string).setback->u, string_in(known, string).setback->u);
    }
}

// Case I09: 0.374 mm of saddle for one cent at fret 12, 0.589 turn of a 4-40 screw; 2.00 cents a mm at 34 in. The
// move serves frets 1 to 12 together, so a doubt of the string's own may take a few parts in a hundred of it.
TEST(Intonation, OneCentAtTheTwelfthIsTheKnownWayOfSaddle) {
    Bench bench = set_up();
    bench.instrument.bridge.emplace().length_screw = "4-40";
    const StringIntonation at_2 = after_reading(bench, 1, "2.0 cents");
    const StringIntonation at_10 = after_reading(bench, 1, "10.0 cents");
    EXPECT_NEAR((at_10.move->value - at_2.move->value) / 8, 0.3741e-3, 0.05 * 0.3741e-3);
    EXPECT_NEAR((*at_10.turns - *at_2.turns) / 8, 0.589, 0.05 * 0.589 + 0.125 / 8);
    EXPECT_EQ(std::round(8 * *at_2.turns), 8 * *at_2.turns);
    const Bench longer = set_up("863.6 mm");
    const double mm =
        (after_reading(longer, 1, "10.0 cents").move->value - after_reading(longer, 1, "2.0 cents").move->value) *
        1e3;
    EXPECT_NEAR(8 / mm, 2.00, 0.05 * 2.00);
}

TEST(Intonation, SharpGoesBackFlatForwardAndTheNextMoveIsNone) {
    const StringIntonation sharp = after_reading(set_up(), 3, "8.0 cents");
    EXPECT_GT(sharp.move->value, 2e-3);
    EXPECT_LT(after_reading(set_up(), 3, "-8.0 cents").move->value, -2e-3);
    EXPECT_LT(sharp.rms_after, 0.2 * sharp.rms_now);
    EXPECT_TRUE(sharp.heard_gain);
    EXPECT_EQ(sharp.frets.size(), 12u);
    EXPECT_NEAR(sharp.twelfth_now.value, 8, 0.3);
    const std::string left =
        format_quantity(sharp.twelfth_after.value, *find_unit("cents", Dimension::interval), 2);
    const StringIntonation again = after_reading(set_up(), 3, left);
    EXPECT_NEAR(again.move->value, 0, 0.1e-3);
    EXPECT_FALSE(again.heard_gain);
}

TEST(Intonation, TheMoveIsKnownAsWellAsTheTunerTells) {
    const StringIntonation one = after_reading(set_up(), 1, "5.0 cents");
    const double tuner = one.heard.front().cents.u * 0.3741e-3;
    EXPECT_GT(one.move->u, 0.9 * tuner);
    EXPECT_LT(one.move->u, 1.5 * tuner);
    EXPECT_GT(one.u_reading, one.heard.front().cents.u);  // the note wobbles once more, and the saddle too
}

TEST(Intonation, AWornStringIsRefusedWithAReasonAndSetsNoSaddle) {
    Bench bench = set_up();
    read(bench, "intonation", 6, 1, "7.0 cents");
    read(bench, "intonation", 6, 5, "-5.0 cents");
    read(bench, "intonation", 6, 12, "4.0 cents");
    const auto intonation = intonation_on(bench);
    const StringIntonation& worn = string_in(intonation, 6);
    EXPECT_NE(worn.refused.find("no sound string"), std::string::npos) << worn.refused;
    EXPECT_FALSE(worn.move.has_value());
    EXPECT_TRUE(string_in(intonation, 5).refused.empty());
}

// What the full model itself says of a string, read at four frets, is no worn string.
TEST(Intonation, ASoundStringReadAtSeveralFretsIsNotRefused) {
    Bench bench = set_up();
    read(bench, "intonation", 3, 1, "0.9 cents");
    read(bench, "intonation", 3, 5, "3.4 cents");
    read(bench, "intonation", 3, 12, "8.5 cents");
    read(bench, "intonation", 3, 17, "13.7 cents");
    const StringIntonation one = string_in(intonation_on(bench), 3);
    EXPECT_EQ(one.refused, "");
    EXPECT_EQ(one.heard.size(), 4u);
    EXPECT_NEAR(one.move->value, 8.5 * 0.3741e-3, 0.4e-3);
    EXPECT_EQ(one.frets.size(), 12u);  // fret 17 tells, and does not count
}

TEST(Intonation, CentsThatNoSaddleExplainsAreRefused) {
    const StringIntonation far = after_reading(set_up(), 2, "60 cents");
    EXPECT_FALSE(far.refused.empty());
    EXPECT_FALSE(far.move.has_value());
}

TEST(Intonation, AHandMakesNoDifference) {
    Bench left = set_up();
    left.instrument.hand = evidence::Hand::left;
    EXPECT_EQ(after_reading(left, 4, "5 cents").move, after_reading(set_up(), 4, "5 cents").move);
}

TEST(Intonation, OnAFannedBoardEachStringGoesByItsOwnScale) {
    Bench fanned;
    string_of(fanned, "E4", "0.010 in", "600 mm");
    string_of(fanned, "E2", "0.046 in", "700 mm");
    std::array<double, 2> way{};
    for (int string = 1; string <= 2; ++string) {
        way[std::size_t(string - 1)] = after_reading(fanned, string, "9 cents").move->value -
                                       after_reading(fanned, string, "3 cents").move->value;
    }
    EXPECT_NEAR(way[0], strings::saddle_move_for(6, 0.6, 12), 0.04 * way[0]);
    EXPECT_NEAR(way[1], strings::saddle_move_for(6, 0.7, 12), 0.04 * way[1]);
}

TEST(Intonation, ABassOfFiveIsSetWhereItsGaugesAreKnown) {
    Bench bass;
    bass.instrument.kind = Kind::electric_bass;
    string_of(bass, "G2", "0.045 in");
    string_of(bass, "D2", "0.065 in");
    string_of(bass, "A1", "0.085 in");
    string_of(bass, "E1", "0.105 in");
    string_of(bass, "B0", "");
    read(bass, "intonation", 4, {}, "6 cents");
    const auto intonation = intonation_on(bass);
    ASSERT_EQ(intonation->strings.size(), 4u);
    EXPECT_NEAR(string_in(intonation, 4).move->value, 6 / 2.00 * 1e-3, 0.5e-3);
    EXPECT_FALSE(string_in(intonation, 4).turns.has_value());  // thread not told: learn it from one turn
    EXPECT_TRUE(string_in(intonation, 1).setback.has_value());
}

TEST(Intonation, AHighSlotIsToldFirst) {
    Bench bench = guitar();
    read(bench, "string height", 3, 1, "0.75 mm");
    read(bench, "string height", 3, 12, "1.90 mm");
    const StringIntonation high = after_reading(bench, 3, "3 cents");
    ASSERT_EQ(high.remarks.size(), 1u);
    EXPECT_TRUE(high.remarks[0].starts_with("Slot first")) << high.remarks[0];
    EXPECT_TRUE(after_reading(set_up(), 3, "3 cents").remarks.empty());
}

TEST(Intonation, TravelThatWasReadAsLeftIsHeldAgainstTheMove) {
    Bench bench = set_up();
    read(bench, "saddle travel left", 3, {}, "1.0 mm");
    EXPECT_EQ(after_reading(bench, 3, "9 cents").remarks.size(), 1u);
    EXPECT_TRUE(after_reading(bench, 3, "1 cents").remarks.empty());
}

TEST(Intonation, AReadingThatWorkHasOvertakenDoesNotCount) {
    Bench bench = set_up();
    read(bench, "intonation", 1, {}, "9 cents");
    bench.readings.back().when = evidence::Moment{"", 100};
    evidence::Work work;
    work.what = "saddle length";
    work.when = evidence::Moment{"", 200};
    bench.work.push_back(work);
    const auto intonation = intonation_on(bench);
    EXPECT_TRUE(string_in(intonation, 1).heard.empty());
    EXPECT_TRUE(string_in(intonation, 1).setback.has_value());
}

TEST(Intonation, WithoutFretsThereIsNone) {
    Bench bench = guitar();
    bench.instrument.fretted = false;
    EXPECT_FALSE(intonation_on(bench).has_value());
}

}  // namespace
}  // namespace fallaway::model::testing
