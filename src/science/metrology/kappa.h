// Agreement of people who sort the same things into classes.
#pragma once

#include <vector>

#include "science/base/result.h"

namespace fallaway::metrology {

using Table = std::vector<std::vector<double>>;

enum class KappaWeights { nominal, linear, quadratic };
// Disagreement weights between `classes` classes: 1 off the diagonal, |i-j|, or (i-j)^2.
Table disagreement(KappaWeights weights, std::size_t classes);

struct Kappa {
    double kappa = 0;
    double u = 0;                  // large-sample standard error; 0 when the table holds proportions
    double percent_agreement = 0;  // share on the diagonal, 0..1: kappa collapses when nearly all pass
    double expected = 0;           // weighted agreement by chance, 0..1
};
// Two people: counts[i][j] things that the first put in class i and the second in j; or proportions that add
// up to 1. kappa = 1 - sum w o / sum w e. Sources: Cohen 1960, 1968; standard error Fleiss, Cohen &
// Everitt 1969. Errors: not square, fewer than 2 classes, nothing counted, negative entries, chance
// agreement complete (everything in one class: kappa is undefined).
Result<Kappa> cohen_kappa(const Table& counts, const Table& disagreement_weights);

struct FleissKappa {
    double kappa = 0;
    double observed = 0;  // mean agreement of pairs of people, P-bar
    double expected = 0;  // by chance, P_e
};
// Many people: counts[thing][class], each row adding up to the same number of people >= 2 (Fleiss 1971).
Result<FleissKappa> fleiss_kappa(const Table& counts);

}  // namespace fallaway::metrology
