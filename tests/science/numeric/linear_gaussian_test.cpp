// Failure first. Intervals are checked against plain sums over a fine grid, numbers against equations written
// anew.
#include "science/numeric/linear_gaussian.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "science/numeric/distributions.h"
#include "science/numeric/random.h"

namespace fallaway::numeric {
namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

const Gaussian kUnit{{0}, {1}};
const LinearForm kItself{{1}, 0};

TEST(Condition, SaysWhenItCannot) {
    const auto status = [](const Gaussian& prior, const Observation& o) {
        return condition(prior, std::vector{o}).status;
    };
    EXPECT_EQ(status(kUnit, {kItself, 0, 0, 1}), ConditionStatus::converged);
    EXPECT_EQ(status({{0}, {}}, {kItself, 0, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status({{kNan}, {1}}, {kItself, 0, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {{{1, 1}, 0}, 0, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {{{kNan}, 0}, 0, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {kItself, 1, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {kItself, kNan, 0, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {kItself, kInfinity, kInfinity, 1}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {kItself, 0, 0, 0}), ConditionStatus::bad_input);
    EXPECT_EQ(status(kUnit, {kItself, 0, 0, kInfinity}), ConditionStatus::bad_input);
}

TEST(Condition, NothingReadChangesNothing) {
    const Gaussian prior{{1, 2}, {4, 1, 1, 3}};
    const auto result = condition(prior, {});
    ASSERT_TRUE(result.ok());
    EXPECT_EQ(result.numbers, 0);
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(result.state.covariance[i], prior.covariance[i], 1e-14);
    EXPECT_EQ(result.state.mean, prior.mean);
    const std::vector<Observation> idle{{{{1, 0}, 0}, -kInfinity, kInfinity, 1}};
    const auto still = condition(prior, idle);
    ASSERT_TRUE(still.ok());
    for (std::size_t i = 0; i < 4; ++i) EXPECT_NEAR(still.state.covariance[i], prior.covariance[i], 1e-14);
}

// x ~ N(1, 4), read 3 with sd 1: mean (1/4 + 3)/(1/4 + 1), variance 1/(1/4 + 1), chi-squared (3 - 1)^2/(4 + 1).
TEST(Condition, OneNumberAsByHand) {
    const auto result = condition({{1}, {4}}, std::vector<Observation>{{{{1}, 0.5}, 3.5, 3.5, 1}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result.state.mean[0], 2.6, 1e-14);
    EXPECT_NEAR(result.state.covariance[0], 0.8, 1e-14);
    EXPECT_NEAR(result.chi_squared, 0.8, 1e-14);
    EXPECT_NEAR(result.log_evidence, std::log(normal_pdf(2 / std::sqrt(5)) / std::sqrt(5)), 1e-14);
}

TEST(Condition, WhatIsKnownStaysKnown) {
    // x and y move together, z is known to be 5.
    const Gaussian prior{{0, 0, 5}, {1, 1, 0, 1, 1, 0, 0, 0, 0}};
    const auto result =
        condition(prior, std::vector<Observation>{{{{1, 0, 0}, 0}, 2, 2, 1}, {{{0, 0, 1}, 0}, 9, 9, 1}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result.state.mean[1], 1, 1e-12);
    EXPECT_NEAR(variance_of(result.state, {{1, -1, 0}, 0}), 0, 1e-14);
    EXPECT_EQ(result.state.mean[2], 5);
    EXPECT_NEAR(variance_of(result.state, {{0, 0, 1}, 0}), 0, 1e-30);
}

struct Drawn {
    Gaussian prior;
    std::vector<Observation> observations;
};

// `n` unknowns with correlations, `m` numbers.
Drawn draw(Random& random, std::size_t n, std::size_t m) {
    Drawn drawn;
    std::vector<double> root(n * n);
    for (double& r : root) r = random.normal();
    drawn.prior.covariance.resize(n * n);
    for (std::size_t i = 0; i < n; ++i) {
        drawn.prior.mean.push_back(random.normal());
        for (std::size_t j = 0; j < n; ++j) {
            for (std::size_t k = 0; k < n; ++k)
                drawn.prior.covariance[i * n + j] += root[i * n + k] * root[j * n + k];
        }
    }
    for (std::size_t i = 0; i < m; ++i) {
        Observation o{{std::vector<double>(n), random.normal()}, random.normal(), 0, random.rectangular(0.01, 1)};
        for (double& w : o.form.weights) w = random.normal();
        o.high = o.low;
        drawn.observations.push_back(o);
    }
    return drawn;
}

// One number at a time in plain loops: Kalman 1960, a path of its own.
Gaussian one_by_one(Gaussian state, const std::vector<Observation>& observations) {
    const std::size_t n = state.size();
    for (const Observation& o : observations) {
        std::vector<double> column(n);
        double variance = o.u * o.u;
        double expected = o.form.constant;
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j) column[i] += state.covariance[i * n + j] * o.form.weights[j];
            variance += column[i] * o.form.weights[i];
            expected += o.form.weights[i] * state.mean[i];
        }
        for (std::size_t i = 0; i < n; ++i) {
            state.mean[i] += column[i] / variance * (o.low - expected);
            for (std::size_t j = 0; j < n; ++j) state.covariance[i * n + j] -= column[i] * column[j] / variance;
        }
    }
    return state;
}

TEST(Condition, ManyNumbersAsOneByOneInAnyOrderAndNeverLooser) {
    Random random(3);
    for (int round = 0; round < 50; ++round) {
        auto [prior, observations] = draw(random, 1 + std::size_t(round) % 7, std::size_t(round) % 11);
        const auto result = condition(prior, observations);
        ASSERT_TRUE(result.ok());
        const Gaussian slow = one_by_one(prior, observations);
        // The density of all is that of the first times that of the others given it.
        double chained = 0;
        Gaussian state = prior;
        for (const Observation& o : observations) {
            const double sd = std::sqrt(variance_of(state, o.form) + o.u * o.u);
            chained += std::log(normal_pdf((o.low - mean_of(state, o.form)) / sd) / sd);
            state = one_by_one(state, {o});
        }
        EXPECT_NEAR(result.log_evidence, chained, 1e-6);
        std::reverse(observations.begin(), observations.end());
        const auto backwards = condition(prior, observations);
        for (std::size_t i = 0; i < prior.size(); ++i) {
            EXPECT_NEAR(result.state.mean[i], slow.mean[i], 1e-8);
            EXPECT_NEAR(result.state.mean[i], backwards.state.mean[i], 1e-9);
            const std::size_t d = i * prior.size() + i;
            EXPECT_NEAR(result.state.covariance[d], slow.covariance[d], 1e-8);
            EXPECT_LE(result.state.covariance[d], prior.covariance[d] * (1 + 1e-12));
        }
    }
}

TEST(Condition, OthersPredictAsIfTheReadingWereNotThere) {
    Random random(4);
    auto [prior, observations] = draw(random, 4, 9);
    const auto all = condition(prior, observations);
    for (std::size_t i = 0; i < observations.size(); ++i) {
        auto rest = observations;
        rest.erase(rest.begin() + std::ptrdiff_t(i));
        const auto without = condition(prior, rest);
        const auto said = prediction_without(all, observations, i);
        EXPECT_NEAR(said.mean, mean_of(without.state, observations[i].form), 1e-8);
        EXPECT_NEAR(said.variance, variance_of(without.state, observations[i].form), 1e-8);
    }
}

// Readings a million times as sharp as the prior still solve their own equations.
TEST(Condition, NearlyExactReadingsAreHeld) {
    const auto result =
        condition({{0, 0}, {1, 0, 0, 1}},
                  std::vector<Observation>{{{{1, 1}, 0}, 3, 3, 1e-7}, {{{1, 1.001}, 0}, 3.001, 3.001, 1e-7}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result.state.mean[0], 2, 1e-6);
    EXPECT_NEAR(result.state.mean[1], 1, 1e-6);
}

struct Moments {
    double z = 0;
    double mean = 0;
    double variance = 0;
};

// Middle sums of a density over [low, high], which hold to many digits where it has died away at both ends.
Moments moments_on_grid(const std::function<double(double)>& density, double low, double high) {
    constexpr int kSteps = 200'000;
    const double step = (high - low) / kSteps;
    double s0 = 0;
    double s1 = 0;
    double s2 = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double x = low + (i + 0.5) * step;
        const double p = density(x) * step;
        s0 += p;
        s1 += p * x;
        s2 += p * x * x;
    }
    return {s0, s1 / s0, s2 / s0 - s1 / s0 * (s1 / s0)};
}

// Of x + error in the interval, without the loss of digits of a difference of two near equal probabilities.
double within(double x, double low, double high, double u) {
    const double a = (low - x) / u;
    const double b = (high - x) / u;
    return a > 0 ? normal_sf(a) - normal_sf(b) : normal_cdf(b) - normal_cdf(a);
}

TEST(IntervalMoments, AsOnAFineGrid) {
    const double mean = 0.3;
    const double variance = 1.7;
    const double sd = std::sqrt(variance);
    for (const auto& [low, high] : std::vector<std::pair<double, double>>{
             {-1, 1}, {0.3, kInfinity}, {-kInfinity, -2}, {2, 2.4}, {-6, -5.5}, {4, kInfinity}, {-kInfinity, 9}}) {
        for (const double u : {0.1, 1.0, 4.0}) {
            const auto moments = interval_moments(mean, variance, low, high, u);
            const double a = low;
            const double b = high;
            const auto grid =
                moments_on_grid([&](double x) { return normal_pdf((x - mean) / sd) / sd * within(x, a, b, u); },
                                mean - 10 * sd, mean + 10 * sd);
            EXPECT_NEAR(moments.log_probability, std::log(grid.z), 1e-7) << low << " " << high << " " << u;
            EXPECT_NEAR(moments.mean, grid.mean, 1e-7) << low << " " << high << " " << u;
            EXPECT_NEAR(moments.variance, grid.variance, 1e-7) << low << " " << high << " " << u;
        }
    }
}

// Thirty and three hundred sd out nothing is left of a plain difference of probabilities. Far out a tail is an
// exponential of mean 1/a and variance 1/a^2 (Abramowitz & Stegun 26.2.12, first terms).
TEST(IntervalMoments, HoldsFarOut) {
    for (const double a : {30.0, 300.0}) {
        const auto moments = interval_moments(0, 1, a, kInfinity, 1e-9);
        EXPECT_NEAR((moments.mean - a) * a, 1, 3 / (a * a));
        EXPECT_NEAR(moments.variance * a * a, 1, 7 / (a * a) + 1e-4);
        EXPECT_NEAR(moments.log_probability / (-a * a / 2), 1, 0.02);
        const auto mirrored = interval_moments(0, 1, -kInfinity, -a, 1e-9);
        EXPECT_DOUBLE_EQ(mirrored.mean, -moments.mean);
    }
    // Narrow is as good as its middle.
    const auto narrow = interval_moments(0, 1, 2 - 1e-8, 2 + 1e-8, 1);
    EXPECT_NEAR(narrow.mean, 1, 1e-7);
    EXPECT_NEAR(narrow.variance, 0.5, 1e-7);
}

TEST(Condition, OneIntervalIsExact) {
    const std::vector<Observation> one{{{{1}, 0.25}, 0.5, 1.5, 0.2}};
    const auto result = condition(kUnit, one);
    ASSERT_TRUE(result.ok());
    const auto grid = moments_on_grid([](double x) { return normal_pdf(x) * within(x, 0.25, 1.25, 0.2); }, -8, 8);
    EXPECT_NEAR(result.state.mean[0], grid.mean, 1e-8);
    EXPECT_NEAR(result.state.covariance[0], grid.variance, 1e-8);
    EXPECT_NEAR(result.log_evidence, std::log(grid.z), 1e-8);
    // The others say nothing, so the prior is what is predicted without it.
    EXPECT_NEAR(prediction_without(result, one, 0).mean, 0.25, 1e-8);
    EXPECT_NEAR(prediction_without(result, one, 0).variance, 1, 1e-8);
}

TEST(Condition, SeveralIntervalsOfOneUnknownAsOnAGrid) {
    Random random(5);
    for (int round = 0; round < 20; ++round) {
        std::vector<Observation> all{{kItself, 0.4, 0.4, 0.8}};
        const double truth = random.normal();
        for (int i = 0; i < 4; ++i) {
            const double edge = random.rectangular(-1.5, 1.5);
            const double u = random.rectangular(0.2, 0.6);
            const bool above = truth + u * random.normal() > edge;
            all.push_back({kItself, above ? edge : -kInfinity, above ? kInfinity : edge, u});
        }
        const auto result = condition(kUnit, all);
        ASSERT_TRUE(result.ok());
        const auto grid = moments_on_grid(
            [&](double x) {
                double p = normal_pdf(x) * normal_pdf((x - 0.4) / 0.8);
                for (std::size_t i = 1; i < all.size(); ++i) p *= within(x, all[i].low, all[i].high, all[i].u);
                return p;
            },
            -8, 8);
        // A normal stands for what is none: within 3 % of an sd and 6 % of the sd itself here.
        EXPECT_NEAR(result.state.mean[0], grid.mean, 0.03 * std::sqrt(grid.variance));
        EXPECT_NEAR(std::sqrt(result.state.covariance[0] / grid.variance), 1, 0.06);
        EXPECT_NEAR(result.log_evidence, std::log(grid.z / 0.8), 0.02);
    }
}

TEST(Condition, IntervalsOfTwoUnknownsAsOnAGrid) {
    // x and y known to 1, x - y above .5, x + y/2 between -1 and 1, both with errors.
    const std::vector<Observation> all{{{{1, -1}, 0}, 0.5, kInfinity, 0.3}, {{{1, 0.5}, 0}, -1, 1, 0.2}};
    const auto result = condition({{0, 0}, {1, 0.3, 0.3, 1}}, all);
    ASSERT_TRUE(result.ok());
    constexpr int kSteps = 800;
    const double det = 1 - 0.09;
    double s[6]{};
    for (int i = 0; i < kSteps; ++i) {
        for (int j = 0; j < kSteps; ++j) {
            const double x = -7 + 14 * (i + 0.5) / kSteps;
            const double y = -7 + 14 * (j + 0.5) / kSteps;
            const double p = std::exp(-(x * x - 0.6 * x * y + y * y) / (2 * det)) *
                             within(x - y, 0.5, kInfinity, 0.3) * within(x + y / 2, -1, 1, 0.2);
            const double values[6]{1, x, y, x * x, x * y, y * y};
            for (int k = 0; k < 6; ++k) s[k] += p * values[k];
        }
    }
    const double mx = s[1] / s[0];
    const double my = s[2] / s[0];
    EXPECT_NEAR(result.state.mean[0], mx, 0.01);
    EXPECT_NEAR(result.state.mean[1], my, 0.01);
    EXPECT_NEAR(result.state.covariance[0], s[3] / s[0] - mx * mx, 0.01);
    EXPECT_NEAR(result.state.covariance[1], s[4] / s[0] - mx * my, 0.01);
    EXPECT_NEAR(result.state.covariance[3], s[5] / s[0] - my * my, 0.01);
    const double cell = 14.0 / kSteps * 14.0 / kSteps / (2 * std::numbers::pi * std::sqrt(det));
    EXPECT_NEAR(result.log_evidence, std::log(s[0] * cell), 0.01);
}

TEST(Condition, AnIntervalFarFromItsEdgesSaysNothing) {
    const auto result = condition({{1}, {0.04}}, std::vector<Observation>{{kItself, -kInfinity, 5, 0.1}});
    ASSERT_TRUE(result.ok());
    EXPECT_NEAR(result.state.mean[0], 1, 1e-12);
    EXPECT_NEAR(result.state.covariance[0], 0.04, 1e-12);
}

// Intervals that contradict each other settle too, whatever they are worth.
TEST(Condition, ContradictionsSettle) {
    std::vector<Observation> all;
    for (int i = 0; i < 10; ++i)
        all.push_back({kItself, i % 2 == 0 ? 4.0 : -kInfinity, i % 2 == 0 ? kInfinity : -4, 0.1});
    const auto result = condition(kUnit, all);
    ASSERT_TRUE(result.ok()) << result.sweeps;
    EXPECT_NEAR(result.state.mean[0], 0, 0.5);
}

}  // namespace
}  // namespace fallaway::numeric
