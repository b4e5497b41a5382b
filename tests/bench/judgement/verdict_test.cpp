// One verdict on the scope, what decides it, what is told apart, and what to read next.
#include "fixture.h"

namespace fallaway::judgement::testing {
namespace {

Bench all_answered() {
    Bench b = bench();
    b.ratings = {rating("head-break", 3), rating("cavity", 3)};
    add_heights(b, {"1.8 mm", "1.8 mm", "1.7 mm", "1.6 mm", "1.5 mm", "1.5 mm"});
    for (int string = 1; string <= 6; ++string)
        b.readings.push_back(reading("nut gap", "s" + std::to_string(string), "0.04 mm"));
    b.readings.push_back(reading("fret overhang", "", "0.01 mm"));
    b.readings.push_back(reading("note", "", "rings"));
    return b;
}

TEST(VerdictOf, NothingLookedAtCannotTell) {
    const auto a = assess(bench("quick look"), catalogue());
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    ASSERT_FALSE(a.next.empty());
    EXPECT_FALSE(a.assumed.empty());
}

TEST(VerdictOf, AllAnsweredIsReady) {
    const auto a = assess(all_answered(), catalogue());
    EXPECT_EQ(a.verdict, Verdict::ready) << (a.reasons.empty() ? "" : a.reasons[0]);
    EXPECT_TRUE(a.findings.empty());
    EXPECT_TRUE(a.next.empty());
}

TEST(VerdictOf, TheScopeAloneDecides) {
    Bench b = bench("quick look");
    b.ratings = {rating("head-break", 3)};
    b.readings = {reading("note", "", "rings")};
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::ready);
    ASSERT_FALSE(a.not_looked_at.empty());  // heights, nut, cavity: told, never blocking
}

TEST(VerdictOf, WeightOrdersTheVerdicts) {
    Bench b = all_answered();
    b.readings.push_back(reading("note", "s2f8", "buzzes"));
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::set_up_first);
    b.ratings[1].step = 0;
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::repair_first);
    Claim wood;
    wood.id = "wood";
    wood.what = "body wood";
    wood.value = std::string("ash");
    wood.outcome = "contradicted";
    b.claims = {wood};
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::send_back);
}

TEST(VerdictOf, MinorFindingsDoNotMoveIt) {
    Bench b = all_answered();
    b.readings.push_back(reading("nut gap", "s6", "0.10 mm", Stage::before));
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::ready);
    EXPECT_NE(find(a, "nut@s6"), nullptr);
}

TEST(VerdictOf, AnAcceptedFindingNoLongerCounts) {
    Bench b = all_answered();
    b.readings.push_back(reading("string height", "s6f12", "2.6 mm", Stage::before));
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::set_up_first);
    Acceptance yes;
    yes.finding = "height-12@s6.f12";
    yes.value = "2.6 mm";
    yes.by = "Maren Tolk";
    yes.why = "plays slide";
    b.accepted = {yes};
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::ready);
    // The value moves by more than its u: the acceptance lapses.
    b.readings.back() = reading("string height", "s6f12", "2.9 mm", Stage::before);
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::set_up_first);
    EXPECT_TRUE(find(a, "height-12@s6.f12")->acceptance_lapsed);
}

TEST(VerdictOf, WhatHandsMayNotDoIsNeverAskedAndNeverBlocks) {
    Bench b = all_answered();
    b.hands = Hands::look_only;
    b.ratings.pop_back();  // the cavity was not opened
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::ready);
    EXPECT_EQ(answer(a, "cavity").state, AnswerState::forbidden);
    for (const NextReading& next : a.next) EXPECT_NE(next.checkpoint, "cavity");
    ASSERT_EQ(a.not_looked_at.size(), 1u);
}

TEST(VerdictOf, NextReadingsGoByValueAMinute) {
    const auto a = assess(bench(), catalogue());
    ASSERT_GE(a.next.size(), 3u);
    EXPECT_EQ(a.next[0].checkpoint, "head-break");  // critical and a minute long
    for (std::size_t i = 1; i < a.next.size(); ++i)
        EXPECT_GE(a.next[i - 1].value_per_minute, a.next[i].value_per_minute);
}

