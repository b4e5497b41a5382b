// The reference data that evidence is held against: procedure, kinds of claim, kinds of tool.
#pragma once

#include <vector>

#include "bench/evidence/procedure.h"
#include "science/metrology/tool.h"

namespace fallaway::evidence {

struct Catalogue {
    Procedure procedure;
    std::vector<ClaimKind> claims;
    std::vector<metrology::ToolKind> tools;
};

}  // namespace fallaway::evidence
