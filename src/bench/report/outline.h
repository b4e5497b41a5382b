// What both reports lay out: the title block, and findings brought together so that one line says one thing.
#pragma once

#include <string>
#include <vector>

#include "bench/report/report.h"

namespace fallaway::report {

struct TitleCell {
    std::string label;
    std::string value;
};

inline constexpr std::string_view kDemoMark = "Demo: invented instrument and values";

// The instrument's name and, apart from it, what tells it from others: "OH-0412, six strings, 635 mm".
std::string instrument_name(const evidence::Instrument& instrument);
std::string instrument_facts(const evidence::Instrument& instrument);

// Player, scope, hands, received, promised, readings; a cell without a value is left out.
std::vector<TitleCell> title_cells(const Sheet& sheet);

// Findings of one checkpoint that share severity, standing, reason and remedy: told once, with their places.
struct FindingGroup {
    std::vector<const judgement::Finding*> members;  // never empty
    std::string place;                               // "Strings 5, 6"; "Whole instrument"
    std::string title;                               // without the place
    const judgement::Finding& first() const { return *members.front(); }
};
std::vector<FindingGroup> grouped(const std::vector<judgement::Finding>& findings, evidence::Severity severity);

// How one member of a group is told from the others: "6" for a string, else its place; "" for a group of one.
std::string mark_within(const FindingGroup& group, const judgement::Finding& finding);

// What the members of a group read: "5: 2.25, 6: 2.45 ± 0.05 mm"; u and unit once where they agree.
std::string found_words(const FindingGroup& group);
// Their limit where it is one; else "differs by string".
std::string limit_words(const FindingGroup& group);

// Assumptions that rest on the same ground: it is told once.
struct AssumptionGroup {
    std::string because;
    std::vector<TitleCell> taken;      // what, and taken as what
    std::vector<std::string> unknown;  // what nobody can guess
};
std::vector<AssumptionGroup> grouped(const std::vector<evidence::Assumption>& assumed);

// What the player wishes, as label and value.
std::vector<TitleCell> wishes(const evidence::Bench& bench);

// What the sign beside a figure promises; JCGM 100:2008, 2.3.1 and G.1.3 (normal errors).
inline constexpr std::string_view kPlusMinus =
    "± is one standard uncertainty: the true value lies within it about 2 times in 3, within twice that 19 times "
    "in 20.";

// "cured, says Ruta, shown by readings", "open".
std::string complaint_ending(const judgement::ComplaintLine& complaint);

inline constexpr evidence::Severity kSeverities[] = {evidence::Severity::critical, evidence::Severity::major,
                                                     evidence::Severity::minor, evidence::Severity::note};
std::string severity_heading(evidence::Severity severity);

}  // namespace fallaway::report
