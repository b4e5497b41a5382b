// Our distributions against printed table values and against Boost.Math as a general-purpose oracle.
#include "science/numeric/distributions.h"

#include <cmath>
#include <limits>

#include <gtest/gtest.h>
#include <boost/math/distributions.hpp>

namespace fallaway::numeric {
namespace {

namespace bm = boost::math;

// The accuracy that the header states.
constexpr double kBody = 1e-12;
constexpr double kLargeShape = 1e-10;

// Relative agreement; tails below 1e-200 are beyond any use.
void expect_close(double actual, double expected, double relative, const std::string& what) {
    if (std::abs(expected) < 1e-200) return;
    EXPECT_NEAR(actual / expected, 1, relative) << what << ": expected " << expected << ", got " << actual;
}

std::string at(double a, double b = 0, double c = 0) {
    return std::to_string(a) + ", " + std::to_string(b) + ", " + std::to_string(c);
}

TEST(Distributions, RefuseWithNan) {
    EXPECT_TRUE(std::isnan(normal_quantile(-0.1)));
    EXPECT_TRUE(std::isnan(normal_quantile(1.1)));
    EXPECT_TRUE(std::isnan(student_t_cdf(1, 0)));
    EXPECT_TRUE(std::isnan(student_t_quantile(0.5, -1)));
    EXPECT_TRUE(std::isnan(beta_cdf(0.5, 0, 1)));
    EXPECT_TRUE(std::isnan(beta_cdf(1.5, 1, 1)));
    EXPECT_TRUE(std::isnan(gamma_p(-1, 1)));
    EXPECT_TRUE(std::isnan(binomial_cdf(1, 2, 1.5)));
    EXPECT_TRUE(std::isnan(hypergeometric_pmf(1, 10, 11, 3)));
    EXPECT_TRUE(std::isnan(poisson_cdf(1, -1)));
    EXPECT_TRUE(std::isnan(log_gamma(0)));
}

TEST(Distributions, EndsOfTheRange) {
    EXPECT_EQ(normal_quantile(0), -std::numeric_limits<double>::infinity());
    EXPECT_EQ(normal_quantile(0.5), 0);
    EXPECT_EQ(beta_quantile(0, 2, 3), 0);
    EXPECT_EQ(beta_quantile(1, 2, 3), 1);
    EXPECT_EQ(beta_cdf(0, 2, 3), 0);
    EXPECT_EQ(beta_cdf(1, 2, 3), 1);
    EXPECT_EQ(gamma_p(2, 0), 0);
    EXPECT_EQ(binomial_cdf(-1, 5, 0.5), 0);
    EXPECT_EQ(binomial_cdf(5, 5, 0.5), 1);
    EXPECT_EQ(binomial_pmf(0, 5, 0), 1);
    EXPECT_EQ(binomial_pmf(5, 5, 1), 1);
    EXPECT_EQ(hypergeometric_cdf(2, 10, 2, 10), 1);
    EXPECT_EQ(poisson_cdf(0, 0), 1);
}

// JCGM 100:2008, Table G.2, printed to two decimals.
TEST(Distributions, StudentTableOfTheGuide) {
    EXPECT_NEAR(student_t_quantile(0.975, 1), 12.71, 0.005);
    EXPECT_NEAR(student_t_quantile(0.975, 2), 4.30, 0.005);
    EXPECT_NEAR(student_t_quantile(0.975, 5), 2.57, 0.005);
    EXPECT_NEAR(student_t_quantile(0.975, 10), 2.23, 0.005);
    EXPECT_NEAR(student_t_quantile(0.975, 50), 2.01, 0.005);
    EXPECT_NEAR(student_t_quantile(0.995, 16), 2.92, 0.005);
    EXPECT_NEAR(student_t_quantile(0.975, std::numeric_limits<double>::infinity()), 1.960, 0.0005);
}

// Printed upper 5 % points (Pearson & Hartley, Biometrika Tables; from memory).
TEST(Distributions, PrintedPoints) {
    EXPECT_NEAR(chi_squared_quantile(0.95, 1), 3.841, 0.0005);
    EXPECT_NEAR(chi_squared_quantile(0.95, 10), 18.307, 0.0005);
    EXPECT_NEAR(f_quantile(0.95, 9, 40), 2.12, 0.005);   // JCGM 100 H.5
    EXPECT_NEAR(f_quantile(0.975, 9, 40), 2.45, 0.005);  // JCGM 100 H.5
    EXPECT_NEAR(hypergeometric_cdf(0, 20, 2, 5), 8568.0 / 15504, 1e-14);
}

TEST(Distributions, LogGammaAgainstTheLibrary) {
    for (double x = 1e-6; x < 1e8; x *= 1.7)
        EXPECT_NEAR(log_gamma(x), bm::lgamma(x), 4e-15 * (1 + std::abs(bm::lgamma(x)) + x)) << x;
}

TEST(Distributions, NormalAgainstTheLibrary) {
    const bm::normal normal;
    for (double z = -37; z < 37; z += 0.37) expect_close(normal_cdf(z), cdf(normal, z), kBody, at(z));
    for (double p = 1e-300; p < 0.5; p *= 7) expect_close(normal_quantile(p), quantile(normal, p), 1e-14, at(p));
    for (double p = 0.01; p < 1; p += 0.0173) EXPECT_NEAR(normal_quantile(p), quantile(normal, p), 1e-14) << p;
}

TEST(Distributions, StudentAgainstTheLibrary) {
    for (const double dof : {0.3, 1.0, 2.0, 3.7, 9.0, 16.76, 50.0, 1e3, 1e5, 3e6, 1e9}) {
        const bm::students_t t(dof);
        const double allowed = dof < 1e5 ? kBody : kLargeShape;
        for (const double x : {0.001, 0.01, 0.7, 1.0, 1.96, 3.3, 6.0}) {
            expect_close(student_t_sf(x, dof), cdf(complement(t, x)), allowed, at(x, dof));
            expect_close(student_t_cdf(-x, dof), cdf(t, -x), allowed, at(-x, dof));
        }
        for (const double p : {1e-9, 0.005, 0.025, 0.3, 0.7, 0.95, 0.975, 0.995}) {
            expect_close(student_t_quantile(p, dof), quantile(t, p), allowed, at(p, dof));
        }
    }
}

TEST(Distributions, BetaAgainstTheLibrary) {
    for (const double a : {0.5, 1.0, 3.5, 20.0, 900.0, 4e4}) {
        for (const double b : {0.5, 2.0, 6.5, 150.0, 3e4}) {
            const bm::beta_distribution<> beta(a, b);
            for (const double p : {1e-10, 0.025, 0.4, 0.5, 0.9, 0.975}) {
                double allowed = std::max(a, b) < 1e4 ? kBody : kLargeShape;
                // The library's own quantile gives up for large shapes, so ours is put through its cdf.
                const double x = beta_quantile(p, a, b);
                ASSERT_GT(x, 0);
                ASSERT_LT(x, 1);
                // Near 1 the rounding of x itself moves the upper tail by this much.
                allowed = std::max(allowed, 4 * std::numeric_limits<double>::epsilon() / (1 - x));
                expect_close(cdf(beta, x), p, allowed, "quantile " + at(p, a, b));
                expect_close(beta_cdf(x, a, b), p, allowed, "cdf " + at(x, a, b));
                expect_close(beta_sf(x, a, b), 1 - p, allowed, "sf " + at(x, a, b));
            }
        }
    }
}

TEST(Distributions, GammaAndChiSquaredAgainstTheLibrary) {
    for (const double shape : {0.2, 1.0, 4.0, 33.0, 1e3, 2e5}) {
        const bm::gamma_distribution<> gamma(shape, 0.25);
        const double allowed = shape < 1e5 ? kBody : kLargeShape;
        for (const double p : {1e-10, 0.01, 0.3, 0.5, 0.95, 0.9999}) {
            const double x = quantile(gamma, p);
            expect_close(gamma_cdf(x, shape, 0.25), cdf(gamma, x), allowed, "cdf " + at(x, shape));
            expect_close(gamma_q(shape, x / 0.25), cdf(complement(gamma, x)), allowed, "sf " + at(x, shape));
            expect_close(gamma_quantile(p, shape, 0.25), x, allowed, "quantile " + at(p, shape));
            expect_close(gamma_pdf(x, shape, 0.25), pdf(gamma, x), allowed, "pdf " + at(x, shape));
        }
    }
    for (const double dof : {1.0, 2.0, 9.0, 40.0}) {
        const bm::chi_squared chi(dof);
        expect_close(chi_squared_sf(3.3, dof), cdf(complement(chi, 3.3)), kBody, at(dof));
        expect_close(chi_squared_cdf(3.3, dof), cdf(chi, 3.3), kBody, at(dof));
    }
}

TEST(Distributions, FisherAgainstTheLibrary) {
    for (const double d1 : {1.0, 4.0, 18.0, 200.0}) {
        for (const double d2 : {1.0, 7.0, 60.0, 1e4}) {
            const bm::fisher_f f(d1, d2);
            for (const double x : {0.01, 0.434, 1.0, 2.12, 9.0}) {
                expect_close(f_cdf(x, d1, d2), cdf(f, x), kBody, at(x, d1, d2));
                expect_close(f_sf(x, d1, d2), cdf(complement(f, x)), kBody, at(x, d1, d2));
            }
            expect_close(f_quantile(0.975, d1, d2), quantile(f, 0.975), kBody, at(d1, d2));
        }
    }
}

TEST(Distributions, CountsAgainstTheLibrary) {
    for (const long n : {1L, 8L, 52L, 500L, 20000L}) {
        for (const double p : {0.001, 0.03, 0.5, 0.97}) {
            const bm::binomial binomial(static_cast<double>(n), p);
            const bm::poisson poisson(static_cast<double>(n) * p);
            const long mode = static_cast<long>(static_cast<double>(n) * p);
            for (const long k : {0L, mode, mode + 1, mode + 3}) {
                if (k > n) continue;
                const double x = static_cast<double>(k);
                expect_close(binomial_pmf(k, n, p), pdf(binomial, x), kBody, "binomial pmf " + at(x, p));
                expect_close(binomial_cdf(k, n, p), cdf(binomial, x), kBody, "binomial cdf " + at(x, p));
                expect_close(poisson_pmf(k, static_cast<double>(n) * p), pdf(poisson, x), kBody,
                             "poisson pmf " + at(x, p));
                expect_close(poisson_cdf(k, static_cast<double>(n) * p), cdf(poisson, x), kBody,
                             "poisson cdf " + at(x, p));
            }
        }
    }
    const bm::hypergeometric lot(40, 80, 500);
    for (unsigned k = 0; k < 25; ++k) {
        expect_close(hypergeometric_pmf(k, 500, 40, 80), pdf(lot, k), kBody, at(k));
        expect_close(hypergeometric_cdf(k, 500, 40, 80), cdf(lot, k), kBody, at(k));
    }
}

}  // namespace
}  // namespace fallaway::numeric
