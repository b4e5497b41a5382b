// Which limit counts for one place of a checkpoint, and how a reading stands against it.
#pragma once

#include "bench/judgement/assessment.h"
#include "bench/model/current.h"

namespace fallaway::judgement {

// A limit made definite for one string.
struct PlaceLimit {
    metrology::Limits limits;          // SI
    std::optional<double> high_major;  // SI
    evidence::Severity low_severity = evidence::Severity::note;
    bool strict = false;
    std::string source;
};

// The player's want outranks the shop's own limit, which outranks the procedure's first limit that applies.
std::optional<PlaceLimit> limit_for(const evidence::Checkpoint& checkpoint, const evidence::Place& at,
                                    const evidence::Bench& bench);

// Fills in limit, standing, severity and advice of a line from a reading.
void hold_against_limit(Line& line, const model::Current& current, const evidence::Checkpoint& checkpoint,
                        const evidence::Bench& bench, const evidence::Catalogue& catalogue);

// A finer tool for an observable: the first kind of the catalogue, made for it and other than `used`, whose
// standard uncertainty near `value` is at most `u_needed`; "" when there is none.
std::string finer_tool(std::string_view observable, double value, double u_needed, std::string_view used,
                       const evidence::Catalogue& catalogue);

}  // namespace fallaway::judgement
