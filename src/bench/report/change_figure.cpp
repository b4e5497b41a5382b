// Before and after, place by place, drawn like dimensions.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/report/figures.h"
#include "bench/report/neck_plan.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using svg::Anchor;

constexpr double kAxisLeft = 250;
constexpr double kAxisRight = 800;
constexpr double kTextX = 850;
constexpr double kRow = 40;
constexpr double kTop = 30;

// A stretch of the axis, in the unit of the change.
struct Axis {
    double low = 0;
    double high = 1;

    static Axis around(double a, double b) {
        const double pad = std::max((b - a) * 0.12, 1e-9);
        return {a - pad, b + pad};
    }
    double x(double value) const { return kAxisLeft + (value - low) / (high - low) * (kAxisRight - kAxisLeft); }
};

std::string number_in(double si, const Unit& unit, bool difference) {
    const double value = difference ? difference_from_si(si, unit) : from_si(si, unit);
    return typeset(fmt::format("{:.2f}", std::abs(value) < 0.005 ? 0 : value));
}

std::string signed_in(double si, const Unit& unit) {
    const std::string digits = number_in(si, unit, true);
    return si > 0 && digits != "0.00" ? "+" + digits : digits;
}

Markup oblique(double x, double y, std::string_view style) {
    return svg::line({x - 6, y + 9}, {x + 6, y - 9}, style);
}

Markup pair_row(const evidence::Place& place, double before, double after, const Axis& axis, const Unit& unit,
                double y) {
    const double from = axis.x(from_si(before, unit));
    const double to = axis.x(from_si(after, unit));
    Markup row = svg::label({14, y + 7}, capital(describe(place)), "t", Anchor::start);
    row += svg::line({kAxisLeft, y}, {kAxisRight, y}, "hair");
    row += svg::line({from, y}, {to, y}, "e");
    row += oblique(from, y, "e") + oblique(to, y, "heavy");
    row += svg::label({kTextX, y + 7}, number_in(before, unit, false) + " to", "t quiet", Anchor::start);
    row += svg::label({kTextX + 90, y + 8}, number_in(after, unit, false), "t figure", Anchor::start);
    return row;
}

// The mean change on a scale of its own, with an open bracket as long as the 95 % interval.
Markup mean_row(const judgement::Change& change, double y) {
    const Unit& unit = *change.unit;
    const metrology::PairedChange& paired = change.paired;
    const auto in_unit = [&](double si) { return difference_from_si(si, unit); };
    const Axis axis = Axis::around(std::min({0.0, in_unit(paired.mean), in_unit(paired.ci95_low)}),
                                   std::max({0.0, in_unit(paired.mean), in_unit(paired.ci95_high)}));
    const double low = axis.x(in_unit(paired.ci95_low));
    const double high = axis.x(in_unit(paired.ci95_high));
    const double zero = axis.x(0);
    Markup row = svg::label({14, y + 7}, "Mean change", "t strong", Anchor::start);
    row += svg::line({kAxisLeft, y}, {kAxisRight, y}, "hair");
    row += svg::line({zero, y - 16}, {zero, y + 16}, "station");
    row += svg::label({zero, y + 36}, "no change", "t quiet");
    row += svg::line({low, y}, {high, y}, "e");
    row += svg::line({low, y - 10}, {low, y + 10}, "e") + svg::line({high, y - 10}, {high, y + 10}, "e");
    row += oblique(axis.x(in_unit(paired.mean)), y, "heavy");
    row += svg::label({kTextX, y + 8}, signed_in(paired.mean, unit), "t figure", Anchor::start);
    row += svg::label({kTextX + 86, y + 7}, std::string(unit.symbol), "t quiet", Anchor::start);
    row += svg::label({kTextX, y + 36},
                      fmt::format("{} to {}", signed_in(paired.ci95_low, unit), signed_in(paired.ci95_high, unit)),
                      "t quiet", Anchor::start);
    return row;
}

bool finite(const judgement::Change& change) {
    const metrology::PairedChange& p = change.paired;
    return std::isfinite(p.mean) && std::isfinite(p.ci95_low) && std::isfinite(p.ci95_high);
}

Markup twin(const judgement::Change& change) {
    std::vector<std::vector<std::string>> rows;
    for (const auto& [place, values] : change.pairs) {
        rows.push_back({capital(describe(place)), number_in(values.first, *change.unit, false),
                        number_in(values.second, *change.unit, false)});
    }
    return twin_table(change.title, {"Place", fmt::format("Before, {}", change.unit->symbol), "After"}, rows);
}

}  // namespace

std::optional<svg::Figure> change_figure(const judgement::Change& change, std::size_t number) {
    if (!change.unit || change.pairs.empty()) return std::nullopt;
    const Unit& unit = *change.unit;
    double low = from_si(change.pairs.front().second.first, unit);
    double high = low;
    for (const auto& [place, values] : change.pairs) {
        for (const double si : {values.first, values.second}) {
            low = std::min(low, from_si(si, unit));
            high = std::max(high, from_si(si, unit));
        }
    }
    const Axis axis = Axis::around(low, high);
    svg::Figure figure{.id = fmt::format("change-{}", number), .title = change.title, .description = change.text};
    double y = kTop;
    for (const auto& [place, values] : change.pairs) {
        figure.drawing += pair_row(place, values.first, values.second, axis, unit, y);
        y += kRow;
    }
    if (change.paired.n > 1 && finite(change)) {
        figure.drawing += mean_row(change, y + 16);
        y += kRow + 36;
        figure.caption =
            "The change is drawn on a scale of its own; its bracket holds the true change 95 times in 100.";
    }
    figure.width = kFigureWidth;
    figure.height = y;
    figure.twin = twin(change);
    return figure;
}

}  // namespace fallaway::report
