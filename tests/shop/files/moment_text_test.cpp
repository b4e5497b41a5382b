#include "shop/files/moment_text.h"

#include <gtest/gtest.h>

namespace fallaway::files {
namespace {

// Instants from `date -u -d ... +%s` (GNU coreutils); the examples of RFC 3339, section 5.8, among them.
TEST(MomentText, InstantsAgreeWithDate) {
    const struct {
        const char* text;
        std::int64_t instant;
    } kCases[] = {
        {"1970-01-01T00:00:00Z", 0},
        {"1985-04-12T23:20:50.52Z", 482196050},
        {"1996-12-19T16:39:57-08:00", 851042397},
        {"1937-01-01T12:00:27.87+00:20", -1041337173},
        {"2026-11-24T09:10:00+01:00", 1795507800},
        {"2024-02-29t23:59:59z", 1709251199},
        {"2000-02-29T00:00:00-00:00", 951782400},
        {"0000-01-01T00:00:00Z", -62167219200},
        {"9999-12-31T23:59:59Z", 253402300799},
    };
    for (const auto& [text, instant] : kCases) {
        const auto moment = parse_moment(text);
        ASSERT_TRUE(moment.has_value()) << moment.error().message;
        EXPECT_EQ(moment->instant, instant) << text;
        EXPECT_EQ(moment->typed, text);
    }
}

TEST(MomentText, RefusesWhatIsNoMoment) {
    const struct {
        const char* text;
        const char* code;
    } kCases[] = {
        {"", "syntax"},
        {"2026-11-24", "syntax"},
        {"2026-11-24T09:10:00", "syntax"},
        {"2026-11-24 09:10:00Z", "syntax"},
        {"2026-11-24T09:10Z", "syntax"},
        {"2026-11-24T09:10:00.Z", "syntax"},
        {"2026-11-24T09:10:00+0100", "syntax"},
        {"2026-11-24T09:10:00+24:00", "syntax"},
        {"2026-11-24T09:10:00+01:60", "syntax"},
        {"2026-11-24T09:10:00Z ", "syntax"},
        {"26-11-24T09:10:00Z", "syntax"},
        {"+026-11-24T09:10:00Z", "syntax"},
        {"2026-13-24T09:10:00Z", "range"},
        {"2023-02-29T09:10:00Z", "range"},
        {"1900-02-29T09:10:00Z", "range"},
        {"2026-11-00T09:10:00Z", "range"},
        {"2026-11-24T24:00:00Z", "range"},
        {"2026-11-24T09:60:00Z", "range"},
        {"1990-12-31T23:59:60Z", "range"},
        {"1990-12-31T23:59:61Z", "range"},
    };
    for (const auto& [text, code] : kCases) {
        const auto moment = parse_moment(text);
        ASSERT_FALSE(moment.has_value()) << text;
        EXPECT_EQ(moment.error().code, code) << text;
    }
}

TEST(MomentText, Days) {
    for (const char* good : {"2026-11-28", "2024-02-29", "2000-02-29"})
        EXPECT_TRUE(parse_day(good).has_value()) << good;
    for (const char* bad :
         {"", "2026-11-31", "2023-02-29", "2026-1-1", "28.11.2026", "2026-11-28T", "2026-00-10"}) {
        EXPECT_FALSE(parse_day(bad).has_value()) << bad;
    }
}

}  // namespace
}  // namespace fallaway::files
