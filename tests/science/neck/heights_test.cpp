// Heights over crowns and readings of relief, by what must hold on every instrument.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw.h"
#include "instrument.h"
#include "science/neck/heights.h"
#include "science/neck/nut.h"
#include "science/neck/profile.h"
#include "science/neck/relief.h"

namespace fallaway::neck {
namespace {

constexpr double kRounding = 1e-12;  // m

double no_profile(double) {
    return 0;
}

// A board with relief, a hump and worn crowns.
CrownLine odd_crowns(const Layout& layout, int string) {
    const double relief = in_range(-0.3e-3, 0.5e-3);
    const double hump = in_range(0, 0.2e-3);
    std::vector<double> errors;
    for (int i = 0; i < layout.frets; ++i) errors.push_back(in_range(-0.1e-3, 0.1e-3));
    const ProfileShapes shapes(layout);
    return crowns_under(
        layout, string, [&](double x) { return relief * shapes.at(x).bow + hump * shapes.at(x).hump; }, errors);
}

RC_GTEST_PROP(Heights, APlaneUnderAllOfItChangesNoGap, ()) {
    const CrownLine crowns = odd_crowns(instrument(), 2);
    const double level = in_range(-0.01, 0.01);
    const double slope = in_range(-0.05, 0.05);
    CrownLine moved = crowns;
    for (std::size_t i = 0; i < moved.z.size(); ++i) moved.z[i] += level + slope * moved.x[i];
    const double nut = in_range(0, 1e-3);
    const double saddle = in_range(1e-3, 5e-3);
    const double moved_nut = nut + level;
    const double moved_saddle = saddle + level + slope * crowns.length;
    const int held = *rc::gen::inRange(2, 21);
    const int over = *rc::gen::inRange(held + 1, 23);
    const auto same = [](double a, double b) { return std::abs(a - b) < kRounding; };
    RC_ASSERT(same(open_height(crowns, nut, saddle, over), open_height(moved, moved_nut, moved_saddle, over)));
    RC_ASSERT(same(fretted_height(crowns, saddle, held, over), fretted_height(moved, moved_saddle, held, over)));
    RC_ASSERT(same(height_behind(crowns, nut, held, 1), height_behind(moved, moved_nut, held, 1)));
    RC_ASSERT(same(height_under(crowns, 1, over, held), height_under(moved, 1, over, held)));
    RC_ASSERT(same(rock(crowns, held - 1, held, held + 1), rock(moved, held - 1, held, held + 1)));
    RC_ASSERT(same(relief_of(crowns), relief_of(moved)));
}

RC_GTEST_PROP(Heights, BassAndTrebleMirror, ()) {
    Layout layout = instrument();
    layout.board = {in_range(0.18, 0.3), in_range(0.3, 0.5), layout.board.x_end};
    const CrownLine thin = crowns_under(layout, 0, no_profile);
    const CrownLine thick = crowns_under(layout, 5, no_profile);
    for (std::size_t i = 0; i < thin.z.size(); ++i) RC_ASSERT(std::abs(thin.z[i] - thick.z[i]) < kRounding);
}

RC_GTEST_PROP(Heights, EndsAreFoundAgainFromTwoHeights, ()) {
    const CrownLine crowns = odd_crowns(instrument(), 0);
    const double nut = in_range(0, 1e-3);
    const double saddle = in_range(1e-3, 5e-3);
    const Ends ends =
        ends_from(crowns, 1, open_height(crowns, nut, saddle, 1), 12, open_height(crowns, nut, saddle, 12));
    RC_ASSERT(std::abs(ends.nut - nut) < kRounding);
    RC_ASSERT(std::abs(ends.saddle - saddle) < kRounding);
    const double height = open_height(crowns, nut, saddle, 12);
    RC_ASSERT(std::abs(saddle_for(crowns, nut, 12, height) - saddle) < kRounding);
    RC_ASSERT(std::abs(nut_for(crowns, saddle, 12, height) - nut) < kRounding);
}

TEST(Heights, AStringThatRestsOnAZeroFretClearsFretOneByItsSlopeAlone) {
    Layout layout = instrument();
    layout.zero_fret = true;
    layout.crown_height = 1.1e-3;
    const CrownLine crowns = crowns_under(layout, 0, no_profile);
    const double nut = zero_fret_height(layout, 0, 0);
    EXPECT_NEAR(nut, 1.1e-3, kRounding);  // on a flat board
    EXPECT_NEAR(open_height(crowns, nut, nut, 1), 0, kRounding);
}

// A fretless board: no crowns, heights over the wood.
TEST(Heights, AFretlessBoardIsReadOverItsWood) {
    Layout layout = instrument(0.8636, 4, 0.03, 0.057, 20);
    layout.fretted = false;
    layout.board.radius_nut = layout.board.radius_end = 0.3;
    const CrownLine crowns = crowns_under(layout, 0, no_profile);
    EXPECT_NEAR(crowns.z[11], -board_drop(layout, 0, crowns.x[11]), kRounding);
    const double nut = -board_drop(layout, 0, 0);
    EXPECT_GT(open_height(crowns, nut, nut + 5e-3, 12), 0);
}

// A straight wing under the middle: the gap under a line over three points, by the definition of a triangle.
TEST(Heights, RockIsTheMiddleCrownOverItsNeighbours) {
    const CrownLine crowns{.x = {0.1, 0.2, 0.4}, .z = {0, 1e-4, 0}, .length = 0.6};
    EXPECT_NEAR(rock(crowns, 1, 2, 3), 1e-4, kRounding);
    EXPECT_NEAR(relief_of(crowns), -1e-4, kRounding);  // a back-bow is a negative relief
}

// A reading between any two frets, taken back to relief, is the relief that made it; with both shapes.
RC_GTEST_PROP(Relief, AReadingIsTakenBackToTheReliefThatMadeIt, ()) {
    Layout layout = instrument();
    layout.joint_fret = in_range(12, 20);
    const double relief = in_range(-0.5e-3, 0.8e-3);
    const ProfileShapes shapes(layout);
    const int to = *rc::gen::inRange(4, 25);
    const int from = *rc::gen::inRange(1, to - 1);
    const int over = *rc::gen::inRange(from + 1, to);
    const double first = centre_place(layout, 1);
    const double last = centre_place(layout, 22);
    Layout longer = layout;
    longer.frets = 24;
    const CrownLine bent = crowns_under(longer, 0, [&](double x) { return relief * shapes.at(x).bow; });
    const CrownLine even =
        crowns_under(longer, 0, [&](double x) { return relief * parabola((x - first) / (last - first)); });
    const ReliefReading place{from, over, to};
    RC_ASSERT(std::abs(height_under(bent, from, to, over) -
                       relief * relief_ratio(layout, place, ReliefShape::beam)) < kRounding);
    const double ratio = relief_ratio(layout, place, ReliefShape::even_curve);
    RC_ASSERT(std::abs(height_under(even, from, to, over) / ratio - relief) < 1e-9);
}

// The shapes differ by up to a tenth of the relief (geometry: the table of both), never by more.
TEST(Relief, BothShapesAgreeToATenth) {
    const Layout layout = instrument();
    for (int over = 2; over < 22; ++over) {
        const double bent = relief_ratio(layout, {1, over, 22}, ReliefShape::beam);
        const double even = relief_ratio(layout, {1, over, 22}, ReliefShape::even_curve);
        EXPECT_NEAR(bent, even, 0.105) << over;
    }
}

}  // namespace
}  // namespace fallaway::neck
