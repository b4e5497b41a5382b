// Factories and accessors against published factors. NIST SP 811 (2008) means its appendix B.8, where a factor
// in bold is exact.
#include "science/base/quantity.h"

#include <tuple>
#include <vector>

#include <gtest/gtest.h>

#include "science/base/dimension.h"
#include "science/base/quantity_text.h"

namespace fallaway {
namespace {

// NIST SP 811 prints seven digits where a factor is not exact: half of the last one, relatively.
constexpr double kSevenDigits = 5e-7;
constexpr double kRounding = 4e-16;  // two roundings of a double

struct Factor {
    const char* unit;
    Dimension dimension;
    double si;
    double tolerance;
    const char* source;
};

const std::vector<Factor> kFactors{
    {"in", Dimension::length, 0.0254, kRounding, "international yard and pound agreement, 1959: exact"},
    {"thou", Dimension::length, 2.54e-5, kRounding, "NIST SP 811, mil: exact"},
    {"lb", Dimension::mass, 0.45359237, kRounding, "international yard and pound agreement, 1959: exact"},
    {"oz", Dimension::mass, 2.834952e-2, kSevenDigits, "NIST SP 811, ounce (avoirdupois)"},
    {"oz", Dimension::mass, 0.028349523125, kRounding, "a sixteenth of the pound of 1959: exact"},
    {"lbf", Dimension::force, 4.4482216152605, kRounding, "NIST SP 811, footnote to pound-force: exact"},
    {"lbf", Dimension::force, 0.45359237 * 9.80665, kRounding, "pound of 1959 times free fall of CGPM 1901"},
    {"kgf", Dimension::force, 9.80665, kRounding, "NIST SP 811, kilogram-force: exact"},
    {"lb/in", Dimension::linear_density, 1.785797e1, kSevenDigits, "NIST SP 811, pound per inch"},
    {"psi", Dimension::pressure, 6.894757e3, kSevenDigits, "NIST SP 811, psi"},
    {"ksi", Dimension::pressure, 6.894757e6, kSevenDigits, "NIST SP 811, ksi"},
    {"g/cm3", Dimension::density, 1e3, kRounding, "NIST SP 811, gram per cubic centimetre: exact"},
    {"deg", Dimension::angle, 1.745329e-2, kSevenDigits, "NIST SP 811, degree"},
    {"turn", Dimension::angle, 6.283185, kSevenDigits, "NIST SP 811, revolution"},
    {"min", Dimension::time, 60, kRounding, "SI brochure (2019), table 8: exact"},
    {"h", Dimension::time, 3600, kRounding, "SI brochure (2019), table 8: exact"},
    {"d", Dimension::time, 86400, kRounding, "SI brochure (2019), table 8: exact"},
    {"ohm/ft", Dimension::resistance_per_length, 1 / 0.3048, kRounding, "foot of 1959: exact"},
    {"ohm/kft", Dimension::resistance_per_length, 1 / 304.8, kRounding, "foot of 1959: exact"},
    {"degF", Dimension::temperature_difference, 5.555556e-1, kSevenDigits,
     "NIST SP 811, degree Fahrenheit interval"},
};

TEST(Units, HaveThePublishedFactors) {
    for (const Factor& f : kFactors) {
        const Unit* unit = find_unit(f.unit, f.dimension);
        ASSERT_NE(unit, nullptr) << f.unit;
        EXPECT_NEAR(unit->factor / f.si, 1, f.tolerance) << f.unit << ": " << f.source;
    }
}

// NIST SP 811, B.8 and B.9: t/degC = (t/degF - 32)/1.8; T/K = t/degC + 273.15; T/K = (t/degF + 459.67)/1.8.
TEST(Units, TurnTemperaturesAsPublished) {
    const Unit& celsius = *find_unit("degC", Dimension::temperature);
    const Unit& fahrenheit = *find_unit("degF", Dimension::temperature);
    EXPECT_EQ(to_si(0, celsius), 273.15);
    EXPECT_EQ(to_si(-273.15, celsius), 0);
    EXPECT_EQ(to_si(-459.67, fahrenheit), 0);
    const double one_ulp_at_300 = 6e-14;
    EXPECT_NEAR(to_si(32, fahrenheit), 273.15, one_ulp_at_300);
    EXPECT_NEAR(to_si(212, fahrenheit), 373.15, one_ulp_at_300);
    EXPECT_NEAR(from_si(to_si(-40, celsius), fahrenheit), -40, 4 * one_ulp_at_300);  // where the scales meet
}

TEST(Units, GiveADifferenceNoOffset) {
    const Unit& fahrenheit = *find_unit("degF", Dimension::temperature);
    EXPECT_DOUBLE_EQ(difference_to_si(9, fahrenheit), 5);
    EXPECT_DOUBLE_EQ(difference_from_si(5, fahrenheit), 9);
}

TEST(Units, GroupEveryDimensionAndFindEverySymbol) {
    for (int i = 0; i <= static_cast<int>(Dimension::money); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const auto units = units_of(dimension);
        ASSERT_FALSE(units.empty()) << name_of(dimension);
        for (const Unit& unit : units) {
            EXPECT_EQ(unit.dimension, dimension) << unit.symbol;
            EXPECT_GT(unit.factor, 0) << unit.symbol;
            EXPECT_EQ(find_unit(unit.symbol, dimension), &unit) << unit.symbol;
        }
    }
}

TEST(Units, AreKnownByTheirOtherSpellings) {
    const std::vector<std::tuple<const char*, Dimension, const char*>> spellings{
        {"\u00B5m", Dimension::length, "um"},
        {"\u03BCm", Dimension::length, "um"},
        {"inch", Dimension::length, "in"},
        {"\"", Dimension::length, "in"},
        {"\u2033", Dimension::length, "in"},
        {"mil", Dimension::length, "thou"},
        {"ct", Dimension::interval, "cents"},
        {"\u00A2", Dimension::interval, "cents"},
        {"kg/m\u00B3", Dimension::density, "kg/m3"},
        {"kg/m^3", Dimension::density, "kg/m3"},
        {"k\u2126", Dimension::resistance, "kohm"},
        {"k\u03A9", Dimension::resistance, "kohm"},
        {"Mohms", Dimension::resistance, "Mohm"},
        {"\u03A9/ft", Dimension::resistance_per_length, "ohm/ft"},
        {"\u00B5F", Dimension::capacitance, "uF"},
        {"\u00B0C", Dimension::temperature, "degC"},
        {"F", Dimension::temperature, "degF"},
        {"F", Dimension::capacitance, "F"},
        {"degC", Dimension::temperature_difference, "K"},
        {"% RH", Dimension::relative_humidity, "%RH"},
        {"%rH", Dimension::relative_humidity, "%RH"},
        {"%", Dimension::moisture, "%MC"},
        {"%", Dimension::ratio, "%"},
        {"\u00B0", Dimension::angle, "deg"},
        {"turns", Dimension::angle, "turn"},
    };
    for (const auto& [text, dimension, symbol] : spellings) {
        const Unit* unit = find_unit(text, dimension);
        ASSERT_NE(unit, nullptr) << text;
        EXPECT_EQ(unit->symbol, symbol) << text;
    }
    EXPECT_EQ(find_unit("mm", Dimension::mass), nullptr);
    EXPECT_EQ(find_unit("", Dimension::length), nullptr);
    EXPECT_EQ(find_unit("MM", Dimension::length), nullptr);
}

// The factories and the unit table are two lists of the same factors.
TEST(Quantity, FactoriesAgreeWithTheUnitTable) {
    const auto unit_si = [](const char* symbol, Dimension dimension) {
        return to_si(1.6, *find_unit(symbol, dimension));
    };
    EXPECT_EQ(Length::mm(1.6).si(), unit_si("mm", Dimension::length));
    EXPECT_EQ(Length::um(1.6).si(), unit_si("um", Dimension::length));
    EXPECT_EQ(Length::inch(1.6).si(), unit_si("in", Dimension::length));
    EXPECT_EQ(Interval::semitones(1.6).si(), unit_si("semitones", Dimension::interval));
    EXPECT_EQ(Force::lbf(1.6).si(), unit_si("lbf", Dimension::force));
    EXPECT_EQ(Force::kgf(1.6).si(), unit_si("kgf", Dimension::force));
    EXPECT_EQ(Mass::gram(1.6).si(), unit_si("g", Dimension::mass));
    EXPECT_EQ(Mass::lb(1.6).si(), unit_si("lb", Dimension::mass));
    EXPECT_EQ(LinearDensity::g_per_m(1.6).si(), unit_si("g/m", Dimension::linear_density));
    EXPECT_EQ(Pressure::mpa(1.6).si(), unit_si("MPa", Dimension::pressure));
    EXPECT_EQ(Pressure::gpa(1.6).si(), unit_si("GPa", Dimension::pressure));
    EXPECT_EQ(Resistance::kohm(1.6).si(), unit_si("kohm", Dimension::resistance));
    EXPECT_EQ(Capacitance::nf(1.6).si(), unit_si("nF", Dimension::capacitance));
    EXPECT_EQ(Capacitance::pf(1.6).si(), unit_si("pF", Dimension::capacitance));
    EXPECT_EQ(Temperature::celsius(1.6).si(), unit_si("degC", Dimension::temperature));
    EXPECT_EQ(RelativeHumidity::percent(1.6).si(), unit_si("%RH", Dimension::relative_humidity));
    EXPECT_DOUBLE_EQ(Angle::degrees(1.6).si(), unit_si("deg", Dimension::angle));
    EXPECT_DOUBLE_EQ(Angle::turns(1.6).si(), unit_si("turn", Dimension::angle));
    EXPECT_EQ(Duration::minutes(1.6).si(), unit_si("min", Dimension::time));
    EXPECT_EQ(Duration::hours(1.6).si(), unit_si("h", Dimension::time));
    EXPECT_EQ(Ratio::percent(1.6).si(), unit_si("%", Dimension::ratio));
}

TEST(Quantity, AccessorsUndoFactories) {
    EXPECT_DOUBLE_EQ(Length::inch(0.063).inch(), 0.063);
    EXPECT_DOUBLE_EQ(Length::inch(1).mm(), 25.4);
    EXPECT_DOUBLE_EQ(Force::lbf(17).lbf(), 17);
    EXPECT_DOUBLE_EQ(Mass::lb(8).lb(), 8);
    EXPECT_DOUBLE_EQ(Capacitance::nf(22).pf(), 22000);
    EXPECT_DOUBLE_EQ(Temperature::celsius(21.5).celsius(), 21.5);
    EXPECT_DOUBLE_EQ(Angle::turns(0.25).degrees(), 90);
    EXPECT_DOUBLE_EQ(Duration::hours(12).minutes(), 720);
}

// ISO 16:1975: A4 is 440 Hz; the octave has 1200 cents. A semitone of equal temperament is 2^(1/12), so C5 is
// 523.251 Hz to three decimals (any table of equal-tempered notes).
TEST(Quantity, IntervalsCountCents) {
    EXPECT_DOUBLE_EQ(Interval::between(Frequency::hz(880), Frequency::hz(440)).cents(), 1200);
    EXPECT_NEAR(440 * Interval::semitones(3).frequency_ratio(), 523.251, 5e-4);
    EXPECT_NEAR(Interval::between(Frequency::hz(3), Frequency::hz(2)).cents(), 701.955, 5e-4);  // just fifth
}

TEST(Quantity, KeepsKindsApart) {
    EXPECT_EQ((Temperature::celsius(25) - Temperature::celsius(20)).kelvin(), 5);
    EXPECT_EQ(Length::mm(4) / Length::mm(2), 2);
    EXPECT_LT(Length::mm(1), Length::mm(2));
    EXPECT_EQ((-Length::mm(2) + Length::mm(2)).si(), 0);
}

TEST(Dimension, NamesAndExamplesAreTrue) {
    for (int i = 0; i <= static_cast<int>(Dimension::money); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        EXPECT_FALSE(name_of(dimension).empty());
        const auto example = parse_quantity(example_of(dimension), dimension);
        EXPECT_TRUE(example) << example_of(dimension);
    }
}

}  // namespace
}  // namespace fallaway
