#include "shop/files/assessment_json.h"

#include <fstream>
#include <limits>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace fallaway::files {
namespace {

using Json = nlohmann::ordered_json;

judgement::Assessment small_assessment() {
    judgement::Assessment a;
    a.verdict = judgement::Verdict::set_up_first;
    judgement::Finding finding;
    finding.id = "action-12@s6.f12";
    finding.at.string = 6;
    finding.at.fret = 12;
    finding.title = "String height over fret 12, string 6";
    finding.found.text = "2.450 ± 0.050 mm";
    finding.found.unit = find_unit("mm", Dimension::length);
    finding.found.si = metrology::Uncertain{0.00245, 0.00005};
    finding.standing = judgement::Standing::outside;
    a.findings = {finding};
    judgement::Answer answer;
    answer.lines.emplace_back();
    answer.lines[0].found.text = "just moves";
    a.answers = {answer};
    judgement::Change change;
    change.unit = finding.found.unit;
    change.paired.mean = -0.0003;
    change.paired.ci95_low = -std::numeric_limits<double>::infinity();
    a.changes = {change};
    return a;
}

Json written() {
    return Json::parse(assessment_json({}, small_assessment(), "0.1.0"));
}

TEST(AssessmentJson, WritesFiguresInThePrintedUnit) {
    const Json found = written()["findings"][0]["found"];
    EXPECT_DOUBLE_EQ(found["value"].get<double>(), 2.45);
    EXPECT_DOUBLE_EQ(found["u"].get<double>(), 0.05);
    EXPECT_EQ(found["unit"], "mm");
    EXPECT_EQ(found.dump().find("2.4500000"), std::string::npos);
}

TEST(AssessmentJson, WritesWordsAsWordsAndInfinityAsNull) {
    const Json json = written();
    EXPECT_EQ(json["answers"][0]["lines"][0]["found"], (Json{{"words", "just moves"}}));
    EXPECT_TRUE(json["changes"][0]["ci95"][0].is_null());
    EXPECT_DOUBLE_EQ(json["changes"][0]["mean"].get<double>(), -0.3);
}

TEST(AssessmentJson, BeginsWithItsSchemaAndIsTheSameEveryTime) {
    const std::string text = assessment_json({}, small_assessment(), "0.1.0");
    EXPECT_TRUE(text.starts_with("{\n  \"schema\": \"fallaway/assessment/1\",\n"));
    EXPECT_TRUE(text.ends_with("}\n"));
    EXPECT_EQ(text, assessment_json({}, small_assessment(), "0.1.0"));
}

TEST(AssessmentJson, SurvivesBytesThatAreNotUtf8) {
    judgement::Assessment a = small_assessment();
    a.reasons = {"odd \xff byte"};
    EXPECT_NO_THROW(Json::parse(assessment_json({}, a, "0.1.0")));
}

TEST(AssessmentJson, EveryTopLevelKeyIsInItsManual) {
    std::ostringstream manual;
    manual << std::ifstream(FALLAWAY_SOURCE_DIR "/docs/assessment-json.md").rdbuf();
    ASSERT_FALSE(manual.str().empty());
    const Json json = written();
    for (const auto& [key, value] : json.items()) {
        EXPECT_NE(manual.str().find("`" + key + "`"), std::string::npos) << key;
    }
}

}  // namespace
}  // namespace fallaway::files
