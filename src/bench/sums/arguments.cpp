#include "bench/sums/arguments.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "bench/sums/formulas_pitch.h"
#include "bench/sums/split.h"
#include "science/base/quote.h"

namespace fallaway::sums {
namespace {

tl::unexpected<Error> fail_at(std::string_view path, Error error) {
    error.path = std::string(path);
    return tl::unexpected(std::move(error));
}

// A key that may stand in an error as it is.
bool is_plain(std::string_view key) {
    return key.size() <= 40 && std::ranges::all_of(key, [](char c) {
               return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
                      c == '_';
           });
}

// The texts to be read: what was given, or what is usual.
using Texts = std::map<std::string, std::string, std::less<>>;

Result<Texts> gather(const Sum& sum, const std::vector<Argument>& arguments) {
    Texts texts;
    std::vector<std::string_view> names;
    for (const Input& input : sum.inputs) names.push_back(input.name);
    for (const Argument& argument : arguments) {
        if (std::ranges::find(names, argument.key) == names.end()) {
            return fail(
                "unknown", is_plain(argument.key) ? argument.key : "",
                fmt::format("unknown key {}, expected one of: {}", quote(argument.key), fmt::join(names, ", ")));
        }
        if (!texts.emplace(argument.key, argument.text).second) {
            return fail("duplicate", argument.key,
                        fmt::format("given twice, the second time as {}", quote(argument.text)));
        }
    }
    for (const Input& input : sum.inputs) {
        if (texts.contains(input.name)) continue;
        if (!input.usual.empty()) {
            texts.emplace(input.name, input.usual);
        } else if (!input.may_be_left_out) {
            return fail("missing", input.name, fmt::format("missing, {}", expectation(input)));
        }
    }
    return texts;
}

bool is_note(const Input& input, std::string_view text) {
    return input.may_be_note && !text.empty() && text.front() >= 'A' && text.front() <= 'G';
}

Result<QuantityText> read_one(const Input& input, std::string_view text, Dimension dimension) {
    if (!is_note(input, text)) return parse_quantity(text, dimension);
    const auto note = note_number(text);
    if (!note) return tl::unexpected(note.error());
    QuantityText q;
    q.typed = std::string(text);
    q.si = frequency_of_note(*note, Frequency::hz(440)).hz();
    q.unit = find_unit("Hz", Dimension::frequency);
    return q;
}

void append(Given& given, const QuantityText& q) {
    given.si.push_back(q.si);
    given.u.push_back(q.u_si.value_or(0));
    if (given.unit == nullptr) given.unit = q.unit;
}

// Adds the values of one list or one row to `given`.
Result<void> read_list(const Input& input, std::string_view text, Dimension dimension, Given& given) {
    const auto values = split_list(text);
    if (!values) return tl::unexpected(values.error());
    const auto last = read_one(input, values->back(), dimension);
    const std::string_view end_unit = last ? last->unit->symbol : std::string_view{};
    for (std::size_t i = 0; i < values->size(); ++i) {
        const std::string& value = (*values)[i];
        const bool takes_end_unit = !end_unit.empty() && lacks_unit(value) && !is_note(input, value);
        const auto q = takes_end_unit ? read_one(input, fmt::format("{} {}", value, end_unit), dimension)
                                      : read_one(input, value, dimension);
        if (!q) return fail(q.error().code, "", fmt::format("value {}: {}", i + 1, q.error().message));
        append(given, *q);
    }
    return {};
}

Result<void> read_table(const Input& input, std::string_view text, Dimension dimension, Given& given) {
    const std::vector<std::string> rows = split_rows(text);
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const std::size_t before = given.si.size();
        if (const auto read = read_list(input, rows[row], dimension, given); !read) {
            return fail(read.error().code, "", fmt::format("row {}: {}", row + 1, read.error().message));
        }
        given.row_lengths.push_back(given.si.size() - before);
    }
    return {};
}

bool lies_within(const Input& input, double si) {
    constexpr double kRounding = 1e-12;  // 25.4 in a range that ends at 1 in must not fail by its last bit
    const double slack = input.ends_excluded ? 0 : kRounding * std::abs(si);
    if (input.low && (input.ends_excluded ? si <= *input.low : si < *input.low - slack)) return false;
    return !(input.high && (input.ends_excluded ? si >= *input.high : si > *input.high + slack));
}

Result<void> check(const Input& input, const Given& given, std::string_view text) {
    for (std::size_t i = 0; i < given.si.size(); ++i) {
        if (!lies_within(input, given.si[i])) {
            const std::string which = given.si.size() > 1 ? fmt::format("value {} of ", i + 1) : "";
            return fail("range", input.name,
                        fmt::format("{}{}: out of range, {}", which, quote(text), expectation(input, given.unit)));
        }
        if (given.u[i] > 0 && input.use_of_u == UseOfU::refused) {
            return fail("uncertainty", input.name,
                        fmt::format("{}: an uncertainty is of no use here, give the value alone", quote(text)));
        }
        if (given.u[i] == 0 && input.use_of_u == UseOfU::required) {
            return fail("uncertainty", input.name,
                        fmt::format("{}: standard uncertainty missing, expected such as \"1.60 mm \u00B1 0.04\"",
                                    quote(text)));
        }
    }
    return {};
}

Dimension kind_for(const Input& input, Dimension common) {
    const Dimension dimension = input.dimension.value_or(common);
    if (input.is_difference && dimension == Dimension::temperature) return Dimension::temperature_difference;
    return dimension;
}

Result<Given> read_input(const Input& input, const std::string& text, Dimension common) {
    Given given;
    if (input.kind == Kind::text || input.kind == Kind::word) {
        given.word = text;
        if (input.kind == Kind::word && std::ranges::find(input.words, text) == input.words.end()) {
            return fail("unknown", input.name,
                        fmt::format("{}: unknown word, {}", quote(text), expectation(input)));
        }
        return given;
    }
    const Dimension dimension = kind_for(input, common);
    Result<void> read;
    if (input.kind == Kind::quantity) {
        const auto q = read_one(input, text, dimension);
        if (!q) return fail_at(input.name, q.error());
        append(given, *q);
    } else {
        read = input.kind == Kind::list ? read_list(input, text, dimension, given)
                                        : read_table(input, text, dimension, given);
    }
    if (!read) return fail_at(input.name, read.error());
    if (const auto good = check(input, given, text); !good) return tl::unexpected(good.error());
    return given;
}

bool is_of_any_kind(const Input& input) {
    return !input.dimension && input.kind != Kind::word && input.kind != Kind::text;
}

// A plain number before all others, and a kind before those that share its signs ("%", "K").
constexpr std::array kKindsToTry{Dimension::ratio,
                                 Dimension::length,
                                 Dimension::frequency,
                                 Dimension::interval,
                                 Dimension::force,
                                 Dimension::mass,
                                 Dimension::linear_density,
                                 Dimension::density,
                                 Dimension::pressure,
                                 Dimension::resistance,
                                 Dimension::resistance_per_length,
                                 Dimension::capacitance,
                                 Dimension::inductance,
                                 Dimension::temperature,
                                 Dimension::relative_humidity,
                                 Dimension::moisture,
                                 Dimension::angle,
                                 Dimension::time,
                                 Dimension::level};

// The value that tells the kind of a reading: of a list, the first that has a unit.
Result<std::string> telling_value(const Input& input, const std::string& text) {
    if (input.kind == Kind::quantity) return text;
    const auto values = split_list(input.kind == Kind::table ? split_rows(text).front() : text);
    if (!values) return fail_at(input.name, values.error());
    const auto with_unit = std::ranges::find_if_not(*values, lacks_unit);
    return with_unit == values->end() ? values->front() : *with_unit;
}

// The kind in which the first reading makes sense; every other must then be of the same kind.
Result<Dimension> common_kind(const Sum& sum, const Texts& texts) {
    const auto first = std::ranges::find_if(
        sum.inputs, [&](const Input& input) { return is_of_any_kind(input) && texts.contains(input.name); });
    if (first == sum.inputs.end()) return Dimension::ratio;
    const auto text = telling_value(*first, texts.find(first->name)->second);
    if (!text) return tl::unexpected(text.error());
    std::optional<Error> syntax;
    for (const Dimension dimension : kKindsToTry) {
        const auto q = parse_quantity(*text, kind_for(*first, dimension));
        if (q || q.error().code == "range") return dimension;
        if (q.error().code == "syntax" && !syntax) syntax = q.error();
    }
    if (syntax) return fail_at(first->name, *syntax);
    return fail("unit", first->name,
                fmt::format("{}: unknown unit, expected a quantity such as \"1.60 mm\"", quote(*text)));
}

}  // namespace

