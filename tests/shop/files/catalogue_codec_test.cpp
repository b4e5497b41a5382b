#include "shop/files/catalogue_codec.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench_fixture.h"
#include "shop/files/embedded.h"

namespace fallaway::files {
namespace {

TEST(CatalogueCodec, ReadsAProcedure) {
    const evidence::Procedure& procedure = test_catalogue().procedure;
    ASSERT_EQ(procedure.checkpoints.size(), 3u);
    const evidence::Checkpoint& action = procedure.checkpoints[0];
    EXPECT_EQ(action.each, evidence::Each::outer_strings);
    EXPECT_EQ(action.cure, evidence::Cure::set_up);
    ASSERT_EQ(action.limits.size(), 2u);
    EXPECT_DOUBLE_EQ(action.limits[0].high->bass, 2.8e-3);
    EXPECT_DOUBLE_EQ(action.limits[0].high->treble, 2.2e-3);
    EXPECT_DOUBLE_EQ(*action.limits[0].high_major, 3.5e-3);
    EXPECT_EQ(action.limits[0].when.kinds, std::vector{evidence::Kind::electric_bass});
    EXPECT_DOUBLE_EQ(action.limits[1].high->bass, action.limits[1].high->treble);
    EXPECT_TRUE(action.limits[1].strict);
    EXPECT_EQ(procedure.checkpoints[1].words[1].severity, evidence::Severity::major);
    EXPECT_EQ(procedure.checkpoints[2].anchors.size(), 4u);
}

TEST(CatalogueCodec, ReadsClaimsAndTools) {
    const auto& claims = test_catalogue().claims;
    EXPECT_DOUBLE_EQ(claims[0].tolerance, 1e-3);
    EXPECT_DOUBLE_EQ(claims[1].tolerance_relative, 0.1);
    EXPECT_FALSE(claims[3].dimension.has_value());
    EXPECT_FALSE(claims[4].checkable);
    const auto& tools = test_catalogue().tools;
    EXPECT_DOUBLE_EQ(tools[0].budgets[0].step, 5e-5);
    EXPECT_DOUBLE_EQ(*tools[1].budgets[0].total, 1e-5);
    EXPECT_DOUBLE_EQ(tools[2].budgets[0].limit, 0.5);
}

// One fault put into the test procedure by JSON pointer, and what is told of it.
TEST(CatalogueCodec, RefusesAFaultyProcedure) {
    const struct {
        const char* at;
        nlohmann::json value;
        const char* path;
        const char* message;
    } kCases[] = {
        {"/checkpoints/0/section", "settng", "/checkpoints/0/section", "did you mean \"setting\"?"},
        {"/checkpoints/0/reads/0", "string hight", "/checkpoints/0/reads/0", "did you mean \"string height\"?"},
        {"/checkpoints/0/limits/1/high", "2.2 Hz", "/checkpoints/0/limits/1/high", "expected a length"},
        {"/checkpoints/0/limits/0/low/bass", 1.3, "/checkpoints/0/limits/0/low/bass", "a number without a unit"},
        {"/checkpoints/0/limits/0/low/bass", "9 mm", "/checkpoints/0/limits/0/low", "above the high limit"},
        {"/checkpoints/0/limits/0/when/kind", "x", "/checkpoints/0/limits/0/when/kind", "did you mean \"kinds\"?"},
        {"/checkpoints/0/limits/0/low_severity", "mild", "/checkpoints/0/limits/0/low_severity",
         "expected \"critical\""},
        {"/checkpoints/1/words/0/word", "deaf", "/checkpoints/1/words/0/word", "did you mean \"dead\"?"},
        {"/checkpoints/1/id", "action-12", "/checkpoints/1/id", "stands twice"},
        {"/checkpoints/2/anchors", {"bad", "good"}, "/checkpoints/2/anchors", "2 anchors"},
        {"/checkpoints/0/each", "strings", "/checkpoints/0/each", "expected \"once\""},
        {"/checkpoints/0/disturbs", "everything", "/checkpoints/0/disturbs", "expected \"nothing\""},
        {"/checkpoints/0/fails_in_100", 101, "/checkpoints/0/fails_in_100", "expected a number from 0 to 100"},
        {"/scopes/0/checkpoints/1", "finsh", "/scopes/0/checkpoints/1", "did you mean \"finish\"?"},
        {"/title", nullptr, "/title", "null: expected a text"},
    };
    const auto procedure = nlohmann::json::parse(read_file("tests/catalogue/procedure.json"));
    for (const auto& [at, value, path, message] : kCases) {
        auto broken = procedure;
        broken[nlohmann::json::json_pointer(at)] = value;
        const auto read = decode_procedure(broken.dump());
        ASSERT_FALSE(read.has_value()) << at;
        bool found = false;
        for (const Error& error : read.error()) {
            found = found || (error.path == path && error.message.find(message) != std::string::npos);
        }
        EXPECT_TRUE(found) << at << "\n" << told(read.error());
    }
}

TEST(CatalogueCodec, RefusesFaultyClaimsAndTools) {
    const auto words =
        decode_claim_kinds(R"({"claims": [{"id": "a", "name": "a", "tolerance": "1 mm", "source": "x"}]})");
    ASSERT_FALSE(words.has_value());
    EXPECT_EQ(words.error().front().path, "/claims/0/tolerance");
    const auto reads =
        decode_claim_kinds(R"({"claims": [{"id": "a", "name": "a", "reads": "weigth", "source": "x"}]})");
    ASSERT_FALSE(reads.has_value());
    EXPECT_NE(reads.error().front().message.find("did you mean \"weight\"?"), std::string::npos);
    const auto unit = decode_tool_kinds(
        R"({"tools": [{"id": "a", "name": "a", "dimension": "length", "budgets": [{"step": "1 g", "source": "x"}]}]})");
    ASSERT_FALSE(unit.has_value());
    EXPECT_EQ(unit.error().front().path, "/tools/0/budgets/0/step");
    const auto twice = decode_tool_kinds(
        R"({"tools": [{"id": "a", "name": "a", "dimension": "length", "budgets": [{"source": "x"}]},
                      {"id": "a", "name": "b", "dimension": "mass", "budgets": [{"source": "x"}]}]})");
    ASSERT_FALSE(twice.has_value());
    EXPECT_EQ(twice.error().front().path, "/tools/1/id");
}

TEST(CatalogueCodec, TablesInTheBinaryAreGood) {
    const auto paths = embedded_paths("data/procedures/");
    ASSERT_FALSE(paths.empty());
    for (const auto path : paths) {
        const auto procedure = decode_procedure(*embedded(path));
        EXPECT_TRUE(procedure.has_value()) << path << "\n" << told(procedure.error());
    }
    const auto claims = decode_claim_kinds(embedded("data/claims.json").value_or(""));
    EXPECT_TRUE(claims.has_value()) << told(claims.error());
    const auto tools = decode_tool_kinds(embedded("data/tools.json").value_or(""));
    EXPECT_TRUE(tools.has_value()) << told(tools.error());
}

}  // namespace
}  // namespace fallaway::files
