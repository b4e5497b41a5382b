// Writes the invented demo instruments as bench files to play with.
#pragma once

#include <string>

#include "shop/app/command_output.h"

namespace fallaway::app {

CommandOutput demo_command(const std::string& folder, bool json);

}  // namespace fallaway::app
