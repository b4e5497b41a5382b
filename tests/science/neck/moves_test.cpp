// Moves of a set-up: linear, and nothing when everything moves together.
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw.h"
#include "instrument.h"
#include "science/neck/moves.h"

namespace fallaway::neck {
namespace {

constexpr double kRounding = 1e-12;  // m

Moves any_moves() {
    return {.relief = in_range(-1e-3, 1e-3),
            .nut = in_range(-1e-3, 1e-3),
            .saddle = in_range(-3e-3, 3e-3),
            .tilt = in_range(-0.01, 0.01),
            .raise = in_range(-2e-3, 2e-3)};
}

RC_GTEST_PROP(Moves, AddUp, ()) {
    const MoveMap map(instrument());
    const Moves a = any_moves();
    const Moves b = any_moves();
    const double k = in_range(-3, 3);
    const int fret = *rc::gen::inRange(1, 23);
    const auto over = [&](const Moves& m) { return map.open_height(m, 0, fret); };
    RC_ASSERT(std::abs(over(a + k * b) - (over(a) + k * over(b))) < kRounding);
    const auto gap = [&](const Moves& m) { return map.pickup_gap(m, 0, 22, 0.6); };
    RC_ASSERT(std::abs(gap(a + k * b) - (gap(a) + k * gap(b))) < kRounding);
}

// Neck and saddle carried together, as one stiff piece, change no height.
RC_GTEST_PROP(Moves, OneStiffPieceChangesNoHeight, ()) {
    Layout layout = instrument();
    layout.strings[0].setback = 0.003;
    layout.strings[0].x_nut = 0.004;
    const MoveMap map(layout);
    Moves moves{.tilt = in_range(-0.01, 0.01), .raise = in_range(-2e-3, 2e-3)};
    moves.saddle = map.board(moves, 0.004 + speaking_length(layout, 0));
    const int held = *rc::gen::inRange(1, 20);
    RC_ASSERT(std::abs(map.open_height(moves, 0, held)) < kRounding);
    RC_ASSERT(std::abs(map.fretted_height(moves, 0, held, held + 2)) < kRounding);
}

RC_GTEST_PROP(Moves, TheSaddleThatKeepsAHeightKeepsIt, ()) {
    const MoveMap map(instrument());
    Moves moves = any_moves();
    const int fret = *rc::gen::inRange(1, 23);
    moves.saddle += map.saddle_to_keep(moves, 3, fret);
    RC_ASSERT(std::abs(map.open_height(moves, 3, fret)) < kRounding);
}

TEST(Moves, SensesOfATechnician) {
    const Layout layout = instrument();
    const MoveMap map(layout);
    EXPECT_GT(map.open_height(map.of_load(50), 0, 12), 0);                 // heavier strings: more relief, higher
    EXPECT_LT(map.open_height(Moves{.relief = -0.1e-3}, 0, 12), 0);        // a tighter rod: lower
    EXPECT_LT(map.open_height(map.of_shim(0, 0.25e-3, 0.075), 0, 12), 0);  // a wedge at the bridge's side: lower
    EXPECT_GT(map.open_height(map.of_shim(0.25e-3, 0, 0.075), 0, 12), 0);  // at the other side: higher
    EXPECT_EQ(map.open_height(Moves{.saddle = 1e-3}, 0, 0), 0);            // the saddle leaves the nut alone
    EXPECT_NEAR(map.open_height(Moves{.nut = 1e-3}, 0, 0), 1e-3, kRounding);
    EXPECT_EQ(map.fretted_height(Moves{.nut = 1e-3}, 0, 5, 9), 0);  // nor does the nut reach a fretted note
}

TEST(Moves, TheWedgeIsTheShimThatMovesTheSaddleSoFar) {
    const Layout layout = instrument();
    const MoveMap map(layout);
    const double joint_to_saddle = 0.6477 - centre_place_of_joint(layout);
    const double wedge = wedge_for(1e-3, 0.075, joint_to_saddle);
    EXPECT_NEAR(map.saddle_to_keep(map.of_shim(0, wedge, 0.075), 0, 12), 1e-3, kRounding);
}

// Against a beam that can be worked out by hand: an even section under an even moment bends to a circle, so the
// nut rises by moment joint^2/(2 E I). Source: any text on beams.
TEST(Beam, AnEvenNeckBendsToAParabola) {
    Layout layout = instrument();
    const NeckBeam even{.width_nut = 0.05, .width_last = 0.05, .depth_nut = 0.022, .depth_12 = 0.022};
    const double joint = centre_place_of_joint(layout);
    const double stiffness = even.modulus * half_ellipse_moment(0.025, 0.022);
    const double expected = 400 * even.offset * joint * joint / (2 * stiffness);
    EXPECT_NEAR(bend_under(layout, even, 400).nut_lift, expected, 1e-9 * expected);
    const BentNeck neck(layout, even);
    EXPECT_NEAR(neck.at(joint / 2), neck.at(0) / 4, 1e-15);  // between the grid's points to 3e-6 of the dip
    EXPECT_EQ(neck.at(joint + 0.01), 0);
}

// Second moment of a half ellipse by adding up thin strips.
TEST(Beam, HalfEllipseByStrips) {
    const double a = 0.021;
    const double b = 0.0205;
    const int n = 20000;
    double area = 0;
    double first = 0;
    double second = 0;
    for (int i = 0; i < n; ++i) {
        const double y = (i + 0.5) * b / n;
        const double strip = 2 * a * std::sqrt(1 - y * y / (b * b)) * b / n;
        area += strip;
        first += strip * y;
        second += strip * y * y;
    }
    const double expected = second - first * first / area;
    EXPECT_NEAR(half_ellipse_moment(a, b), expected, 1e-5 * expected);
}

}  // namespace
}  // namespace fallaway::neck
