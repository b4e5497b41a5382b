// The reference data that evidence is held against: procedure, kinds of claim, kinds of tool, strings as sold.
#pragma once

#include <string>
#include <vector>

#include "bench/evidence/bench.h"
#include "science/metrology/tool.h"
#include "science/strings/choice.h"

namespace fallaway::evidence {

// One string of a set.
struct SetString {
    double gauge = 0;  // m
    strings::Wrap wrap = strings::Wrap::plain;
};

struct StringSet {
    std::string id;                  // "10-46"
    std::string name;                // for a person
    std::string for_kind;            // "guitar" or "bass"
    std::vector<SetString> strings;  // thinnest first
    std::string source;
};

struct Catalogue {
    Procedure procedure;
    std::vector<ClaimKind> claims;
    std::vector<metrology::ToolKind> tools;
    std::vector<strings::StringRow> string_rows{};  // masses by gauge
    std::vector<StringSet> string_sets{};
};

// The catalogue that a bench is held against: a procedure that travels with the visit replaces the built-in one,
// so that an old visit is judged by the questions that were asked.
inline Catalogue catalogue_of(const Bench& bench, Catalogue catalogue) {
    if (bench.procedure) catalogue.procedure = *bench.procedure;
    return catalogue;
}

}  // namespace fallaway::evidence
