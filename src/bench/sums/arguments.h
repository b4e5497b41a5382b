// From key=value texts to the inputs of a sum.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "bench/sums/registry.h"

namespace fallaway::sums {

// Errors: see run().
Result<Inputs> read_arguments(const Sum& sum, const std::vector<Argument>& arguments);

// "expected 200 mm to 1200 mm": what an input takes, for errors and the manual; `unit` null: the first of its
// kind.
std::string expectation(const Input& input, const Unit* unit = nullptr);

}  // namespace fallaway::sums
