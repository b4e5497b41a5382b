// What somebody who wrote an unknown word may have meant.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace fallaway {

// Optimal string alignment distance: insertions, deletions, replacements and swaps of neighbours (Damerau 1964,
// each place edited once), in bytes.
int edit_distance(std::string_view a, std::string_view b);

// The known word nearest to `word`, the first of equals; absent when none is close: more than a third of the
// letters differ. Words longer than 60 bytes are close to none.
std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> known);

// How a message about an unknown word ends: `did you mean "relief"?`, `expected "right" or "left"`, or both. A
// list of more than eight words is left out where one of them is close.
std::string hint(std::string_view word, std::span<const std::string_view> known);

}  // namespace fallaway
