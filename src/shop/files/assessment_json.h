// An assessment as JSON, for programs. Keys and their meaning: docs/assessment-json.md.
#pragma once

#include <string>
#include <string_view>

#include "bench/evidence/bench.h"
#include "bench/judgement/assessment.h"

namespace fallaway::files {

// Schema "fallaway/assessment/1": two blanks of indent, keys in a fixed order, one line end at the end. Quantities
// are
// {"value", "unit", "u"} in the unit that is printed, u without a unit of its own; words are {"words"}.
std::string assessment_json(const evidence::Bench& bench, const judgement::Assessment& assessment,
                            std::string_view version);

}  // namespace fallaway::files
