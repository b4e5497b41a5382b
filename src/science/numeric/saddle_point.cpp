#include "science/numeric/saddle_point.h"

#include <cmath>
#include <limits>
#include <numbers>

#include "science/numeric/distributions.h"

namespace fallaway::numeric {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
constexpr double kEpsilon = std::numeric_limits<double>::epsilon();
constexpr double kHalfLog2Pi = 0.91893853320467274178;
constexpr int kMaxTerms = 2'000'000;

// Stirling's remainder: log Gamma(x + 1) - (x + 1/2) log x + x - log(2 pi)/2, for x >= 15.
double stirling_series(double x) {
    const double r = 1 / (x * x);
    return (1.0 / 12 -
            r * (1.0 / 360 -
                 r * (1.0 / 1260 - r * (1.0 / 1680 - r * (1.0 / 1188 - r * (691.0 / 360360 - r / 156)))))) /
           x;
}

double stirling_remainder(double x) {
    if (x >= 15) return stirling_series(x);
    return log_gamma(x + 1) - (x + 0.5) * std::log(x) + x - kHalfLog2Pi;
}

// x log(x/m) + m - x, which is small and positive, without cancellation near x = m.
double deviance(double x, double m) {
    if (std::abs(x - m) >= 0.1 * (x + m)) return x * std::log(x / m) + m - x;
    const double v = (x - m) / (x + m);
    double sum = (x - m) * v;
    double term = 2 * x * v;
    for (int j = 1; j < 1000; ++j) {
        term *= v * v;
        const double next = sum + term / (2 * j + 1);
        if (next == sum) break;
        sum = next;
    }
    return sum;
}

// Series for P(a, x) without its leading factor; used for x < a + 1 (DLMF 8.11.4).
double gamma_series(double a, double x) {
    double sum = 1;
    double term = 1;
    for (int n = 1; n < kMaxTerms && term > sum * 0.25 * kEpsilon; ++n) {
        term *= x / (a + n);
        sum += term;
    }
    return sum;
}

// Continued fraction for Q(a, x) without its factor x^a e^-x / Gamma(a), by Lentz's method (DLMF 8.9.2).
double gamma_fraction(double a, double x) {
    constexpr double tiny = 1e-300;
    double b = x + 1 - a;
    double c = 1 / tiny;
    double d = 1 / (b == 0 ? tiny : b);
    double h = d;
    for (int i = 1; i < kMaxTerms; ++i) {
        const double numerator = -i * (i - a);
        b += 2;
        d = numerator * d + b;
        if (std::abs(d) < tiny) d = tiny;
        c = b + numerator / c;
        if (std::abs(c) < tiny) c = tiny;
        d = 1 / d;
        const double change = d * c;
        h *= change;
        if (std::abs(change - 1) <= kEpsilon) break;
    }
    return h;
}

// Continued fraction of I_x(a, b), DLMF 8.17.22, by Lentz's method; fast for x < (a + 1)/(a + b + 2).
double beta_fraction(double a, double b, double x) {
    constexpr double tiny = 1e-300;
    double c = 1;
    double d = 1 - (a + b) * x / (a + 1);
    d = 1 / (std::abs(d) < tiny ? tiny : d);
    double h = d;
    for (int m = 1; m < kMaxTerms; ++m) {
        const auto advance = [&](double numerator) {
            d = 1 + numerator * d;
            d = 1 / (std::abs(d) < tiny ? tiny : d);
            c = 1 + numerator / c;
            if (std::abs(c) < tiny) c = tiny;
            h *= d * c;
            return d * c;
        };
        advance(m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)));
        const double change = advance(-(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)));
        if (std::abs(change - 1) <= kEpsilon) break;
    }
    return h;
}

}  // namespace

double log_gamma(double x) {
    if (!(x > 0)) return kNan;
    if (std::isinf(x)) return x;
    double product = 1;
    while (x < 15) product *= x++;
    return (x - 0.5) * std::log(x) - x + kHalfLog2Pi + stirling_series(x) - std::log(product);
}

namespace detail {

double poisson_term(double a, double x) {
    if (x == 0) return a == 0 ? 1 : 0;
    if (a == 0) return std::exp(-x);
    if (a < 1e-5) return std::exp(a * std::log(x) - x - log_gamma(a + 1));
    return std::exp(-stirling_remainder(a) - deviance(a, x)) / std::sqrt(2 * std::numbers::pi * a);
}

double binomial_term(double k, double n, double p, double q) {
    if (k < 0 || k > n) return 0;
    if (p == 0) return k == 0 ? 1 : 0;
    if (q == 0) return k == n ? 1 : 0;
    const double other = n - k;
    if (k == 0) return std::exp(n * (p < q ? std::log1p(-p) : std::log(q)));
    if (other == 0) return std::exp(n * (q < p ? std::log1p(-q) : std::log(p)));
    const double exponent = stirling_remainder(n) - stirling_remainder(k) - stirling_remainder(other) -
                            deviance(k, n * p) - deviance(other, n * q);
    return std::exp(exponent) * std::sqrt(n / (2 * std::numbers::pi * k * other));
}

double incomplete_beta(double a, double b, double x, double y, bool upper) {
    if (!(a > 0) || !(b > 0) || !(x >= 0) || !(y >= 0)) return kNan;
    if (x == 0 || y == 0) return (x == 0) == upper ? 1 : 0;
    // Beyond the turning point the fraction of the mirrored function converges instead.
    if (x > (a + 1) / (a + b + 2)) return incomplete_beta(b, a, y, x, !upper);
    // x^a y^b / (a B(a, b)) written as a binomial term with real arguments.
    const double lower = binomial_term(a, a + b, x, y) * b / (a + b) * beta_fraction(a, b, x);
    return upper ? 1 - lower : lower;
}

}  // namespace detail

double gamma_p(double a, double x) {
    if (!(a > 0) || !(x >= 0)) return kNan;
    if (std::isinf(x)) return 1;
    if (x >= a + 1) return 1 - gamma_q(a, x);
    return detail::poisson_term(a, x) * gamma_series(a, x);
}

double gamma_q(double a, double x) {
    if (!(a > 0) || !(x >= 0)) return kNan;
    if (std::isinf(x)) return 0;
    if (x < a + 1) return 1 - gamma_p(a, x);
    return detail::poisson_term(a, x) * a * gamma_fraction(a, x);
}

double beta_cdf(double x, double a, double b) {
    return detail::incomplete_beta(a, b, x, 1 - x, false);
}

double beta_sf(double x, double a, double b) {
    return detail::incomplete_beta(a, b, x, 1 - x, true);
}

}  // namespace fallaway::numeric
