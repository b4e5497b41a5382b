// Values of a case with the unit in their key: "scale_mm": 647.7 is asked for as "scale" and answered in SI. The
// same for what is expected. Throws std::invalid_argument with a sentence for the person who wrote the case.
#pragma once

#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace fallaway::cases {

using Json = nlohmann::json;

struct CaseUnit {
    const char* suffix;
    double si;
};
inline constexpr std::array kCaseUnits{CaseUnit{"_mm", 1e-3},
                                       CaseUnit{"_in", 25.4e-3},
                                       CaseUnit{"_m", 1},
                                       CaseUnit{"_per_mm", 1e3},
                                       CaseUnit{"_deg", std::numbers::pi / 180},
                                       CaseUnit{"_N", 1},
                                       CaseUnit{"_Nm", 1},
                                       CaseUnit{"_Hz", 1},
                                       CaseUnit{"_cents", 1},
                                       CaseUnit{"_GPa", 1e9}};

// A key parted into its name and unit; without a known unit all of it is the name.
struct CaseKey {
    std::string name;
    std::string unit;  // "mm"; "" for none
    double si = 1;
};
inline CaseKey part(const std::string& key) {
    CaseKey parted{key, "", 1};
    for (const CaseUnit& unit : kCaseUnits) {
        const std::string suffix = unit.suffix;
        const bool longer = suffix.size() > parted.unit.size() + 1;
        if (longer && key.size() > suffix.size() && key.ends_with(suffix)) {
            parted = {key.substr(0, key.size() - suffix.size()), suffix.substr(1), unit.si};
        }
    }
    return parted;
}

// Numbers in SI, in the same arrays and objects.
inline Json scaled(const Json& value, double factor) {
    if (value.is_number()) return value.get<double>() * factor;
    Json out = value;
    if (value.is_structured()) {
        for (auto& item : out) item = scaled(item, factor);
    }
    return out;
}

class CaseGiven {
public:
    explicit CaseGiven(const Json& given) {
        for (const auto& [key, value] : given.items()) {
            const CaseKey parted = part(key);
            if (!values_.emplace(parted.name, scaled(value, parted.si)).second) {
                throw std::invalid_argument("given holds \"" + parted.name + "\" twice");
            }
        }
    }
    bool has(const std::string& name) const { return values_.contains(name); }
    const Json& at(const std::string& name) {
        if (!has(name)) throw std::invalid_argument("given lacks \"" + name + "\"");
        used_.insert(name);
        return values_.at(name);
    }
    double number(const std::string& name) { return at(name).get<double>(); }
    double number(const std::string& name, double otherwise) { return has(name) ? number(name) : otherwise; }
    int whole(const std::string& name) { return static_cast<int>(std::lround(number(name))); }
    int whole(const std::string& name, int otherwise) { return has(name) ? whole(name) : otherwise; }
    std::string word(const std::string& name) { return at(name).get<std::string>(); }
    std::vector<double> numbers(const std::string& name) {
        return at(name).is_array() ? at(name).get<std::vector<double>>() : std::vector<double>{number(name)};
    }
    std::vector<int> wholes(const std::string& name) {
        std::vector<int> out;
        for (const double value : numbers(name)) out.push_back(static_cast<int>(std::lround(value)));
        return out;
    }
    void complain_of_unread() const {
        for (const auto& [name, value] : values_) {
            if (!used_.contains(name)) throw std::invalid_argument("given has an unknown key \"" + name + "\"");
        }
    }

private:
    std::map<std::string, Json> values_;
    std::set<std::string> used_;
};

// How far a value may lie off: by its full key, by its unit, or "rel" of what is expected; a number serves all.
inline double allowed(const Json& tolerance, const std::string& key, const CaseKey& parted, double expected) {
    if (tolerance.is_number()) return tolerance.get<double>();
    for (const std::string& name : {key, parted.unit}) {
        if (!name.empty() && tolerance.contains(name)) return tolerance.at(name).get<double>();
    }
    return tolerance.contains("rel") ? tolerance.at("rel").get<double>() * std::abs(expected) : 0;
}

// Faults of one expected value, both in the unit of its key.
inline void compare(const std::string& where, const std::string& key, const Json& tolerance, const Json& expected,
                    const Json& actual, std::vector<std::string>& faults) {
    if (expected.is_structured() && expected.type() == actual.type()) {
        for (const auto& [name, value] : expected.items()) {
            const bool there = expected.is_object() ? actual.contains(name) : std::stoul(name) < actual.size();
            const std::string inner = where + "/" + name;
            if (!there) {
                faults.push_back(inner + " is expected, but there is none");
                continue;
            }
            compare(inner, key, tolerance, value,
                    expected.is_object() ? actual.at(name) : actual[std::stoul(name)], faults);
        }
        return;
    }
    std::ostringstream fault;
    fault.precision(10);
    if (expected.is_number() && actual.is_number()) {
        const CaseKey parted = part(key);
        const double got = actual.get<double>() / parted.si;
        const double want = expected.get<double>();
        const double may = allowed(tolerance, key, parted, want);
        if (std::abs(got - want) <= may + 1e-12) return;
        fault << where << ": expected " << want << " within " << may << ", got " << got;
    } else {
        if (expected == actual) return;
        fault << where << ": expected " << expected.dump() << ", got " << actual.dump();
    }
    faults.push_back(fault.str());
}

}  // namespace fallaway::cases
