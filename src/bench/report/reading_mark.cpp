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

double value_width(const Mark& mark) { return svg::width_of(mark.value, kFigureSize); }

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
    const auto words = [&](double limit) {
        return fmt::format("limit {:.2f}", from_si(limit, *line.found.unit));
    };
    if (upper && value > *upper) return words(*upper);
    if (lower && value < *lower) return words(*lower);
    return "";
}

// Under the figure: solid, dashed when assumed, broken by a double stroke when stale, tied when two say different.
Markup rule(const Mark& mark, const NeckPlan& plan, double from, double to, double y) {
    const auto at = [&](double x, double dy) { return plan.place(x, y + dy); };
    const double middle = (from + to) / 2;
    if (mark.disputed) return svg::polyline({at(from, -5), at(from, 0), at(to, 0), at(to, -5)}, "e");
    if (mark.assumed) return svg::line(at(from, 0), at(to, 0), "e dashed");
    if (!mark.stale) return svg::line(at(from, 0), at(to, 0), "e");
    Markup out = svg::line(at(from, 0), at(middle - 9, 0), "e") + svg::line(at(middle + 9, 0), at(to, 0), "e");
    for (const double x : {middle - 3, middle + 3}) out += svg::line(at(x - 3, 5), at(x + 3, -5), "e");
    return out;
}

}  // namespace

double Mark::width() const { return value_width(*this) + beside_width(*this) + limit_width(*this) + 2 * kPad; }

Mark mark_of(const judgement::Line& line, const std::string& shared) {
    Mark mark{.stale = line.stale, .disputed = line.disputed, .outside = breaks_its_limit(line.standing)};
    if (line.disputed) {
        mark.value = line.found.text;
        return mark;
    }
    const FigureParts parts = parts_of(line.found);
    mark.value = parts.value;
    if (shared.empty()) mark.beside = join({parts.u, parts.unit}, parts.u.empty() || parts.unit.empty() ? "" : " ");
    if (mark.outside) mark.limit = broken_limit(line);
    return mark;
}

// Values stand left to right whatever the hand, so the mirrored drawing begins its row at the other end.
Markup draw_mark(const Mark& mark, const NeckPlan& plan, Point centre) {
    const double wide = mark.width();
    const double half = kFigureSize * 0.68;
    Markup out = svg::box(plan.place(centre.x - wide / 2, centre.y - half),
                          plan.place(centre.x + wide / 2, centre.y + half), "ground");
    const bool left = plan.left_handed();
    const double step = left ? -1 : 1;  // along the neck, so that the page always reads left to right
    double x = centre.x - step * (wide / 2 - kPad);
    const auto write = [&](const std::string& words, const char* style, double width) {
        if (words.empty()) return;
        out += svg::label(plan.place(x, centre.y + 7), words, style, Anchor::start);
        x += step * width;
    };
    const double from = x;
    const std::string value = mark.assumed ? fmt::format("[{}]", mark.value) : mark.value;
    write(value, mark.assumed ? "t figure guess" : "t figure", value_width(mark));
    if (!mark.beside.empty()) x += step * kPad;
    write(mark.beside, "t quiet", beside_width(mark) - kPad);
    out += rule(mark, plan, from, x, centre.y + kRuleBelow);
    if (!mark.outside) return out;
    x += step * kPad;
    out += svg::box(plan.place(x, centre.y - half + 2), plan.place(x + step * kBar, centre.y + half - 2), "bar");
    x += step * (kBar + kPad);
    write(mark.limit, "t quiet", 0);
    return out;
}

}  // namespace fallaway::report
