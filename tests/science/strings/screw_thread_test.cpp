#include "science/strings/screw_thread.h"

#include <gtest/gtest.h>

namespace fallaway::strings {
namespace {

// ISO 261 and ASME B1.1, as used on saddles, posts, rods and pickups.
TEST(ScrewThread, TravelsOfTheUsualThreads) {
    const struct {
        const char* name;
        double mm;
    } kRows[] = {{"M2.5", .45},    {"M3", .50},       {"M4", .70},     {"M5", .80},      {"M6", 1.0},
                 {"M8", 1.25},     {"2-56", .4536},   {"3-48", .529},  {"4-40", .635},   {"5-40", .635},
                 {"6-32", .794},   {"8-32", .794},    {"10-32", .794}, {"10-24", 1.058}, {"1/4-20", 1.27},
                 {"1/4-28", .907}, {"5/16-18", 1.411}};
    for (const auto& [name, mm] : kRows) {
        const auto thread = thread_named(name);
        ASSERT_TRUE(thread.has_value()) << name;
        EXPECT_NEAR(thread->pitch.mm(), mm, 0.0006) << name;
        EXPECT_FALSE(thread->source.empty());
    }
    EXPECT_FALSE(thread_named("M7.3").has_value());
    EXPECT_FALSE(thread_named("12 mm").has_value());
    EXPECT_DOUBLE_EQ(turns_for(Length::mm(-0.4), *thread_named("M3")), -0.8);
}

}  // namespace
}  // namespace fallaway::strings
