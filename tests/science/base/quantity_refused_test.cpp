// Texts that are no quantity, and what a person is told.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "science/base/quantity_text.h"
#include "science/base/quote.h"

namespace fallaway {
namespace {

using enum Dimension;

struct Refused {
    std::string text;
    Dimension dimension;
    const char* code;
    const char* says;  // a part of the message
};

const std::vector<Refused> kRefused{
    // nothing there
    {"", length, "syntax", "\"\": empty, expected a length such as \"1.60 mm\""},
    {"   ", length, "syntax", "empty"},
    {"mm", length, "syntax", "no number"},
    {"-", length, "syntax", "no number"},
    {"- 3 cents", interval, "syntax", "no number"},
    {"--3 cents", interval, "syntax", "no number"},
    {"+-3 cents", interval, "syntax", "no number"},
    {"\u00B10.03 mm", length, "syntax", "no number"},
    {"(1.62 \u00B1 0.03) mm", length, "syntax", "no number"},
    {"about 3 mm", length, "syntax", "no number"},
    {"k", resistance, "syntax", "no number"},
    // unit missing, of another dimension, unknown
    {"1.60", length, "unit", "\"1.60\": unit missing, expected a length such as \"1.60 mm\""},
    {"1.60 \u00B1 0.03", length, "unit", "unit missing"},
    {"8.42 \u00B1 0.8 %", resistance, "unit", "unit missing"},
    {"52", relative_humidity, "unit", "expected a relative humidity such as \"52 %RH\""},
    {"980", money, "unit", "expected an amount of money such as \"980 EUR\""},
    {"3 kg", length, "unit", "\"3 kg\": a mass, expected a length such as \"1.60 mm\""},
    {"17 lb", force, "unit", "a mass, expected a force"},
    {"20 %", length, "unit", "a ratio, expected a length"},
    {"52 %RH", ratio, "unit", "a relative humidity, expected a ratio"},
    {"52 %RH", moisture, "unit", "a relative humidity, expected a moisture content"},
    {"3 K", interval, "unit", "a temperature, expected an interval"},
    {"3 mm", count, "unit", "a length, expected a count"},
    {"3 EUR", length, "unit", "an amount of money"},
    {"1.60 mm \u00B1 0.03 g", length, "unit", "a mass, expected a length"},
    {"1.60 MM", length, "unit", "unknown unit \"MM\", did you mean \"mm\"?"},
    {"82.4 hz", frequency, "unit", "did you mean \"Hz\"?"},
    {"980 eur", money, "unit", "did you mean \"EUR\"?"},
    {"635 M", length, "unit", "unknown unit \"M\""},
    {"3 furlongs", length, "unit", "unknown unit \"furlongs\", expected a length"},
    {"5 '", length, "unit", "unknown unit"},
    {"980 $", money, "unit", "unknown unit"},
    {"8k42", length, "unit", "unknown unit \"k42\""},
    {"22n", resistance, "unit", "unknown unit \"n\""},
    {"8k42", capacitance, "unit", "unknown unit"},
    {"4k7\u03A9", resistance, "unit", "unknown unit"},
    {"8k42 \u00B1 50", resistance, "unit", "needs a unit of its own"},
    {"8k42 \u00B1 1k %", resistance, "syntax", "unexpected \"%\" after the uncertainty"},
    {"980 EUR \u00B1 50 USD", money, "unit", "two currencies"},
    {"EUR 980 USD", money, "syntax", "has its unit already"},
    {"20 degC \u00B1 5 %", temperature, "unit", "a percentage of a temperature means nothing"},
    {"-6 dB \u00B1 5 %", level, "unit", "means nothing"},
    // numbers in other dress
    {"1,60 mm", length, "syntax", "a comma in the number"},
    {"1,000.5 mm", length, "syntax", "a comma in the number"},
    {"1 000 mm", length, "syntax", "a space inside the number"},
    {"1\u00A0000 mm", length, "syntax", "a space inside the number"},
    {"1'000 mm", length, "syntax", "a thousands separator"},
    {"1_000 mm", length, "syntax", "a thousands separator"},
    {"1.000.000 mm", length, "syntax", "a second decimal point"},
    {"1. mm", length, "syntax", "digits must follow"},
    {". mm", length, "syntax", "no number"},
    {"nan mm", length, "syntax", "no number"},
    {"NaN", ratio, "syntax", "no number"},
    {"inf mm", length, "syntax", "no number"},
    {"-inf mm", length, "syntax", "no number"},
    {"0x10 mm", length, "syntax", "a hexadecimal number"},
    {"1e mm", length, "unit", "unknown unit \"e mm\""},
    {"1e999 mm", length, "range", "too large or too small"},
    {"1e-999 mm", length, "range", "too large or too small"},
    {"1e99999999999999999999 mm", length, "range", "too large or too small"},
    {"0e9999 mm", length, "range", "too large or too small"},
    {"1e305 GPa", pressure, "range", "too large or too small"},
    {"1e-322 um", length, "range", "too large or too small"},
    {"\u0663 mm", length, "syntax", "no number"},  // Arabic-Indic digit three
    {"\u00BD in", length, "syntax", "no number"},  // one half as one character
    // fractions
    {"4/0 in", length, "syntax", "a zero below the line"},
    {"4/ in", length, "syntax", "a whole number below the line"},
    {"/64 in", length, "syntax", "no number"},
    {"4/6.4 in", length, "syntax", "a second decimal point"},
    {"4 / 64 in", length, "unit", "unknown unit"},
    {"1 9/8 in", length, "syntax", "must be below 1"},
    {"1 8/8 in", length, "syntax", "must be below 1"},
    {"1-3/8 in", length, "syntax", "a mixed number is written with a space"},
    {"1.5-1.7 mm", length, "syntax", "a range is refused"},
    {"1.5 3/8 in", length, "unit", "unknown unit"},
    // letter codes
    {"8.k42", resistance, "syntax", "digits must follow"},
    {"8k4.2", resistance, "syntax", "a second decimal point"},
    {"8k4k2", resistance, "unit", "unknown unit"},
    {"8k42 ohm", resistance, "syntax", "unexpected \"ohm\" after a number that has its unit already (kohm)"},
    // uncertainty
    {"1.62 mm \u00B1", length, "syntax", "no number"},
    {"1.62 mm \u00B1 -0.03", length, "range", "must not be negative"},
    {"1.62 mm \u00B1 inf", length, "syntax", "no number"},
    {"1.62 mm \u00B1 0,03", length, "syntax", "a comma"},
    {"1.62 mm \u00B1 0.03 \u00B1 0.02", length, "syntax", "unexpected \"\u00B1 0.02\" at the end"},
    {"1.62(3) mm \u00B1 0.03", length, "syntax", "two uncertainties"},
    {"1.62(0.03) mm", length, "syntax", "only whole digits"},
    {"4/64(1) in", length, "syntax", "goes with a plain decimal only"},
    {"1.62 mm \u00B1 0.06 (k=0)", length, "range", "k must be above 0"},
    {"1.62 mm \u00B1 0.06 (k=-2)", length, "range", "k must be above 0"},
    {"1.62 mm \u00B1 0.06 (k=)", length, "syntax", "no number"},
    {"1.62 mm \u00B1 0.06 (k=2", length, "syntax", "not closed"},
    {"1.62 mm \u00B1 0.06 (2)", length, "syntax", "(k=2)"},
    {"1.62 mm \u00B1 0.06 (95 %)", length, "syntax", "(k=2)"},
    {"1.62 mm (k=2)", length, "syntax", "unexpected \"(k=2)\" at the end"},
    {"1.62 mm \u00B1 0.06 (k=2) mm", length, "syntax", "unexpected \"mm\" at the end"},
    {"1.62 mm \u00B1 1e300 (k=1e-300)", length, "range", "too large or too small"},
    // trailing junk
    {"1.60 mm x", length, "syntax", "unexpected \"x\" after the unit"},
    {"1.60 mm 2", length, "syntax", "unexpected \"2\" after the unit"},
    {"1.60 mm;", length, "unit", "unknown unit \"mm;\""},
    {"1.7 1.7 1.6 mm", length, "unit", "unknown unit"},
    {"1.60 mm\n", length, "unit", "unknown unit \"mm\\n\""},
    {std::string("1.60 mm\0", 8), length, "unit", "mm\\x00"},
    {"1.60 \x1b[31mmm", length, "unit", "\\x1b[31mmm"},
    {"1.60 m\xFF", length, "unit", "m\\xff"},
    {"22 frets", count, "unit", "unknown unit \"frets\""},
    {"5%% ", ratio, "unit", "unknown unit \"%%\""},
    {std::string(201, '1'), ratio, "syntax", "at most 200 bytes"},
    // range
    {"-8 kohm", resistance, "range", "a resistance cannot be negative"},
    {"-4k7", resistance, "range", "a resistance cannot be negative"},
    {"-3 kg", mass, "range", "a mass cannot be negative"},
    {"-22 nF", capacitance, "range", "a capacitance cannot be negative"},
    {"-1 H", inductance, "range", "an inductance cannot be negative"},
    {"-82.4 Hz", frequency, "range", "a frequency cannot be negative"},
    {"-1 g/m", linear_density, "range", "cannot be negative"},
    {"-1 kg/m3", density, "range", "cannot be negative"},
    {"-1 ohm/m", resistance_per_length, "range", "cannot be negative"},
    {"-1 %RH", relative_humidity, "range", "cannot be negative"},
    {"-1 %MC", moisture, "range", "cannot be negative"},
    {"-1 s", time, "range", "a time cannot be negative"},
    {"-1", count, "range", "a count cannot be negative"},
    {"100.1 %RH", relative_humidity, "range", "at most 100 %RH"},
    {"-273.16 degC", temperature, "range", "below absolute zero"},
    {"-459.68 degF", temperature, "range", "below absolute zero"},
    {"-1 K", temperature, "range", "below absolute zero"},
    {"6.5", count, "range", "a whole number"},
    {"1/2", count, "range", "a whole number"},
    {"1e10", count, "range", "up to 1000000000"},
};

TEST(ParseQuantity, RefusesTheTable) {
    ASSERT_GE(kRefused.size(), 60U);
    for (const Refused& c : kRefused) {
        SCOPED_TRACE(c.text);
        const auto q = parse_quantity(c.text, c.dimension);
        if (q) {
            ADD_FAILURE() << "accepted as " << q->si;
            continue;
        }
        EXPECT_EQ(q.error().code, c.code) << q.error().message;
        EXPECT_EQ(q.error().path, "");
        EXPECT_NE(q.error().message.find(c.says), std::string::npos) << q.error().message;
        EXPECT_TRUE(q.error().message.starts_with(quote(c.text) + ": ")) << q.error().message;
        for (const char byte : q.error().message) EXPECT_FALSE(byte >= 0 && byte < 0x20) << "control character";
    }
}

// UTF-8 as RFC 3629 defines it: the two malformed texts are its section 10 and 4 examples.
TEST(Quote, MakesForeignTextSafeToPrint) {
    EXPECT_EQ(quote(""), "\"\"");
    EXPECT_EQ(quote("4/64 in"), "\"4/64 in\"");
    EXPECT_EQ(quote("a\tb\nc\rd"), "\"a\\tb\\nc\\x0dd\"");
    EXPECT_EQ(quote("\x7F"), "\"\\x7f\"");
    EXPECT_EQ(quote("k\u03A9"), "\"k\u03A9\"");
    EXPECT_EQ(quote("\u0085"), "\"\\xc2\\x85\"");             // C1: next line
    EXPECT_EQ(quote("\u202Emm"), "\"\\xe2\\x80\\xaemm\"");    // right-to-left override
    EXPECT_EQ(quote("\xC0\x80"), "\"\\xc0\\x80\"");           // overlong NUL
    EXPECT_EQ(quote("\xED\xA1\x8C"), "\"\\xed\\xa1\\x8c\"");  // a surrogate
    EXPECT_EQ(quote("\xF5\x80\x80\x80"), "\"\\xf5\\x80\\x80\\x80\"");
    EXPECT_EQ(quote("\u20AC \U0001F3B8"), "\"\u20AC \U0001F3B8\"");
    EXPECT_EQ(quote("\xE2\x82"), "\"\\xe2\\x82\"");  // cut short
}

TEST(Quote, CutsAfterFortyCharactersNotInsideOne) {
    EXPECT_EQ(quote(std::string(40, 'x')), "\"" + std::string(40, 'x') + "\"");
    EXPECT_EQ(quote(std::string(41, 'x')), "\"" + std::string(40, 'x') + "...\"");
    std::string ohms;
    for (int i = 0; i < 41; ++i) ohms += "\u03A9";
    EXPECT_EQ(quote(ohms), "\"" + ohms.substr(0, 80) + "...\"");
}

}  // namespace
}  // namespace fallaway
