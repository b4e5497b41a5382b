#include "science/numeric/distributions.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>

#include "science/numeric/roots.h"
#include "science/numeric/saddle_point.h"

namespace fallaway::numeric {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kInfinity = std::numeric_limits<double>::infinity();
// Above this many degrees of freedom one correction term to the normal is exact to double precision.
constexpr double kManyDof = 1e7;

bool is_probability(double p) {
    return p >= 0 && p <= 1;
}

// Solves tail(u) = p on a scale u where the range is the whole line. The smaller tail is compared by its
// logarithm, so that far quantiles keep their digits.
double invert(double p, const std::function<double(double)>& cdf, const std::function<double(double)>& sf) {
    const bool lower = p <= 0.5;
    const double target = std::log(lower ? p : 1 - p);
    const auto miss = [&](double u) {
        const double tail = lower ? cdf(u) : sf(u);
        return std::log(std::max(tail, std::numeric_limits<double>::denorm_min())) - target;
    };
    const Root root = find_root_from(miss, 0, 1, 4096);
    return root.ok() ? root.x : kNan;
}

double invert_positive(double p, const std::function<double(double)>& cdf,
                       const std::function<double(double)>& sf) {
    return std::exp(invert(
        p, [&](double u) { return cdf(std::exp(u)); }, [&](double u) { return sf(std::exp(u)); }));
}

}  // namespace

double beta_quantile(double p, double a, double b) {
    if (!is_probability(p) || !(a > 0) || !(b > 0)) return kNan;
    if (p == 0 || p == 1) return p;
    // On the logit scale both x and 1 - x keep their digits.
    const auto tail = [&](double u, bool upper) {
        const double x = 1 / (1 + std::exp(-u));
        const double y = 1 / (1 + std::exp(u));
        return detail::incomplete_beta(a, b, x, y, upper);
    };
    const double u = invert(
        p, [&](double v) { return tail(v, false); }, [&](double v) { return tail(v, true); });
    return 1 / (1 + std::exp(-u));
}

double normal_pdf(double z) {
    return std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
}

double normal_cdf(double z) {
    return 0.5 * std::erfc(-z * (std::numbers::sqrt2 / 2));
}

double normal_sf(double z) {
    return normal_cdf(-z);
}

double normal_quantile(double p) {
    if (!is_probability(p)) return kNan;
    if (p == 0) return -kInfinity;
    if (p == 1) return kInfinity;
    if (p == 0.5) return 0;
    if (p > 0.5) return -normal_quantile(1 - p);
    // Start: Abramowitz & Stegun 26.2.23, error below 4.5e-4; then Halley's method, which cubes the error.
    const double t = std::sqrt(-2 * std::log(p));
    double z =
        -(t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))));
    for (int i = 0; i < 3; ++i) {
        const double newton = (normal_cdf(z) - p) / normal_pdf(z);
        z -= newton / (1 + 0.5 * z * newton);
    }
    return z;
}

double student_t_sf(double t, double dof) {
    if (!(dof > 0) || std::isnan(t)) return kNan;
    if (t < 0) return 1 - student_t_sf(-t, dof);
    if (std::isinf(t)) return 0;
    if (dof > kManyDof) return normal_sf(t) + normal_pdf(t) * t * (t * t + 1) / (4 * dof);
    const double y = t / dof * t / (1 + t / dof * t);
    return 0.5 * detail::incomplete_beta(0.5, 0.5 * dof, y, 1 / (1 + t / dof * t), true);
}

double student_t_cdf(double t, double dof) {
    return t > 0 ? 1 - student_t_sf(t, dof) : student_t_sf(-t, dof);
}

double student_t_quantile(double p, double dof) {
    if (!is_probability(p) || !(dof > 0)) return kNan;
    if (p == 0) return -kInfinity;
    if (p == 1) return kInfinity;
    if (p == 0.5) return 0;
    if (std::isinf(dof)) return normal_quantile(p);
    // Solved for the smaller tail, which a difference from 1 would round away.
    const double tail = std::min(p, 1 - p);
    const auto sf = [dof](double t) { return student_t_sf(t, dof); };
    const auto miss = [&](double u) { return std::log(sf(std::exp(u))) - std::log(tail); };
    const Root root = find_root_from(miss, 0, 1, 4096);
    const double t = root.ok() ? std::exp(root.x) : kNan;
    return p < 0.5 ? -t : t;
}

