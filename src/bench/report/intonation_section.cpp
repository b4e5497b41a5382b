// Intonation string by string: where fret 12 is heard now, where the saddle's move brings it; and the strings.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/report/figures.h"
#include "bench/report/html_sections.h"
#include "bench/report/intonation_rows.h"
#include "bench/report/neck_plan.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using model::Intonation;
using model::StringIntonation;
using svg::Anchor;

constexpr double kAxisLeft = 130;
constexpr double kAxisRight = 720;
constexpr double kTextX = 760;
constexpr double kScrewX = 900;
constexpr double kRow = 40;
constexpr double kTop = 52;
constexpr double kTwo = 1.96;  // of a 95 % interval

// Cents along the row, sharp to the right; always with the fine lines in view.
struct Axis {
    double low = -3;
    double high = 3;

    double x(double cents) const { return kAxisLeft + (cents - low) / (high - low) * (kAxisRight - kAxisLeft); }
    void hold(double cents) {
        low = std::min(low, cents - 0.5);
        high = std::max(high, cents + 0.5);
    }
};

Markup bracket(double x, double y, double inwards) {
    return svg::polyline({{x + inwards, y - 10}, {x, y - 10}, {x, y + 10}, {x + inwards, y + 10}}, "e");
}

Markup string_row(const StringIntonation& string, const IntonationRow& words, const Axis& axis, double y) {
    const auto& now = string.twelfth_now;
    const double after = axis.x(string.twelfth_after.value);
    Markup row = svg::label({14, y + 7}, fmt::format("String {}", string.string), "t", Anchor::start);
    row += svg::line({kAxisLeft, y}, {kAxisRight, y}, "hair");
    row += bracket(axis.x(now.value - kTwo * now.u), y, 6) + bracket(axis.x(now.value + kTwo * now.u), y, -6);
    row += svg::line({after - 6, y + 9}, {after + 6, y - 9}, "heavy");
    const double mm = std::abs(string.move->value) * 1e3;
    const std::string way = mm < 0.05
                                ? std::string("under 0.1 mm")
                                : fmt::format("{} {:.1f} mm", string.move->value < 0 ? "forward" : "back", mm);
    row += svg::label({kTextX, y + 7}, way, "t quiet", Anchor::start);
    if (string.turns) row += svg::label({kScrewX, y + 8}, words.screw, "t figure", Anchor::start);
    return row;
}

std::optional<svg::Figure> intonation_figure(const Intonation& intonation) {
    Axis axis;
    std::size_t set = 0;
    for (const StringIntonation& string : intonation.strings) {
        if (!string.move) continue;
        ++set;
        axis.hold(string.twelfth_now.value - kTwo * string.twelfth_now.u);
        axis.hold(string.twelfth_now.value + kTwo * string.twelfth_now.u);
        axis.hold(string.twelfth_after.value);
    }
    if (set == 0) return std::nullopt;
    svg::Figure figure{.id = "intonation-figure", .title = "Fret 12 against the open string, in cents"};
    figure.description = "Each string's interval as it stands, and where the saddle's move brings it.";
    const double bottom = kTop + kRow * (double(set) - 1) + 22;
    for (const double cents : {-model::kLeastHeard, model::kLeastHeard}) {
        figure.drawing += svg::line({axis.x(cents), kTop - 22}, {axis.x(cents), bottom}, "f");
        figure.drawing += svg::label({axis.x(cents), kTop - 32}, cents < 0 ? "−2" : "+2", "t quiet");
    }
    figure.drawing += svg::line({axis.x(0), kTop - 22}, {axis.x(0), bottom}, "station");
    figure.drawing += svg::label({axis.x(0), kTop - 32}, "0", "t quiet");
    const std::vector<IntonationRow> words = rows_of(intonation);
    double y = kTop;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (!intonation.strings[i].move) continue;
        figure.drawing += string_row(intonation.strings[i], words[i], axis, y);
        y += kRow;
    }
    figure.width = kFigureWidth;
    figure.height = bottom + 12;
    figure.caption = fmt::format(
        "Bracket: where the note lies now, 95 times in 100; stroke: where it goes. Between the fine lines nobody "
        "should promise that a gain is heard. Saddle screw: {}.",
        screw_words(intonation));
    return figure;
}

}  // namespace

Markup intonation_section(const Sheet& sheet) {
    const auto& intonation = sheet.assessment.intonation;
    if (!intonation) return {};
    Table table{
        "Intonation, string by string",
        {{"String", 1}, {"Read, cents", 3}, {"Fret 12 after, cents", 2}, {"Saddle", 3}, {"Screw", 2}, {"", 4}},
        {}};
    for (const IntonationRow& row : rows_of(*intonation)) {
        table.rows.push_back({{text(row.string), text(row.read), text(row.after), text(row.saddle),
                               text(row.screw), text(row.note)}});
    }
    Markup inside;
    if (const auto figure = intonation_figure(*intonation)) inside += svg::figure(*figure);
    inside += render(std::move(table));
    const std::string caution = intonation_caution(*intonation);
    if (!caution.empty()) inside += tag("p", {{"class", "quiet"}}, text(caution));
    return section("intonation", "Intonation", inside);
}

Markup strings_section(const Sheet& sheet) {
    const auto& fitted = sheet.assessment.strings;
    if (fitted.strings.empty()) return {};
    Table table{"Strings",
                {{"String", 1}, {"Note", 1}, {"Gauge", 2}, {"Kind", 3}, {"Pull", 2}, {"Of its strength", 2}},
                {}};
    for (const StringRow& row : rows_of(fitted)) {
        table.rows.push_back({{text(row.string), text(row.note), text(row.gauge), text(row.kind), text(row.pull),
                               text(row.strength)}});
    }
    Markup inside = render(std::move(table));
    for (const std::string& line : pull_words(fitted)) inside += tag("p", text(line));
    return section("strings", "Strings", inside);
}

}  // namespace fallaway::report
