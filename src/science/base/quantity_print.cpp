// Numbers are printed by way of their 15 significant decimal digits: that drops the noise of a unit conversion
// (0.0016 m is 1.6 mm, not 1.6000000000000001), and makes a half a half, which is then rounded away from zero.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>

#include <fmt/format.h>

#include "science/base/quantity_text.h"

namespace fallaway {
namespace {

constexpr int kDigits = 15;        // what a double always holds: DBL_DIG
constexpr int kMostDecimals = 15;  // beyond that no unit of ours is read

// |value| = d.ddd... * 10^exponent
struct Decimal {
    std::string digits;
    int exponent = 0;
};

Decimal decimal_of(double value) {
    std::array<char, 32> buffer{};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::abs(value),
                                            std::chars_format::scientific, kDigits - 1);
    const std::string_view text(buffer.data(), end);
    const std::size_t e = text.find('e');
    Decimal decimal;
    decimal.digits = fmt::format("{}{}", text.substr(0, 1), text.substr(2, e - 2));
    const bool plus = text[e + 1] == '+';  // from_chars takes no '+'
    std::from_chars(text.data() + e + (plus ? 2 : 1), text.data() + text.size(), decimal.exponent);
    return decimal;
}

// Adds one to a string of digits; "99" becomes "100".
std::string plus_one(std::string digits) {
    for (auto digit = digits.rbegin(); digit != digits.rend(); ++digit) {
        if (*digit != '9') {
            ++*digit;
            return digits;
        }
        *digit = '0';
    }
    return "1" + digits;
}

// |value| as a whole number of 10^-decimals, rounded half away from zero; `decimals` may be negative.
std::string whole_steps(const Decimal& decimal, int decimals) {
    const int kept = decimal.exponent + 1 + decimals;
    if (kept < 0) return "0";
    const auto length = static_cast<std::size_t>(kept);
    if (length >= decimal.digits.size()) return decimal.digits + std::string(length - decimal.digits.size(), '0');
    const std::string head = "0" + decimal.digits.substr(0, length);
    return decimal.digits[length] >= '5' ? plus_one(head) : head;
}

// Fixed-point text with `decimals` digits after the point; below zero, the last -decimals digits are zeros.
std::string fixed(double value, int decimals) {
    if (!std::isfinite(value)) return std::isnan(value) ? "nan" : value > 0 ? "inf" : "-inf";
    std::string steps = whole_steps(decimal_of(value), decimals);
    const bool is_zero = steps.find_first_not_of('0') == std::string::npos;
    const auto places = static_cast<std::size_t>(std::max(decimals, 0));
    if (decimals < 0) steps.append(static_cast<std::size_t>(-decimals), '0');
    if (steps.size() <= places) steps.insert(0, places + 1 - steps.size(), '0');
    const std::string_view whole = std::string_view(steps).substr(0, steps.size() - places);
    const std::size_t first = std::min(whole.find_first_not_of('0'), whole.size() - 1);
    std::string out = value < 0 && !is_zero ? "-" : "";
    out += whole.substr(first);
    if (places > 0) out += "." + steps.substr(steps.size() - places);
    return out;
}

// The decimals at which u > 0 shows two digits; negative when both stand before the point and zeros follow.
int decimals_of_two_digits(double u) {
    const Decimal decimal = decimal_of(u);
    const bool carries = decimal.digits.starts_with("99") && decimal.digits[2] >= '5';  // 0.0995 is 0.10
    return 1 - decimal.exponent - (carries ? 1 : 0);
}

// One digit less, unless u begins with 1: there the second digit still matters.
int decimals_at_the_bench(double u) {
    const int two = decimals_of_two_digits(u);
    const std::string text = fixed(u, two);
    return text[text.find_first_not_of("0.")] == '1' ? two : two - 1;
}

std::string with_symbol(std::string number, const Unit& unit) {
    return unit.symbol.empty() ? number : fmt::format("{} {}", number, unit.symbol);
}

std::string value_and_u(double si, double u_si, const Unit& unit, int (*decimals_of)(double),
                        int decimals_without_u) {
    const double u = difference_from_si(u_si, unit);
    const bool known = std::isfinite(u) && u > 0 && std::isfinite(si);
    const int decimals = known ? decimals_of(u) : 0;
    if (!known || decimals > kMostDecimals) return format_quantity(si, unit, decimals_without_u);
    return with_symbol(fmt::format("{} \u00B1 {}", fixed(from_si(si, unit), decimals), fixed(u, decimals)), unit);
}

}  // namespace

std::string format_quantity(double si, const Unit& unit, int decimals) {
    return with_symbol(fixed(from_si(si, unit), std::max(decimals, 0)), unit);
}

std::string format_with_u(double si, double u_si, const Unit& unit, int decimals_without_u) {
    return value_and_u(si, u_si, unit, decimals_of_two_digits, decimals_without_u);
}

std::string format_at_the_bench(double si, double u_si, const Unit& unit, int decimals_without_u) {
    return value_and_u(si, u_si, unit, decimals_at_the_bench, decimals_without_u);
}

std::string in_eighths(double turns) {
    const long eighths = std::lround(std::abs(turns) * 8);
    if (eighths == 0) return "";
    const long whole = eighths / 8;
    const long rest = eighths % 8;
    const long common = std::gcd(rest, 8L);
    if (rest == 0) return fmt::format("{}", whole);
    const std::string part = fmt::format("{}/{}", rest / common, 8 / common);
    return whole == 0 ? part : fmt::format("{} {}", whole, part);
}

int decimals_for_u(double u_in_unit) {
    if (!std::isfinite(u_in_unit) || u_in_unit <= 0) return 0;
    return std::clamp(decimals_of_two_digits(u_in_unit), 0, kMostDecimals);
}

}  // namespace fallaway
