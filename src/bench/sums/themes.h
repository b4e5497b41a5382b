// The registrations, one file a theme.
#pragma once

#include <vector>

#include "bench/sums/registry.h"

namespace fallaway::sums {

std::vector<Sum> fret_sums();
std::vector<Sum> setup_sums();
std::vector<Sum> string_sums();
std::vector<Sum> string_choice_sums();
std::vector<Sum> workshop_sums();
std::vector<Sum> pitch_sums();
std::vector<Sum> electric_sums();
std::vector<Sum> reading_sums();
std::vector<Sum> inspection_sums();

}  // namespace fallaway::sums
