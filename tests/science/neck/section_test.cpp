// Arcs, gauges, cones and saddles of a board.
#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "draw.h"
#include "instrument.h"
#include "science/neck/heights.h"
#include "science/neck/section.h"

namespace fallaway::neck {
namespace {

using metrology::Uncertain;

constexpr double kRounding = 1e-12;  // m

RC_GTEST_PROP(Gauge, LightTellsTheBoardsOwnRadius, ()) {
    const double board = in_range(0.15, 0.5);
    const double gauge = in_range(0.15, 0.5);
    const double width = in_range(0.03, 0.06);
    const double gap = arc_drop(width / 2, gauge) - arc_drop(width / 2, board);
    const auto found =
        radius_by_gauge(gauge, width, {std::abs(gap), 0}, gap > 0 ? LightUnder::middle : LightUnder::edges);
    RC_ASSERT(found.has_value());
    RC_ASSERT(std::abs(found->value / board - 1) < 1e-9);
}

TEST(Gauge, BetweenTwoGaugesAnyRadiusIsLikely) {
    const Uncertain r = radius_between_gauges(0.24, 0.26);
    EXPECT_NEAR(r.value, 0.25, kRounding);
    EXPECT_NEAR(r.u, 0.01 / std::sqrt(3.0), kRounding);
    EXPECT_EQ(radius_by_gauge(0.3, 0.05, {0.002, 0}, LightUnder::middle).error().path, "gap");
}

// Heights made from a circle anywhere, tilted as the board lies on the bench, give its radius back.
RC_GTEST_PROP(Circle, IsFoundAgain, ()) {
    const double radius = in_range(0.15, 0.6);
    const double top = in_range(-0.02, 0.02);
    std::vector<SectionHeight> heights;
    for (const double y : {-0.024, -0.012, 0.001, 0.011, 0.025}) {
        heights.push_back({y, -arc_drop(y - top, radius), 1e-5});
    }
    const auto fit = circle_through(heights);
    RC_ASSERT(fit.has_value());
    RC_ASSERT(std::abs(fit->radius.value / radius - 1) < 1e-6);
}

TEST(Circle, AFlatBoardHasNoCurvature) {
    std::vector<SectionHeight> flat{{-0.02, 0, 1e-5}, {0, 0, 1e-5}, {0.02, 0, 1e-5}};
    const auto fit = circle_through(flat);
    ASSERT_TRUE(fit.has_value());
    EXPECT_NEAR(fit->curvature.value, 0, 1e-9);
    EXPECT_NEAR(fit->curvature.u, 2 / (0.02 * 0.02) * 1e-5 * std::sqrt(1.5), 1e-5);
    flat[1].y = flat[0].y;
    EXPECT_EQ(circle_through(flat).error().code, "fit");
    flat.pop_back();
    EXPECT_EQ(circle_through(flat).error().code, "missing");
}

// A shallow arc is a parabola to 0.4 %, and there u is known in closed form: five heights at -2, -1, 0, 1, 2 cm
// have sum (y^2 - mean)^2 = 14 cm^4, so the curvature has u = 2 u_z/sqrt(14 cm^4). Source: any text on least
// squares.
TEST(Circle, SaysHowGoodItIs) {
    std::vector<SectionHeight> heights;
    for (const double y : {-0.02, -0.01, 0.0, 0.01, 0.02}) heights.push_back({y, -arc_drop(y, 0.3), 1e-5});
    const auto fit = circle_through(heights);
    ASSERT_TRUE(fit.has_value());
    const double u = 2e-5 / std::sqrt(14e-8);
    EXPECT_NEAR(fit->curvature.u, u, 0.005 * u);
    EXPECT_NEAR(fit->radius.u, 0.3 * 0.3 * u, 0.005 * 0.3 * 0.3 * u);
    EXPECT_EQ(fit->dof, 2);
}

TEST(Cone, ReadingsAtOnePlaceCannotTell) {
    const std::vector<RadiusReading> same{{0.1, {0.25, 0.003}}, {0.1, {0.26, 0.003}}};
    EXPECT_EQ(fit_cone(same, 0.5).error().code, "fit");
    EXPECT_EQ(fit_cone({}, 0.5).error().code, "missing");
    EXPECT_EQ(fit_cone(same, 0).error().path, "x_end");
    const std::vector<RadiusReading> sure{{0.1, {0.25, 0}}, {0.2, {0.26, 0.003}}};
    EXPECT_EQ(fit_cone(sure, 0.5).error().path, "u");
}

RC_GTEST_PROP(Cone, ReadingsOfAConeGiveItBack, ()) {
    const double nut = in_range(0.18, 0.3);
    const double end = in_range(0.18, 0.5);
    std::vector<RadiusReading> readings;
    for (const double x : {0.03, 0.2, 0.33, 0.45}) readings.push_back({x, {nut + (end - nut) * x / 0.47, 0.004}});
    const auto fit = fit_cone(readings, 0.47);
    RC_ASSERT(fit.has_value());
    RC_ASSERT(std::abs(fit->nut.value - nut) < 1e-9 && std::abs(fit->end.value - end) < 1e-9);
    RC_ASSERT(fit->chi_squared < 1e-9);
    RC_ASSERT(fit->at(0).u == fit->nut.u);
    RC_ASSERT(fit->at(0.2).u < fit->nut.u);
}

// Strings at the saddle heights asked for have the heights asked for.
RC_GTEST_PROP(SaddleArc, GivesTheActionAskedFor, ()) {
    Layout layout = instrument();
    layout.board = {in_range(0.18, 0.3), in_range(0.25, 0.5), layout.board.x_end};
    std::vector<double> action;
    for (int i = 0; i < 6; ++i) action.push_back(in_range(1e-3, 3e-3));
    const auto arc = saddle_arc(layout, 12, action);
    RC_ASSERT(arc.has_value());
    double first = 0;
    for (int i = 0; i < 6; ++i) {
        const CrownLine crowns = crowns_under(layout, i, [](double) { return 0.0; });
        const double height = open_height(crowns, -board_drop(layout, i, 0), 5e-3 - arc->drop[i], 12);
        if (i == 0) first = height - action[0];
        RC_ASSERT(std::abs(height - action[i] - first) < kRounding);
    }
}

TEST(SaddleArc, WantsOneHeightPerString) {
    EXPECT_EQ(saddle_arc(instrument(), 12, std::vector<double>{1e-3}).error().path, "action");
    const auto flat = saddle_arc(instrument(), 12);
    ASSERT_TRUE(flat.has_value());
    EXPECT_EQ(flat->drop[0], 0);
    EXPECT_TRUE(std::isinf(flat->radius[0]));
}

}  // namespace
}  // namespace fallaway::neck
