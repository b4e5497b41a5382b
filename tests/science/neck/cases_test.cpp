// Every case of tests/cases/geometry/neck.json, and the runner's own strictness. What the kinds of case are given
// and give is told in case_kinds.h.
#include <fstream>

#include <gtest/gtest.h>

#include "case_kinds.h"
#include "case_units.h"

namespace fallaway::cases {
namespace {

const std::set<std::string> kCaseKeys{"id", "kind", "topic", "given", "expected", "tolerance", "source", "note"};

// The faults of one case; none when it holds.
std::vector<std::string> faults_of(const Json& one) {
    try {
        for (const auto& [key, value] : one.items()) {
            if (!kCaseKeys.contains(key)) throw std::invalid_argument("a case has no key \"" + key + "\"");
        }
        if (one.at("source").get<std::string>().empty()) throw std::invalid_argument("\"source\" is empty");
        const auto kind = case_kinds().find(one.at("kind").get<std::string>());
        if (kind == case_kinds().end()) throw std::invalid_argument("unknown kind " + one.at("kind").dump());
        CaseGiven given(one.at("given"));
        const Json found = kind->second(given);
        given.complain_of_unread();
        std::vector<std::string> faults;
        const Json& expected = one.at("expected");
        if (!expected.is_object() || expected.empty()) faults.push_back("the case expects nothing");
        for (const auto& [key, value] : expected.items()) {
            const CaseKey parted = part(key);
            if (!found.contains(parted.name)) {
                faults.push_back("expected has an unknown key \"" + key + "\"");
                continue;
            }
            compare(key, key, one.at("tolerance"), value, found.at(parted.name), faults);
        }
        return faults;
    } catch (const std::exception& error) {
        return {error.what()};
    }
}

Json cases() {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/tests/cases/geometry/neck.json");
    return Json::parse(file).at("cases");
}

TEST(Cases, Hold) {
    const Json all = cases();
    ASSERT_GT(all.size(), 20U);
    std::set<std::string> ids;
    for (const Json& one : all) {
        const auto id = one.at("id").get<std::string>();
        EXPECT_TRUE(ids.insert(id).second) << id << " is there twice";
        for (const std::string& fault : faults_of(one)) ADD_FAILURE() << id << ": " << fault;
    }
}

TEST(Cases, EveryKindIsUsed) {
    std::set<std::string> used;
    for (const Json& one : cases()) used.insert(one.at("kind").get<std::string>());
    for (const auto& [kind, function] : case_kinds()) EXPECT_TRUE(used.contains(kind)) << kind;
}

Json good() {
    return Json::parse(R"({"id": "x", "kind": "fret-places", "source": "definition", "given": {"scale_mm": 600,
        "frets": [12]}, "expected": {"distance_from_nut_mm": [300]}, "tolerance": {"mm": 0.001}})");
}

TEST(CaseRunner, RefusesWhatItDoesNotKnow) {
    EXPECT_TRUE(faults_of(good()).empty());
    Json one = good();
    one["given"]["frets_mm"] = 1;
    EXPECT_EQ(faults_of(one).size(), 1U) << "the same name twice";
    one = good();
    one["given"]["capo"] = 1;
    EXPECT_EQ(faults_of(one), std::vector<std::string>{"given has an unknown key \"capo\""});
    one = good();
    one["expected"]["place"] = 1;
    EXPECT_EQ(faults_of(one), std::vector<std::string>{"expected has an unknown key \"place\""});
    one = good();
    one["expected"]["distance_from_nut_mm"] = {300.002};
    EXPECT_EQ(faults_of(one).size(), 1U);
    one = good();
    one["expected"]["distance_from_nut_in"] = one["expected"]["distance_from_nut_mm"];
    EXPECT_EQ(faults_of(one).size(), 1U) << "inches are no millimetres";
    one = good();
    one["colour"] = "red";
    EXPECT_EQ(faults_of(one).size(), 1U);
    one = good();
    one["kind"] = "fret-place";
    EXPECT_EQ(faults_of(one).size(), 1U);
}

}  // namespace
}  // namespace fallaway::cases
