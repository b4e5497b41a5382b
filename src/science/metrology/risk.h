// How often a measuring rule errs over a whole population of items. Source: JCGM 106:2012, clause 9.
#pragma once

#include <variant>

#include "science/base/result.h"
#include "science/metrology/conformity.h"

namespace fallaway::metrology {

struct NormalPopulation {
    double mean = 0;
    double sd = 1;
};
struct GammaPopulation {
    double shape = 1;
    double scale = 1;
};
using Population = std::variant<NormalPopulation, GammaPopulation>;

struct GlobalRisk {
    double out_of_tolerance = 0;  // share of the population beyond the limits
    double false_accept = 0;      // bad and accepted: consumer's risk, 9.5.2
    double false_reject = 0;      // good and refused: producer's risk, 9.5.3
};
// Items are accepted when the reading lies within `acceptance`; the reading is normal about the true value
// with standard deviation u_measure. Errors: spreads that are not positive, no limit at all.
Result<GlobalRisk> global_risk(const Population& population, const Limits& tolerance, const Limits& acceptance,
                               double u_measure);

// The upper acceptance limit that brings the false-accept share down to `target`, for an upper tolerance
// alone. Errors: as above, and a target that even refusing nearly everything cannot reach.
Result<double> acceptance_limit(const Population& population, double upper, double u_measure, double target);

}  // namespace fallaway::metrology
