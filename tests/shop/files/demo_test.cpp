// The demo files inside the binary: read without a fault, and a whole story each.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "bench/judgement/judge.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/embedded.h"

namespace fallaway::files {
namespace {

evidence::Bench demo(const std::string& name) {
    const auto text = embedded("demo/" + name);
    EXPECT_TRUE(text.has_value()) << name << " is not in the binary";
    if (!text) return {};
    auto bench = decode_bench(*text);
    if (bench) return *bench;
    for (const Error& error : bench.error()) ADD_FAILURE() << name << ": " << error.path << ": " << error.message;
    return {};
}

std::set<std::string> people_of(const evidence::Bench& bench) {
    std::set<std::string> people;
    for (const auto& reading : bench.readings) people.insert(reading.by.value_or(""));
    for (const auto& rating : bench.ratings) people.insert(rating.by.value_or(""));
    return people;
}

std::set<evidence::Stage> stages_of(const evidence::Bench& bench) {
    std::set<evidence::Stage> stages;
    for (const auto& reading : bench.readings) stages.insert(reading.stage);
    return stages;
}

long endings_of(const evidence::Bench& bench, evidence::Ending ending) {
    return std::ranges::count_if(bench.wants->complaints, [ending](const evidence::Complaint& complaint) {
        return complaint.ending && complaint.ending->as == ending;
    });
}

TEST(DemoFiles, EveryOneIsReadAndMarkedAsDemo) {
    const auto paths = embedded_paths("demo/");
    EXPECT_EQ(paths.size(), 3u);
    for (const auto path : paths) EXPECT_TRUE(demo(std::string(path.substr(5))).demo) << path;
}

TEST(DemoFiles, TheGuitarIsAFullInspectionBeforeWork) {
    const auto bench = demo("heron.json");
    ASSERT_TRUE(bench.wants.has_value());
    EXPECT_EQ(bench.instrument.serial, "OH-0412");
    EXPECT_EQ(bench.wants->player, "Maren Tolk");
    EXPECT_EQ(bench.scope.name, "full inspection");
    EXPECT_GE(bench.readings.size(), 120u);
    EXPECT_GE(bench.ratings.size(), 40u);
    EXPECT_GE(bench.claims.size(), 10u);
    EXPECT_EQ(people_of(bench), (std::set<std::string>{"Joon Aster", "Ruta Vell"}));
    EXPECT_EQ(stages_of(bench), (std::set{evidence::Stage::arrival, evidence::Stage::before}));
    EXPECT_TRUE(bench.card && bench.price && !bench.room.empty() && !bench.remarks.empty());
    for (const auto& complaint : bench.wants->complaints) EXPECT_FALSE(complaint.ending) << complaint.text;
}

TEST(DemoFiles, TheBassIsASetUpFromEndToEnd) {
    const auto bench = demo("dray.json");
    ASSERT_TRUE(bench.wants.has_value());
    EXPECT_EQ(bench.instrument.serial, "VD-088");
    EXPECT_EQ(bench.wants->player, "Ilse Corvin");
    EXPECT_GE(bench.readings.size(), 90u);
    EXPECT_GE(bench.ratings.size(), 40u);
    EXPECT_GE(bench.claims.size(), 10u);
    EXPECT_GE(bench.work.size(), 8u);
    EXPECT_EQ(stages_of(bench).size(), 3u);
    EXPECT_EQ(endings_of(bench, evidence::Ending::cured), 2);
    EXPECT_EQ(endings_of(bench, evidence::Ending::left_by_agreement), 1);
}

TEST(DemoFiles, TheThirdKnowsNothingButTheKind) {
    const auto bench = demo("quick.json");
    EXPECT_EQ(bench.instrument, evidence::Instrument{});
    EXPECT_EQ(bench.scope.name, "quick look");
    EXPECT_TRUE(bench.tools.empty());
}

judgement::Assessment assessed(const std::string& name) {
    return judgement::assess(demo(name), built_in_catalogue());
}

std::set<std::string> claims_with(const judgement::Assessment& assessment, judgement::ClaimOutcome outcome) {
    std::set<std::string> ids;
    for (const auto& claim : assessment.claims) {
        if (claim.outcome == outcome) ids.insert(claim.id);
    }
    return ids;
}

// The stories come out as their evidence tells them. What is inside each instrument stands in demo/*.cpp.
TEST(DemoFiles, TheGuitarNeedsRepairAndTwoClaimsFall) {
    const auto assessment = assessed("heron.json");
    EXPECT_EQ(assessment.verdict, judgement::Verdict::repair_first);
    EXPECT_EQ(claims_with(assessment, judgement::ClaimOutcome::contradicted),
              (std::set<std::string>{"c-bridge-ohms", "c-volume"}));
    std::set<std::string> major;
    for (const auto& finding : assessment.findings) {
        if (finding.severity == evidence::Severity::major && !finding.accepted) major.insert(finding.checkpoint);
    }
    EXPECT_EQ(major, (std::set<std::string>{"fret-level", "intonation", "nut-wire", "ring-test"}));
}

TEST(DemoFiles, TheBassIsReadyAndOneClaimStaysOpen) {
    const auto assessment = assessed("dray.json");
    EXPECT_EQ(assessment.verdict, judgement::Verdict::ready);
    EXPECT_TRUE(claims_with(assessment, judgement::ClaimOutcome::contradicted).empty());
    EXPECT_TRUE(claims_with(assessment, judgement::ClaimOutcome::not_established).contains("c-scale"));
    for (const auto& complaint : assessment.complaints) EXPECT_TRUE(complaint.shown) << complaint.text;
}

TEST(DemoFiles, TheQuickLookAnswersEveryCheckpointOfItsScope) {
    const auto assessment = assessed("quick.json");
    EXPECT_EQ(assessment.verdict, judgement::Verdict::set_up_first);
    EXPECT_EQ(std::ranges::count_if(assessment.answers,
                                    [](const judgement::Answer& answer) {
                                        return answer.in_scope && (answer.state == judgement::AnswerState::fine ||
                                                                   answer.state == judgement::AnswerState::faulty);
                                    }),
              14);
}

}  // namespace
}  // namespace fallaway::files
