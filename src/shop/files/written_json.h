// The answer of a command that wrote files.
#pragma once

#include <string>
#include <vector>

namespace fallaway::files {

// {"schema": "fallaway/written/1", "written": [paths]}
std::string written_files_json(const std::vector<std::string>& paths);

}  // namespace fallaway::files
