// The travel of a screw for one turn, by the name of its thread.
#pragma once

#include <string>
#include <string_view>

#include "science/base/quantity.h"
#include "science/base/result.h"

namespace fallaway::strings {

struct Thread {
    std::string name;  // "M3", "4-40", "pitch 0.5 mm"
    Length pitch;      // travel of one turn
    std::string source;
};

// A thread by its name in ISO 261 ("M3" is the coarse one, "M3x0.35" a fine one) or ASME B1.1 ("4-40", "1/4-20"),
// or a pitch with its unit ("0.5 mm", "1/40 in"). Errors: code "thread", no path: unknown name, a pitch outside
// 0.1 to 3 mm.
Result<Thread> thread_named(std::string_view text);

// What becomes of a move on a screw; + in the direction of the move.
inline double turns_for(Length move, const Thread& thread) {
    return move / thread.pitch;
}

}  // namespace fallaway::strings
