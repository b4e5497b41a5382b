// The survey of a whole instrument: from a bench file's readings back to the neck they were taken on.
#include "bench/model/neck_survey.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "bench/judgement/judge.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "stories.h"

namespace fallaway::model {
namespace {

using evidence::Bench;
using neck::What;

constexpr double kMm = 1e-3;
constexpr double kWithin = 1.96;  // u, of a 95 % interval

Bench decoded(const std::string& text) {
    auto bench = files::decode_bench(text);
    if (bench) return *bench;
    for (const Error& error : bench.error()) ADD_FAILURE() << error.path << ": " << error.message;
    return {};
}

// `instrument` and `readings` as JSON between their brackets.
Bench bench_of(const std::string& instrument, const std::string& readings, const std::string& more = "") {
    return decoded(R"({"fallaway": 1, "instrument": {)" + instrument + R"(}, "readings": [)" + readings + "]" +
                   more + "}");
}

std::optional<NeckSurvey> survey(const Bench& bench) {
    return survey_neck(bench, CurrentReadings(bench, files::built_in_catalogue()));
}

NeckSurvey surveyed(const Bench& bench) {
    auto made = survey(bench);
    EXPECT_TRUE(made.has_value());
    return made.value_or(NeckSurvey{});
}

const std::string kGuitar = R"("kind": "electric guitar")";

std::string height(int string, int fret, const std::string& value, const std::string& more = "") {
    return R"({"what": "string height", "at": {"string": )" + std::to_string(string) + R"(, "fret": )" +
           std::to_string(fret) + R"(}, "value": ")" + value + "\"" + more + "}";
}

// How many truths lie within their 95 % interval.
struct Coverage {
    int inside = 0;
    int all = 0;

