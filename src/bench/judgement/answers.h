// Every checkpoint of the procedure held against what is known: one answer each, place by place.
#pragma once

#include "bench/judgement/assessment.h"
#include "bench/model/current.h"

namespace fallaway::judgement {

// In the order of the procedure. Checkpoints that do not apply are left out.
std::vector<Answer> answer_checkpoints(const evidence::Bench& bench, const evidence::Catalogue& catalogue,
                                       const model::CurrentReadings& readings);

// The faults among the answers, as findings in the order of the procedure.
std::vector<Finding> findings_of(const std::vector<Answer>& answers, const evidence::Procedure& procedure);

// Where a checkpoint is read on this instrument, in the order of work; for "every note rings" every note there is.
// One empty place when it is read once, wherever.
std::vector<evidence::Place> places_to_read(const evidence::Checkpoint& checkpoint,
                                            const evidence::Instrument& instrument);

// The words by which lists call a checkpoint.
std::string title_of(const evidence::Checkpoint& checkpoint);

// "1.3 to 2.2 mm", "up to 0.12 mm", "1.5 mm and more".
std::string limit_text(const metrology::Limits& limits, const Unit& unit);

evidence::Severity one_class_lower(evidence::Severity severity);

}  // namespace fallaway::judgement
