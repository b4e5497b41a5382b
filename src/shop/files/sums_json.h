// The sums as JSON, schema "fallaway/sums/1". Quantities are {"value": 1.60, "unit": "mm", "u": 0.04}, u left out
// where none is known and unit left out for plain numbers; columns are lists of them.
#pragma once

#include <string>

#include "bench/sums/registry.h"

namespace fallaway::files {

// {"schema", "sum", "outputs": {name: quantity, list of quantities or word}, "notes", "cautions"}
std::string sums_answer_json(const sums::Sum& sum, const sums::Answer& answer);

// {"schema", "sums": [{"name", "title", "theme", "says", "inputs", "outputs", "formula", "source", "cautions",
// "example"}]}
std::string sums_list_json();

}  // namespace fallaway::files
