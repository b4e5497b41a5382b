// The report of one visit: for the owner, for an audience, for the shop's folder. Pure: the same evidence gives
// the same bytes; dates come from the bench file.
#pragma once

#include <string>

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "bench/judgement/assessment.h"

namespace fallaway::report {

// Everything a report is made from. The references must outlive the call.
struct Sheet {
    const evidence::Bench& bench;
    const evidence::Catalogue& catalogue;
    const judgement::Assessment& assessment;
    std::string version;  // of the program, for the foot of the page
};

// At most 100 columns, UTF-8, every line ended; with `colour` also SGR codes for bold and red, which take no room.
std::string text_report(const Sheet& sheet, bool colour);

// One complete HTML file: no script, nothing fetched, light and dark, ready for paper.
std::string html_report(const Sheet& sheet);

}  // namespace fallaway::report
