// Chains of inspectors, samples of a lot, and capability. Pure probabilities; every argument a plain number.
#pragma once

#include <span>

#include "science/base/result.h"
#include "science/metrology/conformity.h"

namespace fallaway::metrology {

// Probability that a fault passes every inspector, each finding it with his own probability, independently.
Result<double> escape_independent(std::span<const double> detection);
// The same for `inspectors` of equal mean detection when hard faults are hard for everyone: beta-binomial
// with correlation rho, 0 <= rho < 1, and a + b = 1/rho - 1. rho = 0 is the independent chain.
Result<double> escape_shared(double mean_detection, double rho, int inspectors);

// Faults that there are, from what two inspectors found and what both found (Chapman 1951). A lower bound
// when both find the easy ones.
struct FaultCount {
    double total = 0;
    double se = 0;
    double unseen = 0;  // total - what was found by either
};
Result<FaultCount> faults_present(int first, int second, int both);

// Probability that a lot passes the plan "n drawn, at most c bad".
Result<double> pass_large_lot(int n, int c, double bad_share);       // binomial
Result<double> pass_lot(int lot, int bad, int n, int c);             // hypergeometric, exact
Result<double> pass_defects(int n, int c, double defects_per_unit);  // Poisson
// The bad share that is exceeded with at most 1 - confidence, when `bad` of n were bad (Clopper & Pearson
// 1934, one-sided). 1 - 0.05^(1/n) for none bad at 95 %.
Result<double> bad_share_bound(int n, int bad, double confidence = 0.95);

// Sources: NIST/SEMATECH e-Handbook 6.1.6; interval Bissell 1990.
struct Capability {
    double cp = 0;  // 0 unless both limits are given
    double cpk = 0;
    double cpk_low = 0;  // 95 % interval; equal to cpk when n < 2
    double cpk_high = 0;
    double below = 0;  // normal share beyond each limit
    double above = 0;
};
// `n` values stand behind mean and sd (0: unknown). Errors: no limit, sd not positive, lower > upper.
Result<Capability> capability(const Limits& limits, double mean, double sd, int n = 0);

}  // namespace fallaway::metrology
