#include "science/base/number_grammar.h"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "science/base/quote.h"

namespace fallaway::grammar {
namespace {

// from_chars rounds correctly and knows no locale. `digits` is [0-9.]+ with at least one digit.
Read<double> scaled(std::string_view digits, int exponent) {
    const std::string text = fmt::format("{}e{}", digits, exponent);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) {
        return complain("range", "the number is too large or too small to be kept");
    }
    return value;
}

Read<Number> decimal_number(std::string_view digits, int exponent, int decimals) {
    const auto value = scaled(digits, exponent);
    const auto step = scaled("1", exponent - decimals);
    if (!value) return tl::unexpected(value.error());
    if (!step) return tl::unexpected(step.error());
    return Number{.value = *value, .step = *step, .decimals = decimals};
}

// The letters of IEC 60062, which stand for the point and name the unit.
struct CodeLetter {
    std::string_view letter;
    Dimension dimension;
    std::string_view symbol;
};
constexpr std::array kCodeLetters{
    CodeLetter{"R", Dimension::resistance, "ohm"},      CodeLetter{"k", Dimension::resistance, "kohm"},
    CodeLetter{"K", Dimension::resistance, "kohm"},     CodeLetter{"M", Dimension::resistance, "Mohm"},
    CodeLetter{"p", Dimension::capacitance, "pF"},      CodeLetter{"n", Dimension::capacitance, "nF"},
    CodeLetter{"u", Dimension::capacitance, "uF"},      CodeLetter{"\u00B5", Dimension::capacitance, "uF"},
    CodeLetter{"\u03BC", Dimension::capacitance, "uF"},
};

const CodeLetter* take_code_letter(Reader& reader, Dimension dimension) {
    for (const CodeLetter& code : kCodeLetters) {
        if (code.dimension == dimension && reader.take(code.letter)) return &code;
    }
    return nullptr;
}

// "22kΩ" is a number with a unit, not the code 22k.
bool at_end_of_code(const Reader& reader) {
    return reader.at_end() || !(is_letter(reader.rest.front()) || reader.rest.starts_with("\u2126") ||
                                reader.rest.starts_with("\u03A9"));
}

// "8k42", "4u7", "R47"; also "470R" and "8.42k", where the letter is only a short unit. Takes nothing and
// answers nothing when the text is not such a code.
Read<std::optional<Number>> take_letter_code(Reader& reader, Dimension dimension) {
    Reader ahead = reader;
    const std::string_view whole = ahead.take_digits();
    const bool has_point = ahead.take(".");
    std::string_view part = has_point ? ahead.take_digits() : std::string_view();
    if (has_point && part.empty()) return std::nullopt;
    const CodeLetter* code = take_code_letter(ahead, dimension);
    if (code == nullptr) return std::nullopt;
    if (!has_point) part = ahead.take_digits();
    if ((whole.empty() && part.empty()) || !at_end_of_code(ahead)) return std::nullopt;
    auto number = decimal_number(fmt::format("0{}.{}", whole, part), 0, static_cast<int>(part.size()));
    if (!number) return tl::unexpected(number.error());
    number->unit = find_unit(code->symbol, dimension);
    reader = ahead;
    return *number;
}

// The exponent of "1e-3"; 0 when there is none. "980EUR" has none.
int take_exponent(Reader& reader) {
    Reader ahead = reader;
    if (!ahead.take("e") && !ahead.take("E")) return 0;
    const bool negative = ahead.take("-");
    if (!negative) ahead.take("+");
    if (!ahead.at_digit()) return 0;
    const std::string_view digits = ahead.take_digits();
    int exponent = 0;
    // Anything beyond the range of a double is refused later, all the same whether by 400 or by 40 digits.
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    if (error != std::errc() || exponent > 9999) exponent = 9999;
    reader = ahead;
    return negative ? -exponent : exponent;
}

// The part of a fraction from the slash on: "/64" after 4.
Read<Number> take_fraction(Reader& reader, double numerator) {
    reader.take("/");
    const std::string_view below = reader.take_digits();
    if (below.empty()) return complain("syntax", "a fraction needs a whole number below the line");
    const auto denominator = scaled(below, 0);
    if (!denominator) return tl::unexpected(denominator.error());
    if (*denominator == 0) return complain("syntax", "the fraction has a zero below the line");
    return Number{.value = numerator / *denominator, .step = 1 / *denominator};
}

// The fraction of a mixed number: " 3/8" after 1.
Read<Number> take_mixed(Reader& reader, double whole) {
    reader.skip_spaces();
    const auto numerator = scaled(reader.take_digits(), 0);
    if (!numerator) return tl::unexpected(numerator.error());
    if (!reader.rest.starts_with("/")) {
        return complain("syntax",
                        "a space inside the number; only a whole number and a fraction are parted by one "
                        "(\"1 3/8 in\"), thousands are not");
    }
    auto fraction = take_fraction(reader, *numerator);
    if (!fraction) return fraction;
    if (fraction->value >= 1) return complain("syntax", "the fraction of a mixed number must be below 1");
    fraction->value += whole;
    return fraction;
}

bool at_mixed(Reader reader) {
    const std::size_t before = reader.rest.size();
    reader.skip_spaces();
    return reader.rest.size() < before && reader.at_digit();
}

Read<Number> take_unsigned(Reader& reader) {
    const std::string_view start = reader.rest;
    const std::string_view whole = reader.take_digits();
    const bool has_point = reader.take(".");
    const std::string_view part = has_point ? reader.take_digits() : std::string_view();
    if (has_point && part.empty()) return complain("syntax", "digits must follow the decimal point");
    if (!has_point && (reader.rest.starts_with("/") || at_mixed(reader))) {
        const auto first = scaled(whole, 0);
        if (!first) return tl::unexpected(first.error());
        return reader.rest.starts_with("/") ? take_fraction(reader, *first) : take_mixed(reader, *first);
    }
    const std::string_view digits = start.substr(0, start.size() - reader.rest.size());
    const std::size_t before = reader.rest.size();
    const int exponent = take_exponent(reader);
    auto number = decimal_number(digits, exponent, static_cast<int>(part.size()));
    if (number) number->plain_decimal = reader.rest.size() == before;
    return number;
}

// What may not follow a number, each with the reason people need.
Read<Number> refuse_bad_end(const Reader& reader, Number number) {
    const std::string_view rest = reader.rest;
    if (rest.starts_with(",")) {
        return complain("syntax", "a comma in the number; write a decimal point, and nothing between thousands");
    }
    if (rest.starts_with(".")) return complain("syntax", "a second decimal point, or one where none can be");
    if (rest.size() > 1 && (rest.starts_with("'") || rest.starts_with("_")) && is_digit(rest[1])) {
        return complain("syntax", "a thousands separator; write the digits without one");
    }
    if (number.value == 0 && (rest.starts_with("x") || rest.starts_with("X"))) {
        return complain("syntax", "a hexadecimal number; write a decimal one");
    }
    if (rest.size() > 1 && rest.starts_with("-") && is_digit(rest[1])) {
        return complain("syntax",
                        fmt::format("unexpected {} after the number; a range is refused, and a mixed number "
                                    "is written with a space, \"1 3/8 in\"",
                                    quote(rest)));
    }
    return number;
}

}  // namespace

