// Reading one case and comparing its expectation. Throws std::invalid_argument with a sentence for the
// person who wrote the case; tests/cases/README.md describes the form.
#pragma once

#include <cmath>
#include <fstream>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "science/base/result.h"

namespace fallaway::cases {

using Json = nlohmann::json;
using Outputs = std::map<std::string, Json>;

// The "given" of a case; remembers what was read, so that a misspelt key is told.
class Given {
public:
    explicit Given(const Json& given) : given_(given) {}

    bool has(const std::string& key) const { return given_.contains(key); }
    const Json& raw(const std::string& key) {
        if (!has(key)) throw std::invalid_argument("given lacks \"" + key + "\"");
        used_.insert(key);
        return given_.at(key);
    }
    template <class T>
    T get(const std::string& key) {
        const Json& value = raw(key);
        try {
            return value.get<T>();
        } catch (const Json::exception&) {
            throw std::invalid_argument("given \"" + key + "\" is not of the expected kind: " + value.dump());
        }
    }
    double number(const std::string& key) { return get<double>(key); }
    double number(const std::string& key, double otherwise) { return has(key) ? number(key) : otherwise; }
    std::optional<double> optional(const std::string& key) {
        return has(key) ? std::optional<double>(number(key)) : std::nullopt;
    }
    std::vector<double> numbers(const std::string& key) { return get<std::vector<double>>(key); }
    // One number or a list of them: a case may ask the same thing at several points.
    std::vector<double> one_or_more(const std::string& key) {
        return raw(key).is_array() ? numbers(key) : std::vector<double>{number(key)};
    }

    void complain_of_unread() const {
        for (const auto& [key, value] : given_.items()) {
            if (!used_.contains(key)) throw std::invalid_argument("given has an unknown key \"" + key + "\"");
        }
    }

private:
    const Json& given_;
    std::set<std::string> used_;
};

// The value of a result, or its error as the sentence.
template <class T>
const T& value_of(const Result<T>& result) {
    if (!result) throw std::invalid_argument(result.error().path + ": " + result.error().message);
    return *result;
}

// How far a value may lie from what is expected.
struct Tolerance {
    double value = 0;
    bool relative = false;

    double allowed(double expected) const { return relative ? value * std::abs(expected) : value; }
};

// "tolerance": a number for all; or an object of numbers or {"relative": r} by key, "*" for every other one.
inline Tolerance tolerance_for(const Json& tolerance, const std::string& key) {
    const Json* found = &tolerance;
    if (tolerance.is_object()) {
        const std::string use = tolerance.contains(key) ? key : "*";
        // Whole numbers, words and yes/no need no tolerance of their own.
        if (!tolerance.contains(use)) return {};
        found = &tolerance.at(use);
    }
    if (found->is_object()) return {found->at("relative").get<double>(), true};
    return {found->get<double>(), false};
}

inline void compare(const std::string& key, const Json& expected, const Json& actual, const Tolerance& tolerance,
                    std::vector<std::string>& faults) {
    if (expected.is_array() && actual.is_array() && expected.size() == actual.size()) {
        for (std::size_t i = 0; i < expected.size(); ++i) {
            compare(key + "[" + std::to_string(i) + "]", expected[i], actual[i], tolerance, faults);
        }
        return;
    }
    std::ostringstream fault;
    fault.precision(15);
    if (expected.is_number() && actual.is_number()) {
        const double want = expected.get<double>();
        const double got = actual.get<double>();
        if (std::abs(got - want) <= tolerance.allowed(want)) return;
        fault << key << ": expected " << want << " within " << tolerance.allowed(want) << ", got " << got;
    } else {
        if (expected == actual) return;
        fault << key << ": expected " << expected.dump() << ", got " << actual.dump();
    }
    faults.push_back(fault.str());
}

// Every number of "expect" against what the function gave.
inline std::vector<std::string> check_expectation(const Json& expect, const Json& tolerance,
                                                  const Outputs& outputs) {
    std::vector<std::string> faults;
    if (!expect.is_object() || expect.empty()) faults.push_back("the case expects nothing");
    for (const auto& [key, value] : expect.items()) {
        const auto found = outputs.find(key);
        if (found == outputs.end()) {
            faults.push_back("expect has an unknown key \"" + key + "\"");
            continue;
        }
        compare(key, value, found->second, tolerance_for(tolerance, key), faults);
    }
    if (tolerance.is_object()) {
        for (const auto& [key, value] : tolerance.items()) {
            if (key != "*" && !expect.contains(key))
                faults.push_back("tolerance has an unknown key \"" + key + "\"");
        }
    }
    return faults;
}

}  // namespace fallaway::cases
