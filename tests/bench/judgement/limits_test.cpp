// A value against its limit. The rules are docs/judgement.md; limits here are invented for the test.
#include "fixture.h"

namespace fallaway::judgement::testing {
namespace {

Assessment with_heights(const std::vector<std::string>& values) {
    Bench b = bench();
    add_heights(b, values);
    return assess(b, catalogue());
}

TEST(Limits, SixUsualHeightsAreFine) {
    const auto a = with_heights({"1.80 mm", "1.75 mm", "1.70 mm", "1.60 mm", "1.50 mm", "1.45 mm"});
    EXPECT_EQ(answer(a, "height-12").state, AnswerState::fine);
    for (const Line& line : answer(a, "height-12").lines) EXPECT_EQ(line.standing, Standing::usual);
}

TEST(Limits, RunFromBassToTrebleInEvenSteps) {
    // 2.2 at string 6, 1.8 at string 1: string 3 may be 1.96. 2.05 mm is outside there and usual on string 6.
    const auto a = with_heights({"2.05 mm", "1.7 mm", "1.7 mm", "2.05 mm", "1.5 mm", "1.5 mm"});
    EXPECT_EQ(find(a, "height-12@s6.f12"), nullptr);
    const Finding* third = find(a, "height-12@s3.f12");
    ASSERT_NE(third, nullptr);
    EXPECT_EQ(third->standing, Standing::outside);
    EXPECT_EQ(third->severity, Severity::major);
    EXPECT_EQ(third->cure, Cure::set_up);
    EXPECT_EQ(third->limit, "1.12 to 1.96 mm");
}

TEST(Limits, LowAndCleanIsANoteAndNeedsNoCure) {
    const auto a = with_heights({"0.8 mm", "0.8 mm", "0.8 mm", "0.8 mm", "0.8 mm", "0.8 mm"});
    const Finding* low = find(a, "height-12@s6.f12");
    ASSERT_NE(low, nullptr);
    EXPECT_EQ(low->severity, Severity::note);
    EXPECT_EQ(low->cure, Cure::none);
}

TEST(Limits, TheEdgeIsNoFault) {
    // u of the gauge is 0.038 mm, so 2.22 over a limit of 2.20 is at the edge.
    const auto a = with_heights({"2.22 mm", "1.7 mm", "1.7 mm", "1.6 mm", "1.5 mm", "1.5 mm"});
    EXPECT_EQ(answer(a, "height-12").state, AnswerState::fine);
    EXPECT_EQ(answer(a, "height-12").lines.back().standing, Standing::at_the_edge);
}

TEST(Limits, ARuleDecidesWhereTheValueIsClear) {
    Bench b = bench();
    Reading coarse = reading("string height", "s6f12", "4.0 mm");
    coarse.tool = "steel rule 0.5 mm";
    b.readings.push_back(coarse);
    const auto a = assess(b, catalogue());
    ASSERT_NE(find(a, "height-12@s6.f12"), nullptr);
    EXPECT_EQ(find(a, "height-12@s6.f12")->severity, Severity::major);
}

TEST(Limits, BeyondTheMajorLimitIsOneClassWorse) {
    Bench b = bench();
    b.readings = {reading("nut gap", "s6", "0.10 mm"), reading("nut gap", "s5", "0.20 mm")};
    const auto a = assess(b, catalogue());
    ASSERT_NE(find(a, "nut@s6"), nullptr);
    ASSERT_NE(find(a, "nut@s5"), nullptr);
    EXPECT_EQ(find(a, "nut@s6")->severity, Severity::minor);
    EXPECT_EQ(find(a, "nut@s5")->severity, Severity::major);
}

TEST(Limits, StrictLimitsSayCannotTellAndNameTheCure) {
    Bench b = bench();
    b.readings = {reading("fret overhang", "f7", "0.045 mm")};
    const auto a = assess(b, catalogue());
    const Answer& overhang = answer(a, "overhang");
    EXPECT_EQ(overhang.state, AnswerState::cannot_tell);
    ASSERT_EQ(overhang.lines.size(), 1u);
    EXPECT_EQ(overhang.lines[0].standing, Standing::undecided);
    // The finest tool for this was used already, and no tool separates 0.045 from 0.050 mm.
    EXPECT_NE(overhang.because.find("any tool here"), std::string::npos) << overhang.because;
    // p_conform = Phi(0.005/0.010) = 0.6915 (normal table); the last digit as written adds a trifle to u.
    EXPECT_NEAR(*overhang.lines[0].p_conform, 0.6915, 2e-4);
}

TEST(Limits, WantedHeightReplacesThePracticeBand) {
    Bench b = bench();
    b.wants.emplace();
    b.wants->height_bass = quantity("2.5 mm", Dimension::length);
    b.wants->height_treble = quantity("2.0 mm", Dimension::length);
    add_heights(b, {"2.5 mm", "2.4 mm", "2.3 mm", "2.2 mm", "2.1 mm", "1.6 mm"});
    const auto a = assess(b, catalogue());
    EXPECT_EQ(find(a, "height-12@s6.f12"), nullptr);
    ASSERT_NE(find(a, "height-12@s1.f12"), nullptr);
    EXPECT_EQ(find(a, "height-12@s1.f12")->limit_source, "the player's want");
}

TEST(Limits, TheShopsOwnLimitComesBeforeTheProcedures) {
    Bench b = bench();
    LimitOverride own;
    own.checkpoint = "height-12";
    own.high = quantity("1.5 mm", Dimension::length);
    own.source = "shop rule 4";
    b.limits = {own};
    add_heights(b, {"1.7 mm", "1.4 mm", "1.4 mm", "1.4 mm", "1.4 mm", "1.4 mm"});
    const auto a = assess(b, catalogue());
    ASSERT_NE(find(a, "height-12@s6.f12"), nullptr);
    EXPECT_EQ(find(a, "height-12@s6.f12")->limit, "up to 1.5 mm");
    EXPECT_EQ(find(a, "height-12@s6.f12")->limit_source, "shop rule 4");
}

TEST(Limits, ARattleAtAHardStrikeCountsOnlyWhereNoneIsAllowed) {
    Bench b = bench();
    b.readings = {reading("note", "s2f8", "rattles when struck hard")};
    EXPECT_EQ(find(assess(b, catalogue()), "ring@s2.f8"), nullptr);
    b.wants.emplace();
    b.wants->rattle = RattleAllowed::none;
    const auto a = assess(b, catalogue());
    ASSERT_NE(find(a, "ring@s2.f8"), nullptr);
    EXPECT_EQ(find(a, "ring@s2.f8")->severity, Severity::major);
}

TEST(Limits, RatingsFailAtTheirClassAndOneLower) {
    Bench b = bench();
    const auto severity = [&](int step) -> std::optional<Severity> {
        b.ratings = {rating("head-break", step)};
        const auto a = assess(b, catalogue());
        const Finding* finding = find(a, "head-break");
        return finding ? std::optional(finding->severity) : std::nullopt;
    };
    EXPECT_EQ(severity(0), Severity::critical);
    EXPECT_EQ(severity(1), Severity::major);
    EXPECT_EQ(severity(2), std::nullopt);
    EXPECT_EQ(severity(3), std::nullopt);
}

}  // namespace
}  // namespace fallaway::judgement::testing
