// A measured value with what is known of its error, and how several errors make one.
// Source of every formula: JCGM 100:2008 (GUM), clauses 4, 5 and annex G, unless named otherwise.
#pragma once

#include <limits>
#include <span>
#include <string>
#include <vector>

#include "science/base/result.h"

namespace fallaway::metrology {

inline constexpr double kInfiniteDof = std::numeric_limits<double>::infinity();

// A value in SI units with standard uncertainty u (same unit, >= 0) and effective degrees of freedom.
struct Uncertain {
    double value = 0;
    double u = 0;
    double dof = kInfiniteDof;

    friend bool operator==(const Uncertain&, const Uncertain&) = default;
};

// What is known of the shape of an error given by limits +/- half_width. u = half_width / divisor.
enum class Shape { normal_k1, normal_k2, rectangular, triangular, arcsine };
double standard_from_limit(double half_width, Shape shape);

// One source of error of a result: |sensitivity| * u is its part of the result's uncertainty.
struct Contribution {
    std::string name;
    double sensitivity = 1;
    double u = 0;
    double dof = kInfiniteDof;
};

// Correlation coefficient r (-1..1) between contributions i and j (i != j), each pair named once.
struct Correlation {
    std::size_t i = 0;
    std::size_t j = 0;
    double r = 0;
};

struct CombinedUncertainty {
    double u = 0;                   // combined standard uncertainty
    double dof = 0;                 // Welch-Satterthwaite (G.2b); infinite when every part is
    double dof_used = 0;            // truncated to a whole number before the t table (G.4.1)
    bool first_order_valid = true;  // false when every sensitivity is zero: use propagate() instead
};

// Law of propagation (5.1.2 and, with correlations, 5.2.2). Errors: an index out of range, |r| > 1, a
// negative u or dof, correlations that make the variance negative.
Result<CombinedUncertainty> combine(std::span<const Contribution> parts,
                                    std::span<const Correlation> correlations = {});

// Student's t such that the interval +/- k u holds with probability p (0 < p < 1), dof truncated first.
double coverage_factor(double p, double dof);

// Mean and its standard uncertainty s/sqrt(n) with dof n - 1 (4.2.3). n = 1 gives u = 0 and dof 0: the
// caller brings the scatter of earlier studies. Errors: no values.
Result<Uncertain> type_a(std::span<const double> values);

// Older knowledge and a new reading, weighted by 1/u^2; only when nothing was adjusted in between.
// A zero u wins outright.
Uncertain fuse(const Uncertain& older, const Uncertain& newer);

// Normalised error E_n = |x1 - x2| / sqrt(U1^2 + U2^2), U = 2u; agree when <= 1 (ISO 13528, ISO/IEC 17043).
struct Agreement {
    double en = 0;
    bool agree = true;
};
Agreement agreement(const Uncertain& a, const Uncertain& b);

}  // namespace fallaway::metrology
