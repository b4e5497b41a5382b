// Codes that let a device in. The clock is a number here.
#include "shop/serve/pairing.h"

#include <gtest/gtest.h>

namespace fallaway::serve {
namespace {

using Outcome = PairingCodes::Outcome;

std::function<std::string()> codes_in_turn() {
    return [n = 0]() mutable { return "7KQ4MX2" + std::string(1, static_cast<char>('A' + n++)); };
}

TEST(PairingTest, letsInOnceHoweverItIsTyped) {
    PairingCodes codes(codes_in_turn());
    EXPECT_EQ(spaced_code(codes.make(0)), "7KQ4-MX2A");
    EXPECT_EQ(codes.use(" 7kq4-mx2a", "10.0.0.2", 1).outcome, Outcome::let_in);
    EXPECT_EQ(codes.use("7KQ4-MX2A", "10.0.0.3", 2).outcome, Outcome::wrong);
}

TEST(PairingTest, endsAfterFiveMinutes) {
    PairingCodes codes(codes_in_turn());
    codes.make(0);
    codes.make(1);
    EXPECT_EQ(codes.use("7KQ4MX2A", "a", kCodeSeconds).outcome, Outcome::wrong);
    EXPECT_EQ(codes.use("7KQ4MX2B", "a", kCodeSeconds).outcome, Outcome::let_in);
}

TEST(PairingTest, endsAfterFiveWrongTriesFromAnybody) {
    PairingCodes codes(codes_in_turn());
    codes.make(0);
    for (int i = 0; i < kWrongTries; ++i) {
        EXPECT_EQ(codes.use("AAAAAAAA", "10.0.0." + std::to_string(i), 1).outcome, Outcome::wrong);
    }
    EXPECT_EQ(codes.use("7KQ4MX2A", "10.0.0.9", 2).outcome, Outcome::wrong);
}

TEST(PairingTest, onePeerHasFiveWrongTriesAMinute) {
    PairingCodes codes(codes_in_turn());
    for (int i = 0; i < kWrongTries; ++i) EXPECT_EQ(codes.use("AAAAAAAA", "a", 10).outcome, Outcome::wrong);
    codes.make(11);
    const auto refused = codes.use("7KQ4MX2A", "a", 20);
    EXPECT_EQ(refused.outcome, Outcome::too_many);
    EXPECT_EQ(refused.wait_s, 50);
    EXPECT_EQ(codes.use("7KQ4MX2A", "a", 10 + kPeerSeconds).outcome, Outcome::let_in);
}

TEST(PairingTest, aFifthCodeEndsTheOldest) {
    PairingCodes codes(codes_in_turn());
    for (int i = 0; i < 5; ++i) codes.make(i);
    EXPECT_EQ(codes.use("7KQ4MX2A", "a", 5).outcome, Outcome::wrong);
    EXPECT_EQ(codes.use("7KQ4MX2B", "a", 5).outcome, Outcome::let_in);
    EXPECT_EQ(codes.use("", "b", 5).outcome, Outcome::wrong);
}

}  // namespace
}  // namespace fallaway::serve
