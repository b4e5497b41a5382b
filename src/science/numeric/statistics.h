// Numbers that describe a handful of values. Every function that cannot answer returns NaN.
#pragma once

#include <span>
#include <vector>

namespace fallaway::numeric {

// Arithmetic mean by two passes: the second adds back what rounding lost. NaN without values.
double mean(std::span<const double> values);
// Standard deviation with divisor n - 1 about the corrected mean (Chan, Golub & LeVeque 1983, corrected
// two-pass). 0 for one value, NaN without.
double standard_deviation(std::span<const double> values);

double median(std::span<const double> values);
// Median absolute deviation from the median times 1.4826, which makes it an estimate of sigma for normal data.
double scaled_mad(std::span<const double> values);

// Sample quantile, 0 <= p <= 1, types 6, 7 and 8 of Hyndman & Fan 1996. Type 8 is ours for small samples.
enum class QuantileType { type6 = 6, type7 = 7, type8 = 8 };
double quantile(std::span<const double> values, double p, QuantileType type = QuantileType::type8);

// Huber's location with the scaled MAD held fixed as scale (Huber 1981; Venables & Ripley 2002, 5.5).
// Equals the median when the scale is zero.
struct Huber {
    double location = 0;
    double scale = 0;
    int iterations = 0;
    bool converged = false;
};
Huber huber(std::span<const double> values, double k = 1.5);

struct Interval {
    double low = 0;
    double high = 0;
};
// Wilson's score interval for `hits` of `n` with two-sided probability p (Wilson 1927). n = 0 gives [0, 1].
Interval wilson(double hits, double n, double p = 0.95);

// Ranks 1..n in the order of the values; ties share their mean rank.
std::vector<double> ranks(std::span<const double> values);

}  // namespace fallaway::numeric
