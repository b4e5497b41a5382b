#include <algorithm>
#include <cmath>
#include <cstdio>

#include <gtest/gtest.h>

#include "bench/report/colours.h"
#include "bench/report/style.h"

namespace fallaway::report {
namespace {

// Relative luminance and contrast ratio: WCAG 2.2, definitions "relative luminance" and "contrast ratio".
double luminance(std::uint32_t rgb) {
    const auto channel = [](std::uint32_t byte) {
        const double c = byte / 255.0;
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * channel(rgb >> 16) + 0.7152 * channel((rgb >> 8) & 0xFF) + 0.0722 * channel(rgb & 0xFF);
}

double contrast(std::uint32_t a, std::uint32_t b) {
    const double la = luminance(a);
    const double lb = luminance(b);
    return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

const Colour& colour(std::string_view name) {
    return *std::ranges::find(kColours, name, &Colour::name);
}

struct Pair {
    std::string_view front;
    std::string_view ground;
    double light;
    double dark;
};

constexpr double kRounding = 0.051;  // the table is stated to one decimal
constexpr double kText = 7;          // WCAG 2.2, 1.4.6, AAA
constexpr double kLines = 3;         // WCAG 2.2, 1.4.11

TEST(Contrast, FormulaAgreesWithItsDefinition) {
    EXPECT_NEAR(contrast(0x000000, 0xFFFFFF), 21, 1e-9);
    EXPECT_NEAR(contrast(0x777777, 0xFFFFFF), 4.48, 0.005);  // the well-known grey that just fails 4.5
}

// The ratios that the house's look states for its tokens.
TEST(Contrast, TokensReachWhatTheLookStates) {
    const Pair pairs[] = {
        {"ink", "sheet", 15.9, 14.2},    {"ink", "paper", 14.3, 15.8},    {"ink2", "sheet", 8.7, 9.6},
        {"ink2", "paper", 7.8, 10.7},    {"graphite", "sheet", 5.9, 6.9}, {"graphite", "paper", 5.3, 7.7},
        {"line", "sheet", 4.2, 5.0},     {"line", "paper", 3.8, 5.6},     {"blue", "sheet", 8.3, 9.5},
        {"blue", "paper", 7.4, 10.6},    {"red", "sheet", 8.4, 8.8},      {"red", "paper", 7.6, 9.8},
        {"ink", "bluewash", 13.3, 11.0}, {"ink2", "bluewash", 7.2, 7.4},  {"ink", "redwash", 13.4, 11.7},
        {"red", "redwash", 7.1, 7.2}};
    for (const Pair& pair : pairs) {
        const Colour& front = colour(pair.front);
        const Colour& ground = colour(pair.ground);
        const double least = pair.front == "graphite" || pair.front == "line" ? kLines : kText;
        EXPECT_NEAR(contrast(front.light, ground.light), pair.light, kRounding)
            << pair.front << " on " << pair.ground;
        EXPECT_NEAR(contrast(front.dark, ground.dark), pair.dark, kRounding)
            << pair.front << " on " << pair.ground;
        EXPECT_GE(contrast(front.light, ground.light), least);
        EXPECT_GE(contrast(front.dark, ground.dark), least);
    }
}

// Green would mark something as good; nothing does. A hue is green when its green channel leads both others
// clearly.
TEST(Colours, HoldNoGreen) {
    for (const Colour& c : kColours) {
        for (const std::uint32_t rgb : {c.light, c.dark}) {
            const int red = static_cast<int>(rgb >> 16);
            const int green = static_cast<int>((rgb >> 8) & 0xFF);
            const int blue = static_cast<int>(rgb & 0xFF);
            EXPECT_LT(green - std::max(red, blue), 16) << c.name;
        }
    }
}

TEST(Style, CarriesEveryTokenInBothThemes) {
    const std::string style = style_sheet("Ostrel Heron");
    for (const Colour& c : kColours) {
        for (const std::uint32_t rgb : {c.light, c.dark}) {
            char hex[16];
            std::snprintf(hex, sizeof hex, "#%06X", rgb);
            EXPECT_NE(style.find("--" + std::string(c.name) + ":" + hex), std::string::npos) << c.name;
        }
    }
    EXPECT_NE(style.find("prefers-color-scheme:dark"), std::string::npos);
}

}  // namespace
}  // namespace fallaway::report
