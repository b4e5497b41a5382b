// The parts of an assessment that do not come from checkpoints. Each looks at evidence and current readings only.
#pragma once

#include "bench/judgement/assessment.h"
#include "bench/model/current.h"

namespace fallaway::judgement {

// Promises against what is found, with the tolerance of their kind.
std::vector<ClaimLine> judge_claims(const evidence::Bench& bench, const evidence::Catalogue& catalogue,
                                    const model::CurrentReadings& readings);
std::vector<Finding> findings_of(const std::vector<ClaimLine>& claims, const evidence::Bench& bench,
                                 const evidence::Catalogue& catalogue);

// The player's complaints with their ending and what shows it; `findings` are those made so far.
std::vector<ComplaintLine> judge_complaints(const evidence::Bench& bench, const model::CurrentReadings& readings,
                                            const std::vector<Finding>& findings);

// Another inspector's card, line by line.
std::vector<CardResult> judge_card(const evidence::Bench& bench, const evidence::Catalogue& catalogue,
                                   const model::CurrentReadings& readings);

// The same places read before and after the work.
std::vector<Change> judge_changes(const model::CurrentReadings& readings);

std::optional<PriceResult> judge_price(const evidence::Bench& bench);

// What to read next: worth to the verdict per minute, best first; nothing that the hands rule forbids.
std::vector<NextReading> next_readings(const evidence::Bench& bench, const evidence::Catalogue& catalogue,
                                       const std::vector<Answer>& answers, const std::vector<ClaimLine>& claims);

// What is still taken for granted once the readings have spoken.
std::vector<evidence::Assumption> still_assumed(const evidence::Bench& bench,
                                                const model::CurrentReadings& readings);

}  // namespace fallaway::judgement
