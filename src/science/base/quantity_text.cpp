#include "science/base/quantity_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "science/base/number_grammar.h"
#include "science/base/quote.h"

namespace fallaway {
namespace {

using namespace grammar;

constexpr std::size_t kLongestText = 200;
constexpr double kLargestCount = 1e9;  // so that a caller may keep a count in an int

std::string a(std::string_view noun) {
    const bool vowel = std::string_view("aeiou").find(noun.front()) != std::string_view::npos;
    return fmt::format("{} {}", vowel ? "an" : "a", noun);
}

std::string expectation(Dimension dimension) {
    return fmt::format("expected {} such as \"{}\"", a(name_of(dimension)), example_of(dimension));
}

// Everything up to the uncertainty or the end, without the spaces around it.
std::string_view take_unit_text(Reader& reader) {
    reader.skip_spaces();
    const std::string_view all = reader.rest;
    const std::size_t end = std::min({all.find("\u00B1"), all.find('+'), all.find('('), all.size()});
    reader.rest = all.substr(end);
    std::string_view text = all.substr(0, end);
    const auto ends = [&text](std::string_view space) { return text.ends_with(space); };
    for (auto space = std::ranges::find_if(kSpaces, ends); space != kSpaces.end();
         space = std::ranges::find_if(kSpaces, ends)) {
        text.remove_suffix(space->size());
    }
    return text;
}

// The dimension that a unit belongs to, one that prints it so before one that merely accepts it ("%" is a
// ratio before it is a humidity).
std::optional<Dimension> dimension_of(std::string_view unit_text) {
    std::optional<Dimension> accepting;
    for (int i = 0; i <= static_cast<int>(Dimension::money); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        const Unit* unit = find_unit(unit_text, dimension);
        if (unit == nullptr) continue;
        if (unit->symbol == unit_text) return dimension;
        if (!accepting) accepting = dimension;
    }
    return accepting;
}

bool equal_but_for_case(std::string_view x, std::string_view y) {
    const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
    return std::ranges::equal(x, y, {}, lower, lower);
}

// "M" is no unit outside its own dimension, so that "635 M" is not called a resistance.
Read<const Unit*> resolve_unit(std::string_view text, Dimension expected) {
    if (const Unit* unit = find_unit(text, expected)) return unit;
    if (const Unit* unit = unit_of_code_letter(text, expected)) return unit;
    if (text.empty()) return complain("unit", fmt::format("unit missing, {}", expectation(expected)));
    if (const auto other = dimension_of(text)) {
        return complain("unit", fmt::format("{}, {}", a(name_of(*other)), expectation(expected)));
    }
    const std::string_view first = text.substr(0, text.find_first_of(" \t"));
    if (first != text && dimension_of(first)) {
        return complain("syntax", fmt::format("unexpected {} after the unit",
                                              quote(text.substr(text.find_first_not_of(" \t", first.size())))));
    }
    for (const Unit& unit : units_of(expected)) {
        if (!equal_but_for_case(unit.symbol, text)) continue;
        return complain("unit", fmt::format("unknown unit {}, did you mean \"{}\"?", quote(text), unit.symbol));
    }
    return complain("unit", fmt::format("unknown unit {}, {}", quote(text), expectation(expected)));
}

// A currency code may stand before the number.
const Unit* take_leading_currency(Reader& reader) {
    for (const Unit& unit : units_of(Dimension::money)) {
        if (reader.take(unit.symbol)) {
            reader.skip_spaces();
            return &unit;
        }
    }
    return nullptr;
}

// Value and uncertainty before their units are known.
struct Parts {
    Number value;
    std::string_view unit_text;
    std::optional<Number> u;
    std::string_view u_unit_text;
    double coverage = 1;
};

// "(k=2)" after an expanded uncertainty; 1 when it is not there.
Read<double> take_coverage(Reader& reader) {
    if (!reader.take("(")) return 1.0;
    reader.skip_spaces();
    const bool is_k = reader.take("k");
    reader.skip_spaces();
    const bool equals = reader.take("=");
    reader.skip_spaces();
    if (!is_k || !equals) return complain("syntax", "expected a coverage factor such as \"(k=2)\"");
    const auto k = take_number(reader, Dimension::ratio);
    if (!k) return tl::unexpected(k.error());
    reader.skip_spaces();
    if (!reader.take(")")) return complain("syntax", "the bracket of the coverage factor is not closed");
    if (!(k->value > 0)) return complain("range", "the coverage factor k must be above 0");
    return k->value;
}

Read<Parts> take_uncertainty(Reader& reader, Dimension dimension, Parts parts) {
    static constexpr std::array<std::string_view, 3> kMarks{"\u00B1", "+/-", "+-"};
    if (!reader.take_any(kMarks)) return parts;
    if (parts.u) return complain("syntax", "two uncertainties, one in brackets and one after the mark");
    reader.skip_spaces();
    const auto u = take_number(reader, dimension);
    if (!u) return tl::unexpected(u.error());
    if (u->value < 0) return complain("range", "an uncertainty must not be negative");
    parts.u = *u;
    parts.u_unit_text = take_unit_text(reader);
    const auto coverage = take_coverage(reader);
    if (!coverage) return tl::unexpected(coverage.error());
    parts.coverage = *coverage;
    return parts;
}

Read<Parts> take_parts(Reader& reader, Dimension dimension) {
    reader.skip_spaces();
    if (reader.at_end()) return complain("syntax", fmt::format("empty, {}", expectation(dimension)));
    Parts parts;
    const Unit* currency = dimension == Dimension::money ? take_leading_currency(reader) : nullptr;
    const auto value = take_number(reader, dimension);
    if (!value) return tl::unexpected(value.error());
    const auto concise = take_concise_u(reader, *value);
    if (!concise) return tl::unexpected(concise.error());
    parts.value = *value;
    parts.u = *concise;
    if (currency != nullptr) parts.value.unit = currency;
    parts.unit_text = take_unit_text(reader);
    auto whole = take_uncertainty(reader, dimension, parts);
    if (!whole) return whole;
    reader.skip_spaces();
    if (!reader.at_end()) return complain("syntax", fmt::format("unexpected {} at the end", quote(reader.rest)));
    return whole;
}

// A percentage of the value: where percent is not itself a unit of the dimension.
bool is_percent_of_value(const Parts& parts, Dimension dimension) {
    return parts.u_unit_text == "%" && parts.u->unit == nullptr && find_unit("%", dimension) == nullptr;
}

// The unit of the value: its own, or the one that stands once for both after the uncertainty.
Read<const Unit*> unit_of_value(const Parts& parts, Dimension expected) {
    if (parts.value.unit != nullptr) {
        if (parts.unit_text.empty()) return parts.value.unit;
        return complain("syntax", fmt::format("unexpected {} after a number that has its unit already ({})",
                                              quote(parts.unit_text), parts.value.unit->symbol));
    }
    const bool shared = parts.unit_text.empty() && !is_percent_of_value(parts, expected);
    return resolve_unit(shared ? parts.u_unit_text : parts.unit_text, expected);
}

Read<double> uncertainty_si(const Parts& parts, const Unit& unit, double value_si) {
    const double number = parts.u->value / parts.coverage;
    if (is_percent_of_value(parts, unit.dimension)) {
        if (unit.dimension == Dimension::temperature || unit.dimension == Dimension::level) {
            return complain("unit",
                            fmt::format("a percentage of {} means nothing; write the uncertainty with a unit",
                                        a(name_of(unit.dimension))));
        }
        return std::abs(value_si) * number * 1e-2;
    }
    const Unit* own = parts.u->unit;
    if (own == nullptr && parts.value.unit != nullptr && parts.u_unit_text.empty() &&
        unit.dimension != Dimension::money) {
        return complain("unit", "the uncertainty beside a letter code needs a unit of its own");
    }
    if (own == nullptr) {
        const auto resolved =
            parts.u_unit_text.empty() ? Read<const Unit*>(&unit) : resolve_unit(parts.u_unit_text, unit.dimension);
        if (!resolved) return tl::unexpected(resolved.error());
        own = *resolved;
    } else if (!parts.u_unit_text.empty()) {
        return complain("syntax", fmt::format("unexpected {} after the uncertainty", quote(parts.u_unit_text)));
    }
    if (unit.dimension == Dimension::money && own != &unit) {
        return complain("unit", "value and uncertainty are in two currencies");
    }
    return difference_to_si(number, *own);
}

bool may_be_negative(Dimension dimension) {
    switch (dimension) {
        case Dimension::frequency:
        case Dimension::mass:
        case Dimension::linear_density:
        case Dimension::density:
        case Dimension::resistance:
        case Dimension::resistance_per_length:
        case Dimension::capacitance:
        case Dimension::inductance:
        case Dimension::relative_humidity:
        case Dimension::moisture:
        case Dimension::time:
        case Dimension::count:
            return false;
        default:
            return true;
    }
}

std::optional<Complaint> out_of_range(const QuantityText& q, Dimension dimension) {
    if (!std::isfinite(q.si) || !std::isfinite(q.step_si) || (q.u_si && !std::isfinite(*q.u_si)) ||
        q.step_si <= 0) {
        return Complaint{"range", "the number is too large or too small to be kept"};
    }
    if (dimension == Dimension::temperature && q.si < 0) {
        return Complaint{"range", "below absolute zero (-273.15 degC)"};
    }
    if (q.si < 0 && !may_be_negative(dimension)) {
        return Complaint{"range", fmt::format("{} cannot be negative", a(name_of(dimension)))};
    }
    if (dimension == Dimension::relative_humidity && q.si > 1) {
        return Complaint{"range", "a relative humidity is at most 100 %RH"};
    }
    if (dimension == Dimension::count && (q.si != std::trunc(q.si) || q.si > kLargestCount)) {
        return Complaint{"range", "a count is a whole number up to 1000000000"};
    }
    return std::nullopt;
}

Read<QuantityText> read_quantity(std::string_view text, Dimension expected) {
    if (text.size() > kLongestText) {
        return complain("syntax", fmt::format("a quantity is at most {} bytes long", kLongestText));
    }
    Reader reader{text};
    const auto parts = take_parts(reader, expected);
    if (!parts) return tl::unexpected(parts.error());
    const auto unit = unit_of_value(*parts, expected);
    if (!unit) return tl::unexpected(unit.error());
    QuantityText q;
    q.typed = std::string(text);
    q.unit = *unit;
    q.si = to_si(parts->value.value, **unit);
    q.step_si = difference_to_si(parts->value.step, **unit);
    q.decimals = parts->value.decimals;
    if (parts->u) {
        const auto u = uncertainty_si(*parts, **unit, q.si);
        if (!u) return tl::unexpected(u.error());
        q.u_si = *u + 0.0;  // "± -0" is 0, not -0
    }
    if (const auto complaint = out_of_range(q, expected)) return tl::unexpected(*complaint);
    return q;
}

}  // namespace

Result<QuantityText> parse_quantity(std::string_view text, Dimension expected) {
    auto read = read_quantity(text, expected);
    if (read) return *std::move(read);
    return fail(read.error().code, "", fmt::format("{}: {}", quote(text), read.error().what));
}

}  // namespace fallaway
