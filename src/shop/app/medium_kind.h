// What a photo or recording is, by its ending and by its first bytes.
#pragma once

#include <string_view>

#include "science/base/result.h"

namespace fallaway::app {

// "image/jpeg" of "bridge.JPG"; "" for endings that are not taken.
std::string_view media_type_of(std::string_view file_name);

// Error "type" (path "type") when the bytes do not begin as that type does. A browser that is told a type shows
// nothing else, but whoever opens the file later may.
Result<void> check_begins_as(std::string_view bytes, std::string_view type);

}  // namespace fallaway::app
