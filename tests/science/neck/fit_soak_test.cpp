// The runs of population.h with twenty thousand instruments: narrow enough to tell 95 % from 94.
#include "population.h"

namespace fallaway::neck {
namespace {

TEST(Population, IntervalsAndAlarmsOfTwentyThousand) {
    constexpr std::uint64_t kSeed = 91;
    expect_sharp("14 readings", sharpness(basic_places(six_strings()), 20'000, kSeed), 0.045e-3, kSeed);
    expect_sharp("54 readings", sharpness(full_places(six_strings()), 20'000, kSeed), 0.013e-3, kSeed);
    expect_sharp("14 readings and words", sharpness(basic_places(six_strings()), 20'000, kSeed, true), 0.045e-3,
                 kSeed);
}

TEST(Population, BlundersAreFoundInTwoThousand) {
    expect_found(2000, 92);
}

}  // namespace
}  // namespace fallaway::neck
