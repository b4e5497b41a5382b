// SVG shapes. Coordinates are in units of the viewBox and must be finite; they are written to two decimals.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "bench/report/markup.h"

namespace fallaway::report::svg {

struct Point {
    double x = 0;
    double y = 0;
};

enum class Anchor { start, middle, end };

// "12.5": two decimals at most, no trailing zeros, never "-0". A value that is not finite is a fault of ours:
// throws std::logic_error.
std::string number(double value);

Markup line(Point a, Point b, std::string_view style);
Markup polyline(const std::vector<Point>& points, std::string_view style);
Markup polygon(const std::vector<Point>& points, std::string_view style);
// A quadratic curve from a to b, drawn towards `control`.
Markup curve(Point a, Point control, Point b, std::string_view style);
// Corners in any order; width and height come out positive.
Markup box(Point a, Point b, std::string_view style);
Markup label(Point at, std::string_view words, std::string_view style, Anchor anchor = Anchor::middle);

// What a figure is, in words, and the drawing. `id` is unique on the page; the twin is a table that says the same.
struct Figure {
    std::string id;
    std::string title;
    std::string description{};
    double width = 0;
    double height = 0;
    Markup drawing{};
    Markup twin{};
    std::string caption{};
};

// <figure> with the drawing in a box of its own that scrolls sideways where the page is too narrow, its caption,
// and the table twin for screen readers.
Markup figure(const Figure& figure);

// Room that a text takes at a size, estimated generously.
double width_of(std::string_view words, double size);

}  // namespace fallaway::report::svg
