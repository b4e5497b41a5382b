#include "shop/files/strings_table.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench_fixture.h"

namespace fallaway::files {
namespace {

TEST(StringsTable, TheOneInTheBinaryIsGood) {
    const auto read = decode_string_tables(read_file("data/strings.json"));
    ASSERT_TRUE(read.has_value()) << told(read.error());
    EXPECT_EQ(built_in_strings().strings.size(), read->strings.size());
    ASSERT_NE(read->set("10-46"), nullptr);
    EXPECT_EQ(read->set("10-47"), nullptr);
    for (const NamedString& string : read->strings) EXPECT_FALSE(string.source.empty()) << string.id;
}

// Totals of usual sets at 25.5 in: one maker's unit weights, from memory, summed outside this project.
TEST(StringsTable, UsualSetsPullWhatIsKnown) {
    const StringTables& tables = built_in_strings();
    const auto rows = tables.rows();
    const std::vector<double> pitch{329.6276, 246.9417, 195.9977, 146.8324, 110.0, 82.4069};
    for (const auto& [id, newton] : {std::pair{"9-42", 378.7}, {"10-46", 460.8}, {"11-49", 527.5}}) {
        std::vector<strings::Pull> set;
        const StringSet& listed = *tables.set(id);
        for (std::size_t i = 0; i < listed.strings.size(); ++i) {
            const auto gauged = strings::string_of_gauge(rows, listed.strings[i].gauge, listed.strings[i].wrap);
            ASSERT_TRUE(gauged.has_value());
            EXPECT_EQ(gauged->from, strings::MassFrom::row) << id << " " << i;
            set.push_back(*strings::pull_of(*strings::body_of(gauged->make), {0.6477, 0}, {pitch[i], 0}));
        }
        const auto pull = strings::set_pull(set);
        EXPECT_NEAR(pull.value, newton, 0.4) << id;
        EXPECT_NEAR(pull.u / pull.value, 0.03 / std::sqrt(6), 0.001);
    }
}

// One fault put into the table by JSON pointer, and what is told of it.
TEST(StringsTable, RefusesAFaultyTableByName) {
    const struct {
        const char* at;
        nlohmann::json value;
        const char* path;
        const char* message;
    } kCases[] = {
        {"/strings/0/gauge", "9 mm", "/strings/0/gauge", "expected 0.0001 to 0.006 m"},
        {"/strings/0/gauge", 0.009, "/strings/0/gauge", "a number without a unit"},
        {"/strings/0/mass", "3 mm", "/strings/0/mass", "expected a linear density"},
        {"/strings/0/mass", "3 kg/m", "/strings/0/mass", "expected 1e-05 to 0.2 kg/m"},
        {"/strings/0/wrap", "rond", "/strings/0/wrap", "expected \"plain\""},
        {"/strings/0/core", "hex", "/strings/0/core", "a plain string is round"},
        {"/strings/0/u_relative", 0, "/strings/0/u_relative", "expected a number from 0.001 to 0.5"},
        {"/strings/0/source", nullptr, "/strings/0/source", "null"},
        {"/strings/0/maker", "x", "/strings/0/maker", "unknown"},
        {"/strings/0/core_diameter", "0.1 mm ± 0.01 mm", "/strings/0/core_diameter", "the string is its core"},
        {"/strings/1/id", "plain 009", "/strings/1/id", "stands twice"},
        {"/strings/1/gauge", "0.009 in", "/strings/1/gauge", "the same gauge, wrap and material as \"plain 009\""},
        {"/strings/9/core_diameter", "0.0140 in", "/strings/9/core_diameter", "standard uncertainty missing"},
        {"/strings/9/core_diameter", "0.025 in ± 0.001 in", "/strings/9/core_diameter", "no room for a wrap"},
        {"/sets/0/strings/1/gauge", "0.008 in", "/sets/0/strings/1/gauge", "not thicker"},
        {"/sets/0/for", "banjo", "/sets/0/for", "expected \"guitar\""},
        {"/sets/0/strings", nlohmann::json::array(), "/sets/0/strings", "an empty list"},
        {"/sets/1/id", "9-42", "/sets/1/id", "stands twice"},
    };
    const auto table = nlohmann::json::parse(read_file("data/strings.json"));
    for (const auto& [at, value, path, message] : kCases) {
        auto broken = table;
        broken[nlohmann::json::json_pointer(at)] = value;
        const auto read = decode_string_tables(broken.dump());
        ASSERT_FALSE(read.has_value()) << at;
        bool found = false;
        for (const Error& error : read.error()) {
            found = found || (error.path == path && error.message.find(message) != std::string::npos);
        }
        EXPECT_TRUE(found) << at << "\n" << told(read.error());
    }
}

}  // namespace
}  // namespace fallaway::files
