// One verdict on the scope, with the reasons that decide it.
#pragma once

#include "bench/evidence/catalogue.h"
#include "bench/judgement/assessment.h"

namespace fallaway::judgement {

// A finding counts unless a person accepted it; only critical and major ones move the verdict. Checkpoints outside
// the scope, optional ones and those the hands rule forbids never block it. Order of weight: send back, repair
// first, set up first, cannot tell yet, ready.
struct VerdictWithReasons {
    Verdict verdict = Verdict::cannot_tell_yet;
    std::vector<std::string> reasons;
};
VerdictWithReasons reach_verdict(const Assessment& assessment, const evidence::Procedure& procedure);

}  // namespace fallaway::judgement
