// Inner terms of binomial, Poisson, beta and gamma probabilities that neither overflow nor cancel.
// Source: Loader 2000, Fast and accurate computation of binomial probabilities.
#pragma once

namespace fallaway::numeric::detail {

// x^a e^-x / Gamma(a + 1) for real a >= 0, x >= 0.
double poisson_term(double a, double x);

// Gamma(n + 1) / (Gamma(k + 1) Gamma(n - k + 1)) p^k q^(n - k) for real 0 <= k <= n, p + q = 1. Both
// p and q are given so that neither loses digits when the other is near one.
double binomial_term(double k, double n, double p, double q);

// I_x(a, b) and its complement from x and y = 1 - x, both given exactly.
double incomplete_beta(double a, double b, double x, double y, bool upper);

}  // namespace fallaway::numeric::detail
