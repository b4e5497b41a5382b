// Places in plan, the board's section and the shapes of its profile, against facts that hold for every instrument.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw.h"
#include "instrument.h"
#include "science/neck/layout.h"
#include "science/neck/profile.h"

namespace fallaway::neck {
namespace {

constexpr double kRounding = 1e-12;  // m: far below a nanometre, far above the last digits of a metre

TEST(Layout, AMeasuredErrorMovesOnlyItsFret) {
    Layout layout = instrument();
    layout.fret_errors.assign(22, 0.0);
    layout.fret_errors[11] = 0.0002;
    EXPECT_NEAR(fret_place(layout, 0, 12), 0.6477 / 2 + 0.0002, kRounding);
    EXPECT_NEAR(fret_place(layout, 0, 11), fret_place(instrument(), 0, 11), kRounding);
    EXPECT_EQ(fret_place(layout, 0, 0), 0);
}

TEST(Layout, AFlatBoardHasNoDrop) {
    Layout layout = instrument();
    EXPECT_EQ(board_drop(layout, 0, 0.3), 0);
    layout.board.radius_nut = 0.3;  // a flat end: the limit of ever flatter cones
    EXPECT_EQ(board_drop(layout, 0, 0.3), 0);
}

TEST(Layout, ArcDropOfAHalfCircleIsItsRadius) {
    EXPECT_NEAR(arc_drop(0.02, 0.02), 0.02, kRounding);
    EXPECT_TRUE(std::isnan(arc_drop(0.021, 0.02)));
}

RC_GTEST_PROP(Layout, TheDropIsOnACircle, ()) {
    const double radius = in_range(0.1, 2);
    const double y = in_range(-0.03, 0.03);
    const double z = radius - arc_drop(y, radius);
    RC_ASSERT(std::abs(std::hypot(y, z) - radius) < kRounding);
}

// A fan whose scales are all equal is no fan.
RC_GTEST_PROP(Layout, AFanOfEqualScalesIsNoFan, ()) {
    const double scale = in_range(0.5, 0.9);
    Layout plain = instrument(scale);
    plain.board.radius_nut = plain.board.radius_end = in_range(0.18, 0.5);
    const Layout fan = fanned(plain, scale, scale, in_range(0, 12));
    const double x = in_range(0, scale);
    const int string = *rc::gen::inRange(0, 6);
    RC_ASSERT(std::abs(board_drop(plain, string, x) - board_drop(fan, string, x)) < kRounding);
    RC_ASSERT(std::abs(ProfileShapes(plain).at(x).bow - ProfileShapes(fan).at(x).bow) < kRounding);
    RC_ASSERT(std::abs(fan.strings[static_cast<std::size_t>(string)].x_nut) < kRounding);
}

// On a fan the square fret is square to the centre line and every other one is straight.
RC_GTEST_PROP(Layout, FretsOfAFanAreStraight, ()) {
    const int square = *rc::gen::inRange(0, 15);
    const Layout fan = fanned(instrument(), in_range(0.6, 0.65), in_range(0.65, 0.7), square);
    const auto along = [&](int string, int fret) {
        return fan.strings[static_cast<std::size_t>(string)].x_nut + fret_place(fan, string, fret);
    };
    RC_ASSERT(std::abs(along(0, square) - along(5, square)) < kRounding);
    const int fret = *rc::gen::inRange(0, 23);
    const double y0 = string_y(fan, 0, fret_place(fan, 0, fret));
    const double y5 = string_y(fan, 5, fret_place(fan, 5, fret));
    for (int string = 1; string < 5; ++string) {
        const double y = string_y(fan, string, fret_place(fan, string, fret));
        const double straight = along(0, fret) + (along(5, fret) - along(0, fret)) * (y - y0) / (y5 - y0);
        RC_ASSERT(std::abs(along(string, fret) - straight) < kRounding);
    }
}

// R/y the same all along: every string's path over a cone is straight (checked at three places between the ends).
RC_GTEST_PROP(Layout, AConeThatFollowsTheStringsIsStraight, ()) {
    Layout layout = instrument();
    const double spread = 0.0524 / 0.035;
    layout.board.x_end = 0.6477;
    layout.board.radius_nut = in_range(0.18, 0.4);
    layout.board.radius_end = layout.board.radius_nut * spread;
    const int string = *rc::gen::inRange(0, 6);
    const double end = board_drop(layout, string, 0.6477);
    const double start = board_drop(layout, string, 0);
    for (const double u : {0.2, 0.5, 0.8}) {
        RC_ASSERT(std::abs(board_drop(layout, string, u * 0.6477) - (start + (end - start) * u)) < kRounding);
    }
}

RC_GTEST_PROP(Layout, BassAndTrebleMirror, ()) {
    Layout layout = instrument();
    layout.board.radius_nut = in_range(0.18, 0.4);
    layout.board.radius_end = in_range(0.18, 0.4);
    const double x = in_range(0, 0.6);
    RC_ASSERT(std::abs(board_drop(layout, 0, x) - board_drop(layout, 5, x)) < kRounding);
}

TEST(Profile, EveryShapeIsNothingAtBothEndsOfTheChord) {
    for (const int frets : {2, 12, 20, 22, 24, 36}) {
        for (const double joint : {12.0, 14.0, 16.0, 21.0}) {
            Layout layout = instrument(0.6477, 6, 0.035, 0.0524, frets);
            layout.joint_fret = joint;
            const ProfileShapes shapes(layout);
            for (const int fret : {1, frets}) {
                const Shapes at = shapes.at(fret_place(layout, 0, fret));
                EXPECT_NEAR(at.bow, 0, kRounding);
                EXPECT_NEAR(at.skew, 0, kRounding);
                EXPECT_NEAR(at.past_joint, 0, kRounding);
                EXPECT_NEAR(at.hump, 0, kRounding);
            }
        }
    }
}

TEST(Profile, OneFretHasNoProfile) {
    const Layout layout = instrument(0.6477, 6, 0.035, 0.0524, 1);
    const Shapes at = ProfileShapes(layout).at(0.1);
    EXPECT_EQ(at.bow, 0);
    EXPECT_EQ(at.hump, 0);
}

// The deepest dip is 1 whatever the instrument: found here by walking the board in steps of 0.1 mm.
RC_GTEST_PROP(Profile, TheBowsDeepestDipIsOne, ()) {
    Layout layout = instrument(in_range(0.5, 0.9), 6, 0.035, 0.0524, *rc::gen::inRange(12, 27));
    layout.joint_fret = in_range(12, 20);
    const ProfileShapes shapes(layout);
    double deepest = 0;
    double largest_skew = 0;
    for (double x = 0; x < fret_place(layout, 0, layout.frets); x += 1e-4) {
        deepest = std::min(deepest, shapes.at(x).bow);
        if (x > fret_place(layout, 0, 1)) largest_skew = std::max(largest_skew, shapes.at(x).skew);
    }
    RC_ASSERT(std::abs(deepest + 1) < 1e-5);
    RC_ASSERT(std::abs(largest_skew - 1) < 1e-5);
}

TEST(Profile, PastTheJointTheBowIsStraight) {
    Layout layout = instrument();
    layout.joint_fret = 14;
    const ProfileShapes shapes(layout);
    const double a = shapes.at(0.40).bow;
    const double b = shapes.at(0.45).bow;
    EXPECT_NEAR(shapes.at(0.425).bow, (a + b) / 2, kRounding);
    EXPECT_LT(a, 0);
}

// A hump and a fallaway have the sense that a technician gives them.
TEST(Profile, Senses) {
    const Layout layout = instrument();
    const ProfileShapes shapes(layout);
    const double joint = 0.6477 * (1 - std::exp2(-16.0 / 12));
    EXPECT_GT(shapes.at(joint).hump, 0.5);
    EXPECT_LT(shapes.at(joint).past_joint, 0);  // the end turned up: the joint lies under the chord
    EXPECT_LT(shapes.at(fret_place(layout, 0, 8)).bow, -0.99);
    EXPECT_GT(shapes.at(0).bow, 0);  // the bend goes on up to the nut
}

}  // namespace
}  // namespace fallaway::neck
