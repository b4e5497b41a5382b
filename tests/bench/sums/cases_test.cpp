// Runs every case of tests/cases/sums/*.json. A case names a sum, its inputs as they are typed, and either what
// to expect or the error it must give; tests/cases/sums/README.md describes the form.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "bench/sums/registry.h"

namespace fallaway::sums {
namespace {

using nlohmann::json;

struct Case {
    std::string file;
    std::string id;
    json body;
};

std::vector<Case> all_cases() {
    std::vector<Case> cases;
    std::vector<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::directory_iterator(FALLAWAY_SOURCE_DIR "/tests/cases/sums")) {
        if (entry.path().extension() == ".json") files.push_back(entry.path());
    }
    std::ranges::sort(files);
    for (const auto& path : files) {
        std::ifstream in(path);
        const json file = json::parse(in);
        for (const json& body : file.at("cases")) {
            cases.push_back({path.filename().string(), body.at("id").get<std::string>(), body});
        }
    }
    return cases;
}

void only_known_keys(const json& body) {
    static const std::set<std::string> known{"id",     "source",    "sum",   "inputs",
                                             "expect", "tolerance", "error", "note"};
    for (const auto& [key, value] : body.items())
        EXPECT_TRUE(known.contains(key)) << "unknown key \"" << key << "\"";
    EXPECT_FALSE(body.at("source").get<std::string>().empty());
    EXPECT_NE(body.contains("expect"), body.contains("error")) << "one of expect and error";
}

std::string text_of(const json& value) {
    return value.is_string() ? value.get<std::string>() : value.dump();
}

// A quantity of the dimension of an output, in SI units.
double number_of(const json& value, Dimension dimension) {
    const auto q = parse_quantity(text_of(value), dimension);
    EXPECT_TRUE(q.has_value()) << (q ? "" : q.error().message);
    return q ? q->si : NAN;
}

struct Tolerance {
    double relative = 0;
    double absolute = 0;
};

// "tolerance": "0.1 %" for all outputs, or one entry an output: "0.001 mm" absolute, "0.1 % of it" relative.
Tolerance tolerance_for(const json& body, const std::string& name, Dimension dimension) {
    const json& all = body.contains("tolerance") ? body.at("tolerance") : json();
    const json& own = all.is_object() && all.contains(name) ? all.at(name) : all;
    if (own.is_object() || own.is_null()) {
        ADD_FAILURE() << "no tolerance for \"" << name << "\"";
        return {};
    }
    const std::string text = text_of(own);
    const std::size_t percent = text.find(" % of it");
    if (percent != text.npos) return {.relative = std::stod(text.substr(0, percent)) / 100};
    const bool origin = dimension == Dimension::temperature;
    return {.absolute = number_of(own, origin ? Dimension::temperature_difference : dimension)};
}

void expect_number(const json& body, const std::string& name, const json& expected, Dimension dimension,
                   double found) {
    const double wanted = number_of(expected, dimension);
    const Tolerance tolerance = tolerance_for(body, name, dimension);
    EXPECT_NEAR(found, wanted, tolerance.absolute + tolerance.relative * std::abs(wanted)) << name;
}

void expect_value(const json& body, std::string name, const json& expected, const Answer& answer) {
    const bool is_u = name.ends_with(" u");
    const std::string output = is_u ? name.substr(0, name.size() - 2) : name;
    const auto value = std::ranges::find(answer.outputs, output, &AnswerValue::name);
    ASSERT_NE(value, answer.outputs.end()) << "no output \"" << output << "\" in the answer";
    if (value->unit == nullptr) {
        EXPECT_EQ(value->word, text_of(expected)) << name;
        return;
    }
    const auto& numbers = is_u ? value->u : value->si;
    if (!expected.is_object()) {
        ASSERT_EQ(numbers.size(), 1u) << name << " is a column: expect an object of row numbers";
        expect_number(body, name, expected, *value->dimension, numbers.front());
        return;
    }
    for (const auto& [row, entry] : expected.items()) {
        const std::size_t at = std::stoul(row);
        ASSERT_TRUE(at >= 1 && at <= numbers.size()) << name << " has no row " << row;
        expect_number(body, name, entry, *value->dimension, numbers[at - 1]);
    }
}

void expect_error(const json& expected, const Result<Answer>& answer) {
    ASSERT_FALSE(answer.has_value()) << "an answer came instead of an error";
    EXPECT_EQ(answer.error().code, expected.at("code").get<std::string>());
    EXPECT_EQ(answer.error().path, expected.at("path").get<std::string>());
    for (const json& part : expected.at("says")) {
        EXPECT_NE(answer.error().message.find(part.get<std::string>()), std::string::npos)
            << answer.error().message << "\nlacks: " << part;
    }
}

class SumCase : public testing::TestWithParam<Case> {};

TEST_P(SumCase, Holds) {
    const json& body = GetParam().body;
    only_known_keys(body);
    const Sum* sum = find(body.at("sum").get<std::string>());
    ASSERT_NE(sum, nullptr) << "no sum named " << body.at("sum");
    std::vector<Argument> arguments;
    for (const auto& [key, text] : body.at("inputs").items()) arguments.push_back({key, text.get<std::string>()});
    const auto answer = run(*sum, arguments);
    if (body.contains("error")) {
        expect_error(body.at("error"), answer);
        return;
    }
    ASSERT_TRUE(answer.has_value()) << answer.error().path << ": " << answer.error().message;
    for (const auto& [name, expected] : body.at("expect").items()) expect_value(body, name, expected, *answer);
}

std::string test_name(const testing::TestParamInfo<Case>& info) {
    std::string name = info.param.file.substr(0, info.param.file.find('.')) + "_" + info.param.id;
    std::ranges::replace_if(
        name, [](char c) { return !std::isalnum(static_cast<unsigned char>(c)); }, '_');
    return name;
}

INSTANTIATE_TEST_SUITE_P(Files, SumCase, testing::ValuesIn(all_cases()), test_name);

}  // namespace
}  // namespace fallaway::sums
