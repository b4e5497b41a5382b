// The one table of units, and the spellings under which each may be written.
//
// Factors: inch, pound, ounce are exact (international yard and pound agreement, 1959); lbf and kgf are exact
// through the standard acceleration of free fall 9.80665 m/s^2 (CGPM 1901); all as listed in NIST SP 811
// (2008), appendix B. Temperature scales: NIST SP 811, B.8. The offset of Fahrenheit is written as a product
// so that -459.67 degF is 0 K to the last bit.
#include <algorithm>
#include <array>
#include <numbers>
#include <string>
#include <utility>

#include "science/base/quantity_text.h"

namespace fallaway {
namespace {

constexpr double kInch = 0.0254;
constexpr double kFoot = 0.3048;
constexpr double kPound = 0.45359237;
constexpr double kPoundForce = 4.4482216152605;
constexpr double kPsi = kPoundForce / (kInch * kInch);
constexpr double kFahrenheitDegree = 5.0 / 9.0;
constexpr double kPi = std::numbers::pi;

using enum Dimension;

// Grouped by dimension in the order of the enum; in each group the unit of output comes first.
constexpr std::array kUnits{
    Unit{"mm", length, 1e-3},
    Unit{"cm", length, 1e-2},
    Unit{"m", length, 1},
    Unit{"um", length, 1e-6},
    Unit{"in", length, kInch},
    Unit{"thou", length, kInch * 1e-3},
    Unit{"Hz", frequency, 1},
    Unit{"kHz", frequency, 1e3},
    Unit{"cents", interval, 1},
    Unit{"semitones", interval, 100},
    Unit{"N", force, 1},
    Unit{"lbf", force, kPoundForce},
    Unit{"kgf", force, 9.80665},
    Unit{"kg", mass, 1},
    Unit{"g", mass, 1e-3},
    Unit{"lb", mass, kPound},
    Unit{"oz", mass, kPound / 16},
    Unit{"g/m", linear_density, 1e-3},
    Unit{"kg/m", linear_density, 1},
    Unit{"lb/in", linear_density, kPound / kInch},
    Unit{"kg/m3", density, 1},
    Unit{"g/cm3", density, 1e3},
    Unit{"MPa", pressure, 1e6},
    Unit{"GPa", pressure, 1e9},
    Unit{"kPa", pressure, 1e3},
    Unit{"Pa", pressure, 1},
    Unit{"psi", pressure, kPsi},
    Unit{"ksi", pressure, kPsi * 1e3},
    Unit{"kohm", resistance, 1e3},
    Unit{"ohm", resistance, 1},
    Unit{"Mohm", resistance, 1e6},
    Unit{"ohm/m", resistance_per_length, 1},
    Unit{"ohm/ft", resistance_per_length, 1 / kFoot},
    Unit{"ohm/kft", resistance_per_length, 1e-3 / kFoot},
    Unit{"nF", capacitance, 1e-9},
    Unit{"pF", capacitance, 1e-12},
    Unit{"uF", capacitance, 1e-6},
    Unit{"F", capacitance, 1},
    Unit{"H", inductance, 1},
    Unit{"mH", inductance, 1e-3},
    Unit{"degC", temperature, 1, 273.15},
    Unit{"degF", temperature, kFahrenheitDegree, 459.67 * kFahrenheitDegree},
    Unit{"K", temperature, 1},
    Unit{"K", temperature_difference, 1},
    Unit{"degF", temperature_difference, kFahrenheitDegree},
    Unit{"%RH", relative_humidity, 1e-2},
    Unit{"%MC", moisture, 1e-2},
    Unit{"deg", angle, kPi / 180},
    Unit{"rad", angle, 1},
    Unit{"turn", angle, 2 * kPi},
    Unit{"s", time, 1},
    Unit{"ms", time, 1e-3},
    Unit{"min", time, 60},
    Unit{"h", time, 3600},
    Unit{"d", time, 86400},
    Unit{"%", ratio, 1e-2},
    Unit{"", ratio, 1},
    Unit{"dB", level, 1},
    Unit{"", count, 1},
    // Currencies by ISO 4217 code. They share the factor 1 and are never converted into each other.
    Unit{"EUR", money, 1},
    Unit{"USD", money, 1},
    Unit{"GBP", money, 1},
    Unit{"CHF", money, 1},
    Unit{"SEK", money, 1},
    Unit{"NOK", money, 1},
    Unit{"DKK", money, 1},
    Unit{"PLN", money, 1},
    Unit{"CZK", money, 1},
    Unit{"JPY", money, 1},
    Unit{"CAD", money, 1},
    Unit{"AUD", money, 1},
    Unit{"NZD", money, 1},
};
static_assert(std::ranges::is_sorted(kUnits, {}, &Unit::dimension));

struct Alias {
    std::string_view text;
    Dimension dimension;
    std::string_view symbol;
};

// Other ways to write a unit, after the folding of signs below.
constexpr std::array kAliases{
    Alias{"inch", length, "in"},
    Alias{"inches", length, "in"},
    Alias{"\"", length, "in"},
    Alias{"\u2033", length, "in"},  // double prime
    Alias{"mil", length, "thou"},
    Alias{"mils", length, "thou"},
    Alias{"cent", interval, "cents"},
    Alias{"ct", interval, "cents"},
    Alias{"\u00A2", interval, "cents"},  // cent sign
    Alias{"semitone", interval, "semitones"},
    Alias{"lbs", mass, "lb"},
    Alias{"ohms", resistance, "ohm"},
    Alias{"kohms", resistance, "kohm"},
    Alias{"Mohms", resistance, "Mohm"},
    Alias{"C", temperature, "degC"},
    Alias{"F", temperature, "degF"},
    Alias{"C", temperature_difference, "K"},
    Alias{"degC", temperature_difference, "K"},
    Alias{"F", temperature_difference, "degF"},
    Alias{"%rH", relative_humidity, "%RH"},
    Alias{"%rh", relative_humidity, "%RH"},
    Alias{"% RH", relative_humidity, "%RH"},
    Alias{"% rH", relative_humidity, "%RH"},
    Alias{"% rh", relative_humidity, "%RH"},
    Alias{"%", relative_humidity, "%RH"},
    Alias{"% MC", moisture, "%MC"},
    Alias{"%", moisture, "%MC"},
    Alias{"turns", angle, "turn"},
};

// One sign, several code points: each is replaced by plain letters before the look-up.
constexpr std::array<std::pair<std::string_view, std::string_view>, 9> kFolds{{
    {"\u00B5", "u"},    // micro sign
    {"\u03BC", "u"},    // Greek mu
    {"\u2126", "ohm"},  // ohm sign
    {"\u03A9", "ohm"},  // Greek capital omega
    {"\u00B0", "deg"},
    {"\u00B3", "3"},
    {"^3", "3"},
    {"\u00A0", " "},  // no-break space
    {"\u202F", " "},  // narrow no-break space
}};

constexpr std::size_t kLongestSpelling = 16;  // bytes; longer text need not be folded to know that it is no unit

std::string folded(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const auto fold =
            std::ranges::find_if(kFolds, [text](const auto& f) { return text.starts_with(f.first); });
        if (fold == kFolds.end()) {
            out += text.front();
            text.remove_prefix(1);
        } else {
            out += fold->second;
            text.remove_prefix(fold->first.size());
        }
    }
    return out;
}

}  // namespace

std::span<const Unit> units_of(Dimension dimension) {
    return {std::ranges::lower_bound(kUnits, dimension, {}, &Unit::dimension),
            std::ranges::upper_bound(kUnits, dimension, {}, &Unit::dimension)};
}

const Unit* find_unit(std::string_view text, Dimension dimension) {
    if (text.size() > kLongestSpelling) return nullptr;
    const std::string plain = folded(text);
    const auto alias = std::ranges::find_if(
        kAliases, [&](const Alias& a) { return a.dimension == dimension && a.text == plain; });
    const std::string_view symbol = alias == kAliases.end() ? std::string_view(plain) : alias->symbol;
    const auto units = units_of(dimension);
    const auto unit = std::ranges::find(units, symbol, &Unit::symbol);
    return unit == units.end() ? nullptr : &*unit;
}

double to_si(double number, const Unit& unit) {
    return number * unit.factor + unit.offset;
}
double from_si(double si, const Unit& unit) {
    return (si - unit.offset) / unit.factor;
}
double difference_to_si(double number, const Unit& unit) {
    return number * unit.factor;
}
double difference_from_si(double si, const Unit& unit) {
    return si / unit.factor;
}

}  // namespace fallaway