Read<Number> take_number(Reader& reader, Dimension dimension) {
    static constexpr std::array<std::string_view, 2> kMinus{"-", "\u2212"};
    const bool negative = reader.take_any(kMinus);
    if (!negative && !reader.rest.starts_with("+-") && !reader.rest.starts_with("+/-")) reader.take("+");
    const auto code = take_letter_code(reader, dimension);
    if (!code) return tl::unexpected(code.error());
    const bool starts = reader.at_digit() || Reader{reader.rest.substr(reader.rest.starts_with("."))}.at_digit();
    if (!*code && !starts) return complain("syntax", "no number where one was expected");
    auto number = *code ? Read<Number>(**code) : take_unsigned(reader);
    if (!number) return number;
    if (negative) number->value = -number->value;
    return refuse_bad_end(reader, *number);
}

Read<std::optional<Number>> take_concise_u(Reader& reader, const Number& value) {
    Reader ahead = reader;
    if (!ahead.take("(") || !ahead.at_digit()) return std::nullopt;
    const auto digits = scaled(ahead.take_digits(), 0);
    if (!digits) return tl::unexpected(digits.error());
    if (!ahead.take(")")) return complain("syntax", "only whole digits may stand in the brackets: \"1.62(4) mm\"");
    if (!value.plain_decimal) return complain("syntax", "uncertainty in brackets goes with a plain decimal only");
    reader = ahead;
    return Number{.value = *digits * value.step, .step = value.step};
}

const Unit* unit_of_code_letter(std::string_view letter, Dimension dimension) {
    const auto found = std::ranges::find_if(
        kCodeLetters, [&](const CodeLetter& c) { return c.dimension == dimension && c.letter == letter; });
    return found == kCodeLetters.end() ? nullptr : find_unit(found->symbol, dimension);
}

}  // namespace fallaway::grammar
