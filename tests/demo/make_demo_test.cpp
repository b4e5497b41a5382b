// The demo files are what their program writes, and what it writes obeys the physics it claims. The neck's own
// formulas are tested where they stand: tests/science/neck.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "neck_truth.h"
#include "stories.h"

namespace fallaway::demo {
namespace {

using neck::What;

constexpr double kMm = 1e-3;

std::string committed(const std::string& name) {
    std::ifstream file(std::string(FALLAWAY_SOURCE_DIR) + "/demo/" + name, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

// A neck of 647.7 mm with 22 frets and one string in the middle, flat, without crown errors.
NeckTruth plain_neck(double relief) {
    neck::Layout layout;
    layout.strings = {{0, 0, 647.7 * kMm, 0, 3 * kMm}};
    layout.frets = 22;
    layout.joint_fret = 16;
    layout.crown_height = 1 * kMm;
    NeckTruth neck(layout, {});
    neck.set(What::relief, relief);
    neck.set(What::slot, 1, 0.05 * kMm);
    neck.set_height_at_12(1, 1.75 * kMm);
    return neck;
}

TEST(MakeDemo, WritesTheCommittedBytes) {
    for (const auto& [name, write, seed] : demo_files()) {
        EXPECT_EQ(write(seed).bench_file, committed(name))
            << name << ": run make_demo demo and read the difference";
    }
}

TEST(MakeDemo, TellsItsSeedAndAnotherSeedGivesOtherReadings) {
    for (const auto& [name, write, seed] : demo_files()) {
        const std::string text = write(seed).bench_file;
        EXPECT_NE(text.find("with seed " + std::to_string(seed)), std::string::npos) << name;
        EXPECT_NE(write(seed + 1).bench_file, text) << name;
    }
}

// Height gained per mm of relief put in by the rod, clamped at fret 16: an independent program, agreed by an ODE
// solver, gave these; 3 %.
TEST(NeckTruthMoves, TheRodMovesTheHeights) {
    const NeckTruth before = plain_neck(0.2 * kMm);
    NeckTruth bent = before;
    bent.bend(1 * kMm);
    EXPECT_NEAR(bent.relief(1, 1, 22).depth, 1.2 * kMm, 0.002 * kMm);
    const std::pair<int, double> gains[] = {{1, .475}, {7, 1.668}, {12, 1.619}, {17, 1.275}, {22, .955}};
    for (const auto& [fret, gain] : gains) {
        const double moved = bent.open_height(1, fret) - before.open_height(1, fret);
        EXPECT_NEAR(moved, gain * kMm, 0.03 * gain * kMm) << "fret " << fret;
    }
    // The pickup rides on the body, and so does the saddle: past the joint only the last crown lifts the string.
    const double gap = bent.pickup_gap(1, 560 * kMm, 0) - before.pickup_gap(1, 560 * kMm, 0);
    EXPECT_NEAR(gap, 0, 0.001 * kMm);
}

// Nut slot and saddle: a lever from the nut to the saddle, heights over fret 12 move by one half.
TEST(NeckTruthMoves, SlotAndSaddleMoveTheMiddleByHalf) {
    const NeckTruth neck = plain_neck(0);
    EXPECT_NEAR(neck.open_height(1, 12), 1.75 * kMm, 1e-12);
    NeckTruth raised = neck;
    raised.move(1, {.saddle = 1 * kMm});
    EXPECT_NEAR(raised.open_height(1, 12) - neck.open_height(1, 12), 0.5 * kMm, 0.01 * kMm);
    EXPECT_NEAR(raised.nut_gap(1), neck.nut_gap(1), 1e-12);
    NeckTruth filed = neck;
    filed.move(1, {.nut = -0.1 * kMm});
    EXPECT_NEAR(filed.open_height(1, 1) - neck.open_height(1, 1), -0.0944 * kMm, 0.0005 * kMm);
    EXPECT_NEAR(filed.fretted_height(1, 1, 12), neck.fretted_height(1, 1, 12), 1e-12);
    EXPECT_NEAR(neck.nut_gap(1), 0.05 * kMm / 2.0595, 1e-6);  // held at fret 2: x2 / (x2 - x1) = 2.0595
}

// A proud fret shows under the rocker, and takes the notes just behind it.
TEST(NeckTruthWords, AProudFretIsHeardBehindIt) {
    NeckTruth neck = plain_neck(0.25 * kMm);
    numeric::Random random(1);
    EXPECT_EQ(heard(neck, 1, 8, 0.09), "rings");
    EXPECT_EQ(rocker_word(neck, 1, 9, random), "no click");
    neck.set(What::crown, 9, 0.15 * kMm);
    EXPECT_NEAR(neck.rock(1, 9), 0.15 * kMm, 0.01 * kMm);
    EXPECT_EQ(rocker_word(neck, 1, 9, random), "click");
    EXPECT_NE(heard(neck, 1, 8, 0.09), "rings");
    EXPECT_EQ(heard(neck, 1, 9, 0.09), "rings");
}

// Slots far from every edge between two words, by 5 sd of the finger and more.
TEST(NeckTruthWords, TheNutIsToldAsItStands) {
    NeckTruth neck = plain_neck(0.25 * kMm);
    numeric::Random random(1);
    const auto told = [&](double slot) {
        neck.set(What::slot, 1, slot);
        return std::string(tap_word(neck, 1, random)) + ", " + std::string(wire_word(neck, 1, random));
    };
    EXPECT_EQ(told(-0.15 * kMm), "dead, string lifts");
    EXPECT_EQ(told(0.10 * kMm), "just moves, loose");
    EXPECT_EQ(told(0.25 * kMm), "clear gap, loose");
}

// IEC 60028 (from memory): copper, 0.00393 /K at 20 degC; 7700 ohm at 25 degC is 7551.6 ohm at 20 degC.
TEST(Electrics, CoilAndControl) {
    EXPECT_NEAR(warm(7551.6, 25), 7700, 0.1);
    EXPECT_NEAR(parallel(7706.9, 500e3), 7589.9, 0.1);
}

}  // namespace
}  // namespace fallaway::demo
