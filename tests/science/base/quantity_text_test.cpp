// What quantity texts mean, and how they are printed. The refused texts are in quantity_refused_test.cpp.
#include "science/base/quantity_text.h"

#include <clocale>
#include <cmath>
#include <fstream>
#include <iterator>
#include <limits>
#include <locale>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace fallaway {
namespace {

using enum Dimension;

constexpr double kRounding = 4e-16;  // two roundings of a double, relatively

constexpr int kDimensions = static_cast<int>(money) + 1;

struct Accepted {
    const char* text;
    Dimension dimension;
    double si;
    double step_si;
    const char* symbol;
    int decimals = 0;
    std::optional<double> u_si = std::nullopt;
};

// SI values by hand from the factors in quantity_test.cpp; the letter codes as IEC 60062 reads them.
const std::vector<Accepted> kAccepted{
    // decimals
    {"1.60 mm", length, 1.6e-3, 1e-5, "mm", 2},
    {"635 mm", length, 0.635, 1e-3, "mm"},
    {"635mm", length, 0.635, 1e-3, "mm"},
    {"  635 \t mm ", length, 0.635, 1e-3, "mm"},
    {"635\u00A0mm", length, 0.635, 1e-3, "mm"},
    {"0.063 in", length, 1.6002e-3, 2.54e-5, "in", 3},
    {".063 in", length, 1.6002e-3, 2.54e-5, "in", 3},
    {"63 thou", length, 1.6002e-3, 2.54e-5, "thou"},
    {"1.5 cm", length, 0.015, 1e-3, "cm", 1},
    {"40 \u00B5m", length, 4e-5, 1e-6, "um"},
    {"40 \u03BCm", length, 4e-5, 1e-6, "um"},
    {"007 mm", length, 7e-3, 1e-3, "mm"},
    {"82.4 Hz", frequency, 82.4, 0.1, "Hz", 1},
    {"4.2 kHz", frequency, 4200, 100, "kHz", 1},
    // exponents
    {"1e-3 m", length, 1e-3, 1e-3, "m"},
    {"1.60E-3m", length, 1.6e-3, 1e-5, "m", 2},
    {"2.5e+2 Hz", frequency, 250, 10, "Hz", 1},
    // signs
    {"-3 cents", interval, -3, 1, "cents"},
    {"\u22123 ct", interval, -3, 1, "cents"},
    {"+3 \u00A2", interval, 3, 1, "cents"},
    {"-0.05 mm", length, -5e-5, 1e-5, "mm", 2},
    {"-0 mm", length, 0, 1e-3, "mm"},
    {"2 semitones", interval, 200, 100, "semitones"},
    // fractions
    {"4/64 in", length, 1.5875e-3, 3.96875e-4, "in"},
    {"4/64\"", length, 1.5875e-3, 3.96875e-4, "in"},
    {"1 3/8 in", length, 0.034925, 3.175e-3, "in"},
    {"25 1/2\"", length, 0.6477, 0.0127, "in"},
    {"-1 3/8 in", length, -0.034925, 3.175e-3, "in"},
    {"9/8 in", length, 0.028575, 3.175e-3, "in"},
    {"1/4 turn", angle, 1.5707963267948966, 1.5707963267948966, "turn"},
    {"1 1/4 turns", angle, 7.853981633974483, 1.5707963267948966, "turn"},
    {"90 deg", angle, 1.5707963267948966, 0.017453292519943295, "deg"},
    {"90\u00B0", angle, 1.5707963267948966, 0.017453292519943295, "deg"},
    {"1.5 rad", angle, 1.5, 0.1, "rad", 1},
    // letter codes and short letters
    {"8k42", resistance, 8420, 10, "kohm", 2},
    {"4k7", resistance, 4700, 100, "kohm", 1},
    {"4K7", resistance, 4700, 100, "kohm", 1},
    {"2M2", resistance, 2.2e6, 1e5, "Mohm", 1},
    {"470R", resistance, 470, 1, "ohm"},
    {"R47", resistance, 0.47, 0.01, "ohm", 2},
    {"250k", resistance, 250e3, 1e3, "kohm"},
    {"250 k", resistance, 250e3, 1e3, "kohm"},
    {"8.42k", resistance, 8420, 10, "kohm", 2},
    {"22n", capacitance, 22e-9, 1e-9, "nF"},
    {"2n2", capacitance, 2.2e-9, 1e-10, "nF", 1},
    {"4u7", capacitance, 4.7e-6, 1e-7, "uF", 1},
    {"4\u00B57", capacitance, 4.7e-6, 1e-7, "uF", 1},
    {"4\u03BC7", capacitance, 4.7e-6, 1e-7, "uF", 1},
    {"470p", capacitance, 470e-12, 1e-12, "pF"},
    // units of every dimension
    {"8.42 kohm", resistance, 8420, 10, "kohm", 2},
    {"8.42 k\u2126", resistance, 8420, 10, "kohm", 2},
    {"8.42k\u03A9", resistance, 8420, 10, "kohm", 2},
    {"250k\u2126", resistance, 250e3, 1e3, "kohm"},
    {"250k\u03A9", resistance, 250e3, 1e3, "kohm"},
    {"250 ohms", resistance, 250, 1, "ohm"},
    {"1 Mohm", resistance, 1e6, 1e6, "Mohm"},
    {"5.3 \u03A9/m", resistance_per_length, 5.3, 0.1, "ohm/m", 1},
    {"1 ohm/kft", resistance_per_length, 1 / 304.8, 1 / 304.8, "ohm/kft"},
    {"0.022 uF", capacitance, 22e-9, 1e-9, "uF", 3},
    {"22nF", capacitance, 22e-9, 1e-9, "nF"},
    {"3.2 H", inductance, 3.2, 0.1, "H", 1},
    {"850 mH", inductance, 0.85, 1e-3, "mH"},
    {"17 lbf", force, 75.6197674594285, 4.4482216152605, "lbf"},
    {"0.4 N", force, 0.4, 0.1, "N", 1},
    {"8 lb", mass, 3.62873896, 0.45359237, "lb"},
    {"3.60 kg", mass, 3.6, 0.01, "kg", 2},
    {"6.8 g/m", linear_density, 6.8e-3, 1e-4, "g/m", 1},
    {"7.85 g/cm3", density, 7850, 10, "g/cm3", 2},
    {"7850 kg/m\u00B3", density, 7850, 1, "kg/m3"},
    {"200 GPa", pressure, 2e11, 1e9, "GPa"},
    {"20 degC", temperature, 293.15, 1, "degC"},
    {"20\u00B0C", temperature, 293.15, 1, "degC"},
    {"68 F", temperature, 293.15, 5.0 / 9, "degF"},
    {"293.15 K", temperature, 293.15, 0.01, "K", 2},
    {"-273.15 degC", temperature, 0, 0.01, "degC", 2},
    {"-3 C", temperature_difference, -3, 1, "K"},
    {"9 degF", temperature_difference, 5, 5.0 / 9, "degF"},
    {"52 %RH", relative_humidity, 0.52, 0.01, "%RH"},
    {"52% rH", relative_humidity, 0.52, 0.01, "%RH"},
    {"52 %", relative_humidity, 0.52, 0.01, "%RH"},
    {"100 %RH", relative_humidity, 1, 0.01, "%RH"},
    {"8.5 %", moisture, 0.085, 1e-3, "%MC", 1},
    {"12 h", time, 43200, 3600, "h"},
    {"250 ms", time, 0.25, 1e-3, "ms"},
    {"3 d", time, 259200, 86400, "d"},
    {"5 %", ratio, 0.05, 0.01, "%"},
    {"0.05", ratio, 0.05, 0.01, "", 2},
    {"1/4", ratio, 0.25, 0.25, ""},
    {"-6 dB", level, -6, 1, "dB"},
    {"22", count, 22, 1, ""},
    {"980 EUR", money, 980, 1, "EUR"},
    {"EUR 980", money, 980, 1, "EUR"},
    {"980.50EUR", money, 980.5, 0.01, "EUR", 2},
    {"CHF-20", money, -20, 1, "CHF"},
    // uncertainty; JCGM 100:2008, 7.2.2 (concise form) and 6.2.1 (U = k u)
    {"1.62 mm \u00B1 0.03", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62mm+/-0.03mm", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62 mm +- 30 um", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62 \u00B1 0.03 mm", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62 mm \u00B1 0.06 (k=2)", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62 mm \u00B1 0.06 mm ( k = 2 )", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"1.62(3) mm", length, 1.62e-3, 1e-5, "mm", 2, 3e-5},
    {"635(2) mm", length, 0.635, 1e-3, "mm", 0, 2e-3},
    {"1.62 mm \u00B1 0", length, 1.62e-3, 1e-5, "mm", 2, 0},
    {"1.62 mm \u00B1 -0", length, 1.62e-3, 1e-5, "mm", 2, 0},
    {"4/64 in \u00B1 1/64 in", length, 1.5875e-3, 3.96875e-4, "in", 0, 3.96875e-4},
    {"8.42 kohm \u00B1 0.8 %", resistance, 8420, 10, "kohm", 2, 67.36},
    {"8k42 \u00B1 0.8%", resistance, 8420, 10, "kohm", 2, 67.36},
    {"8k42 \u00B1 0k05", resistance, 8420, 10, "kohm", 2, 50},
    {"8k42 \u00B1 50 ohm", resistance, 8420, 10, "kohm", 2, 50},
    {"-2 mm \u00B1 10 % (k=2)", length, -2e-3, 1e-3, "mm", 0, 1e-4},
    {"20.0 degC \u00B1 0.5", temperature, 293.15, 0.1, "degC", 1, 0.5},
    {"20.0 degC \u00B1 0.9 degF", temperature, 293.15, 0.1, "degC", 1, 0.5},
    {"52 %RH \u00B1 2 %", relative_humidity, 0.52, 0.01, "%RH", 0, 0.02},
    {"5 \u00B1 1 %", ratio, 0.05, 0.01, "%", 0, 0.01},
    {"22 \u00B1 1", count, 22, 1, "", 0, 1},
    {"980 EUR \u00B1 50", money, 980, 1, "EUR", 0, 50},
    {"EUR 980 \u00B1 50 EUR", money, 980, 1, "EUR", 0, 50},
};

void expect_close(double got, double wanted, const char* what) {
    EXPECT_NEAR(got, wanted, std::abs(wanted) * kRounding) << what;
}

TEST(ParseQuantity, ReadsTheTable) {
    for (const Accepted& c : kAccepted) {
        SCOPED_TRACE(c.text);
        const auto q = parse_quantity(c.text, c.dimension);
        if (!q) {
            ADD_FAILURE() << q.error().message;
            continue;
        }
        EXPECT_EQ(q->typed, c.text);
        expect_close(q->si, c.si, "value");
        expect_close(q->step_si, c.step_si, "step");
        EXPECT_EQ(q->unit->symbol, c.symbol);
        EXPECT_EQ(q->unit->dimension, c.dimension);
        EXPECT_EQ(q->decimals, c.decimals);
        EXPECT_EQ(q->u_si.has_value(), c.u_si.has_value());
        if (q->u_si && c.u_si) expect_close(*q->u_si, *c.u_si, "uncertainty");
        EXPECT_FALSE(std::signbit(q->si) && q->si == 0) << "the value is -0";
        EXPECT_FALSE(std::signbit(q->u_si.value_or(0))) << "the uncertainty is -0";
    }
}

struct Printed {
    double number;
    int decimals;
    const char* text;
};

// Arithmetic by hand: half away from zero, as people round.
TEST(FormatQuantity, RoundsHalfAwayFromZero) {
    const Unit& bare = *find_unit("", ratio);
    const std::vector<Printed> table{
        {0, 2, "0.00"},
        {-0.0, 2, "0.00"},
        {-0.004, 2, "0.00"},
        {-0.005, 2, "-0.01"},
        {0.125, 2, "0.13"},
        {-0.125, 2, "-0.13"},
        {2.675, 2, "2.68"},
        {1.005, 2, "1.01"},
        {0.5, 0, "1"},
        {1.5, 0, "2"},
        {0.4999, 0, "0"},
        {9.995, 2, "10.00"},
        {99.96, 1, "100.0"},
        {1234.5, 0, "1235"},
        {1.6, 1, "1.6"},
        {1.6, 4, "1.6000"},
        {0.1 + 0.2, 17, "0.30000000000000000"},
        {1e20, 1, "100000000000000000000.0"},
        {1e-9, 3, "0.000"},
        {5e-4, 3, "0.001"},
        {123456789.125, 2, "123456789.13"},
        {7, -3, "7"},
    };
    for (const Printed& c : table) EXPECT_EQ(format_quantity(c.number, bare, c.decimals), c.text) << c.number;
}

TEST(FormatQuantity, PutsOneSpaceBeforeTheUnit) {
    EXPECT_EQ(format_quantity(1.6e-3, *find_unit("mm", length), 2), "1.60 mm");
    EXPECT_EQ(format_quantity(1.6002e-3, *find_unit("in", length), 3), "0.063 in");
    EXPECT_EQ(format_quantity(0.52, *find_unit("%RH", relative_humidity), 0), "52 %RH");
    EXPECT_EQ(format_quantity(293.15, *find_unit("degC", temperature), 1), "20.0 degC");
    EXPECT_EQ(format_quantity(22, *find_unit("", count), 0), "22");
    EXPECT_EQ(format_quantity(std::numeric_limits<double>::infinity(), *find_unit("mm", length), 2), "inf mm");
    EXPECT_EQ(format_quantity(std::nan(""), *find_unit("mm", length), 2), "nan mm");
}

// JCGM 100:2008, 7.2.2 prints m = 100.02147 g with u = 0.35 mg as 100.02147(35) g; 7.2.6: u to two digits,
// and 10.05762 ohm with u = 27 mohm becomes 10.058 ohm.
TEST(FormatWithU, RoundsValueAndUncertaintyTogether) {
    const Unit& gram = *find_unit("g", mass);
    EXPECT_EQ(format_with_u(0.10002147, 0.35e-6, gram), "100.02147 \u00B1 0.00035 g");
    EXPECT_EQ(format_with_u(10.05762, 0.027, *find_unit("ohm", resistance)), "10.058 \u00B1 0.027 ohm");
    const Unit& mm = *find_unit("mm", length);
    EXPECT_EQ(format_with_u(1.62e-3, 4e-5, mm), "1.620 \u00B1 0.040 mm");
    EXPECT_EQ(format_with_u(1.62e-3, 9.96e-5, mm), "1.62 \u00B1 0.10 mm");
    EXPECT_EQ(format_with_u(0.12345, 0.0123, mm), "123 \u00B1 12 mm");
    EXPECT_EQ(format_with_u(12.345, 0.361, mm), "12350 \u00B1 360 mm");
    EXPECT_EQ(format_with_u(0.001, 1.0, mm), "0 \u00B1 1000 mm");
    EXPECT_EQ(format_with_u(293.15, 0.5, *find_unit("degF", temperature)), "68.00 \u00B1 0.90 degF");
}

TEST(FormatWithU, LeavesOutAnUncertaintyThatSaysNothing) {
    const Unit& mm = *find_unit("mm", length);
    // At the bench one digit of u is enough, two when it begins with 1; common practice, no source.
    EXPECT_EQ(format_at_the_bench(1.62e-3, 4e-5, mm), "1.62 \u00B1 0.04 mm");
    EXPECT_EQ(format_at_the_bench(0.63503, 1.6e-4, mm), "635.03 \u00B1 0.16 mm");
    EXPECT_EQ(format_at_the_bench(1.62e-3, 9.6e-5, mm), "1.62 \u00B1 0.10 mm");
    EXPECT_EQ(format_at_the_bench(12.345, 0.361, mm), "12300 \u00B1 400 mm");
    EXPECT_EQ(format_at_the_bench(1.62e-3, 0, mm, 2), "1.62 mm");
    EXPECT_EQ(format_with_u(1.62e-3, 0, mm), "1.620 mm");
    EXPECT_EQ(format_with_u(1.62e-3, std::numeric_limits<double>::infinity(), mm, 1), "1.6 mm");
    EXPECT_EQ(format_with_u(1.62e-3, std::nan(""), mm, 2), "1.62 mm");
    EXPECT_EQ(format_with_u(1.62e-3, 1e-40, mm, 2), "1.62 mm");
}

TEST(DecimalsForU, ShowsTwoDigits) {
    EXPECT_EQ(decimals_for_u(0.04), 3);
    EXPECT_EQ(decimals_for_u(0.27), 2);
    EXPECT_EQ(decimals_for_u(2.7), 1);
    EXPECT_EQ(decimals_for_u(27), 0);
    EXPECT_EQ(decimals_for_u(270), 0);
    EXPECT_EQ(decimals_for_u(0.0995), 2);  // prints 0.10
    EXPECT_EQ(decimals_for_u(0.0994), 3);
    EXPECT_EQ(decimals_for_u(0), 0);
    EXPECT_EQ(decimals_for_u(std::numeric_limits<double>::infinity()), 0);
    EXPECT_EQ(decimals_for_u(1e-300), 15);
}

TEST(RoundTrip, EveryUnitReadsWhatItPrints) {
    for (int i = 0; i < kDimensions; ++i) {
        for (const Unit& unit : units_of(static_cast<Dimension>(i))) {
            const std::string text = format_quantity(to_si(7, unit), unit, 0);
            const auto q = parse_quantity(text, unit.dimension);
            ASSERT_TRUE(q) << q.error().message;
            EXPECT_EQ(q->unit, &unit) << text;
            EXPECT_NEAR(from_si(q->si, unit), 7, 1e-12) << text;
        }
    }
}

const Unit& any_unit() {
    const auto units = units_of(static_cast<Dimension>(*rc::gen::inRange(0, kDimensions)));
    return units[*rc::gen::inRange<std::size_t>(0, units.size())];
}

// A number of up to nine digits that every dimension takes.
std::string any_number(const Unit& unit, int decimals) {
    const int digits =
        unit.dimension == relative_humidity ? *rc::gen::inRange(0, 100) : *rc::gen::inRange(0, 999999999);
    const Unit& bare = *find_unit("", ratio);
    return format_quantity(digits * std::pow(10.0, -decimals), bare, decimals);
}

TEST(RoundTrip, ReadThenPrintedIsTheSameText) {
    EXPECT_TRUE(rc::check([] {
        const Unit& unit = any_unit();
        const int decimals = unit.dimension == count ? 0 : *rc::gen::inRange(0, 7);
        const std::string number = any_number(unit, decimals);
        const std::string text = unit.symbol.empty() ? number : number + " " + std::string(unit.symbol);
        const auto q = parse_quantity(text, unit.dimension);
        RC_ASSERT(q.has_value());
        RC_ASSERT(q->decimals == decimals);
        RC_ASSERT(format_quantity(q->si, *q->unit, q->decimals) == text);
    }));
}

TEST(RoundTrip, PrintedWithUncertaintyReadsBackWithinItsRounding) {
    EXPECT_TRUE(rc::check([] {
        const Unit& unit = any_unit();
        RC_PRE(unit.dimension != count && unit.dimension != relative_humidity);
        const double number = *rc::gen::inRange(0, 1000000) * 1e-3;
        const double u = *rc::gen::inRange(1, 100000) * 1e-4;
        const double si = to_si(number, unit);
        const auto q = parse_quantity(format_with_u(si, difference_to_si(u, unit), unit), unit.dimension);
        RC_ASSERT(q.has_value());
        RC_ASSERT(q->u_si.has_value());
        const double two_digits = 0.051;  // u to two digits is off by at most 0.5 in 10
        RC_ASSERT(std::abs(difference_from_si(*q->u_si, unit) - u) <= two_digits * u);
        RC_ASSERT(std::abs(from_si(q->si, unit) - number) <= two_digits * u + 1e-9);
    }));
}

// What a comma country's settings would do to scanf, stod and streams.
class CommaNumbers : public std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

TEST(Locale, ChangesNothing) {
    const std::locale before = std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
    const char* c_before = std::setlocale(LC_ALL, "de_DE.UTF-8");  // where the machine has it
    const auto q = parse_quantity("12345.60 mm \u00B1 0.5", length);
    const std::string text = format_with_u(12.3456, 5e-4, *find_unit("mm", length));
    const auto comma = parse_quantity("1,60 mm", length);
    std::locale::global(before);
    if (c_before != nullptr) std::setlocale(LC_ALL, "C");
    ASSERT_TRUE(q);
    EXPECT_DOUBLE_EQ(q->si, 12.3456);
    EXPECT_EQ(text, "12345.60 \u00B1 0.50 mm");
    EXPECT_FALSE(comma);
}

TEST(Document, NamesEveryUnit) {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/docs/quantities.md");
    const std::string document{std::istreambuf_iterator<char>(file), {}};
    ASSERT_FALSE(document.empty());
    for (int i = 0; i < kDimensions; ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const auto row_start = document.find("\n| " + std::string(name_of(dimension)) + " |");
        ASSERT_NE(row_start, std::string::npos) << name_of(dimension) << " has no row in the table of units";
        const std::string row = document.substr(row_start + 1, document.find('\n', row_start + 1) - row_start - 1);
        for (const Unit& unit : units_of(dimension)) {
            const std::string named = unit.symbol.empty() ? "no unit" : "`" + std::string(unit.symbol) + "`";
            EXPECT_NE(row.find(named), std::string::npos) << named << " is missing in: " << row;
        }
    }
}

}  // namespace
}  // namespace fallaway
