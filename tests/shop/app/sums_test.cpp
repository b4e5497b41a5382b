// The command `sums` as a caller sees it: exit code, both streams, JSON.
#include "shop/app/sums.h"

#include <algorithm>
#include <sstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench/sums/page.h"
#include "bench/sums/registry.h"

namespace fallaway::app {
namespace {

using nlohmann::json;
using Words = std::vector<std::string>;

TEST(SumsCommand, AnswersInText) {
    const auto output = sums_command(Words{"cents-between", "upper=441 Hz", "lower=440 Hz"}, false, false);
    EXPECT_EQ(output.exit_code, 0);
    EXPECT_EQ(output.err, "");
    EXPECT_EQ(output.out, "Cents between two pitches\n  interval  3.930 cents  first above second\n");
}

TEST(SumsCommand, AnswersInJson) {
    const auto output = sums_command(Words{"fret-places", "scale=647.7 mm \u00B1 0.2", "frets=12"}, false, true);
    EXPECT_EQ(output.exit_code, 0);
    const json answer = json::parse(output.out);
    EXPECT_EQ(answer.at("schema"), "fallaway/sums/1");
    EXPECT_EQ(answer.at("sum"), "fret-places");
    const json& place = answer.at("outputs").at("place").at(11);
    EXPECT_EQ(place, json::parse(R"({"value": 323.85, "unit": "mm", "u": 0.1})"));
    EXPECT_FALSE(answer.at("cautions").empty());
}

TEST(SumsCommand, PlainNumbersHaveNoUnitAndWordsAreText) {
    const auto output =
        sums_command(Words{"agree", "first=1.62 mm \u00B1 0.035", "second=1.70 mm \u00B1 0.025"}, false, true);
    const json outputs = json::parse(output.out).at("outputs");
    EXPECT_EQ(outputs.at("agree"), "yes");
    EXPECT_FALSE(outputs.at("en").contains("unit"));
}

TEST(SumsCommand, BadInputEndsWithCodeTwo) {
    const auto output = sums_command(Words{"fret-places", "scale=635"}, false, false);
    EXPECT_EQ(output.exit_code, 2);
    EXPECT_EQ(output.out, "");
    EXPECT_EQ(output.err,
              "sums fret-places: scale: \"635\": unit missing, expected a length such as \"1.60 mm\"\n");
}

TEST(SumsCommand, BadInputInJsonHasTheOneErrorShape) {
    const auto output = sums_command(Words{"fret-places", "scale=635"}, false, true);
    EXPECT_EQ(output.exit_code, 2);
    EXPECT_EQ(json::parse(output.err), json::parse(R"({"error": {"code": "unit", "path": "scale",
                              "message": "\"635\": unit missing, expected a length such as \"1.60 mm\""}})"));
}

TEST(SumsCommand, MissingInputsAreShownWithAnExample) {
    const auto output = sums_command(Words{"screw-turns"}, false, false);
    EXPECT_EQ(output.exit_code, 2);
    EXPECT_NE(output.err.find("sums screw-turns: move: missing"), std::string::npos);
    EXPECT_NE(output.err.find("Example: fallaway sums screw-turns"), std::string::npos);
}

TEST(SumsCommand, AnUnknownNameSuggestsNearOnes) {
    const auto near = sums_command(Words{"fret-palces"}, false, false);
    EXPECT_EQ(near.exit_code, 2);
    EXPECT_EQ(near.err, "sums: no sum is named \"fret-palces\"; did you mean fret-places?\n");
    const auto far = sums_command(Words{"tea-and-biscuits-for-everyone"}, false, false);
    EXPECT_NE(far.err.find("--list"), std::string::npos);
    EXPECT_EQ(sums_command(Words{}, false, false).exit_code, 2);
}

TEST(SumsCommand, ForeignTextReachesNoTerminalRaw) {
    for (const char* word : {"\x1b[31m=1", "scale=\x1b[31m", "\x1b[2J", "scale=\xff\xfe"}) {
        const auto text = sums_command(Words{"fret-places", word}, false, false);
        EXPECT_EQ(text.exit_code, 2);
        EXPECT_EQ(text.err.find('\x1b'), std::string::npos) << text.err;
        const auto as_json = sums_command(Words{"fret-places", word}, false, true);
        EXPECT_TRUE(json::accept(as_json.err)) << as_json.err;
    }
}

TEST(SumsCommand, TheListNamesEverySumWithinThePage) {
    const std::string text = sums_command(Words{}, true, false).out;
    const json list = json::parse(sums_command(Words{}, true, true).out);
    EXPECT_EQ(list.at("schema"), "fallaway/sums/1");
    ASSERT_EQ(list.at("sums").size(), sums::registry().size());
    for (const json& sum : list.at("sums")) {
        EXPECT_NE(text.find(sum.at("name").get<std::string>()), std::string::npos);
        EXPECT_FALSE(sum.at("source").get<std::string>().empty());
    }
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), sums::kPageWidth) << line;
}

TEST(SumsCommand, TheListOfOneNameShowsItsInputs) {
    const auto output = sums_command(Words{"screw-turns"}, true, false);
    EXPECT_EQ(output.exit_code, 0);
    EXPECT_NE(output.out.find("thread"), std::string::npos);
    EXPECT_EQ(sums_command(Words{"screw-trns"}, true, false).exit_code, 2);
}

// Every example gives the same numbers in text and in JSON, and JSON that parses.
TEST(SumsCommand, EveryExampleAnswersInBothForms) {
    for (const sums::Sum& sum : sums::registry()) {
        Words words{sum.name};
        for (const auto& argument : sum.example) words.push_back(argument.key + "=" + argument.text);
        EXPECT_EQ(sums_command(words, false, false).exit_code, 0) << sum.name;
        const auto output = sums_command(words, false, true);
        ASSERT_TRUE(json::accept(output.out)) << sum.name;
        const json answer = json::parse(output.out);
        for (const auto& [name, value] : answer.at("outputs").items()) {
            EXPECT_TRUE(std::ranges::any_of(sum.outputs, [&](const auto& o) { return o.name == name; })) << name;
        }
    }
}

}  // namespace
}  // namespace fallaway::app