double gamma_pdf(double x, double shape, double scale) {
    if (!(shape > 0) || !(scale > 0)) return kNan;
    if (x < 0) return 0;
    if (x == 0) return shape > 1 ? 0 : shape < 1 ? kInfinity : 1 / scale;
    return detail::poisson_term(shape, x / scale) * shape / x;
}

double gamma_cdf(double x, double shape, double scale) {
    return scale > 0 ? gamma_p(shape, std::max(0.0, x / scale)) : kNan;
}

double gamma_quantile(double p, double shape, double scale) {
    if (!is_probability(p) || !(shape > 0) || !(scale > 0)) return kNan;
    if (p == 0) return 0;
    if (p == 1) return kInfinity;
    return scale *
           invert_positive(
               p, [&](double x) { return gamma_p(shape, x); }, [&](double x) { return gamma_q(shape, x); });
}

double chi_squared_cdf(double x, double dof) {
    return gamma_p(0.5 * dof, std::max(0.0, 0.5 * x));
}

double chi_squared_sf(double x, double dof) {
    return gamma_q(0.5 * dof, std::max(0.0, 0.5 * x));
}

double chi_squared_quantile(double p, double dof) {
    return gamma_quantile(p, 0.5 * dof, 2);
}

double f_cdf(double x, double dof1, double dof2) {
    if (x <= 0) return 0;
    const double ratio = dof1 * x / dof2;
    return detail::incomplete_beta(0.5 * dof1, 0.5 * dof2, ratio / (1 + ratio), 1 / (1 + ratio), false);
}

double f_sf(double x, double dof1, double dof2) {
    if (x <= 0) return 1;
    const double ratio = dof1 * x / dof2;
    return detail::incomplete_beta(0.5 * dof1, 0.5 * dof2, ratio / (1 + ratio), 1 / (1 + ratio), true);
}

double f_quantile(double p, double dof1, double dof2) {
    if (!is_probability(p) || !(dof1 > 0) || !(dof2 > 0)) return kNan;
    if (p == 0) return 0;
    if (p == 1) return kInfinity;
    return invert_positive(
        p, [&](double x) { return f_cdf(x, dof1, dof2); }, [&](double x) { return f_sf(x, dof1, dof2); });
}

double binomial_pmf(long k, long n, double p) {
    if (n < 0 || !is_probability(p)) return kNan;
    return detail::binomial_term(static_cast<double>(k), static_cast<double>(n), p, 1 - p);
}

double binomial_cdf(long k, long n, double p) {
    if (n < 0 || !is_probability(p)) return kNan;
    if (k < 0) return 0;
    if (k >= n) return 1;
    return detail::incomplete_beta(static_cast<double>(k) + 1, static_cast<double>(n - k), p, 1 - p, true);
}

double poisson_pmf(long k, double mean) {
    if (!(mean >= 0)) return kNan;
    return k < 0 ? 0 : detail::poisson_term(static_cast<double>(k), mean);
}

double poisson_cdf(long k, double mean) {
    if (!(mean >= 0)) return kNan;
    return k < 0 ? 0 : gamma_q(static_cast<double>(k) + 1, mean);
}

double hypergeometric_pmf(long k, long lot, long bad, long n) {
    if (lot < 0 || bad < 0 || bad > lot || n < 0 || n > lot) return kNan;
    if (k < std::max(0L, n - (lot - bad)) || k > std::min(n, bad)) return 0;
    if (n == 0 || n == lot) return 1;
    // Any p gives the same value; n/lot keeps all three terms near their modes (Loader 2000, section 4).
    const double p = static_cast<double>(n) / static_cast<double>(lot);
    const double q = static_cast<double>(lot - n) / static_cast<double>(lot);
    const auto term = [&](long hits, long of) {
        return detail::binomial_term(static_cast<double>(hits), static_cast<double>(of), p, q);
    };
    return term(k, bad) * term(n - k, lot - bad) / term(n, lot);
}

double hypergeometric_cdf(long k, long lot, long bad, long n) {
    if (std::isnan(hypergeometric_pmf(0, lot, bad, n))) return kNan;
    if (k >= std::min(n, bad)) return 1;
    double sum = 0;
    for (long i = std::max(0L, n - (lot - bad)); i <= k; ++i) sum += hypergeometric_pmf(i, lot, bad, n);
    return std::min(1.0, sum);
}

}  // namespace fallaway::numeric
