// One neck from its readings: what is believed of it afterwards, and whether the readings go together.
#pragma once

#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/metrology/uncertainty.h"
#include "science/neck/neck_model.h"
#include "science/neck/readings.h"
#include "science/numeric/linear_gaussian.h"

namespace fallaway::neck {

// One reading beside what all others and the prior say of it.
struct Beside {
    double expected = 0;  // m, of what it reads
    double u = 0;         // m, of that, without the reading's own sd
    // Reading less expected over the u of that difference; normal with sd 1 when all is as stated. For a word: how
    // far outside its interval the expected value lies, 0 inside. The w test of Baarda 1968 (A testing procedure
    // for use in geodetic networks) with the prior counted as readings.
    double w = 0;
};

struct NeckFit {
    bool converged = false;   // false: the words did not settle; the state is the best found
    numeric::Gaussian state;  // of the model's unknowns
    std::vector<Beside> beside;
    // All numbers at once against the prior: chi-squared, its degrees of freedom, and the probability of as much.
    double chi_squared = 0;
    int numbers = 0;
    double p = 1;
    double log_evidence = 0;  // of readings and words together, one start beside another
    // No |w| is beyond what the largest of so many exceeds in 1 of 100 sound sets (Bonferroni).
    bool consistent = true;
};

// `start` is what was believed before: the model's prior unless something is known, such as an earlier fit after a
// move. Order does not matter. Any number of readings, also none. Errors: those of check(); "range" with the path
// /layout when the heights come out as no numbers (a string wider than the board's radius).
Result<NeckFit> fit(const NeckModel& model, std::span<const Reading> readings, const numeric::Gaussian& start);
Result<NeckFit> fit(const NeckModel& model, std::span<const Reading> readings);

// |w| beyond which a set of so many readings is not consistent.
double critical_w(std::size_t readings);

// Any form of a model's unknowns, such as its heights, with its standard uncertainty.
metrology::Uncertain read(const numeric::Gaussian& state, const Form& form);

}  // namespace fallaway::neck
