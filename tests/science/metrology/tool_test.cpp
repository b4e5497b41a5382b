// Expected numbers: the table of default budgets in the project's reference notes (common practice), in mm.
#include "science/metrology/tool.h"

#include <cmath>

#include <gtest/gtest.h>

namespace fallaway::metrology {
namespace {

FeatureBudget string_height_gauge() {
    return {"string height", 0.05, 0.05, 0, 0.02, std::nullopt, "test"};
}

TEST(Budget, OneReadingTakesStepLimitAndHandling) {
    const double one[] = {1.6};
    const ToolBudget b = budget(string_height_gauge(), one);
    EXPECT_NEAR(b.result.u, 0.038, 0.0005);
    EXPECT_EQ(b.result.dof, kInfiniteDof);
    EXPECT_EQ(b.parts.size(), 3u);
    EXPECT_DOUBLE_EQ(b.u_repeat, 0.02);
}

TEST(Budget, CaliperAndRuleOfTheTable) {
    const double one[] = {43.0};
    EXPECT_NEAR(budget({"", 0.01, 0.02, 0, 0.015, {}, ""}, one).result.u, 0.019, 0.0005);
    EXPECT_NEAR(budget({"", 0.5, 0.5, 0, 0.10, {}, ""}, one).result.u, 0.34, 0.01);
}

// All readings equal: the step hides the scatter and stands in for it.
TEST(Budget, EqualReadingsKeepTheStep) {
    const double same[] = {1.6, 1.6, 1.6, 1.6};
    const ToolBudget b = budget({"", 0.05, 0, 0, 0, {}, ""}, same);
    EXPECT_NEAR(b.result.u, 0.05 / std::sqrt(12.0), 1e-15);
    EXPECT_EQ(b.u_repeat, 0);
}

TEST(Budget, ScatterAlreadyHoldsStepAndHandling) {
    const double wild[] = {1.5, 1.7, 1.6};
    const ToolBudget b = budget({"", 0.05, 0, 0, 0.02, {}, ""}, wild);
    EXPECT_NEAR(b.result.u, 0.1 / std::sqrt(3.0), 1e-12);
    EXPECT_NEAR(b.result.dof, 2, 1e-12);
    EXPECT_EQ(b.parts.size(), 1u);
}

TEST(Budget, CoarseWritingIsKept) {
    const double one[] = {2};
    EXPECT_NEAR(budget({"", 0.01, 0, 0, 0, {}, ""}, one, 1).result.u, 1 / std::sqrt(12.0), 1e-12);
    EXPECT_NEAR(budget({"", 0.5, 0, 0, 0, {}, ""}, one, 0.01).result.u, 0.5 / std::sqrt(12.0), 1e-12);
    EXPECT_NEAR(budget({"", 0.5, 0, 0, 0, 0.15, ""}, one, 1).result.u, std::hypot(0.15, 1 / std::sqrt(12.0)),
                1e-12);
}

TEST(Budget, CertificateReplacesTheLimit) {
    const double one[] = {1.6};
    const ToolBudget b = budget(string_height_gauge(), one, 0, Certificate{0.01, 2});
    EXPECT_NEAR(b.result.u, std::sqrt(0.05 * 0.05 / 12 + 0.005 * 0.005 + 0.02 * 0.02), 1e-12);
}

TEST(Budget, TotalStandsUnlessTheReadingsScatterMore) {
    const double calm[] = {2.0, 2.1};
    const double wild[] = {1.0, 3.0};
    const FeatureBudget line{"string height", 0.5, 0, 0, 0, 0.10, ""};
    EXPECT_DOUBLE_EQ(budget(line, calm).result.u, 0.10);
    EXPECT_DOUBLE_EQ(budget(line, wild).result.u, 1.0);
}

TEST(BudgetFor, OwnLineFirstThenAnyOther) {
    ToolKind rule{"rule",
                  "Rule",
                  Dimension::length,
                  {},
                  {{"", 0.5, 0, 0, 0, {}, ""}, {"string height", 0.5, 0, 0, 0, 0.1, ""}}};
    EXPECT_TRUE(budget_for(rule, "string height")->total);
    EXPECT_FALSE(budget_for(rule, "scale length")->total);
    rule.budgets.erase(rule.budgets.begin());
    EXPECT_EQ(budget_for(rule, "scale length"), nullptr);
}

TEST(Bracket, OrderDoesNotMatter) {
    EXPECT_EQ(bracket(0.25, 0.20), bracket(0.20, 0.25));
    EXPECT_EQ(bracket(0.2, 0.2).u, 0);
}

}  // namespace
}  // namespace fallaway::metrology
