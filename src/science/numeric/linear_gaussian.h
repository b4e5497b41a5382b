// What is believed of unknowns that are jointly normal, and what readings of linear forms of them make of it:
// numbers exactly, intervals (a word, a go / no-go) by a normal that has the same mean and variance.
#pragma once

#include <span>
#include <vector>

namespace fallaway::numeric {

// weights . x + constant
struct LinearForm {
    std::vector<double> weights;  // one for each unknown
    double constant = 0;

    LinearForm& operator+=(const LinearForm& other);
    LinearForm& operator*=(double factor);
    friend LinearForm operator+(LinearForm a, const LinearForm& b) { return a += b; }
    friend LinearForm operator-(LinearForm a, LinearForm b) { return a += (b *= -1); }
    friend LinearForm operator*(double factor, LinearForm a) { return a *= factor; }
};

struct Gaussian {
    std::vector<double> mean;
    std::vector<double> covariance;  // row-major, positive semi-definite; a variance of 0 is a known value

    std::size_t size() const { return mean.size(); }
};

double mean_of(const Gaussian& state, const LinearForm& form);
double variance_of(const Gaussian& state, const LinearForm& form);
// Joint covariance of several forms, row-major.
std::vector<double> covariance_of(const Gaussian& state, std::span<const LinearForm> forms);

// form + error lies between low and high, the error normal with mean 0 and sd u. low == high is a number; an end
// may be infinite.
struct Observation {
    LinearForm form;
    double low = 0;
    double high = 0;
    double u = 0;  // > 0

    bool is_number() const { return low == high; }
};

// Normal x with mean and variance > 0, given that x + error (sd u) lies between low and high.
struct IntervalMoments {
    double log_probability = 0;  // of the interval before it was known
    double shift = 0;            // mean of x + error afterwards less before, in sd of x + error
    double shrink = 0;           // share of the variance of x + error that is gone, 0..1
    double mean = 0;             // of x afterwards
    double variance = 0;
};
// Good to about 1e-9 sd and variances of x + error for intervals up to some 1,000 sd out (Mills' ratio, Abramowitz
// & Stegun 26.2.14), where plain differences of probabilities end at 8.
IntervalMoments interval_moments(double mean, double variance, double low, double high, double u);

enum class ConditionStatus {
    converged,
    iteration_limit,  // of the intervals; the state is the best found
    bad_input,        // sizes that do not match, u not above 0, low above high, a value that is no number
};

// The normal reading that stands for an observation: itself, or what an interval amounts to beside the others.
struct Site {
    double precision = 0;  // 1/u^2; 0 says nothing
    double value = 0;
};

struct Conditioned {
    ConditionStatus status = ConditionStatus::bad_input;
    Gaussian state;
    std::vector<Site> sites;  // one for each observation
    // Of the numbers alone against the prior: chi-squared with that many degrees of freedom if all is as stated.
    double chi_squared = 0;
    int numbers = 0;
    // Log of the density of all observations before they were known: what one prior is worth beside another.
    double log_evidence = 0;
    int sweeps = 0;

    bool ok() const { return status == ConditionStatus::converged; }
};

// Numbers by orthogonal reduction of the whitened equations (Golub & Van Loan, Matrix Computations, 5.3), which
// keeps readings that are nearly exact apart; intervals by expectation propagation (Minka 2001, Expectation
// propagation for approximate Bayesian inference; sites and evidence as in Rasmussen & Williams 2006,
// Gaussian processes for machine learning, 3.6).
Conditioned condition(const Gaussian& prior, std::span<const Observation> observations);

// What all other observations say of the form of one of them: mean, and variance without its own u.
struct Prediction {
    double mean = 0;
    double variance = 0;
};
Prediction prediction_without(const Conditioned& result, std::span<const Observation> observations, std::size_t i);

}  // namespace fallaway::numeric
