// Linear and nonlinear least squares. Bad luck is a status, never an exception; after any status but
// `converged` the numbers are the best found and no covariance is given.
#pragma once

#include <functional>
#include <span>
#include <string_view>
#include <vector>

namespace fallaway::numeric {

enum class FitStatus {
    converged,
    too_few_rows,     // fewer observations than unknowns, or none
    bad_input,        // sizes that do not match, a negative weight, a value that is not finite
    rank_deficient,   // the observations cannot tell some unknowns apart
    iteration_limit,  // nonlinear only
};
std::string_view name_of(FitStatus status);

struct Fit {
    FitStatus status = FitStatus::bad_input;
    std::vector<double> parameters;
    std::vector<double> covariance;  // row-major, parameters squared; scaled by residual_sd^2
    std::vector<double> residuals;   // observed - fitted, unweighted
    double rss = 0;                  // weighted sum of squared residuals
    int dof = 0;                     // observations - parameters
    double residual_sd = 0;          // sqrt(rss / dof); 0 when dof is 0
    double r_squared = 0;            // linear only; about the mean when a column is constant, else about 0
    int iterations = 0;              // nonlinear only

    bool ok() const { return status == FitStatus::converged; }
    double u(std::size_t i) const;  // standard uncertainty of parameter i
    double correlation(std::size_t i, std::size_t j) const;
    std::size_t size() const { return parameters.size(); }
    double cov(std::size_t i, std::size_t j) const { return covariance[i * size() + j]; }
};

// Minimises sum w_i (y_i - sum_j design_ij b_j)^2; `design` row-major with y.size() rows; weights 1/u^2,
// or empty for equal ones. Householder QR with column pivoting on columns scaled to unit length, carried
// in long double (Golub & Van Loan, Matrix Computations, 5.4). Columns whose angle to the others' span is
// below 1e-15 are rank_deficient.
Fit linear_fit(std::span<const double> design, std::span<const double> y, std::span<const double> weights = {});

// b_0 + b_1 x + ... + b_degree x^degree. Powers are formed in long double, which a design matrix of
// doubles cannot hold: NIST's Filip keeps 11 digits here and 7 through linear_fit.
Fit polynomial_fit(std::span<const double> x, std::span<const double> y, int degree,
                   std::span<const double> weights = {});

// Writes the residual of every observation (observed - model) for the given parameters.
using ResidualFunction = std::function<void(std::span<const double> parameters, std::span<double> residuals)>;
// Writes d residual_i / d parameter_j, row-major.
using JacobianFunction = std::function<void(std::span<const double> parameters, std::span<double> jacobian)>;

struct NonlinearOptions {
    int max_iterations = 2000;
    double tolerance = 1e-13;   // relative change of parameters, and of the sum of squares
    double first_step = 10;     // first trust radius as a multiple of the scaled start
    JacobianFunction jacobian;  // without it: central differences
};

// Levenberg-Marquardt in trust-region form (More 1978, The Levenberg-Marquardt algorithm: implementation
// and theory), steps from the singular values of the scaled Jacobian. A model that yields NaN or infinity
// away from the start shortens the step. Weighted problems scale their residuals by 1/u.
Fit nonlinear_fit(const ResidualFunction& residuals, std::size_t observations, std::vector<double> start,
                  const NonlinearOptions& options = {});

}  // namespace fallaway::numeric
