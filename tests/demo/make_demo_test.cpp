// The demo files are what their program writes, and what it writes obeys the physics it claims.
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <sstream>

#include "neck_truth.h"
#include "stories.h"

namespace fallaway::demo {
namespace {

constexpr double kMm = 1e-3;

std::string committed(const std::string& name) {
    std::ifstream file(std::string(FALLAWAY_SOURCE_DIR) + "/demo/" + name, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

// A neck of 647.7 mm with 22 frets, flat, without crown errors.
NeckTruth plain_neck(double relief) {
    NeckTruth neck;
    neck.scale = 647.7 * kMm;
    neck.radius_nut = neck.radius_last = 1e6;
    neck.width_nut = 42 * kMm;
    neck.width_last = 56 * kMm;
    neck.thickness_nut = 20.5 * kMm;
    neck.thickness_12 = 23 * kMm;
    neck.fret_height = 1 * kMm;
    neck.relief = relief;
    neck.crowns.resize(22);
    neck.strings.push_back({0, 0, 0.05 * kMm, 0, 3 * kMm});
    return neck;
}

TEST(MakeDemo, WritesTheCommittedBytes) {
    for (const auto& [name, write] : demo_files()) {
        EXPECT_EQ(write(), committed(name)) << name << ": run make_demo demo and read the difference";
    }
}

// Fret places of 647.7 mm: table of any fret calculator, here from x = L (1 - 2^(-k/12)).
TEST(NeckTruthGeometry, FretPlaces) {
    const NeckTruth neck = plain_neck(0);
    EXPECT_NEAR(fret_place(neck, 1), 36.353 * kMm, 1e-6);
    EXPECT_NEAR(fret_place(neck, 12), 323.850 * kMm, 1e-6);
    EXPECT_NEAR(fret_place(neck, 22), 465.945 * kMm, 1e-6);
}

// Shape of a half-elliptic neck clamped at fret 16 under string load, as parts of its largest dip: an independent
// program, agreed by an ODE solver, gave these for frets 1 to 22 (rounded to 0.01).
TEST(NeckTruthGeometry, ReliefHasTheShapeOfABeam) {
    constexpr std::array kParts = {0.,  .33, .58, .76, .88, .96, .99, 1.,  .98, .94, .89,
                                   .82, .75, .66, .57, .48, .39, .30, .22, .14, .07, 0.};
    const NeckTruth neck = plain_neck(0.3 * kMm);
    const Dip dip = relief_reading(neck, 1, 1, 22);
    EXPECT_NEAR(dip.depth, 0.3 * kMm, 1e-9);
    EXPECT_EQ(dip.fret, 8);
    for (int fret = 2; fret < 22; ++fret) {
        EXPECT_NEAR(held_gap(neck, 1, 1, 22, fret) / dip.depth, kParts[fret - 1], 0.012) << "fret " << fret;
    }
}

// Height gained per mm of relief put in by the rod, clamped at fret 16, from the same independent program; 3 %.
TEST(NeckTruthGeometry, TheRodMovesTheHeights) {
    const NeckTruth flat = plain_neck(0);
    const NeckTruth bowed = plain_neck(1 * kMm);
    const std::array<std::pair<int, double>, 5> gains{
        {{1, .475}, {7, 1.668}, {12, 1.619}, {17, 1.275}, {22, .955}}};
    for (const auto& [fret, gain] : gains) {
        const double moved = open_height(bowed, 1, fret) - open_height(flat, 1, fret);
        EXPECT_NEAR(moved, gain * kMm, 0.03 * gain * kMm) << "fret " << fret;
    }
}

// Nut slot and saddle: a lever from the nut to the saddle, heights over fret 12 move by one half.
TEST(NeckTruthGeometry, SlotAndSaddleMoveTheMiddleByHalf) {
    NeckTruth neck = plain_neck(0);
    set_height_at_12(neck, 1, 1.75 * kMm);
    EXPECT_NEAR(open_height(neck, 1, 12), 1.75 * kMm, 1e-12);
    NeckTruth raised = neck;
    raised.strings[0].saddle_height += 1 * kMm;
    EXPECT_NEAR(open_height(raised, 1, 12) - open_height(neck, 1, 12), 0.5 * kMm, 0.01 * kMm);
    NeckTruth filed = neck;
    filed.strings[0].slot_excess -= 0.1 * kMm;
    EXPECT_NEAR(open_height(filed, 1, 1) - open_height(neck, 1, 1), -0.0944 * kMm, 0.0005 * kMm);
    EXPECT_NEAR(nut_gap(neck, 1), 0.05 * kMm / 2.0595, 1e-6);  // held at fret 2: x2 / (x2 - x1) = 2.0595
}

// A proud fret shows under the rocker, and takes the notes just behind it.
TEST(NeckTruthGeometry, AProudFretIsHeardBehindIt) {
    NeckTruth neck = plain_neck(0.25 * kMm);
    set_height_at_12(neck, 1, 1.75 * kMm);
    EXPECT_EQ(heard(neck, 1, 8, 0.09), "rings");
    neck.crowns[8] = {0.15 * kMm, 0.15 * kMm, 0.15 * kMm};
    EXPECT_NEAR(rocker_gap(neck, 1, 9), 0.15 * kMm, 0.01 * kMm);
    EXPECT_NE(heard(neck, 1, 8, 0.09), "rings");
    EXPECT_EQ(heard(neck, 1, 9, 0.09), "rings");
}

// IEC 60028 (from memory): copper, 0.00393 /K at 20 degC; 7700 ohm at 25 degC is 7551.6 ohm at 20 degC.
TEST(Electrics, CoilAndControl) {
    EXPECT_NEAR(warm(7551.6, 25), 7700, 0.1);
    EXPECT_NEAR(parallel(7706.9, 500e3), 7589.9, 0.1);
}

}  // namespace
}  // namespace fallaway::demo
