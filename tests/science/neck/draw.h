// Drawing for property tests: rapidcheck prints the seed of a run that fails.
#pragma once

#include <rapidcheck.h>

namespace fallaway::neck {

inline double in_range(double low, double high) {
    return low + (high - low) * *rc::gen::inRange(0, 100001) / 1e5;
}

}  // namespace fallaway::neck
