// The reference data that evidence is held against: procedure, kinds of claim, kinds of tool.
#pragma once

#include <vector>

#include "bench/evidence/bench.h"
#include "science/metrology/tool.h"

namespace fallaway::evidence {

struct Catalogue {
    Procedure procedure;
    std::vector<ClaimKind> claims;
    std::vector<metrology::ToolKind> tools;
};

// The catalogue that a bench is held against: a procedure that travels with the visit replaces the built-in one,
// so that an old visit is judged by the questions that were asked.
inline Catalogue catalogue_of(const Bench& bench, Catalogue catalogue) {
    if (bench.procedure) catalogue.procedure = *bench.procedure;
    return catalogue;
}

}  // namespace fallaway::evidence