TEST(VerdictOf, AComplaintBringsItsCheckpointsForward) {
    Bench b = bench();
    b.ratings = {rating("head-break", 3)};
    const auto rank_of_ring = [&] {
        const auto a = assess(b, catalogue());
        for (std::size_t i = 0; i < a.next.size(); ++i) {
            if (a.next[i].checkpoint == "cavity") return i;
        }
        return a.next.size();
    };
    const auto before = rank_of_ring();
    b.wants.emplace();
    b.wants->complaints = {{"B buzzes around the eighth", place("s2f8"), std::nullopt}};
    EXPECT_GE(rank_of_ring(), before);
}

TEST(VerdictOf, PartlyReadStringsAreNamed) {
    Bench b = all_answered();
    b.readings.erase(b.readings.begin() + 2);  // string 4
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    EXPECT_EQ(answer(a, "height-12").state, AnswerState::incomplete);
    EXPECT_NE(answer(a, "height-12").because.find("string 4"), std::string::npos);
}

TEST(VerdictOf, OneFigureForTheWholeGuitarIsLegal) {
    Bench b = all_answered();
    std::erase_if(b.readings, [](const Reading& r) { return r.what == "string height"; });
    b.readings.push_back(reading("string height", "f12", "1.7 mm"));
    EXPECT_EQ(answer(assess(b, catalogue()), "height-12").state, AnswerState::fine);
}

TEST(VerdictOf, OneNoteIsNotEveryNote) {
    Bench b = all_answered();
    b.readings.back() = reading("note", "s1f5", "rings");
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    EXPECT_EQ(answer(a, "ring").because, "137 places not read");  // 6 strings, open and 22 frets
}

TEST(VerdictOf, TwoPeopleWhoDifferDecideNothing) {
    Bench b = all_answered();
    for (const char* by : {"Ruta", "Joon"}) {
        b.readings.push_back(reading("string height", "s1f12", by[0] == 'R' ? "1.5 mm" : "1.1 mm", Stage::before));
        b.readings.back().by = by;
    }
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    EXPECT_EQ(answer(a, "height-12").state, AnswerState::cannot_tell);
}

TEST(VerdictOf, AnEmptyScopeIsNeverReady) {
    Bench b = bench("own");
    b.scope.checkpoints = {"no-such-place"};
    EXPECT_EQ(assess(b, catalogue()).verdict, Verdict::cannot_tell_yet);
}

TEST(VerdictOf, AnAcceptanceOfNothingIsTold) {
    Bench b = all_answered();
    Acceptance yes;
    yes.finding = "misspelt@s9";
    yes.by = "Maren Tolk";
    yes.why = "wanted so";
    b.accepted = {yes};
    EXPECT_NE(find(assess(b, catalogue()), "accepted:misspelt@s9"), nullptr);
}

TEST(Complaints, AnOpenOneKeepsTheInstrumentFromBeingReady) {
    Bench b = all_answered();
    b.wants.emplace();
    b.wants->complaints = {{"B buzzes around the eighth", place("s2f8"), std::nullopt}};
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    EXPECT_NE(a.reasons[0].find("B buzzes"), std::string::npos);
}

TEST(Complaints, ACureIsShownByAReadingAfterTheWork) {
    Bench b = all_answered();
    b.wants.emplace();
    Complaint complaint{"B buzzes around the eighth", place("s2f8"), ComplaintEnding{}};
    complaint.ending->as = Ending::cured;
    complaint.ending->shown_by = {"again"};
    b.wants->complaints = {complaint};
    b.readings.push_back(reading("note", "s2f8", "rings", Stage::before));
    b.readings.back().id = "again";
    auto a = assess(b, catalogue());
    EXPECT_FALSE(a.complaints[0].shown);
    EXPECT_EQ(a.verdict, Verdict::cannot_tell_yet);
    b.readings.back().stage = Stage::after;
    a = assess(b, catalogue());
    EXPECT_TRUE(a.complaints[0].shown);
    EXPECT_EQ(a.verdict, Verdict::ready);
}

TEST(Complaints, AreTiedToFindingsAtThePlaceAndJustAboveIt) {
    Bench b = all_answered();
    b.wants.emplace();
    b.wants->complaints = {{"B buzzes around the eighth", place("s2f8"), std::nullopt}};
    b.readings.push_back(reading("note", "s2f8", "buzzes"));
    b.readings.push_back(reading("fret overhang", "f9", "0.30 mm"));
    const auto a = assess(b, catalogue());
    EXPECT_EQ(a.complaints[0].findings, (std::vector<std::string>{"overhang@f9", "ring@s2.f8"}));
}

