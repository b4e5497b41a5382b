// The reference tables under data/: procedures, kinds of claim, kinds of tool.
#pragma once

#include <string_view>
#include <vector>

#include "bench/evidence/catalogue.h"
#include "science/base/result.h"

namespace fallaway::files {

// Every fault is told, up to 50, each with its JSON pointer. Beyond the form: ids are unique; what a checkpoint
// reads is an observable, its limits are of that dimension, low below high; its words are those of the observable;
// sections and the checkpoints of a scope exist; a judged checkpoint has four anchors.
ResultAll<evidence::Procedure> decode_procedure(std::string_view text);
ResultAll<std::vector<evidence::ClaimKind>> decode_claim_kinds(std::string_view text);
ResultAll<std::vector<metrology::ToolKind>> decode_tool_kinds(std::string_view text);

// The tables inside the binary, read once; with several procedures the first by name. Throws std::logic_error when
// one is faulty, which no tested build is.
const evidence::Catalogue& built_in_catalogue();

}  // namespace fallaway::files
