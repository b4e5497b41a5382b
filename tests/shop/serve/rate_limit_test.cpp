#include "shop/serve/rate_limit.h"

#include <gtest/gtest.h>

namespace fallaway::serve {
namespace {

TEST(RateLimitTest, givesTheBurstThenTheRate) {
    RateLimit limit(3, 0.5);
    for (int i = 0; i < 3; ++i) EXPECT_EQ(limit.take("a", 100), 0);
    EXPECT_EQ(limit.take("a", 100), 2);
    EXPECT_EQ(limit.take("a", 101), 1);  // half a request has come back: half a second is missing, rounded up
    EXPECT_EQ(limit.take("a", 102), 0);
    EXPECT_EQ(limit.take("a", 102), 2);
}

TEST(RateLimitTest, oneSenderDoesNotPayForAnother) {
    RateLimit limit(1, 1);
    EXPECT_EQ(limit.take("a", 0), 0);
    EXPECT_EQ(limit.take("a", 0), 1);
    EXPECT_EQ(limit.take("b", 0), 0);
}

TEST(RateLimitTest, neverHoldsMoreThanTheBurst) {
    RateLimit limit(2, 1);
    EXPECT_EQ(limit.take("a", 0), 0);
    for (int i = 0; i < 2; ++i) EXPECT_EQ(limit.take("a", 1e6), 0);
    EXPECT_EQ(limit.take("a", 1e6), 1);
}

// A crowd of made-up senders neither fills the memory nor gets more through than one.
TEST(RateLimitTest, aCrowdSharesWhatIsLeft) {
    RateLimit limit(1, 1e-9);
    int through = 0;
    for (int i = 0; i < 10'000; ++i) through += limit.take("peer " + std::to_string(i), 0) == 0 ? 1 : 0;
    EXPECT_LE(through, 4098);
    EXPECT_NE(limit.take("peer 0", 1), 0);
}

}  // namespace
}  // namespace fallaway::serve
