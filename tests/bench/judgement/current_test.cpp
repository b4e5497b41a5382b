// What is true now: stages, several readers, stale readings, general and particular places.
#include "bench/model/current.h"

#include <cmath>

#include "fixture.h"

namespace fallaway::judgement::testing {
namespace {

using model::combined;
using model::Current;
using model::CurrentReadings;
using model::Taken;

TEST(Current, NoReadingsGiveNothing) {
    const Bench b = bench();
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    EXPECT_TRUE(readings.of("relief").empty());
    EXPECT_EQ(readings.at("relief", {}), nullptr);
}

TEST(Current, TheLatestStageCounts) {
    Bench b = bench();
    b.readings = {reading("relief", "", "0.30 mm", Stage::before), reading("relief", "", "0.18 mm", Stage::after),
                  reading("relief", "", "0.40 mm", Stage::arrival)};
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    ASSERT_EQ(readings.of("relief").size(), 1u);
    EXPECT_DOUBLE_EQ(readings.of("relief")[0].taken.y.value, 0.18e-3);
}

TEST(Current, TheReadersOwnUncertaintyOutranksTheTool) {
    Bench b = bench();
    b.readings = {reading("relief", "", "0.30 mm ± 0.05 mm")};
    const Catalogue c = catalogue();
    EXPECT_DOUBLE_EQ(CurrentReadings(b, c).of("relief")[0].taken.y.u, 0.05e-3);
}

TEST(Current, WithoutAToolTheShopsDefaultIsTakenAndMarked) {
    Bench b = bench();
    b.readings = {reading("relief", "", "0.30 mm")};
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    const Taken& taken = readings.of("relief")[0].taken;
    EXPECT_TRUE(taken.tool_assumed);
    EXPECT_EQ(taken.tool, "feeler leaves");
    // The leaf's own 0.0156 mm and the last digit as written, 0.01 mm / sqrt(12).
    EXPECT_NEAR(taken.y.u, std::hypot(0.0156e-3, 0.01e-3 / std::sqrt(12.0)), 1e-12);
}

TEST(Current, TwoPeopleWhoAgreeAreCombined) {
    Bench b = bench();
    b.readings = {reading("relief", "", "0.26 mm"), reading("relief", "", "0.28 mm")};
    b.readings[0].by = "Ruta";
    b.readings[1].by = "Joon";
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    ASSERT_EQ(readings.of("relief").size(), 1u);
    EXPECT_FALSE(readings.of("relief")[0].disputed);
    EXPECT_NEAR(readings.of("relief")[0].taken.y.value, 0.27e-3, 1e-9);
}

TEST(Current, TwoPeopleWhoDifferAreBothKept) {
    // E_n = 0.18 / (2 sqrt(2) 0.0156) = 4.1, far over 1 (ISO 13528).
    Bench b = bench();
    b.readings = {reading("relief", "", "0.26 mm"), reading("relief", "", "0.44 mm")};
    b.readings[0].by = "Ruta";
    b.readings[1].by = "Joon";
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    const Current& both = readings.of("relief")[0];
    EXPECT_TRUE(both.disputed);
    EXPECT_NE(both.taken.figure.text.find("Ruta"), std::string::npos);
    EXPECT_NE(both.taken.figure.text.find("Joon"), std::string::npos);
    EXPECT_GT(both.taken.y.u, 0.09e-3);
}

TEST(Current, TurningTheRodMakesEarlierHeightsStale) {
    Bench b = bench();
    b.readings = {reading("string height", "s6f12", "1.8 mm", Stage::after)};
    b.readings[0].when = at_time(100);
    Work rod;
    rod.what = "truss rod";
    rod.when = at_time(200);
    b.work = {rod};
    const Catalogue c = catalogue();
    EXPECT_FALSE(CurrentReadings(b, c).of("string height")[0].taken.stale_because.empty());
    b.readings.push_back(reading("string height", "s6f12", "1.7 mm", Stage::after));
    b.readings[1].when = at_time(300);
    const CurrentReadings again(b, c);
    ASSERT_EQ(again.of("string height").size(), 1u);
    EXPECT_TRUE(again.of("string height")[0].taken.stale_because.empty());
    EXPECT_DOUBLE_EQ(again.of("string height")[0].taken.y.value, 1.7e-3);
}

TEST(Current, WorkElsewhereLeavesAReadingAlone) {
    Bench b = bench();
    b.readings = {reading("nut gap", "s6", "0.05 mm"), reading("nut gap", "s3", "0.05 mm")};
    Work slot;
    slot.what = "nut slot";
    slot.at = place("s3");
    b.work = {slot};
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    EXPECT_TRUE(readings.at("nut gap", place("s6"))->taken.stale_because.empty());
    EXPECT_FALSE(readings.at("nut gap", place("s3"))->taken.stale_because.empty());
}

TEST(Current, AllRangIsOverruledByTheOneNoteThatDidNot) {
    Bench b = bench();
    b.readings = {reading("note", "", "rings"), reading("note", "s2f8", "buzzes")};
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    EXPECT_EQ(readings.at("note", place("s2f8"))->taken.word, "buzzes");
    EXPECT_EQ(readings.at("note", place("s2f9"))->taken.word, "rings");
}

TEST(Current, AllRangAfterTheWorkAnswersForTheNoteThatBuzzedBefore) {
    Bench b = bench();
    b.readings = {reading("note", "s2f8", "buzzes", Stage::before), reading("note", "", "rings", Stage::after)};
    const Catalogue c = catalogue();
    const CurrentReadings readings(b, c);
    EXPECT_EQ(readings.at("note", place("s2f8"))->taken.word, "rings");
}

TEST(Current, SameToolKeepsItsCommonError) {
    // Repeats shrink only their own part: with a common part of 0.03 mm the result cannot fall below it.
    Taken a;
    Bench b = bench();
    b.readings = {reading("string height", "s1f12", "1.60 mm")};
    a.reading = &b.readings[0];
    a.observable = find_observable("string height");
    a.tool = "gauge";
    a.figure.unit = &units_of(Dimension::length)[0];
    a.u_repeat = 0.04e-3;
    a.y = {1.6e-3, 0.05e-3, metrology::kInfiniteDof};
    Taken c = a;
    c.y.value = 1.62e-3;
    const Taken both = combined(a, c);
    EXPECT_NEAR(both.y.value, 1.61e-3, 1e-9);
    EXPECT_NEAR(both.y.u, std::sqrt(0.03e-3 * 0.03e-3 + 0.04e-3 * 0.04e-3 / 2), 1e-9);
    c.tool = "another";
    EXPECT_NEAR(combined(a, c).y.u, 0.05e-3 / std::sqrt(2.0), 1e-9);
}

}  // namespace
}  // namespace fallaway::judgement::testing