TEST(Changes, BeforeAndAfterOnSixStrings) {
    Bench b = bench();
    add_heights(b, {"2.4 mm", "2.3 mm", "2.2 mm", "2.1 mm", "2.0 mm", "1.9 mm"}, Stage::before);
    add_heights(b, {"1.9 mm", "1.8 mm", "1.7 mm", "1.6 mm", "1.5 mm", "1.4 mm"}, Stage::after);
    const auto a = assess(b, catalogue());
    ASSERT_EQ(a.changes.size(), 1u);
    EXPECT_EQ(a.changes[0].paired.n, 6);
    EXPECT_NEAR(a.changes[0].paired.mean, -0.5e-3, 1e-9);
    EXPECT_TRUE(a.changes[0].paired.real);
}

TEST(Changes, AChangeWithinTheToolIsNone) {
    Bench b = bench();
    b.readings = {reading("relief", "", "0.20 mm", Stage::before), reading("relief", "", "0.21 mm", Stage::after)};
    const auto a = assess(b, catalogue());
    ASSERT_EQ(a.changes.size(), 1u);
    EXPECT_FALSE(a.changes[0].paired.real);
}

TEST(CardOf, AnotherInspectorLineByLine) {
    Bench b = all_answered();
    Card card;
    card.by = "Pell Audry";
    card.lines.resize(4);
    card.lines[0] = {"string height", place("s6f12"), Value(quantity("1.8 mm", Dimension::length)),
                     std::nullopt,    std::nullopt,   std::nullopt};
    card.lines[1] = {"string height", place("s1f12"), Value(quantity("1.0 mm", Dimension::length)),
                     std::nullopt,    std::nullopt,   std::nullopt};
    card.lines[2] = {"head-break", {}, std::nullopt, 0, std::nullopt, std::nullopt};
    card.lines[3] = {"relief",     {},           Value(quantity("0.2 mm", Dimension::length)),
                     std::nullopt, std::nullopt, std::nullopt};
    b.card = card;
    const auto a = assess(b, catalogue());
    ASSERT_EQ(a.card.size(), 4u);
    EXPECT_EQ(a.card[0].outcome, CardOutcome::agrees);
    EXPECT_EQ(a.card[1].outcome, CardOutcome::differs);
    EXPECT_EQ(a.card[2].outcome, CardOutcome::differs);
    EXPECT_EQ(a.card[3].outcome, CardOutcome::not_checked);
}

TEST(PriceOf, FewSalesAreListedManyAreRanked) {
    Bench b = all_answered();
    b.price.emplace();
    b.price->asked = quantity("1400 EUR", Dimension::money);
    for (const char* sale : {"700 EUR", "750 EUR", "800 EUR"})
        b.price->like.push_back({quantity(sale, Dimension::money), "own log"});
    auto a = assess(b, catalogue());
    ASSERT_TRUE(a.price.has_value());
    EXPECT_TRUE(a.price->words.empty());
    EXPECT_EQ(a.price->sources.size(), 3u);
    for (const char* sale : {"820 EUR", "840 EUR", "900 EUR"})
        b.price->like.push_back({quantity(sale, Dimension::money), "own log"});
    a = assess(b, catalogue());
    EXPECT_EQ(a.price->words, "far above");
    ASSERT_NE(find(a, "price"), nullptr);
    EXPECT_EQ(a.verdict, Verdict::ready);  // a price is a note
}

TEST(Assess, TheSameEvidenceGivesTheSameAnswer) {
    Bench b = all_answered();
    b.readings.push_back(reading("note", "s2f8", "buzzes"));
    const auto once = assess(b, catalogue());
    const auto twice = assess(b, catalogue());
    EXPECT_EQ(once.reasons, twice.reasons);
    ASSERT_EQ(once.findings.size(), twice.findings.size());
    for (std::size_t i = 0; i < once.findings.size(); ++i) EXPECT_EQ(once.findings[i].id, twice.findings[i].id);
}

}  // namespace
}  // namespace fallaway::judgement::testing
