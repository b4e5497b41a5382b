// The reference tables and demo files that live inside the binary.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace fallaway::files {

// The bytes of "data/procedures/guitar.json"; absent when there is no such file in the binary.
std::optional<std::string_view> embedded(std::string_view path);

// Every path that begins with `prefix`, sorted.
std::vector<std::string_view> embedded_paths(std::string_view prefix);

}  // namespace fallaway::files
