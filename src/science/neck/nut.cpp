#include "science/neck/nut.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include "science/neck/section.h"

namespace fallaway::neck {
namespace {

using metrology::Uncertain;

constexpr double kInfinity = std::numeric_limits<double>::infinity();
constexpr double kLastTenth = 0.1e-3;      // m left from which passes are small
constexpr double kSmallPass = 0.03e-3;     // m
constexpr double kSmallestPass = 0.01e-3;  // m, what a nut file takes in a stroke or two

double place(const CrownLine& crowns, int fret) {
    return crowns.x[static_cast<std::size_t>(fret - 1)];
}

// factor (a - b), errors independent.
Uncertain scaled_difference(const Uncertain& a, const Uncertain& b, double factor) {
    return {factor * (a.value - b.value), std::abs(factor) * std::hypot(a.u, b.u), std::min(a.dof, b.dof)};
}

}  // namespace

std::vector<double> equal_centres(double span, int strings) {
    std::vector<double> places(static_cast<std::size_t>(strings), 0.0);
    for (int i = 1; i < strings; ++i) places[static_cast<std::size_t>(i)] = span * i / (strings - 1);
    return places;
}

Result<EqualGaps> equal_gaps(double span, std::span<const double> diameters) {
    if (diameters.size() < 2) return fail("missing", "diameters", "one string has no gap: expected two or more");
    for (const double d : diameters) {
        if (!(d > 0)) return fail("range", "diameters", "a string's diameter must be over 0");
    }
    const double ends = (diameters.front() + diameters.back()) / 2;
    const double metal = std::accumulate(diameters.begin(), diameters.end(), 0.0) - ends;
    EqualGaps slots{.gap = (span - metal) / static_cast<double>(diameters.size() - 1)};
    if (!(slots.gap > 0)) return fail("range", "span", "these strings leave no air between them on this span");
    slots.places.push_back(0);
    for (std::size_t i = 1; i < diameters.size(); ++i) {
        slots.places.push_back(slots.places.back() + diameters[i - 1] / 2 + slots.gap + diameters[i] / 2);
    }
    return slots;
}

SlotShape slot_shape(double diameter, bool wound) {
    return {.width_least = diameter + 0.05e-3,
            .width_most = diameter + (wound ? 0.10e-3 : 0.05e-3),
            .floor_radius = diameter / 2,
            .depth_least = diameter / 2,
            .depth_most = wound ? diameter / 2 : diameter};
}

double zero_fret_height(const Layout& layout, int string, double profile_at_nut) {
    const StringLine& line = layout.strings[static_cast<std::size_t>(string)];
    const double radius = board_radius(layout.board, line.x_nut);
    return profile_at_nut - zero_fret_drop(line.y_nut, radius, layout.crown_height) + layout.crown_height;
}

double gap_at_zero_fret(const CrownLine& crowns, double zero_fret, int held, int over) {
    return height_behind(crowns, zero_fret, held, over);
}

Uncertain excess_when_held(const Uncertain& gap, const Uncertain& gap_at_zero, const CrownLine& crowns, int held,
                           int over) {
    return scaled_difference(gap, gap_at_zero, place(crowns, held) / (place(crowns, held) - place(crowns, over)));
}

Uncertain excess_when_open(const Uncertain& height, const Uncertain& height_at_zero, const CrownLine& crowns,
                           int fret) {
    return scaled_difference(height, height_at_zero, crowns.length / (crowns.length - place(crowns, fret)));
}

ExcessBounds excess_by_wire(Wire word, double zero_fret, double saddle, double length, double x, double taller) {
    const double touching = (taller * length - (saddle - zero_fret) * x) / (length - x);
    switch (word) {
        case Wire::loose:
            return {touching + kWireDeadZone, kInfinity};
        case Wire::lifts:
            return {-kInfinity, touching - kWireDeadZone};
        case Wire::right:
            break;
    }
    return {touching - kWireDeadZone, touching + kWireDeadZone};
}

FilePlan file_plan(const Uncertain& excess, double target, double largest_pass) {
    FilePlan plan{.depth = excess.value - target};
    plan.left = plan.depth;
    for (;;) {
        const double safe = plan.left - 2 * excess.u;
        const double most = plan.left > kLastTenth ? largest_pass : kSmallPass;
        const double pass = std::min(safe / 2, most);
        if (!(pass >= kSmallestPass)) return plan;
        plan.passes.push_back(pass);
        plan.left -= pass;
    }
}

}  // namespace fallaway::neck
