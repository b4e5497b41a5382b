// How far a long command has come, and ctrl-C.
#pragma once

#include <functional>
#include <string>

namespace fallaway::cli {

// What a use case asks on its way: shows the fraction on stderr once a second has passed, unless `silent`, and
// says no after ctrl-C. A second ctrl-C ends the program at once.
std::function<bool(double)> progress(std::string what, bool silent);

}  // namespace fallaway::cli
