// Nut slots from every check, filing, and the string behind the nut.
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw.h"
#include "instrument.h"
#include "science/neck/headstock.h"
#include "science/neck/nut.h"
#include "science/neck/profile.h"

namespace fallaway::neck {
namespace {

constexpr double kRounding = 1e-12;  // m

struct Case {
    CrownLine crowns;
    double zero_fret = 0;
    double excess = 0;
    double nut = 0;
    double saddle = 0;
};

Case any_case() {
    Layout layout = instrument();
    layout.board.radius_nut = layout.board.radius_end = in_range(0.18, 0.5);
    layout.crown_height = in_range(0.9e-3, 1.4e-3);
    const double relief = in_range(-0.2e-3, 0.4e-3);
    const ProfileShapes shapes(layout);
    Case c{.crowns = crowns_under(layout, 1, [&](double x) { return relief * shapes.at(x).bow; })};
    c.zero_fret = zero_fret_height(layout, 1, relief * shapes.at(0).bow);
    c.excess = in_range(-0.1e-3, 0.5e-3);
    c.nut = c.zero_fret + c.excess;
    c.saddle = c.nut + in_range(2e-3, 4e-3);
    return c;
}

// The checks are of one slot and must say one thing.
RC_GTEST_PROP(Slot, EveryCheckFindsTheSameExcess, ()) {
    const Case c = any_case();
    for (const int held : {2, 3}) {
        const double gap = height_behind(c.crowns, c.nut, held, 1);
        const double zero = gap_at_zero_fret(c.crowns, c.zero_fret, held, 1);
        RC_ASSERT(std::abs(excess_when_held({gap, 0}, {zero, 0}, c.crowns, held, 1).value - c.excess) < kRounding);
    }
    const double height = open_height(c.crowns, c.nut, c.saddle, 1);
    const double zero = open_height(c.crowns, c.zero_fret, c.saddle, 1);
    RC_ASSERT(std::abs(excess_when_open({height, 0}, {zero, 0}, c.crowns, 1).value - c.excess) < kRounding);
}

// A piece of wire tells the word that its excess deserves, worked out from the string's line itself.
RC_GTEST_PROP(Slot, TheWireSaysWhereTheSlotStands, ()) {
    const Case c = any_case();
    const double x = in_range(1.5e-3, 2e-3);
    const double string = c.nut + (c.saddle - c.nut) * x / c.crowns.length;
    // How far the slot would have to move for the string to touch the piece's top.
    const double over = (string - c.zero_fret) / (1 - x / c.crowns.length);
    const Wire word = over > kWireDeadZone ? Wire::loose : over < -kWireDeadZone ? Wire::lifts : Wire::right;
    const ExcessBounds bounds = excess_by_wire(word, c.zero_fret, c.saddle, c.crowns.length, x);
    RC_ASSERT(bounds.low - 1e-9 <= c.excess && c.excess <= bounds.high + 1e-9);
}

TEST(Slot, UncertaintyGrowsWithTheLever) {
    const CrownLine crowns = crowns_under(instrument(), 0, [](double) { return 0.0; });
    const auto u = [&](int held) { return excess_when_held({0, 0.01e-3}, {0, 0}, crowns, held, 1).u; };
    EXPECT_NEAR(u(2), 0.0206e-3, 1e-7);
    EXPECT_LT(u(3), u(2));
    const metrology::Uncertain both = excess_when_held({0, 0.03e-3}, {0, 0.04e-3}, crowns, 2, 1);
    EXPECT_NEAR(both.u / u(2), 5, 1e-9);  // 3, 4, 5
}

RC_GTEST_PROP(Filing, NeverGoesBelowWhatTheReadingCanVouchFor, ()) {
    const metrology::Uncertain excess{in_range(-0.2e-3, 1e-3), in_range(0, 0.05e-3)};
    const double target = in_range(0, 0.1e-3);
    const FilePlan plan = file_plan(excess, target);
    const double filed = std::accumulate(plan.passes.begin(), plan.passes.end(), 0.0);
    RC_ASSERT(std::abs(filed + plan.left - plan.depth) < kRounding);
    RC_ASSERT(plan.passes.empty() || plan.left >= 2 * excess.u - kRounding);
    double left = plan.depth;
    for (const double pass : plan.passes) {
        RC_ASSERT(pass > 0 && pass <= 0.15e-3 && pass <= left / 2);
        RC_ASSERT(left > 0.1e-3 || pass <= 0.03e-3);
        left -= pass;
    }
}

TEST(Filing, ALowSlotIsNotFiled) {
    const FilePlan plan = file_plan({0.01e-3, 0.005e-3}, 0.05e-3);
    EXPECT_TRUE(plan.passes.empty());
    EXPECT_NEAR(plan.depth, -0.04e-3, kRounding);
}

RC_GTEST_PROP(NutLayout, EqualGapsAreEqualAndEndAtTheSpan, ()) {
    const auto d =
        *rc::gen::container<std::vector<double>>(6, rc::gen::exec([] { return in_range(2e-4, 1.4e-3); }));
    const auto slots = equal_gaps(0.0355, d);
    RC_ASSERT(slots.has_value());
    RC_ASSERT(std::abs(slots->places.back() - 0.0355) < kRounding);
    for (std::size_t i = 1; i < d.size(); ++i) {
        const double air = slots->places[i] - slots->places[i - 1] - (d[i] + d[i - 1]) / 2;
        RC_ASSERT(std::abs(air - slots->gap) < kRounding);
    }
}

TEST(NutLayout, RefusesWhatHasNoGap) {
    EXPECT_EQ(equal_gaps(0.03, std::vector<double>{1e-3}).error().code, "missing");
    EXPECT_EQ(equal_gaps(0.03, std::vector<double>{1e-3, 0}).error().path, "diameters");
    EXPECT_EQ(equal_gaps(0.003, std::vector<double>{2e-3, 2e-3, 2e-3}).error().path, "span");
    EXPECT_EQ(equal_centres(0.03, 1), std::vector<double>{0});
}

TEST(Headstock, ATurnStraightDownIsTheBreakAngle) {
    EXPECT_NEAR(turning_angle(8, 40), std::atan(0.2), 1e-15);
    EXPECT_GT(turning_angle(8, 40, 3), turning_angle(8, 40));
    EXPECT_EQ(turning_angle(8, 40, 3), turning_angle(8, 40, -3));
}

// The cents of a hang-up by way of the pull itself: pitch goes with its root.
RC_GTEST_PROP(Headstock, HangUpIsTheRootOfTheHeldPull, ()) {
    const double friction = in_range(0, 0.5);
    const double angle = in_range(0.01, 0.5);
    const double pull = held_by_friction(70, friction, angle);
    RC_ASSERT(std::abs(1200 * std::log2(std::sqrt(1 + pull / 70)) - hang_up_cents(friction, angle)) < 1e-9);
}

TEST(Headstock, WrapsReachTheDrop) {
    const double wraps = wraps_for(8e-3, 6e-3, 0.46e-3);
    EXPECT_NEAR(exit_height(-6e-3, wraps, 0.46e-3), -8e-3, kRounding);
    EXPECT_EQ(wraps_for(5e-3, 6e-3, 0.46e-3), 0);
}

}  // namespace
}  // namespace fallaway::neck