std::string expectation(const Input& input, const Unit* unit) {
    if (input.kind == Kind::word) return fmt::format("expected one of: {}", fmt::join(input.words, ", "));
    if (input.kind == Kind::text) return "expected " + input.says;
    const bool is_range = input.low || input.high;
    if (unit == nullptr && input.dimension) unit = units_of(*input.dimension).data();
    if (input.dimension == Dimension::ratio && (unit == nullptr || unit->symbol == "%")) {
        unit = find_unit("", Dimension::ratio);
    }
    if (!is_range || unit == nullptr) {
        return fmt::format("expected a {} such as \"{}\"",
                           input.dimension ? name_of(*input.dimension) : "quantity",
                           input.dimension ? example_of(*input.dimension) : "1.60 mm");
    }
    const auto end = [unit](double si) {
        const double number = from_si(si, *unit);
        return unit->symbol.empty() ? fmt::format("{:.6g}", number)
                                    : fmt::format("{:.6g} {}", number, unit->symbol);
    };
    if (input.low && input.high) {
        return input.ends_excluded
                   ? fmt::format("expected more than {} and less than {}", end(*input.low), end(*input.high))
                   : fmt::format("expected {} to {}", end(*input.low), end(*input.high));
    }
    if (input.high) return fmt::format("expected at most {}", end(*input.high));
    return fmt::format("expected {} {}", input.ends_excluded ? "more than" : "at least", end(*input.low));
}

Result<Inputs> read_arguments(const Sum& sum, const std::vector<Argument>& arguments) {
    const auto texts = gather(sum, arguments);
    if (!texts) return tl::unexpected(texts.error());
    const auto kind = common_kind(sum, *texts);
    if (!kind) return tl::unexpected(kind.error());
    Inputs inputs;
    inputs.kind = *kind;
    for (const Input& input : sum.inputs) {
        const auto text = texts->find(input.name);
        if (text == texts->end()) continue;
        auto given = read_input(input, text->second, *kind);
        if (!given) return tl::unexpected(given.error());
        if (is_of_any_kind(input) && inputs.kind_unit == nullptr) inputs.kind_unit = given->unit;
        inputs.set(input.name, *std::move(given));
    }
    return inputs;
}

}  // namespace fallaway::sums
