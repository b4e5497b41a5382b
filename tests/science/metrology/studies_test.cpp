// Comparisons, gauge studies, agreement, chains and samples where their inputs give out.
#include <cmath>

#include <gtest/gtest.h>

#include "science/metrology/compare.h"
#include "science/metrology/correlated.h"
#include "science/metrology/inspection.h"
#include "science/metrology/kappa.h"
#include "science/metrology/montecarlo.h"
#include "science/metrology/risk.h"
#include "science/metrology/variance.h"

namespace fallaway::metrology {
namespace {

using Values = std::vector<double>;

TEST(Paired, DegenerateInputs) {
    EXPECT_EQ(paired(Values{1}, 0.1).error().code, "missing");
    EXPECT_EQ(paired(Values{1, 2}, -0.1).error().code, "range");
    const auto same = paired(Values{0, 0, 0}, 0.1);
    ASSERT_TRUE(same);
    EXPECT_EQ(same->p_two_sided, 1);
    EXPECT_FALSE(same->signed_rank_p);
    EXPECT_FALSE(same->real);
    const auto shifted = paired(Values{1, 1, 1}, 0.1);
    EXPECT_TRUE(std::isinf(shifted->t));
    EXPECT_EQ(shifted->p_two_sided, 0);
    EXPECT_DOUBLE_EQ(*shifted->signed_rank_p, 0.25);  // 2/2^3, by hand
    EXPECT_TRUE(shifted->real);
}

// u of the mean change of 2 pairs is u sqrt(2/2) = u: 1.95 u is not real, 1.97 u is.
TEST(Paired, RealBeyondTheToolsOwnScatter) {
    EXPECT_FALSE(paired(Values{1.95, 1.95}, 1)->real);
    EXPECT_TRUE(paired(Values{1.97, 1.97}, 1)->real);
}

// Ranks 1.5, 1.5, 3 with signs -, +, +: of the 8 patterns 6 have a sum >= 4.5 or <= 1.5 on either side.
TEST(Paired, TiedRanksShareThem) {
    EXPECT_DOUBLE_EQ(*paired(Values{-1, 1, 2}, 0)->signed_rank_p, 0.75);
}

TEST(Rank, DegenerateInputs) {
    EXPECT_EQ(rank(1, {}).error().code, "missing");
    const auto tie = rank(1, Values{1});
    EXPECT_EQ(tie->below, 0.5);
    EXPECT_EQ(tie->percentile, 0.5);
    EXPECT_EQ(tie->robust_z, 0);
    EXPECT_TRUE(tie->too_few);
}

TEST(GaugeStudy, RefusesAndSurvives) {
    EXPECT_FALSE(gauge_study({}));
    EXPECT_FALSE(gauge_study({{{1, 2}, {3, 4}}}));
    EXPECT_FALSE(gauge_study({{{1, 2}, {3, 4}}, {{1, 2}, {3}}}));
    const auto perfect = gauge_study({{{1, 1}, {2, 2}}, {{1, 1}, {2, 2}}});
    ASSERT_TRUE(perfect);
    EXPECT_EQ(perfect->gauge, 0);
    EXPECT_TRUE(std::isinf(perfect->distinct));
    EXPECT_EQ(perfect->percent_of_total, 0);
}

// People who swap two parts: all the scatter is interaction, and it must not be pooled.
TEST(GaugeStudy, KeepsAnInteractionThatIsThere) {
    const auto s = gauge_study({{{1, 1.01}, {2, 2.01}}, {{2, 2.01}, {1, 1.01}}});
    ASSERT_TRUE(s);
    EXPECT_FALSE(s->pooled);
    EXPECT_GT(s->interaction, 0.5);
    EXPECT_EQ(s->appraiser, 0);
    EXPECT_EQ(s->part, 0);
}

TEST(Kappa, RefusesAndAgrees) {
    const Table nominal = disagreement(KappaWeights::nominal, 2);
    EXPECT_EQ(cohen_kappa({{5, 0}, {0, 0}}, nominal).error().code, "undefined");
    EXPECT_EQ(cohen_kappa({{1}}, {{0}}).error().code, "range");
    EXPECT_EQ(cohen_kappa({{0, 0}, {0, 0}}, nominal).error().code, "missing");
    EXPECT_DOUBLE_EQ(cohen_kappa({{5, 0}, {0, 5}}, nominal)->kappa, 1);
    EXPECT_DOUBLE_EQ(cohen_kappa({{0, 5}, {5, 0}}, nominal)->kappa, -1);
    EXPECT_EQ(fleiss_kappa({{3, 0}, {2, 0}}).error().code, "range");
    EXPECT_EQ(fleiss_kappa({{3, 0}, {3, 0}}).error().code, "undefined");
    EXPECT_DOUBLE_EQ(fleiss_kappa({{3, 0}, {0, 3}})->kappa, 1);
}

TEST(Inspection, RefusesAndEnds) {
    EXPECT_FALSE(escape_independent({}));
    EXPECT_FALSE(escape_independent(Values{1.1}));
    EXPECT_FALSE(escape_shared(0.8, 1, 3));
    EXPECT_DOUBLE_EQ(*escape_shared(0.8, 0, 2), 0.04);
    EXPECT_DOUBLE_EQ(*escape_shared(0, 0.2, 2), 1);
    EXPECT_FALSE(faults_present(3, 2, 3));
    EXPECT_EQ(faults_present(3, 3, 3)->unseen, 0);
    EXPECT_FALSE(pass_lot(10, 11, 5, 0));
    EXPECT_EQ(*pass_lot(10, 0, 5, 0), 1);
    EXPECT_EQ(*bad_share_bound(3, 3), 1);
    EXPECT_FALSE(capability({}, 1, 1));
    EXPECT_FALSE(capability({1.0, 2.0}, 1, 0));
    EXPECT_EQ(capability({std::nullopt, 2.0}, 1, 1)->cp, 0);
}

// Bissell's interval by hand: Cpk 1, n 30: 1.96 sqrt(1/270 + 1/58) = 0.2837.
TEST(Inspection, CapabilityOfFewValuesIsAnInterval) {
    EXPECT_NEAR(capability({-3.0, 3.0}, 0, 1, 30)->cpk_high, 1.2837, 1e-4);
}

TEST(Risk, RefusesAndEnds) {
    EXPECT_FALSE(global_risk(NormalPopulation{0, 1}, {}, {}, 1));
    EXPECT_FALSE(global_risk(NormalPopulation{0, 0}, {-1.0, 1.0}, {-1.0, 1.0}, 1));
    EXPECT_FALSE(acceptance_limit(GammaPopulation{4, 0.25}, 2, 0.25, 0.9));
    // A meter that hardly errs: only the population matters. P(|z| > 2) = 0.0455 (printed tables).
    const auto r = global_risk(NormalPopulation{0, 1}, {-2.0, 2.0}, {-2.0, 2.0}, 1e-4);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->out_of_tolerance, 0.0455, 5e-5);
    EXPECT_LT(r->false_accept + r->false_reject, 1e-4);
}

TEST(Nested, NoScatterAtAll) {
    const auto n = nested(Values{1, 1}, Values{0, 0}, 3);
    ASSERT_TRUE(n);
    EXPECT_EQ(n->f, 0);
    EXPECT_EQ(n->u_mean, 0);
    EXPECT_FALSE(nested(Values{1}, Values{0}, 3));
    EXPECT_FALSE(nested(Values{1, 2}, Values{0, -1}, 3));
}

TEST(Joint, AConstantQuantityIsUncorrelated) {
    const std::vector<Values> observations{{1, 2, 3}, {5, 5, 5}};
    const auto j = joint_type_a(observations);
    ASSERT_TRUE(j);
    EXPECT_EQ(j->correlation(0, 1), 0);
    EXPECT_EQ(j->correlation(1, 1), 1);
    EXPECT_FALSE(joint_type_a(std::vector<Values>{{1}, {2}}));
    EXPECT_FALSE(joint_type_a(std::vector<Values>{{1, 2}, {2}}));
}

TEST(Propagate, RefusesNamingTheInput) {
    const Model sum = [](std::span<const double> x) { return x[0]; };
    const auto error = [&](DrawnInput input) { return propagate(std::span(&input, 1), sum).error().message; };
    EXPECT_EQ(propagate({}, sum).error().code, "missing");
    EXPECT_EQ(error({"gap", Draw::normal, 0, -1}), "\"gap\": centre must be finite and spread 0 or more");
    EXPECT_EQ(error({"gap", Draw::student_t, 0, 1, 0}), "\"gap\": degrees of freedom must be above 0");
    EXPECT_EQ(error({"gap", Draw::trapezoidal, 0, 1, 2}), "\"gap\": the flat share must lie in 0..1");
    EXPECT_EQ(error({"gap", Draw::curvilinear_trapezoidal, 0, 1, 2}), "\"gap\": the slack must lie in 0..spread");
    const DrawnInput two[] = {{"a", Draw::normal, 0, 1}, {"b", Draw::rectangular, 0, 1}};
    MonteCarloOptions options;
    options.correlations = {{0, 1, 0.5}};
    EXPECT_EQ(propagate(two, sum, options).error().code, "unsupported");
    const DrawnInput at_zero[] = {{"a", Draw::normal, 0, 1}};
    const Model log = [](std::span<const double> x) { return std::log(x[0]); };
    EXPECT_EQ(propagate(at_zero, log).error().path, "model");
}

TEST(Propagate, AnExactInputStaysExact) {
    const DrawnInput exact[] = {{"a", Draw::normal, 3, 0}};
    MonteCarloOptions options;
    options.draws = 1000;
    const auto r = propagate(
        exact, [](std::span<const double> x) { return x[0]; }, options);
    ASSERT_TRUE(r);
    EXPECT_EQ(r->u, 0);
    EXPECT_EQ(r->symmetric_low, 3);
    EXPECT_EQ(r->shortest_high, 3);
    EXPECT_TRUE(r->first_order_valid);
}

// r = 1: both inputs are one; their difference vanishes.
TEST(Propagate, FullCorrelation) {
    const DrawnInput two[] = {{"a", Draw::normal, 5, 1}, {"b", Draw::normal, 5, 1}};
    MonteCarloOptions options;
    options.draws = 2000;
    options.correlations = {{0, 1, 1}};
    const auto r = propagate(
        two, [](std::span<const double> x) { return x[0] - x[1]; }, options);
    ASSERT_TRUE(r);
    EXPECT_NEAR(r->u, 0, 1e-12);
}

// JCGM 101, 7.9.2: the worked examples of that clause.
TEST(HalfLastDigit, OfTheSupplement) {
    EXPECT_DOUBLE_EQ(half_last_digit(0.00035, 2), 0.000005);
    EXPECT_DOUBLE_EQ(half_last_digit(2, 1), 0.5);
    EXPECT_DOUBLE_EQ(half_last_digit(0.0996, 2), 0.005);
    EXPECT_EQ(half_last_digit(0, 2), 0);
}

}  // namespace
}  // namespace fallaway::metrology
