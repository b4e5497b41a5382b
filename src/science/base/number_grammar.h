// The numbers inside a quantity text: decimals, fractions, mixed numbers and the letter codes of IEC 60062.
// Used by quantity_text.cpp alone; the grammar is in docs/quantities.md.
#pragma once

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <tl/expected.hpp>

#include "science/base/dimension.h"
#include "science/base/quantity_text.h"

namespace fallaway::grammar {

// What is wrong, without the quoted text, which parse_quantity puts before it.
struct Complaint {
    std::string code;
    std::string what;
};
template <class T>
using Read = tl::expected<T, Complaint>;

inline tl::unexpected<Complaint> complain(std::string code, std::string what) {
    return tl::unexpected<Complaint>(Complaint{std::move(code), std::move(what)});
}

inline bool is_digit(char c) {
    return c >= '0' && c <= '9';
}
inline bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Space, tab, and the two no-break spaces that typeset text puts before a unit.
inline constexpr std::array<std::string_view, 4> kSpaces{" ", "\t", "\u00A0", "\u202F"};

// The rest of the text; every take_ function moves on past what it recognised and over nothing else.
struct Reader {
    std::string_view rest;

    bool at_end() const { return rest.empty(); }
    bool at_digit() const { return !rest.empty() && is_digit(rest.front()); }

    bool take(std::string_view literal) {
        if (!rest.starts_with(literal)) return false;
        rest.remove_prefix(literal.size());
        return true;
    }
    template <std::size_t n>
    bool take_any(const std::array<std::string_view, n>& literals) {
        return std::ranges::any_of(literals, [this](std::string_view literal) { return take(literal); });
    }
    std::string_view take_digits() {
        const auto length = static_cast<std::size_t>(std::ranges::find_if_not(rest, is_digit) - rest.begin());
        const std::string_view digits = rest.substr(0, length);
        rest.remove_prefix(length);
        return digits;
    }
    void skip_spaces() {
        while (take_any(kSpaces)) {
        }
    }
};

// A number as written, in the unit that stands or will stand beside it.
struct Number {
    double value = 0;
    double step = 1;             // one in the last written digit, or one part of a fraction
    int decimals = 0;            // digits after the point; 0 for fractions
    bool plain_decimal = false;  // no fraction, no exponent, no letter code
    const Unit* unit = nullptr;  // set by a letter code only
};

// A number with its sign. Refuses what cannot follow a number (a comma, a second point, ...); a unit is left.
Read<Number> take_number(Reader& reader, Dimension dimension);

// "(4)" of "1.62(4)": the standard uncertainty in units of the last digit (JCGM 100:2008, 7.2.2), in the unit
// of the value; nothing when the text is not at such a bracket.
Read<std::optional<Number>> take_concise_u(Reader& reader, const Number& value);

// The unit that a letter of IEC 60062 stands for: "k" is kohm for a resistance, "n" is nF for a capacitance.
const Unit* unit_of_code_letter(std::string_view letter, Dimension dimension);

}  // namespace fallaway::grammar
