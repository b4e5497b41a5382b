#include "science/numeric/statistics.h"

#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace fallaway::numeric {
namespace {

TEST(Statistics, NothingGivesNan) {
    const std::vector<double> none;
    EXPECT_TRUE(std::isnan(mean(none)));
    EXPECT_TRUE(std::isnan(standard_deviation(none)));
    EXPECT_TRUE(std::isnan(median(none)));
    EXPECT_TRUE(std::isnan(scaled_mad(none)));
    EXPECT_TRUE(std::isnan(huber(none).location));
    EXPECT_TRUE(ranks(none).empty());
}

TEST(Statistics, OneValue) {
    const std::vector<double> one{1.6};
    EXPECT_EQ(mean(one), 1.6);
    EXPECT_EQ(standard_deviation(one), 0);
    EXPECT_EQ(median(one), 1.6);
    EXPECT_EQ(scaled_mad(one), 0);
    EXPECT_EQ(quantile(one, 0.1), 1.6);
    EXPECT_EQ(huber(one).location, 1.6);
}

TEST(Statistics, HuberOfEqualValuesIsTheValue) {
    const Huber h = huber(std::vector<double>{2, 2, 2, 9});
    EXPECT_EQ(h.location, 2);  // the scale is zero, so the wild value has no say
    EXPECT_TRUE(h.converged);
}

TEST(Statistics, QuantileEnds) {
    const std::vector<double> x{3, 1, 2};
    for (const auto type : {QuantileType::type6, QuantileType::type7, QuantileType::type8}) {
        EXPECT_EQ(quantile(x, 0, type), 1);
        EXPECT_EQ(quantile(x, 1, type), 3);
        EXPECT_EQ(quantile(x, 0.5, type), 2);
        EXPECT_TRUE(std::isnan(quantile(x, 1.1, type)));
    }
}

TEST(Statistics, RanksShareTies) {
    EXPECT_EQ(ranks(std::vector<double>{5, 1, 5, 3}), (std::vector<double>{3.5, 1, 3.5, 2}));
}

TEST(Statistics, WilsonOfNothingAndOfAll) {
    EXPECT_EQ(wilson(0, 0).low, 0);
    EXPECT_EQ(wilson(0, 0).high, 1);
    EXPECT_EQ(wilson(4, 4).high, 1);
    EXPECT_EQ(wilson(0, 4).low, 0);
}

// Moving all values moves the centre and leaves the spread.
RC_GTEST_PROP(Statistics, ShiftsWithTheValues, (const std::vector<int>& whole, int shift)) {
    RC_PRE(whole.size() > 1u);
    std::vector<double> x(whole.begin(), whole.end());
    std::vector<double> moved;
    for (const double v : x) moved.push_back(v + shift);
    const double size = 1e-9 * (1 + std::abs(mean(x)) + standard_deviation(x) + std::abs(shift));
    RC_ASSERT(std::abs(mean(moved) - mean(x) - shift) <= size);
    RC_ASSERT(std::abs(standard_deviation(moved) - standard_deviation(x)) <= size);
    RC_ASSERT(std::abs(scaled_mad(moved) - scaled_mad(x)) <= size);
}

}  // namespace
}  // namespace fallaway::numeric
