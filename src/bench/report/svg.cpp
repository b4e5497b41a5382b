#include "bench/report/svg.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "bench/report/utf8.h"

namespace fallaway::report::svg {
namespace {

std::string points_text(const std::vector<Point>& points) {
    std::string out;
    for (const Point& point : points) {
        out += fmt::format("{}{},{}", out.empty() ? "" : " ", number(point.x), number(point.y));
    }
    return out;
}

// Generous for a narrow face at weight 600, so that a stand-in face still fits.
double ems_of(char32_t c) {
    if (c == '.' || c == ',' || c == ' ' || c == ':' || c == 'i' || c == 'l') return 0.28;
    if (c == 'm' || c == 'w' || c == 'M' || c == 'W') return 0.8;
    return 0.53;
}

std::string anchor_name(Anchor anchor) {
    switch (anchor) {
        case Anchor::start:
            return "start";
        case Anchor::end:
            return "end";
        case Anchor::middle:
            break;
    }
    return "middle";
}

}  // namespace

std::string number(double value) {
    if (!std::isfinite(value)) throw std::logic_error("a coordinate of a figure is not finite");
    std::string digits = fmt::format("{:.2f}", value);
    while (digits.ends_with('0')) digits.pop_back();
    if (digits.ends_with('.')) digits.pop_back();
    return digits == "-0" ? "0" : digits;
}

Markup line(Point a, Point b, std::string_view style) {
    return tag("line",
               {{"class", std::string(style)},
                {"x1", number(a.x)},
                {"y1", number(a.y)},
                {"x2", number(b.x)},
                {"y2", number(b.y)}},
               {});
}

Markup polyline(const std::vector<Point>& points, std::string_view style) {
    return tag("polyline", {{"class", std::string(style)}, {"points", points_text(points)}}, {});
}

Markup polygon(const std::vector<Point>& points, std::string_view style) {
    return tag("polygon", {{"class", std::string(style)}, {"points", points_text(points)}}, {});
}

Markup curve(Point a, Point control, Point b, std::string_view style) {
    return tag("path",
               {{"class", std::string(style)},
                {"d", fmt::format("M{},{}Q{},{} {},{}", number(a.x), number(a.y), number(control.x),
                                  number(control.y), number(b.x), number(b.y))}},
               {});
}

Markup box(Point a, Point b, std::string_view style) {
    return tag("rect",
               {{"class", std::string(style)},
                {"x", number(std::min(a.x, b.x))},
                {"y", number(std::min(a.y, b.y))},
                {"width", number(std::abs(b.x - a.x))},
                {"height", number(std::abs(b.y - a.y))}},
               {});
}

Markup label(Point at, std::string_view words, std::string_view style, Anchor anchor) {
    return tag("text",
               {{"class", std::string(style)},
                {"x", number(at.x)},
                {"y", number(at.y)},
                {"text-anchor", anchor_name(anchor)}},
               text(words));
}

Markup figure(const Figure& f) {
    const std::string title_id = f.id + "-title";
    const std::string text_id = f.id + "-text";
    const Markup named =
        tag("title", {{"id", title_id}}, text(f.title)) + tag("desc", {{"id", text_id}}, text(f.description));
    const Markup drawing = tag("svg",
                               {{"viewBox", fmt::format("0 0 {} {}", number(f.width), number(f.height))},
                                {"role", "img"},
                                {"aria-labelledby", title_id + " " + text_id}},
                               named + f.drawing);
    Markup inside = tag(
        "div", {{"class", "scroll"}, {"tabindex", "0"}, {"role", "group"}, {"aria-label", f.title + ", drawing"}},
        drawing);
    if (!f.caption.empty()) inside += tag("figcaption", text(f.caption));
    if (!f.twin.empty()) inside += tag("div", {{"class", "twin"}}, f.twin);
    return tag("figure", {{"id", f.id}}, inside);
}

double width_of(std::string_view words, double size) {
    double ems = 0;
    while (!words.empty()) {
        const CodePoint point = first_code_point(words);
        ems += columns_of(point.value) * ems_of(point.value);
        words.remove_prefix(point.bytes);
    }
    return ems * size;
}

}  // namespace fallaway::report::svg
