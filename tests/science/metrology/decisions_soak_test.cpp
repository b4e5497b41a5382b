// Do the decisions keep their promise? True values and readings are drawn; of the instruments that a strict limit
// accepts at 95 %, at most 5 in 100 may lie outside it when nothing was known before (a flat prior), and the 95 %
// intervals that a fit of two readings states must hold the truth as often as they say.
#include <cmath>
#include <cstdio>

#include <gtest/gtest.h>

#include "science/metrology/conformity.h"
#include "science/metrology/uncertainty.h"
#include "science/numeric/random.h"
#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

constexpr std::uint64_t kSeed = 11;
constexpr double kZ99 = 2.5758;

struct Interval {
    double low;
    double high;
};

// 99 % interval of a rate (normal approximation; counts here are in the tens of thousands and more).
Interval rate_interval(std::size_t hits, std::size_t n) {
    const double p = double(hits) / double(n);
    const double half = kZ99 * std::sqrt(p * (1 - p) / double(n));
    return {p - half, p + half};
}

TEST(Decisions, AtMostFiveInAHundredAcceptedLieOutside) {
    // JCGM 106:2012, 7.3 and 8.3.3: with a flat prior the conformance probability is at least 95 % for every
    // accepted reading, so the share of bad ones among the accepted is at most 5 %.
    numeric::Random random(kSeed);
    std::size_t accepted = 0;
    std::size_t bad = 0;
    constexpr std::size_t kDraws = 4'000'000;
    for (std::size_t i = 0; i < kDraws; ++i) {
        const double truth = random.rectangular(-1, 2);
        const double u = 0.1;
        const double read = truth + u * random.normal();
        if (decide({read, u}, {std::nullopt, 1.0}).decision != Decision::accept) continue;
        ++accepted;
        bad += truth > 1.0;
    }
    const auto interval = rate_interval(bad, accepted);
    std::printf("n %zu, seed %llu: %zu accepted, bad among them %.5f, 99 %% interval %.5f to %.5f\n", kDraws,
                (unsigned long long)kSeed, accepted, double(bad) / double(accepted), interval.low, interval.high);
    ASSERT_GT(accepted, 100'000u);
    EXPECT_LE(interval.low, 0.05);
    // Right at the acceptance limit the promise is tight: a reading there is bad in 5 of 100.
    std::size_t at_limit = 0;
    std::size_t bad_there = 0;
    for (std::size_t i = 0; i < kDraws; ++i) {
        const double truth = random.rectangular(0.3, 1.7);
        const double read = truth + 0.1 * random.normal();
        if (std::abs(read - (1 - 0.16449)) > 0.01) continue;
        ++at_limit;
        bad_there += truth > 1.0;
    }
    const auto tight = rate_interval(bad_there, at_limit);
    std::printf("n %zu: bad at the acceptance limit %.4f, 99 %% interval %.4f to %.4f\n", at_limit,
                double(bad_there) / double(at_limit), tight.low, tight.high);
    EXPECT_LE(tight.low, 0.052);
    EXPECT_GE(tight.high, 0.048);
}

TEST(Decisions, FusedReadingsCoverAsTheySay) {
    numeric::Random random(kSeed + 1);
    constexpr std::size_t kDraws = 1'000'000;
    std::size_t held = 0;
    for (std::size_t i = 0; i < kDraws; ++i) {
        const double truth = 1.7;
        const Uncertain a{truth + 0.05 * random.normal(), 0.05};
        const Uncertain b{truth + 0.02 * random.normal(), 0.02};
        const Uncertain both = fuse(a, b);
        held += std::abs(both.value - truth) <= 1.959964 * both.u;
    }
    const auto interval = rate_interval(held, kDraws);
    std::printf("n %zu, seed %llu: covered %.5f, 99 %% interval %.5f to %.5f, stated 0.95\n", kDraws,
                (unsigned long long)(kSeed + 1), double(held) / double(kDraws), interval.low, interval.high);
    EXPECT_LE(interval.low, 0.95);
    EXPECT_GE(interval.high, 0.95);
}

TEST(Decisions, TwoHonestReadersAgreeAsOftenAsEnSays) {
    // |x1 - x2| <= 2 sqrt(u1^2 + u2^2) holds with probability 0.9545 for normal errors (ISO 13528).
    numeric::Random random(kSeed + 2);
    constexpr std::size_t kDraws = 1'000'000;
    std::size_t agreed = 0;
    for (std::size_t i = 0; i < kDraws; ++i) {
        agreed += agreement({0.04 * random.normal(), 0.04}, {0.03 * random.normal(), 0.03}).agree;
    }
    const auto interval = rate_interval(agreed, kDraws);
    std::printf("n %zu, seed %llu: agreed %.5f, 99 %% interval %.5f to %.5f, expected 0.9545\n", kDraws,
                (unsigned long long)(kSeed + 2), double(agreed) / double(kDraws), interval.low, interval.high);
    EXPECT_LE(interval.low, 0.9545);
    EXPECT_GE(interval.high, 0.9545);
}

}  // namespace
}  // namespace fallaway::metrology
