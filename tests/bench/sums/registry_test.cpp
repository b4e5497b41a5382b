// The registry as a whole: every sum is complete, its example runs, and the manual says what the code does.
#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

#include <gtest/gtest.h>

#include "bench/sums/page.h"
#include "bench/sums/registry.h"
#include "bench/sums/split.h"

namespace fallaway::sums {
namespace {

TEST(Registry, NamesAreUniqueTradeWords) {
    std::set<std::string> names;
    const std::regex form("[a-z0-9]+(-[a-z0-9]+)*");
    for (const Sum& sum : registry()) {
        EXPECT_TRUE(names.insert(sum.name).second) << sum.name;
        EXPECT_TRUE(std::regex_match(sum.name, form)) << sum.name;
        std::set<std::string> keys;
        for (const Input& input : sum.inputs) {
            EXPECT_TRUE(keys.insert(input.name).second) << sum.name << " " << input.name;
            EXPECT_TRUE(std::regex_match(input.name, form)) << sum.name << " " << input.name;
        }
    }
}

TEST(Registry, EverySumSaysWhatItDoesAndWhereItComesFrom) {
    for (const Sum& sum : registry()) {
        EXPECT_FALSE(sum.title.empty() || sum.says.empty() || sum.formula.empty() || sum.source.empty())
            << sum.name;
        EXPECT_FALSE(sum.inputs.empty() || sum.outputs.empty() || sum.example.empty()) << sum.name;
        for (const Output& output : sum.outputs) {
            if (output.dimension) {
                EXPECT_NE(find_unit(output.unit, *output.dimension), nullptr) << sum.name << " " << output.name;
            }
        }
    }
}

TEST(Registry, EveryExampleRunsAndFitsThePage) {
    for (const Sum& sum : registry()) {
        const auto answer = run(sum, sum.example);
        ASSERT_TRUE(answer.has_value())
            << sum.name << " " << answer.error().path << ": " << answer.error().message;
        EXPECT_FALSE(answer->outputs.empty()) << sum.name;
        EXPECT_EQ(answer->cautions, sum.cautions);
        std::istringstream lines(answer_text(sum, *answer));
        for (std::string line; std::getline(lines, line);) EXPECT_LE(line.size(), kPageWidth + 8) << line;
    }
}

// Safety notes the product promises (design, section 10), by the work that calls for them.
TEST(Registry, WorkThatCanHurtIsCautioned) {
    for (const char* name : {"plain-string-tension", "string-tension", "breaking-pitch"}) {
        const std::vector<std::string>& cautions = find(name)->cautions;
        const auto says = [&](std::string_view words) {
            return std::ranges::any_of(cautions, [&](const std::string& c) { return c.find(words) != c.npos; });
        };
        EXPECT_TRUE(says("eye protection")) << name;
        EXPECT_TRUE(says("Slacken")) << name;
    }
}

TEST(Registry, NearNamesAreSuggested) {
    EXPECT_EQ(near_names("fret-place").front(), "fret-places");
    EXPECT_EQ(near_names("frte-places").front(), "fret-places");
    EXPECT_EQ(near_names("tension").front(), "plain-string-tension");
    EXPECT_TRUE(near_names("quarterly-tax-return-of-the-shop").empty());
    EXPECT_LE(near_names("a").size(), 3u);
}

TEST(Registry, AKeyGivenTwiceIsRefused) {
    const auto answer = run(*find("fret-places"), {{"scale", "635 mm"}, {"scale", "648 mm"}});
    ASSERT_FALSE(answer.has_value());
    EXPECT_EQ(answer.error(), (Error{"duplicate", "scale", "given twice, the second time as \"648 mm\""}));
}

TEST(Registry, ThePrintedValueRoundsWithItsUncertainty) {
    const auto answer = run(*find("scale-from-fret"), {{"place", "465.9 mm \u00B1 0.3 mm"}, {"fret", "22"}});
    ASSERT_TRUE(answer.has_value());
    EXPECT_EQ(answer->outputs.front().texts.front(), "647.64 \u00B1 0.42 mm");
    EXPECT_NE(answer_text(*find("scale-from-fret"), *answer).find("first order"), std::string::npos);
}

// JCGM 101:2008, 9.4: where the slope vanishes or the result bends within u, first order does not hold.
TEST(Registry, AResultThatBendsWithinItsUncertaintyIsMarked) {
    const auto rough =
        run(*find("radius-from-sagitta"), {{"chord", "40 mm"}, {"sagitta", "0.10 mm \u00B1 0.05 mm"}});
    const auto fine =
        run(*find("radius-from-sagitta"), {{"chord", "40 mm"}, {"sagitta", "0.66 mm \u00B1 0.01 mm"}});
    ASSERT_TRUE(rough.has_value() && fine.has_value());
    EXPECT_EQ(rough->notes.size(), 2u);
    EXPECT_EQ(fine->notes.size(), 1u);
}

TEST(SplitList, CutsAtCommasOrSpaces) {
    using Values = std::vector<std::string>;
    EXPECT_EQ(*split_list("1.6 1.65 1.6 mm"), (Values{"1.6", "1.65", "1.6 mm"}));
    EXPECT_EQ(*split_list("25 mm, 9.7 mm"), (Values{"25 mm", "9.7 mm"}));
    EXPECT_EQ(*split_list("4/64 in 5/64 in"), (Values{"4/64 in", "5/64 in"}));
    EXPECT_EQ(*split_list("1 3/8 in, 2 in"), (Values{"1 3/8 in", "2 in"}));
    EXPECT_EQ(*split_list("1.6 mm \u00B1 0.1"), (Values{"1.6 mm \u00B1 0.1"}));
    EXPECT_EQ(*split_list("-3 +4 .5"), (Values{"-3", "+4", ".5"}));
    EXPECT_FALSE(split_list("").has_value());
    EXPECT_FALSE(split_list("1,5 2,5").has_value());
    EXPECT_FALSE(split_list(std::string(30000, '1') + std::string(30000, ' ') + "1 3/8").has_value());
}

std::string manual_path() {
    return FALLAWAY_SOURCE_DIR "/docs/sums.md";
}

TEST(Manual, IsWrittenFromTheRegistry) {
    const std::string written = manual_markdown();
    if (std::getenv("FALLAWAY_UPDATE") != nullptr) std::ofstream(manual_path(), std::ios::binary) << written;
    std::ifstream file(manual_path(), std::ios::binary);
    std::stringstream kept;
    kept << file.rdbuf();
    EXPECT_TRUE(kept.str() == written) << "docs/sums.md is out of date: run this test with FALLAWAY_UPDATE=1";
}

}  // namespace
}  // namespace fallaway::sums
