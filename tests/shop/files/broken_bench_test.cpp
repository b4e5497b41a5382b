// Every file under tests/broken is a good file with one fault; expectations.json says which and what is told of
// it.
#include <filesystem>
#include <set>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench_fixture.h"

namespace fallaway::files {
namespace {

constexpr std::size_t kFewestBrokenFiles = 90;

nlohmann::json expectations() {
    return nlohmann::json::parse(read_file("tests/broken/expectations.json"));
}

TEST(BrokenBench, EachFileTellsItsOneFault) {
    for (const auto& expected : expectations()) {
        const std::string file = expected.at("file");
        SCOPED_TRACE(file);
        const auto bench = decode_bench(read_file("tests/broken/" + file), test_catalogue());
        ASSERT_FALSE(bench.has_value());
        EXPECT_EQ(bench.error().size(), 1u) << told(bench.error());
        const Error& fault = bench.error().front();
        EXPECT_EQ(fault.path, expected.at("path").get<std::string>()) << fault.message;
        EXPECT_NE(fault.message.find(expected.at("message").get<std::string>()), std::string::npos)
            << fault.message;
        EXPECT_FALSE(fault.code.empty());
    }
}

TEST(BrokenBench, EveryFileHasAnExpectation) {
    std::set<std::string> expected;
    for (const auto& row : expectations()) expected.insert(row.at("file"));
    std::set<std::string> there;
    for (const auto& entry : std::filesystem::directory_iterator(FALLAWAY_SOURCE_DIR "/tests/broken")) {
        const std::string name = entry.path().filename();
        if (name != "expectations.json") there.insert(name);
    }
    EXPECT_EQ(expected, there);
    EXPECT_GE(there.size(), kFewestBrokenFiles);
}

}  // namespace
}  // namespace fallaway::files
