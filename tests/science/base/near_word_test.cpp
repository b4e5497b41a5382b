#include "science/base/near_word.h"

#include <vector>

#include <gtest/gtest.h>

namespace fallaway {
namespace {

// The first two are the standard examples of the literature; the third shows the swap.
TEST(NearWord, Distance) {
    EXPECT_EQ(edit_distance("kitten", "sitting"), 3);
    EXPECT_EQ(edit_distance("saturday", "sunday"), 3);
    EXPECT_EQ(edit_distance("relief", "releif"), 1);
    EXPECT_EQ(edit_distance("", "abc"), 3);
    EXPECT_EQ(edit_distance("abc", ""), 3);
    EXPECT_EQ(edit_distance("", ""), 0);
}

TEST(NearWord, NearestIsCloseOrAbsent) {
    const std::vector<std::string_view> known{"relief", "rocker", "twist"};
    EXPECT_EQ(nearest("releif", known), "relief");
    EXPECT_EQ(nearest("rokcer", known), "rocker");
    EXPECT_FALSE(nearest("zzz", known).has_value());
    EXPECT_FALSE(nearest("", known).has_value());
    EXPECT_FALSE(nearest(std::string(100'000, 'r'), known).has_value());
}

TEST(NearWord, Hints) {
    const std::vector<std::string_view> two{"right", "left"};
    EXPECT_EQ(hint("both", two), "expected \"right\" or \"left\"");
    EXPECT_EQ(hint("rihgt", two), "expected \"right\" or \"left\"; did you mean \"right\"?");
    EXPECT_EQ(hint("x", {}), "none is known here");
    const std::vector<std::string_view> many{"one", "two",   "three", "four", "five",
                                             "six", "seven", "eight", "nine"};
    EXPECT_EQ(hint("thre", many), "did you mean \"three\"?");
}

}  // namespace
}  // namespace fallaway
