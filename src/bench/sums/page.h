// Sums as text for a person and as Markdown for the manual.
#pragma once

#include <string>

#include "bench/sums/registry.h"

namespace fallaway::sums {

inline constexpr std::size_t kPageWidth = 100;  // columns

// The answer, aligned; columns side by side as a table.
std::string answer_text(const Sum& sum, const Answer& answer);
// Every sum by theme, one line each.
std::string list_text();
// What one sum takes and gives: shown with an error about its inputs.
std::string usage_text(const Sum& sum);

// docs/sums.md, whole, written from the registry.
std::string manual_markdown();

}  // namespace fallaway::sums
