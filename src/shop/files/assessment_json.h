// An assessment as JSON, for programs. Keys and their meaning: docs/assessment-json.md.
#pragma once

#include <string>
#include <string_view>

#include "bench/evidence/bench.h"
#include "bench/judgement/assessment.h"

namespace fallaway::files {

// Schema "fallaway/assessment/1", laid out as write_json() does, keys in a fixed order. Quantities are {"value",
// "unit", "u", "text"} in the unit that is printed, u without a unit of its own; words are {"words"}.
std::string assessment_json(const evidence::Bench& bench, const judgement::Assessment& assessment,
                            std::string_view version);

std::string assessment_documentation();  // Markdown tables of every record: part of docs/assessment-json.md

}  // namespace fallaway::files
