// schema/bench.schema.json and the tables of docs/bench-file.md are what the wire tables say, byte for byte.
// FALLAWAY_UPDATE=1 in the environment rewrites them; read the difference before you keep it.
#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench_fixture.h"

namespace fallaway::files {
namespace {

constexpr std::string_view kBegin = "<!-- generated: tables of the records -->\n";
constexpr std::string_view kEnd = "<!-- end of generated -->\n";

bool update() {
    return std::getenv("FALLAWAY_UPDATE") != nullptr;
}

void write_file(const std::string& below_root, const std::string& text) {
    std::ofstream(std::string(FALLAWAY_SOURCE_DIR) + "/" + below_root, std::ios::binary) << text;
}

TEST(BenchSchema, FileIsWhatTheTablesSay) {
    if (update()) write_file("schema/bench.schema.json", bench_schema());
    EXPECT_EQ(read_file("schema/bench.schema.json"), bench_schema());
}

TEST(BenchSchema, ManualHoldsTheTables) {
    std::string manual = read_file("docs/bench-file.md");
    const auto begin = manual.find(kBegin);
    const auto end = manual.find(kEnd);
    ASSERT_NE(begin, std::string::npos);
    ASSERT_NE(end, std::string::npos);
    const auto first = begin + kBegin.size();
    if (update()) {
        write_file("docs/bench-file.md", manual.substr(0, first) + bench_documentation() + manual.substr(end));
        manual = read_file("docs/bench-file.md");
    }
    EXPECT_EQ(manual.substr(first, manual.find(kEnd) - first), bench_documentation());
}

TEST(BenchSchema, ExampleOfTheManualIsAGoodFile) {
    const std::string manual = read_file("docs/bench-file.md");
    const std::string_view fence = "```json\n";
    const auto begin = manual.find(fence) + fence.size();
    const std::string example = manual.substr(begin, manual.find("```", begin) - begin);
    const auto bench = decode_bench(example, test_catalogue());
    EXPECT_TRUE(bench.has_value()) << told(bench.error());
}

TEST(BenchSchema, EveryReferenceIsDefined) {
    const auto schema = nlohmann::json::parse(bench_schema());
    const auto& definitions = schema.at("$defs");
    const auto walk = [&](auto& self, const nlohmann::json& value) -> void {
        if (value.is_object() && value.contains("$ref")) {
            const std::string name = value["$ref"].get<std::string>().substr(std::string("#/$defs/").size());
            EXPECT_TRUE(definitions.contains(name)) << name;
        }
        if (value.is_structured()) {
            for (const auto& item : value) self(self, item);
        }
    };
    walk(walk, schema);
    EXPECT_TRUE(definitions.contains("reading"));
}

}  // namespace
}  // namespace fallaway::files
