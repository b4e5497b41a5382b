// Failure first. The published data sets stand in tests/cases/strd_*.json.
#include "science/numeric/least_squares.h"

#include <cmath>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "science/numeric/roots.h"

namespace fallaway::numeric {
namespace {

using Values = std::vector<double>;

TEST(LinearFit, SaysWhyItCannot) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(linear_fit(Values{}, Values{}).status, FitStatus::too_few_rows);
    EXPECT_EQ(linear_fit(Values{1, 2}, Values{1}).status, FitStatus::too_few_rows);
    EXPECT_EQ(linear_fit(Values{1, nan}, Values{1, 2}).status, FitStatus::bad_input);
    EXPECT_EQ(linear_fit(Values{1, 1, 1}, Values{1, 2}).status, FitStatus::bad_input);
    EXPECT_EQ(linear_fit(Values{1, 1}, Values{1, 2}, Values{1, -1}).status, FitStatus::bad_input);
    EXPECT_EQ(linear_fit(Values{1, 2, 1, 2, 1, 2}, Values{1, 2, 3}).status, FitStatus::rank_deficient);
    EXPECT_EQ(linear_fit(Values{1, 0, 1, 0}, Values{1, 2}).status, FitStatus::rank_deficient);
    EXPECT_EQ(polynomial_fit(Values{1, 1, 1}, Values{1, 2, 3}, 1).status, FitStatus::rank_deficient);
    EXPECT_EQ(polynomial_fit(Values{1, 2}, Values{1, 2}, -1).status, FitStatus::bad_input);
}

TEST(LinearFit, ExactWhenNothingIsLeftOver) {
    const Fit fit = polynomial_fit(Values{0, 1}, Values{3, 5}, 1);
    ASSERT_TRUE(fit.ok());
    EXPECT_NEAR(fit.parameters[0], 3, 1e-15);
    EXPECT_NEAR(fit.parameters[1], 2, 1e-15);
    EXPECT_EQ(fit.dof, 0);
    EXPECT_EQ(fit.residual_sd, 0);
}

// A weight of 3 is the same row three times.
TEST(LinearFit, WeightsCountRows) {
    const Fit once = polynomial_fit(Values{0, 1, 2}, Values{1, 2, 4}, 1, Values{1, 1, 3});
    const Fit thrice = polynomial_fit(Values{0, 1, 2, 2, 2}, Values{1, 2, 4, 4, 4}, 1);
    ASSERT_TRUE(once.ok() && thrice.ok());
    for (std::size_t i = 0; i < 2; ++i) EXPECT_NEAR(once.parameters[i], thrice.parameters[i], 1e-14);
    EXPECT_NEAR(once.rss, thrice.rss, 1e-14);
    EXPECT_NEAR(once.r_squared, thrice.r_squared, 1e-14);
}

ResidualFunction decay(const Values& x, const Values& y) {
    return [=](std::span<const double> b, std::span<double> r) {
        for (std::size_t i = 0; i < x.size(); ++i) r[i] = y[i] - b[0] * std::exp(-b[1] * x[i]);
    };
}

TEST(NonlinearFit, SaysWhyItCannot) {
    const Values x{0, 1, 2};
    EXPECT_EQ(nonlinear_fit(decay(x, x), 3, {}).status, FitStatus::too_few_rows);
    EXPECT_EQ(nonlinear_fit(decay(x, x), 1, {1, 1}).status, FitStatus::too_few_rows);
    EXPECT_EQ(nonlinear_fit(decay(x, x), 3, {1, -1e6}).status, FitStatus::bad_input);
    // Nothing at x = 0 can tell the rate of decay.
    EXPECT_EQ(nonlinear_fit(decay({0, 0, 0}, {1, 2, 3}), 3, {1, 1}).status, FitStatus::rank_deficient);
    NonlinearOptions one_step;
    one_step.max_iterations = 1;
    EXPECT_EQ(nonlinear_fit(decay(x, {5, 2, 1}), 3, {100, 9}, one_step).status, FitStatus::iteration_limit);
}

TEST(NonlinearFit, StartedAtTheAnswerStays) {
    const Values x{0, 1, 2, 3};
    Values y;
    for (const double v : x) y.push_back(2 * std::exp(-0.5 * v));
    const Fit fit = nonlinear_fit(decay(x, y), 4, {2, 0.5});
    ASSERT_TRUE(fit.ok());
    EXPECT_EQ(fit.parameters[0], 2);
    EXPECT_EQ(fit.rss, 0);
}

TEST(NonlinearFit, AnalyticJacobianGivesTheSameAnswer) {
    const Values x{0, 1, 2, 3, 4};
    const Values y{2.1, 1.1, 0.8, 0.4, 0.3};
    NonlinearOptions options;
    options.jacobian = [&](std::span<const double> b, std::span<double> j) {
        for (std::size_t i = 0; i < x.size(); ++i) {
            const double e = std::exp(-b[1] * x[i]);
            j[2 * i] = -e;
            j[2 * i + 1] = b[0] * x[i] * e;
        }
    };
    const Fit exact = nonlinear_fit(decay(x, y), 5, {1, 1}, options);
    const Fit differences = nonlinear_fit(decay(x, y), 5, {1, 1});
    ASSERT_TRUE(exact.ok() && differences.ok());
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_NEAR(exact.parameters[i], differences.parameters[i], 1e-8);
        EXPECT_NEAR(exact.u(i), differences.u(i), 1e-8);
    }
}

TEST(Roots, FindOrSayNo) {
    const auto square = [](double x) { return x * x - 2; };
    const Root root = find_root(square, 0, 2);
    ASSERT_TRUE(root.ok());
    EXPECT_DOUBLE_EQ(root.x, std::sqrt(2.0));
    EXPECT_EQ(find_root(square, 2, 3).status, RootStatus::no_sign_change);
    EXPECT_EQ(find_root([](double x) { return x; }, 0, 1).x, 0);
    EXPECT_NEAR(find_root_from([](double x) { return x - 77; }, 0, 1, 1000).x, 77, 1e-12);
    EXPECT_EQ(find_root_from([](double) { return 1.0; }, 0, 1, 100).status, RootStatus::no_sign_change);
}

}  // namespace
}  // namespace fallaway::numeric
