#include "bench/report/reading_mark.h"

#include <fmt/format.h>

#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using svg::Anchor;
using svg::Point;

constexpr double kPad = 7;
constexpr double kRuleBelow = 13;
constexpr double kBar = 6;

double value_width(const Mark& mark) {
    return svg::width_of(mark.value, kFigureSize) + (mark.assumed ? svg::width_of("[]", kFigureSize) : 0);
}

double beside_width(const Mark& mark) {
    return mark.beside.empty() ? 0 : svg::width_of(mark.beside, kCaptionSize) + kPad;
}

double limit_width(const Mark& mark) {
    if (!mark.outside) return 0;
    return kBar + kPad + (mark.limit.empty() ? 0 : svg::width_of(mark.limit, kCaptionSize) + kPad);
}

// The side of its limits on which a value lies, as "limit 2.20".
std::string broken_limit(const judgement::Line& line) {
    if (!line.limit_si || !line.found.si || !line.found.unit) return "";
    const auto& [lower, upper] = *line.limit_si;
    const double value = line.found.si->value;
    const auto words = [&](double limit) { return fmt::format("limit {:.2f}", from_si(limit, *line.found.unit)); };
    if (upper && value > *upper) return words(*upper);
    if (lower && value < *lower) return words(*lower);
    return "";
}

// Under the figure: solid, dashed when assumed, broken by a double stroke when stale, tied when two say different.
// `from` and `to` are on the page.
Markup rule(const Mark& mark, double from, double to, double y) {
    const double middle = (from + to) / 2;
    if (mark.disputed) return svg::polyline({{from, y - 6}, {from, y}, {to, y}, {to, y - 6}}, "e");
    if (mark.assumed) return svg::line({from, y}, {to, y}, "e dashed");
    if (!mark.stale) return svg::line({from, y}, {to, y}, "e");
    Markup out = svg::line({from, y}, {middle - 9, y}, "e") + svg::line({middle + 9, y}, {to, y}, "e");
    for (const double x : {middle - 3, middle + 3}) out += svg::line({x - 3, y + 7}, {x + 3, y - 4}, "e");
    return out;
}

}  // namespace

double Mark::left() const {
    return value_width(*this) / 2 + kPad;
}
double Mark::right() const {
    return left() + beside_width(*this) + limit_width(*this);
}

Mark mark_of(const judgement::Line& line, const std::string& shared) {
    Mark mark{.stale = line.stale, .disputed = line.disputed, .outside = breaks_its_limit(line.standing)};
    if (line.disputed) {
        mark.value = line.found.text;
        return mark;
    }
    const FigureParts parts = parts_of(line.found);
    mark.value = parts.value;
    if (shared.empty())
        mark.beside = join({parts.u, parts.unit}, parts.u.empty() || parts.unit.empty() ? "" : " ");
    if (mark.outside) mark.limit = broken_limit(line);
    return mark;
}

Markup draw_mark(const Mark& mark, const NeckPlan& plan, Point centre) {
    const Point middle = plan.place(centre.x, centre.y);
    const double half = kFigureSize * 0.68;
    const double from = middle.x - value_width(mark) / 2;
    double x = middle.x + value_width(mark) / 2;
    Markup out =
        svg::box({middle.x - mark.left(), middle.y - half}, {middle.x + mark.right(), middle.y + half}, "ground");
    const std::string value = mark.assumed ? fmt::format("[{}]", mark.value) : mark.value;
    out += svg::label({middle.x, middle.y + 7}, value, mark.assumed ? "t figure guess" : "t figure");
    if (!mark.beside.empty()) {
        out += svg::label({x + kPad, middle.y + 7}, mark.beside, "t quiet", Anchor::start);
        x += beside_width(mark);
    }
    out += rule(mark, from, x, middle.y + kRuleBelow);
    if (!mark.outside) return out;
    x += kPad;
    out += svg::box({x, middle.y - half + 2}, {x + kBar, middle.y + half - 2}, "bar");
    if (!mark.limit.empty()) {
        out += svg::label({x + kBar + kPad, middle.y + 7}, mark.limit, "t quiet", Anchor::start);
    }
    return out;
}

}  // namespace fallaway::report
