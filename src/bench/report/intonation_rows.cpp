#include "bench/report/intonation_rows.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using model::FittedString;
using model::Intonation;
using model::StringIntonation;

// The unit stands at the head of the column.
std::string bare_cents(const metrology::Uncertain& cents) {
    const FigureParts parts = parts_of(model::in_cents(cents));
    return fmt::format("{} {}", parts.value, parts.u);
}

std::string read_words(const StringIntonation& string) {
    if (string.heard.size() == 1 && string.heard.front().fret == 12) {
        return bare_cents(string.heard.front().cents);
    }
    std::vector<std::string> parts;
    for (const model::FretHeard& one : string.heard) {
        parts.push_back(fmt::format("{} at {}", bare_cents(one.cents), one.fret));
    }
    return join(parts, ", ");
}

std::string saddle_words(const StringIntonation& string) {
    if (string.setback) return fmt::format("{} behind the scale", model::in_mm(*string.setback).text);
    if (!string.move) return "";
    const metrology::Uncertain way{std::abs(string.move->value), string.move->u};
    return fmt::format("{} {}", string.move->value < 0 ? "forward" : "back", model::in_mm(way).text);
}

std::string turns_words(const StringIntonation& string) {
    if (!string.turns) return "";
    const std::string eighths = in_eighths(*string.turns);
    return eighths.empty() ? "none" : fmt::format("{} turn{}", eighths, std::abs(*string.turns) > 1 ? "s" : "");
}

std::string note_words(const StringIntonation& string) {
    if (!string.refused.empty()) return capital(string.refused);
    if (string.setback) return "Not read: the cents at fret 12 decide";
    std::vector<std::string> parts = string.remarks;
    if (!string.heard_gain) parts.insert(parts.begin(), "Less than 2 cents to gain");
    return join(parts, ". ");
}

std::string bracketed(std::string words, bool assumed) {
    return assumed ? fmt::format("[{}]", words) : words;
}

std::string gauge_words(const FittedString& string) {
    constexpr double kAsSold = 6e-6;  // m: a gauge known so well is printed bare
    const Unit& inch = *find_unit("in", Dimension::length);
    const std::string words = string.gauge.u < kAsSold
                                  ? format_quantity(string.gauge.value, inch, 3)
                                  : format_at_the_bench(string.gauge.value, string.gauge.u, inch);
    return bracketed(words, string.gauge_from == model::GaugeFrom::usual);
}

std::string kind_words(const FittedString& string) {
    const std::string_view core = string.core == strings::Core::hex ? "hex core" : "round core";
    switch (string.wrap) {
        case strings::Wrap::plain:
            return bracketed("plain", string.kind_assumed);
        case strings::Wrap::round:
            return bracketed(fmt::format("{}, round wrap", core), string.kind_assumed);
        case strings::Wrap::ground:
            return bracketed(fmt::format("{}, ground wrap", core), string.kind_assumed);
        case strings::Wrap::flat:
            return bracketed(fmt::format("{}, flat wrap", core), string.kind_assumed);
        case strings::Wrap::tape:
            return bracketed(fmt::format("{}, tape wrap", core), string.kind_assumed);
    }
    return "";
}

std::string newtons(const metrology::Uncertain& force) {
    return model::in_unit(force, "N", Dimension::force).text;
}

}  // namespace

std::vector<IntonationRow> rows_of(const Intonation& intonation) {
    std::vector<IntonationRow> rows;
    for (const StringIntonation& string : intonation.strings) {
        rows.push_back({fmt::format("{}", string.string), read_words(string),
                        string.move ? bare_cents(string.twelfth_after) : "", saddle_words(string),
                        turns_words(string), note_words(string)});
    }
    return rows;
}

std::string screw_words(const Intonation& intonation) {
    if (!intonation.screw) return "learn it from one turn";
    return fmt::format("{}, {:g} mm a turn", intonation.screw->name, intonation.screw->pitch.mm());
}

std::string intonation_caution(const Intonation& intonation) {
    double u = 0;
    for (const StringIntonation& string : intonation.strings) u = std::max(u, string.u_reading);
    if (u == 0) return "";
    return fmt::format(
        "Best for frets 1 to 12 together, by the saddles alone, the open string tuned again. Afterwards the tuner "
        "may "
        "read up to {:.1f} cents beside it; nobody should promise that less than 2 cents are heard.",
        2 * u);
}

std::vector<StringRow> rows_of(const model::FittedStrings& fitted) {
    std::vector<StringRow> rows;
    for (const FittedString& string : fitted.strings) {
        const auto& share = string.pull.strength_share;
        rows.push_back(
            {fmt::format("{}", string.string), string.note, gauge_words(string), kind_words(string),
             newtons({string.pull.tension.value, string.pull.tension.u}),
             share ? model::in_unit({share->value, share->u}, "%", Dimension::ratio).text : std::string()});
    }
    return rows;
}

std::vector<std::string> pull_words(const model::FittedStrings& fitted) {
    std::vector<std::string> lines;
    if (!fitted.strings.empty()) {
        lines.push_back(fmt::format("Pull on the neck, {}: {}", counted(fitted.strings.size(), "string"),
                                    newtons(fitted.pull)));
    }
    for (const model::StringLeftOut& one : fitted.left_out) {
        lines.push_back(fmt::format("String {} is not in it: {}", one.string, one.because));
    }
    return lines;
}

}  // namespace fallaway::report
