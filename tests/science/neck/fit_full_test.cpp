// The runs of population.h with a thousand instruments.
#include "population.h"

namespace fallaway::neck {
namespace {

TEST(Population, FourteenAndFiftyFourReadingsOfAThousand) {
    constexpr std::uint64_t kSeed = 51;
    expect_sharp("14 readings", sharpness(basic_places(six_strings()), 1000, kSeed), 0.045e-3, kSeed);
    expect_sharp("54 readings", sharpness(full_places(six_strings()), 1000, kSeed), 0.013e-3, kSeed);
    expect_sharp("14 readings and words", sharpness(basic_places(six_strings()), 1000, kSeed, true), 0.045e-3,
                 kSeed);
}

TEST(Population, BlundersAreFoundInAThousand) {
    expect_found(1000, 52);
}

}  // namespace
}  // namespace fallaway::neck
