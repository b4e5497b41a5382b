#include "bench/model/contours.h"

#include <cmath>

#include <gtest/gtest.h>

namespace fallaway::model {
namespace {

using Rows = std::vector<std::vector<metrology::Uncertain>>;

// frets x strings, height by formula, all known to u.
template <class Height>
Rows sheet(int frets, int strings, double u, const Height& height) {
    Rows rows;
    for (int f = 1; f <= frets; ++f) {
        rows.emplace_back();
        for (int s = 1; s <= strings; ++s) rows.back().push_back({height(f, s), u});
    }
    return rows;
}

TEST(Contours, ALevelSheetHasNone) {
    EXPECT_TRUE(contours(sheet(22, 6, 0, [](int, int) { return 0.0; }), 0.02).empty());
    EXPECT_TRUE(contours(sheet(22, 6, 0, [](int, int) { return 1e-17; }), 0.02).empty());
}

TEST(Contours, ATiltedSheetHasParallelLinesAtTheirHeights) {
    const auto lines = contours(sheet(10, 4, 0, [](int f, int) { return 0.01 * f; }), 0.02);
    ASSERT_EQ(lines.size(), 5u);  // 0.10, 0.08, 0.06, 0.04, 0.02
    for (const Contour& line : lines) {
        EXPECT_FALSE(line.closed);
        ASSERT_EQ(line.points.size(), 4u);
        for (const BoardPoint& point : line.points) EXPECT_NEAR(0.01 * point.fret, line.level, 1e-9);
    }
}

TEST(Contours, AProudFretIsRinged) {
    const auto lines = contours(sheet(9, 5, 0, [](int f, int s) { return f == 5 && s == 3 ? 0.05 : 0.0; }), 0.02);
    ASSERT_EQ(lines.size(), 2u);  // 0.04 and 0.02
    for (const Contour& line : lines) {
        EXPECT_TRUE(line.closed);
        EXPECT_EQ(line.points.size(), 5u);  // a ring of four, the first again at the end
        for (const BoardPoint& point : line.points) {
            EXPECT_NEAR(std::abs(point.fret - 5) + std::abs(point.string - 3), 1 - line.level / 0.05, 1e-9);
        }
    }
}

// On a saddle the two lines go round the corners that differ from the middle and do not cross.
TEST(Contours, ASaddleIsCutByItsMean) {
    const Rows rows = {{{1, 0}, {-0.5, 0}}, {{-0.5, 0}, {1, 0}}};  // mean 0.25: over 0, the lows are cut off
    const auto lines = contours(rows, 10);
    ASSERT_EQ(lines.size(), 2u);
    for (const Contour& line : lines) {
        ASSERT_EQ(line.points.size(), 2u);
        const double fret = (line.points[0].fret + line.points[1].fret) / 2;
        const double string = (line.points[0].string + line.points[1].string) / 2;
        EXPECT_GT(std::abs(fret - 1.5), 0.2);
        EXPECT_NEAR(std::abs(string - 1.5), std::abs(fret - 1.5), 1e-9);
        EXPECT_LT((fret - 1.5) * (string - 1.5), 0);  // at the corners (1, 2) and (2, 1)
    }
}

TEST(Contours, WhatIsNotKnownIsNotSure) {
    const auto tilted = [](int f, int) { return 0.01 * f; };
    for (const Contour& line : contours(sheet(10, 4, 0.009, tilted), 0.02)) EXPECT_TRUE(line.sure);
    for (const Contour& line : contours(sheet(10, 4, 0.011, tilted), 0.02)) EXPECT_FALSE(line.sure);
}

}  // namespace
}  // namespace fallaway::model