    void hold(const Uncertain& found, double truth) {
        ++all;
        inside += std::abs(found.value - truth) <= kWithin * found.u;
    }
    double share() const { return double(inside) / all; }
};

// What a survey is held against, by kind.
struct Recovery {
    Coverage clearances;
    Coverage strings;  // slots, heights over 1, 12 and the last
    Coverage relief;
    Coverage crowns;  // off the wanted shape, under every string
};

double true_off(const demo::NeckTruth& truth, int string, int fret) {
    const neck::NeckModel& model = truth.model();
    const double x = model.place(string, fret);
    const neck::Shapes shapes = neck::ProfileShapes(truth.layout()).at(x);
    return truth.value(model.crown(string, fret) - model.smooth_crown(string, x)) +
           shapes.hump * truth.of(What::hump) + shapes.skew * truth.of(What::skew);
}

void hold_against(const NeckSurvey& found, const demo::NeckTruth& truth, Recovery& recovery) {
    const int last = truth.layout().frets;
    for (const neck::Clearance& c : found.clearances) {
        recovery.clearances.hold({c.value, c.u}, truth.fretted_height(c.string + 1, c.held, c.over));
    }
    for (const StringSurvey& s : found.strings) {
        recovery.strings.hold(s.slot, truth.of(What::slot, s.string));
        recovery.strings.hold(s.over_first, truth.open_height(s.string, 1));
        recovery.strings.hold(s.over_twelfth, truth.open_height(s.string, 12));
        recovery.strings.hold(s.over_last, truth.open_height(s.string, last));
    }
    double deepest = 0;  // where a leaf finds it, beside a fret that stands a little high
    for (int fret = 2; fret < last; ++fret) {
        deepest = std::max(deepest, truth.value(truth.model().gap(neck::kCentre, 1, last, fret)));
    }
    recovery.relief.hold(found.relief, deepest);
    for (const CrownSurvey& crown : found.crowns) {
        for (std::size_t i = 0; i < crown.off_under.size(); ++i) {
            recovery.crowns.hold(crown.off_under[i], true_off(truth, int(i), crown.fret));
        }
    }
}

demo::Visit visit_of(const std::string& name) {
    const auto& files = demo::demo_files();
    const auto file = std::ranges::find_if(files, [&](const demo::DemoFile& one) { return one.name == name; });
    return file->write(file->seed);
}

void expect_recovered(const Coverage& coverage, const char* of, double least = 0.90) {
    ::testing::Test::RecordProperty(of, std::to_string(coverage.inside) + " of " + std::to_string(coverage.all));
    EXPECT_GE(coverage.share(), least) << of << ": " << coverage.inside << " of " << coverage.all;
}

TEST(NeckSurveyOfTheHeron, FindsTheNeckItsReadingsWereTakenOn) {
    const demo::Visit heron = visit_of("heron.json");
    const NeckSurvey found = surveyed(decoded(heron.bench_file));
    Recovery recovery;
    hold_against(found, heron.neck, recovery);
    expect_recovered(recovery.clearances, "clearances");
    expect_recovered(recovery.strings, "strings");
    expect_recovered(recovery.crowns, "crowns");
    expect_recovered(recovery.relief, "relief", 1);
    EXPECT_TRUE(found.disagreements.empty());
    EXPECT_EQ(found.left_out, 0);
}

TEST(NeckSurveyOfTheHeron, NamesTheProudFretAndTheLowSlot) {
    const Bench bench = decoded(visit_of("heron.json").bench_file);
    const NeckSurvey found = surveyed(bench);
    const auto under_first = [](const CrownSurvey& crown) { return crown.off_under.front().value; };
    const auto proud = std::ranges::max_element(found.crowns, {}, under_first);
    EXPECT_EQ(proud->fret, 9);
    EXPECT_GT(proud->off_under.front().value - kWithin * proud->off_under.front().u, 0.03 * kMm);
    EXPECT_LT(proud->off_under.back().value, 0.03 * kMm);
    const auto low =
        std::ranges::min_element(found.strings, {}, [](const StringSurvey& s) { return s.slot.value; });
    EXPECT_EQ(low->string, 3);
    EXPECT_LT(low->slot.value + kWithin * low->slot.u, -0.02 * kMm);
    // Where the player hears it: the second string held at the eighth has the least room over the ninth.
    EXPECT_EQ(found.strings[1].least_held, 8);
    EXPECT_EQ(found.strings[1].least_over, 9);
    const auto judged = judgement::assess(bench, files::built_in_catalogue());
    EXPECT_TRUE(std::ranges::any_of(judged.findings, [](const judgement::Finding& finding) {
        return finding.checkpoint == "fret-level" && finding.at.fret == 9 && finding.at.side == "treble";
    }));
}

// One visit may be lucky: n = 25 more, seeds 1001 to 1025.
TEST(NeckSurveyOfTheHeron, IsAsSureAsItSaysOverManyVisits) {
    Recovery recovery;
    int named = 0;
    int told = 0;
    for (std::uint64_t seed = 1001; seed <= 1025; ++seed) {
        const demo::Visit heron = demo::heron(seed);
        const NeckSurvey found = surveyed(decoded(heron.bench_file));
        hold_against(found, heron.neck, recovery);
        const auto proud =
            std::ranges::max_element(found.crowns, {}, [](const CrownSurvey& c) { return c.off_under[0].value; });
        named += proud->fret == 9;
        told += int(found.disagreements.size());
    }
    expect_recovered(recovery.clearances, "clearances");
    expect_recovered(recovery.strings, "strings");
    expect_recovered(recovery.crowns, "crowns");
    expect_recovered(recovery.relief, "relief", 0.88);  // 25 in all: 22 and more
    EXPECT_EQ(named, 25);
    EXPECT_LE(told, 1);  // sound readings that are called a blunder: fewer than one visit in ten
}

// The bass was set up between its readings: rod, saddles and two slots. Those before the work tell nothing now.
TEST(NeckSurveyOfTheBass, IsTheOneAfterTheWork) {
    const demo::Visit dray = visit_of("dray.json");
    const Bench bench = decoded(dray.bench_file);
    const NeckSurvey found = surveyed(bench);
    Recovery recovery;
    hold_against(found, dray.neck, recovery);
    expect_recovered(recovery.clearances, "clearances");
    expect_recovered(recovery.strings, "strings");
    expect_recovered(recovery.relief, "relief", 1);
    Bench before = bench;
    before.work.clear();
    std::erase_if(before.readings, [](const evidence::Reading& r) { return r.stage == evidence::Stage::after; });
    const NeckSurvey then = surveyed(before);
    EXPECT_NEAR(then.relief.value - found.relief.value, 0.3 * kMm,
                kWithin * std::hypot(then.relief.u, found.relief.u));
    for (std::size_t i = 0; i < 4; ++i) {
        EXPECT_GT(then.strings[i].over_twelfth.value, found.strings[i].over_twelfth.value + 0.5 * kMm);
    }
    EXPECT_GT(then.strings[3].slot.value, found.strings[3].slot.value + 0.1 * kMm);
}

TEST(NeckSurvey, NoReadingGivesWhatIsUsual) {
    const NeckSurvey found = surveyed(bench_of(kGuitar, ""));
    EXPECT_EQ(found.readings, 0);
    ASSERT_EQ(found.strings.size(), 6u);
    ASSERT_EQ(found.crowns.size(), 22u);
    EXPECT_NEAR(found.relief.value, 0.2 * kMm, 0.01 * kMm);
    EXPECT_GT(found.relief.u, 0.1 * kMm);
    for (const StringSurvey& s : found.strings) {
        EXPECT_NEAR(s.over_twelfth.value, 1.8 * kMm, 0.01 * kMm);
        EXPECT_GT(s.over_twelfth.u, 0.5 * kMm);
    }
    EXPECT_TRUE(found.disagreements.empty());
    EXPECT_FALSE(found.next.empty());
}

TEST(NeckSurvey, ThreeReadingsSayMoreWhereTheyWereTaken) {
    const NeckSurvey usual = surveyed(bench_of(kGuitar, ""));
    const NeckSurvey found =
        surveyed(bench_of(kGuitar, height(6, 12, "2.10 mm") + "," + height(1, 12, "1.70 mm") + "," +
                                       R"({"what": "relief", "at": {"string": 6}, "value": "0.30 mm"})"));
    EXPECT_EQ(found.readings, 3);
    EXPECT_NEAR(found.strings[5].over_twelfth.value, 2.10 * kMm, 0.03 * kMm);
    EXPECT_NEAR(found.strings[0].over_twelfth.value, 1.70 * kMm, 0.03 * kMm);
    EXPECT_NEAR(found.relief.value, 0.30 * kMm, 0.02 * kMm);
    EXPECT_LT(found.strings[5].over_twelfth.u, 0.05 * kMm);
    // The strings between lean on their neighbours: better known than before, less than those that were read.
    EXPECT_LT(found.strings[2].over_twelfth.u, usual.strings[2].over_twelfth.u / 2);
    EXPECT_GT(found.strings[2].over_twelfth.u, 2 * found.strings[0].over_twelfth.u);
    EXPECT_NEAR(found.strings[2].over_twelfth.value, 1.86 * kMm, kWithin * found.strings[2].over_twelfth.u);
    // Nobody looked at crowns and slots.
    EXPECT_GT(found.strings[5].slot.u, 0.05 * kMm);
    EXPECT_GT(found.crowns[10].off.u, 0.02 * kMm);
}

// Heights of a sound guitar, string 6 half a millimetre wrong over fret 12.
std::string with_a_slip() {
    std::string readings;
    const std::pair<int, std::array<const char*, 6>> rows[] = {
        {1, {"0.35 mm", "0.35 mm", "0.35 mm", "0.35 mm", "0.35 mm", "0.40 mm"}},
        {12, {"1.70 mm", "1.75 mm", "1.80 mm", "1.90 mm", "1.95 mm", "2.50 mm"}},
        {17, {"1.95 mm", "2.00 mm", "2.05 mm", "2.15 mm", "2.20 mm", "2.25 mm"}},
        {22, {"2.15 mm", "2.20 mm", "2.25 mm", "2.35 mm", "2.40 mm", "2.50 mm"}}};
    for (const auto& [fret, values] : rows) {
        for (int string = 1; string <= 6; ++string) {
            readings += height(string, fret, values[std::size_t(string - 1)]) + ",";
        }
    }
    return readings + R"({"what": "relief", "at": {"string": 6}, "value": "0.20 mm"},)" +
           R"({"what": "relief", "at": {"string": 1}, "value": "0.20 mm"})";
}

TEST(NeckSurvey, AReadingHalfAMillimetreOffIsNamedAndLeftOut) {
    const Bench bench = bench_of(kGuitar, with_a_slip());
    const NeckSurvey found = surveyed(bench);
    ASSERT_EQ(found.disagreements.size(), 1u);
    const Disagreement& told = found.disagreements.front();
    const Asked slip{"string height", {.string = 6, .fret = 12}};
    EXPECT_EQ(told.suspects.front(), slip);
    EXPECT_GT(told.probability.front(), 0.5);
    EXPECT_TRUE(told.texts.front().starts_with("String height, string 6, fret 12: 2.50 mm, expected 1.9"))
        << told.texts.front();
    EXPECT_EQ(told.decider, slip);
    EXPECT_TRUE(told.again);
    EXPECT_EQ(found.left_out, 1);
    EXPECT_EQ(found.readings, 25);
    // As if it had never been read.
    Bench without = bench;
    std::erase_if(without.readings,
                  [&](const evidence::Reading& r) { return r.what == slip.observable && r.at == slip.at; });
    EXPECT_NEAR(found.strings[5].over_twelfth.value, surveyed(without).strings[5].over_twelfth.value, 0.005 * kMm);
    const auto judged = judgement::assess(bench, files::built_in_catalogue());
    const auto finding =
        std::ranges::find(judged.findings, "readings@s6.f12:string height", &judgement::Finding::id);
    ASSERT_NE(finding, judged.findings.end());
    EXPECT_EQ(finding->remedy, "Read again: String height, string 6, fret 12");
}

TEST(NeckSurvey, WhatWorkHasOvertakenIsLeftOut) {
    const std::string before = R"(, "when": "2026-11-03T10:00:00+01:00", "stage": "before")";
    const std::string after = R"(, "when": "2026-11-03T12:00:00+01:00", "stage": "before")";
    const std::string work =
        R"(, "work": [{"what": "saddle height", "at": {"string": 6}, "amount": "1 turn down",)"
        R"( "when": "2026-11-03T11:00:00+01:00"}])";
    const std::string old = height(6, 12, "2.80 mm", before);
    const NeckSurvey fresh = surveyed(bench_of(kGuitar, old));
    EXPECT_NEAR(fresh.strings[5].over_twelfth.value, 2.80 * kMm, 0.05 * kMm);
    const NeckSurvey stale = surveyed(bench_of(kGuitar, old, work));
    EXPECT_EQ(stale.readings, 0);
    EXPECT_NEAR(stale.strings[5].over_twelfth.value, 1.8 * kMm, 0.01 * kMm);
    const NeckSurvey again = surveyed(bench_of(kGuitar, old + "," + height(6, 12, "2.30 mm", after), work));
    EXPECT_EQ(again.readings, 1);
    EXPECT_NEAR(again.strings[5].over_twelfth.value, 2.30 * kMm, 0.05 * kMm);
}

// A relief counts by the line it was read under: 0.11 mm from 3 to 15 is 0.24 mm or so of the whole neck, alone
// and beside another.
TEST(NeckSurvey, AReliefUnderAShorterLineIsBroughtToTheWholeNeck) {
    const std::string part =
        R"({"what": "relief", "at": {"string": 3, "capo": 3, "pressed": 15}, "value": "0.11 mm", "tool": "dial indicator"})";
    const std::string whole =
        R"(,{"what": "relief", "at": {"string": 3}, "value": "0.24 mm", "tool": "dial indicator"})";
    const NeckSurvey alone = surveyed(bench_of(kGuitar, part));
    EXPECT_NEAR(alone.relief.value, 0.24 * kMm, kWithin * alone.relief.u);
    EXPECT_GT(alone.relief.value, 0.20 * kMm);
    const NeckSurvey both = surveyed(bench_of(kGuitar, part + whole));
    EXPECT_NEAR(both.relief.value, 0.24 * kMm, kWithin * both.relief.u);
    EXPECT_TRUE(both.disagreements.empty());
}

// Every instrument that a bench file can describe has a survey that makes sense.
struct Oddity {
    const char* name;
    const char* instrument;
    int strings;
    int frets;
};

class NeckSurveyOfOddities : public ::testing::TestWithParam<Oddity> {};

TEST_P(NeckSurveyOfOddities, MakesSense) {
    const auto& [name, instrument, strings, frets] = GetParam();
    const NeckSurvey found =
        surveyed(bench_of(instrument, height(1, 12, "1.90 mm") + "," + height(1, 1, "0.40 mm") + "," +
                                          R"({"what": "relief", "value": "0.25 mm"})"));
    ASSERT_EQ(int(found.strings.size()), strings);
    ASSERT_EQ(int(found.crowns.size()), frets);
    EXPECT_EQ(int(found.clearances.size()), strings * frets * (frets + 1) / 2);
    EXPECT_NEAR(found.strings[0].over_twelfth.value, 1.90 * kMm, 0.06 * kMm);
    EXPECT_NEAR(found.strings[0].over_first.value, 0.40 * kMm, 0.06 * kMm);
    EXPECT_TRUE(found.disagreements.empty());
    for (const neck::Clearance& c : found.clearances) {
        EXPECT_TRUE(std::isfinite(c.value) && c.u > 0 && c.u < 3 * kMm)
            << c.string << " " << c.held << " " << c.over;
    }
}

INSTANTIATE_TEST_SUITE_P(
    All, NeckSurveyOfOddities,
    ::testing::Values(
        Oddity{"left", R"("kind": "electric guitar", "hand": "left")", 6, 22},
        Oddity{"bass", R"("kind": "electric bass")", 4, 20},
        Oddity{
            "fiveStrings",
            R"("kind": "electric bass", "strings": [{"note": "G2"}, {"note": "D2"}, {"note": "A1"}, {"note": "E1"}, {"note": "B0"}])",
            5, 20},
        Oddity{"fretless", R"("kind": "electric bass", "fretted": false)", 4, 20},
        Oddity{"zeroFret", R"("kind": "electric guitar", "zero_fret": true)", 6, 22},
        Oddity{
            "fanned",
            R"("kind": "electric guitar", "frets": 24, "strings": [{"note": "E4", "scale": "648 mm"}, {"note": "B3", "scale": "653 mm"}, {"note": "G3", "scale": "658 mm"}, {"note": "D3", "scale": "663 mm"}, {"note": "A2", "scale": "668 mm"}, {"note": "E2", "scale": "673 mm"}])",
            6, 24},
        Oddity{"oneString", R"("kind": "electric guitar", "strings": [{"note": "E2"}])", 1, 22}),
    [](const auto& one) { return std::string(one.param.name); });

// Left and right are the same neck: string 1 is the thinnest on either.
TEST(NeckSurvey, TheHandChangesNothing) {
    const std::string readings = height(6, 12, "2.10 mm") + "," + height(2, 1, "0.30 mm");
    const NeckSurvey right = surveyed(bench_of(kGuitar, readings));
    const NeckSurvey left = surveyed(bench_of(kGuitar + R"(, "hand": "left")", readings));
    for (std::size_t i = 0; i < right.clearances.size(); ++i) {
        EXPECT_EQ(right.clearances[i].value, left.clearances[i].value);
    }
}

}  // namespace
}  // namespace fallaway::model
