// The command `sums`, without the terminal.
#pragma once

#include <span>
#include <string>

#include "shop/app/command_output.h"

namespace fallaway::app {

// `arguments`: the name of a sum, then key=value. With `list`: every sum, or what the one named takes.
// Bad input ends with exit code 2 and a line on `err` such as
//   sums fret-places: scale: "635": unit missing, expected a length such as "1.60 mm"
CommandOutput sums_command(std::span<const std::string> arguments, bool list, bool json);

}  // namespace fallaway::app
