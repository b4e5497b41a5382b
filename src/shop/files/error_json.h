// The one shape of an error for programs.
#pragma once

#include <string>
#include <vector>

#include "science/base/result.h"

namespace fallaway::files {

// {"error": {"code", "path", "message"}}; with more than one, all of them again under "errors".
std::string error_json(const std::vector<Error>& errors);

}  // namespace fallaway::files
