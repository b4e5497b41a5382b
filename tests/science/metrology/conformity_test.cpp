#include "science/metrology/conformity.h"

#include <cmath>

#include <gtest/gtest.h>

namespace fallaway::metrology {
namespace {

const Limits kUpper{std::nullopt, 1.75};
const Limits kBoth{1.0, 2.0};

TEST(Decide, WithoutUncertaintyComparesPlainly) {
    EXPECT_EQ(decide({1.75, 0}, kUpper).decision, Decision::accept);  // the limit itself conforms
    EXPECT_EQ(decide({1.7500001, 0}, kUpper).decision, Decision::reject);
    EXPECT_EQ(decide({1.6, 0, 0}, kUpper).decision, Decision::accept);  // one reading, no scatter known
    EXPECT_EQ(decide({1.0, 0}, {1.0, 1.0}).decision, Decision::accept);
    EXPECT_EQ(decide({1.1, 0}, {1.0, 1.0}).decision, Decision::reject);
}

TEST(Decide, WithoutLimitsEverythingConforms) {
    const Conformity c = decide({1, 0.1}, {});
    EXPECT_EQ(c.decision, Decision::accept);
    EXPECT_EQ(c.p_conform, 1);
    EXPECT_EQ(c.u_needed, 0);
}

TEST(Decide, WithoutDegreesOfFreedomNothingIsTold) {
    EXPECT_EQ(decide({1, 0.1, 0.5}, kUpper).decision, Decision::cannot_tell);
}

TEST(Decide, EqualLimitsCannotBeMet) {
    const Conformity c = decide({1, 0.01}, {1.0, 1.0});
    EXPECT_EQ(c.decision, Decision::cannot_tell);
    EXPECT_TRUE(c.tool_too_coarse);
    EXPECT_EQ(c.u_needed, 0);
    EXPECT_EQ(decide({2, 0.01}, {1.0, 1.0}).decision, Decision::reject);
}

// A band of 4 u: the middle has p = 0.954 (JCGM 106; reference notes 1.4), just below it accept is impossible.
TEST(Decide, CoarseToolNeverAcceptsButRejects) {
    EXPECT_NEAR(decide({1.5, 0.25}, kBoth).p_conform, 0.9545, 1e-4);
    EXPECT_EQ(decide({1.5, 0.25}, kBoth).decision, Decision::accept);
    const Conformity coarse = decide({1.5, 0.2505}, kBoth);
    EXPECT_GT(coarse.p_conform, 0.95);
    EXPECT_EQ(coarse.decision, Decision::cannot_tell);
    EXPECT_TRUE(coarse.tool_too_coarse);
    EXPECT_DOUBLE_EQ(coarse.u_needed, 0.25);
    EXPECT_EQ(decide({3, 0.3}, kBoth).decision, Decision::reject);
    // A u that dwarfs the band is no proof of a fault inside it.
    EXPECT_EQ(decide({1.5, 100}, kBoth).decision, Decision::cannot_tell);
}

TEST(Decide, FewDegreesOfFreedomWidenTheGuardBand) {
    EXPECT_NEAR(decide({1, 0.1}, kUpper).guard_band, 0.16449, 1e-5);
    EXPECT_NEAR(decide({1, 0.1, 4.9}, kUpper).guard_band, 0.1 * 2.13185, 1e-5);  // t 0.95, 4 dof (printed 2.132)
}

// u = 0.05 of which 0.04 repeats; 0.0608 / 1.645 = 0.037 is needed: (0.04^2/(0.037^2 - 0.03^2)) = 3.4 -> 4.
TEST(Decide, RepeatsThatWouldHelp) {
    const Conformity c = decide({1.75 - 0.0608, 0.05}, kUpper, 0.04);
    EXPECT_EQ(c.decision, Decision::cannot_tell);
    EXPECT_NEAR(c.u_needed, 0.0608 / 1.644854, 1e-7);
    EXPECT_EQ(c.repeats_needed, 4);
    EXPECT_EQ(decide({1.75 - 0.0608, 0.05}, kUpper).repeats_needed, 0);
    EXPECT_EQ(decide({1.75 - 0.04, 0.05}, kUpper, 0.04).repeats_needed, 0);  // the rest alone is too much
    EXPECT_EQ(decide({1.0, 0.05}, kUpper, 0.04).repeats_needed, 0);          // already decided
}

// Whatever is undecided is decided at the u that the answer names, and not at one a percent larger.
void expect_needed_uncertainty_decides(double y, double u, double dof, const Limits& limits) {
    const Conformity c = decide({y, u, dof}, limits);
    if (c.decision != Decision::cannot_tell || c.u_needed < 1e-9) return;
    SCOPED_TRACE(testing::Message() << "y " << y << ", u " << u << ", dof " << dof);
    EXPECT_LT(c.u_needed, u);
    EXPECT_NE(decide({y, c.u_needed * (1 - 1e-9), dof}, limits).decision, Decision::cannot_tell);
    EXPECT_EQ(decide({y, c.u_needed * 1.01, dof}, limits).decision, Decision::cannot_tell);
}

TEST(Decide, NeededUncertaintyDecides) {
    for (double y = 0.503; y < 2.5; y += 0.0413) {
        for (double u = 0.01; u < 2; u *= 1.3) {
            for (const double dof : {2.0, 3.7, 9.0, kInfiniteDof}) {
                expect_needed_uncertainty_decides(y, u, dof, kBoth);
                expect_needed_uncertainty_decides(y, u, dof, kUpper);
            }
        }
    }
}

TEST(Practice, EdgeLiesOnBothSidesOfALimit) {
    const auto at = [](double y) { return against_practice({y, 0.05}, kBoth); };
    EXPECT_EQ(at(1.5).practice, Practice::usual);
    EXPECT_EQ(at(1.96).practice, Practice::at_the_edge);
    EXPECT_TRUE(at(1.96).beyond_upper);
    EXPECT_FALSE(at(1.96).beyond_lower);
    EXPECT_EQ(at(2.04).practice, Practice::at_the_edge);
    EXPECT_EQ(at(2.06).practice, Practice::outside);
    EXPECT_TRUE(at(0.94).beyond_lower);
    EXPECT_EQ(at(0.94).practice, Practice::outside);
    EXPECT_EQ(against_practice({9, 0.1}, {}).practice, Practice::usual);
    EXPECT_EQ(against_practice({2, 0}, kBoth).practice, Practice::at_the_edge);
}

TEST(Names, AreTheWordsOfThePage) {
    EXPECT_EQ(name_of(Decision::cannot_tell), "cannot tell");
    EXPECT_EQ(name_of(Practice::at_the_edge), "at the edge");
}

}  // namespace
}  // namespace fallaway::metrology
