// Degenerate inputs first; published numbers stand in tests/cases/metrology.json.
#include "science/metrology/uncertainty.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace fallaway::metrology {
namespace {

TEST(Combine, NothingHasNoUncertainty) {
    const auto c = combine({});
    ASSERT_TRUE(c);
    EXPECT_EQ(c->u, 0);
    EXPECT_EQ(c->dof, kInfiniteDof);
    EXPECT_TRUE(c->first_order_valid);
}

TEST(Combine, PartsWithoutUncertaintySayNothingOfDof) {
    const Contribution parts[] = {{"exact", 1, 0, 0}, {"read", 1, 2, 5}};
    const auto c = combine(parts);
    ASSERT_TRUE(c);
    EXPECT_EQ(c->u, 2);
    EXPECT_DOUBLE_EQ(c->dof, 5);
}

TEST(Combine, RefusesNamingThePart) {
    const auto message = [](const Contribution& part) { return combine(std::span(&part, 1)).error().message; };
    EXPECT_EQ(message({"step", 1, -1}), "contribution \"step\": u must be 0 or more");
    EXPECT_EQ(message({"step", 1, 1, -2}), "contribution \"step\": dof must be 0 or more");
    EXPECT_EQ(message({"step", 1, NAN}), "contribution \"step\": u must be 0 or more");
    EXPECT_EQ(message({"step", kInfiniteDof, 1}), "contribution \"step\": sensitivity and u must be finite");
}

TEST(Combine, RefusesImpossibleCorrelations) {
    const Contribution parts[] = {{"a", 1, 1}, {"b", 1, 1}, {"c", 1, 1}};
    const auto code = [&](std::initializer_list<Correlation> c) {
        const auto r = combine(parts, std::span(c.begin(), c.size()));
        return r ? std::string("accepted") : r.error().code;
    };
    EXPECT_EQ(code({{0, 3, 0.5}}), "range");
    EXPECT_EQ(code({{1, 1, 0.5}}), "range");
    EXPECT_EQ(code({{0, 1, 1.5}}), "range");
    EXPECT_EQ(code({{0, 1, 0.5}, {1, 0, 0.5}}), "duplicate");
    EXPECT_EQ(code({{0, 1, -1}, {0, 2, -1}, {1, 2, -1}}), "range");
    EXPECT_EQ(code({{0, 1, 1}, {0, 2, 1}, {1, 2, 1}}), "accepted");
}

// JCGM 100, 5.2.2 note 1: with r = 1 everywhere the parts add up.
RC_GTEST_PROP(Combine, FullyCorrelatedPartsAdd, (unsigned a, unsigned b)) {
    const double u = a % 1000 / 10.0;
    const double v = b % 1000 / 10.0;
    const Contribution parts[] = {{"a", 1, u}, {"b", 1, v}};
    const Correlation full[] = {{0, 1, 1}};
    RC_ASSERT(std::abs(combine(parts, full)->u - (u + v)) < 1e-9);
}

TEST(CoverageFactor, TruncatesAndHasNoAnswerBelowOneDof) {
    EXPECT_EQ(coverage_factor(0.95, 16.9), coverage_factor(0.95, 16));
    EXPECT_NEAR(coverage_factor(0.95, kInfiniteDof), 1.959964, 1e-6);
    EXPECT_TRUE(std::isinf(coverage_factor(0.95, 0.9)));
}

TEST(TypeA, OneReadingKnowsNoScatter) {
    const double one[] = {1.6};
    EXPECT_EQ(*type_a(one), (Uncertain{1.6, 0, 0}));
    EXPECT_EQ(type_a({}).error().code, "missing");
}

TEST(Fuse, AnExactValueWins) {
    EXPECT_EQ(fuse({1, 0, 3}, {2, 0.5, 4}), (Uncertain{1, 0, 3}));
    EXPECT_EQ(fuse({1, 0.5}, {2, 0, 4}), (Uncertain{2, 0, 4}));
    EXPECT_EQ(fuse({1, 0}, {2, 0}), (Uncertain{2, 0}));
}

TEST(Fuse, EqualOnesMeetInTheMiddle) {
    const Uncertain f = fuse({1, 0.2, 4}, {2, 0.2, 4});
    EXPECT_DOUBLE_EQ(f.value, 1.5);
    EXPECT_DOUBLE_EQ(f.u, 0.2 / std::sqrt(2.0));
    EXPECT_NEAR(f.dof, 8, 1e-12);  // two equal halves of G.2b
}

TEST(AgreementOf, ExactValues) {
    EXPECT_TRUE(agreement({1, 0}, {1, 0}).agree);
    EXPECT_FALSE(agreement({1, 0}, {2, 0}).agree);
}

}  // namespace
}  // namespace fallaway::metrology
