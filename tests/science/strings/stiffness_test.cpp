#include "science/strings/stiffness.h"

#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "science/numeric/random.h"
#include "science/numeric/statistics.h"
#include "string_fixture.h"

namespace fallaway::strings {
namespace {

using std::numbers::pi;

// Finite differences of E I y'''' - T y'' = mu w^2 y on a fine grid, lowest mode by inverse iteration: a way to
// the same figure that shares nothing with characteristic equations. Clamped at the left, pinned at the right.
double clamped_pinned_by_grid(double eps, int n) {
    const double h = 1.0 / n;
    const double a = eps * eps / (h * h * h * h);
    const double t = 1 / (h * h);
    // Five diagonals for y_1..y_(n-1); ghost points: y_-1 = y_1 (clamped), y_(n+1) = -y_(n-1) (pinned).
    const auto m = static_cast<std::size_t>(n - 1);
    std::vector<double> diagonal(m, 6 * a + 2 * t), first(m, -4 * a - t), second(m, a);
    diagonal.front() += a;
    diagonal.back() -= a;
    std::vector<double> y(m);
    for (std::size_t i = 0; i < m; ++i) y[i] = std::sin(pi * h * static_cast<double>(i + 1));
    double value = 0;
    // LDL' of a symmetric band of width two.
    std::vector<double> d(m), l1(m), l2(m);
    for (std::size_t i = 0; i < m; ++i) {
        d[i] = diagonal[i] - (i > 0 ? l1[i - 1] * l1[i - 1] * d[i - 1] : 0) -
               (i > 1 ? l2[i - 2] * l2[i - 2] * d[i - 2] : 0);
        l1[i] = (first[i] - (i > 0 ? l1[i - 1] * l2[i - 1] * d[i - 1] : 0)) / d[i];
        l2[i] = second[i] / d[i];
    }
    for (int turn = 0; turn < 40; ++turn) {
        std::vector<double> x = y;
        for (std::size_t i = 0; i < m; ++i) {
            if (i > 0) x[i] -= l1[i - 1] * x[i - 1];
            if (i > 1) x[i] -= l2[i - 2] * x[i - 2];
        }
        for (std::size_t i = m; i-- > 0;) {
            x[i] /= d[i];
            if (i + 1 < m) x[i] -= l1[i] * x[i + 1];
            if (i + 2 < m) x[i] -= l2[i] * x[i + 2];
        }
        double xy = 0, xx = 0;
        for (std::size_t i = 0; i < m; ++i) xy += x[i] * y[i], xx += x[i] * x[i];
        value = xy / xx;
        for (std::size_t i = 0; i < m; ++i) y[i] = x[i] / std::sqrt(xx);
    }
    return std::sqrt(value) / pi - 1;
}

TEST(EndCorrection, ExactRootAgreesWithAGrid) {
    for (const double eps : {0.02, 0.05}) {
        const double coarse = clamped_pinned_by_grid(eps, 500);
        const double fine = clamped_pinned_by_grid(eps, 1000);
        const double extrapolated = fine + (fine - coarse) / 3;
        EXPECT_NEAR(exact_end_correction(Ends::clamped_pinned, eps) / extrapolated, 1, 1e-3) << eps;
    }
}

TEST(EndCorrection, SeriesNearsTheRootAsStiffnessVanishes) {
    for (const Ends ends : {Ends::pinned_pinned, Ends::clamped_pinned, Ends::clamped_clamped}) {
        double last = 1;
        for (const double eps : {0.05, 0.02, 0.005, 0.001}) {
            const double off = std::abs(end_correction(ends, eps) / exact_end_correction(ends, eps) - 1);
            EXPECT_LT(off, last) << eps;
            last = off;
        }
        EXPECT_LT(std::abs(end_correction(ends, 0.05) / exact_end_correction(ends, 0.05) - 1), 0.04);
        EXPECT_LT(std::abs(end_correction(ends, 0.005) / exact_end_correction(ends, 0.005) - 1), 0.001);
        EXPECT_EQ(exact_end_correction(ends, 0), 0);
    }
}

TEST(EndCorrection, PartialsOfPinnedEndsFollowTheKnownLaw) {
    const double eps = 0.004;
    for (int n = 1; n <= 20; ++n) {
        EXPECT_NEAR(n * (1 + exact_end_correction(Ends::pinned_pinned, eps, n)),
                    partial_frequency(1, inharmonicity_of(eps), n), 1e-9);
    }
}

RC_GTEST_PROP(EndCorrection, IsFiniteAndGrowsWithStiffness, ()) {
    const Ends ends = *rc::gen::element(Ends::pinned_pinned, Ends::clamped_pinned, Ends::clamped_clamped);
    const int n = *rc::gen::inRange(1, 61);
    const double eps = *rc::gen::inRange(1, 9900) * 1e-5;
    const double here = exact_end_correction(ends, eps, n);
    RC_ASSERT(std::isfinite(here) && here > 0);
    RC_ASSERT(exact_end_correction(ends, eps + 1e-4, n) > here);
}

TEST(Inharmonicity, RoundTrip) {
    for (const double b : {1e-5, 1e-4, 3e-3}) {
        for (const int n : {2, 6, 10}) {
            const double cents = 1200 * std::log2(partial_frequency(1, b, n) / n / partial_frequency(1, b, 1));
            EXPECT_NEAR(good(inharmonicity_from_partial(cents, n)) / b, 1, 1e-9);
        }
        EXPECT_NEAR(inharmonicity_of(eps_of_inharmonicity(b)), b, 1e-15);
    }
    EXPECT_EQ(inharmonicity_from_partial(10, 1).error().path, "partial");
    EXPECT_EQ(inharmonicity_from_partial(-1, 5).error().path, "cents");
    EXPECT_EQ(inharmonicity_from_partial(3000, 5).error().path, "cents");
}

// 400 simulated strings, seed 5: the 95 % interval of B holds the truth; chi-squared has its mean.
TEST(Inharmonicity, FitRecoversWithHonestU) {
    numeric::Random random(5);
    constexpr int kStrings = 400;
    int held = 0;
    double chi = 0;
    for (int i = 0; i < kStrings; ++i) {
        const double b = 1e-4, f0 = 82.4;
        std::vector<Partial> heard;
        for (int n = 1; n <= 12; ++n) {
            const double u = 0.02 * n;
            heard.push_back({n, partial_frequency(f0, b, n) + u * random.normal(), u});
        }
        const PartialFit fit = good(fit_partials(heard));
        if (std::abs(fit.inharmonicity.value - b) < 1.96 * fit.inharmonicity.u) ++held;
        chi += fit.chi_squared / fit.dof / kStrings;
    }
    const auto interval = numeric::wilson(held, kStrings, 0.99);
    std::printf("coverage %.3f [%.3f, %.3f], chi2/dof %.3f\n", 1.0 * held / kStrings, interval.low, interval.high,
                chi);
    EXPECT_LE(interval.low, 0.95);
    EXPECT_GE(interval.high, 0.95);
    EXPECT_NEAR(chi, 1, 2.6 * std::sqrt(2.0 / (10 * kStrings)));
}

TEST(Inharmonicity, FitRefusesTooLittle) {
    EXPECT_EQ(fit_partials(std::vector<Partial>{{1, 82, 0.1}, {2, 164, 0.1}}).error().path, "partials");
    EXPECT_EQ(fit_partials(std::vector<Partial>{{2, 164, 0.1}, {2, 164, 0.1}, {2, 164, 0.1}}).error().path,
              "partials");
    EXPECT_EQ(fit_partials(std::vector<Partial>{{1, 82, 0.1}, {2, 164, 0}, {3, 246, 0.1}}).error().path,
              "partials");
}

TEST(Bend, WorkIsForceTimesWay) {
    // Energy of stretching: T s + kappa T s^2/2 per length, times the whole length, against the integral of force.
    const PushedAside string{0.32, 0.33, 250, 70};
    const double most = 0.02;
    double work = 0;
    constexpr int kSteps = 20000;
    for (int i = 0; i < kSteps; ++i) work += bend_force(string, most * (i + 0.5) / kSteps) * most / kSteps;
    const double whole = string.sounding + string.behind;
    const double s = (std::hypot(string.sounding, most) + std::hypot(string.behind, most)) / whole - 1;
    EXPECT_NEAR(work, string.tension * whole * (s + string.kappa * s * s / 2), 1e-6 * work);
}

RC_GTEST_PROP(Bend, WayForCentsIsTheInverse, ()) {
    const double sounding = *rc::gen::inRange(150, 600) * 1e-3;
    const PushedAside string{sounding, *rc::gen::inRange(50, 400) * 1e-3, *rc::gen::inRange(30, 500) * 1.0, 70};
    const double cents = *rc::gen::inRange(0, 400) * 1.0;
    const auto aside = aside_for_cents(string, cents);
    RC_PRE(aside.has_value());
    RC_ASSERT(std::abs(bend_cents(string, *aside) - cents) < 1e-6);
}

}  // namespace
}  // namespace fallaway::strings
