// The style sheet of the page, tokens included.
#pragma once

#include <string>

namespace fallaway::report {

// `foot_left` is foreign text: it is printed at the foot of every sheet of paper.
std::string style_sheet(const std::string& foot_left);

}  // namespace fallaway::report
