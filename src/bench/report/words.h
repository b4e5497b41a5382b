// Small wordings that the page and the plain text share.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "bench/evidence/bench.h"
#include "bench/judgement/assessment.h"

namespace fallaway::report {

std::string capital(std::string_view text);  // first letter of plain ASCII made large
std::string join(const std::vector<std::string>& parts, std::string_view between);
std::string list_of(const std::vector<std::string>& parts);  // "a, b and c"
std::string counted(std::size_t n, std::string_view one);    // "1 reading", "3 readings"

// "2026-11-28" and "2026-11-28T09:10:00+01:00" as "Sat 28 Nov 2026"; anything else as it stands. Weekday after
// Sakamoto 1993.
std::string readable_day(std::string_view date);
// "Sat 28 Nov 2026, 09:10" where an hour is given.
std::string readable_moment(const evidence::Moment& moment);

// "91 in 100"; never 0 or 100: "under 1 in 100", "over 99 in 100".
std::string chance(double p);

// "1 min", "0.5 min": no digit that means nothing.
std::string minutes_text(double minutes);

std::string hands_words(evidence::Hands hands);
std::string stage_words(evidence::Stage stage);
std::string standing_words(judgement::Standing standing);
bool breaks_its_limit(judgement::Standing standing);

// A figure taken apart for setting: "1.95 ± 0.04 mm" is value "1.95", u "±0.04", unit "mm". Words are all value.
struct FigureParts {
    std::string value;
    std::string u;
    std::string unit;
};
FigureParts parts_of(const judgement::Figure& figure);

// "accepted by Ruta, Tue 25 Nov 2026, 14:10: wanted so".
std::string acceptance_words(const evidence::Acceptance& acceptance);

}  // namespace fallaway::report
