// Evidence in, assessment out. Pure and deterministic: the same evidence gives the same bytes; no clock.
#pragma once

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "bench/judgement/assessment.h"

namespace fallaway::judgement {

// The evidence must have passed evidence::validate() with the same catalogue.
Assessment assess(const evidence::Bench& bench, const evidence::Catalogue& catalogue);

}  // namespace fallaway::judgement
