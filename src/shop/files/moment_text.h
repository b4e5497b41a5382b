// Days and moments as text. Nothing here knows what time it is.
#pragma once

#include <string_view>

#include "bench/evidence/bench.h"
#include "science/base/result.h"

namespace fallaway::files {

// A day of the Gregorian calendar, "2026-11-28". Errors: "syntax", "range" (no such day); the path is empty.
Result<std::string> parse_day(std::string_view text);

// RFC 3339, section 5.6, with offset: "2026-11-24T09:10:00+01:00". A fraction of a second is kept in the text and
// dropped in `instant`. A leap second (":60") is refused: the instants of two such readings could not be told
// apart.
Result<evidence::Moment> parse_moment(std::string_view text);

}  // namespace fallaway::files
