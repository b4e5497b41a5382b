// Every case in tests/cases/*.json that is not of the full tier, and the runner's own strictness.
#include <gtest/gtest.h>

#include "case_runner.h"

namespace fallaway::cases {
namespace {

TEST(Cases, HoldInTheFastTier) {
    const auto reports = run_cases(FALLAWAY_SOURCE_DIR "/tests/cases", "fast");
    EXPECT_GE(reports.size(), 60u) << "case files are missing";
    for (const CaseReport& report : reports) {
        for (const std::string& fault : report.faults) ADD_FAILURE() << report.id << ": " << fault;
    }
}

// A case that says too much or the wrong thing must never pass unseen.
TEST(Cases, RefuseWhatTheyDoNotKnow) {
    const Json good = Json::parse(R"({"id": "a", "source": "by hand", "function": "bracket",
        "given": {"go": 1, "no_go": 2}, "expect": {"value": 1.5}, "tolerance": 0})");
    EXPECT_TRUE(faults_of(good).empty());
    const auto fault_after = [&](const char* patch) {
        Json item = good;
        item.merge_patch(Json::parse(patch));
        const auto faults = faults_of(item);
        return faults.empty() ? std::string() : faults[0];
    };
    EXPECT_EQ(fault_after(R"({"function": "brackets"})"), "unknown function \"brackets\"");
    EXPECT_EQ(fault_after(R"({"given": {"gone": 1}})"), "given has an unknown key \"gone\"");
    EXPECT_EQ(fault_after(R"({"given": {"go": null}})"), "given lacks \"go\"");
    EXPECT_EQ(fault_after(R"({"expect": {"mean": 1.5}})"), "expect has an unknown key \"mean\"");
    EXPECT_EQ(fault_after(R"({"expect": {"value": null}})"), "the case expects nothing");
    EXPECT_EQ(fault_after(R"({"tolerance": {"values": 1}})"), "tolerance has an unknown key \"values\"");
    EXPECT_EQ(fault_after(R"({"source": null})"), "the case lacks \"source\"");
    EXPECT_EQ(fault_after(R"({"expect": {"value": 1.6}})"), "value: expected 1.6 within 0, got 1.5");
}

TEST(Expressions, ReadAsWritten) {
    const auto at2 = [](const std::string& text) { return Expression(text, {"x"})(std::vector<double>{2}); };
    EXPECT_EQ(at2("1-2-3"), -4);
    EXPECT_EQ(at2("8/2/2"), 2);
    EXPECT_EQ(at2("-x^2"), -4);
    EXPECT_EQ(at2("2^-x"), 0.25);
    EXPECT_EQ(at2("2*(x+1)^2 - 1e1"), 8);
    EXPECT_DOUBLE_EQ(at2("atan(1)*4/pi"), 1);
    EXPECT_THROW(at2("2*y"), std::invalid_argument);
    EXPECT_THROW(at2("(x"), std::invalid_argument);
    EXPECT_THROW(at2("x x"), std::invalid_argument);
}

}  // namespace
}  // namespace fallaway::cases
