// What a use case answers to whoever called it: the command line prints it, a server would send it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace fallaway::app {

inline constexpr int kDone = 0;
inline constexpr int kGateNotPassed = 1;
inline constexpr int kBadInput = 2;
inline constexpr int kOurFault = 3;

struct CommandOutput {
    int exit_code = kDone;
    std::string out;
    std::string err;
};

// Bad input, as a person reads it ("heron.json: /readings/3/value: ...", one line an error) or, with `json`, as
// {"error": {"code", "path", "message"}} with every further one under "errors".
CommandOutput bad_input(std::string_view subject, const std::vector<Error>& errors, bool json);

}  // namespace fallaway::app
