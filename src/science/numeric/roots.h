// Where a function of one variable crosses zero.
#pragma once

#include <functional>

namespace fallaway::numeric {

enum class RootStatus { converged, no_sign_change, iteration_limit };

struct Root {
    double x = 0;  // the best point found, whatever the status
    RootStatus status = RootStatus::converged;
    int iterations = 0;

    bool ok() const { return status == RootStatus::converged; }
};

// The root of f in [low, high], where f must change sign. Stops when the bracket is narrower than
// `tolerance` + 4 epsilon |x|. Source: Brent 1973, Algorithms for Minimization without Derivatives, ch. 4.
Root find_root(const std::function<double(double)>& f, double low, double high, double tolerance = 0);

// The root of a monotone f, started at `guess` with a bracket that doubles its width until the sign
// changes; no_sign_change when it never does within `reach` of the guess.
Root find_root_from(const std::function<double(double)>& f, double guess, double step, double reach);

}  // namespace fallaway::numeric
