#include "science/neck/section.h"

#include <cmath>
#include <limits>
#include <numeric>
#include <string>

#include "science/numeric/least_squares.h"

namespace fallaway::neck {
namespace {

using metrology::Uncertain;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

// Height of a circle at y and how it answers to height, slope (as an angle's sine) and curvature at y = 0. With
// sines, the straight line is no special case: z = z0 + y (s + t)/(cos s + cos t), t = s - curvature y.
struct OnCircle {
    double z = 0;
    double by_slope = 0;
    double by_curvature = 0;
};
OnCircle on_circle(std::span<const double> p, double y) {
    const double s = p[1];
    const double t = s - p[2] * y;
    const double cos_s = std::sqrt(1 - s * s);
    const double cos_t = std::sqrt(1 - t * t);
    const double rise = s + t;
    const double run = cos_s + cos_t;
    return {.z = p[0] + y * rise / run,
            .by_slope = y * (2 * run + rise * (s / cos_s + t / cos_t)) / (run * run),
            .by_curvature = -y * y * (run + rise * t / cos_t) / (run * run)};
}

numeric::Fit fit_circle(std::span<const SectionHeight> heights, const std::vector<double>& z) {
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        for (std::size_t i = 0; i < heights.size(); ++i)
            r[i] = (z[i] - on_circle(p, heights[i].y).z) / heights[i].u;
    };
    // Differences would be lost in a slope that comes out as nothing.
    const auto jacobian = [&](std::span<const double> p, std::span<double> j) {
        for (std::size_t i = 0; i < heights.size(); ++i) {
            const OnCircle at = on_circle(p, heights[i].y);
            j[3 * i] = -1 / heights[i].u;
            j[3 * i + 1] = -at.by_slope / heights[i].u;
            j[3 * i + 2] = -at.by_curvature / heights[i].u;
        }
    };
    return numeric::nonlinear_fit(residuals, heights.size(), {z[0], 0, 0}, {.jacobian = jacobian});
}

double radius_of(double y, double drop) {
    return drop == 0 ? kInfinity : y * y / (2 * drop) + drop / 2;
}

}  // namespace

Uncertain radius_from_sagitta(double chord, const Uncertain& sagitta) {
    const double h = sagitta.value;
    const double flat = chord * chord / (8 * h);
    return {flat + h / 2, std::abs(0.5 - flat / h) * sagitta.u, sagitta.dof};
}

Result<Uncertain> radius_by_gauge(double gauge_radius, double width, const Uncertain& gap, LightUnder where) {
    const double sign = where == LightUnder::middle ? -1 : 1;
    const double height = arc_drop(width / 2, gauge_radius) + sign * gap.value;
    if (!(height > 0 && height <= width / 2)) {
        return fail("range", "gap", "the gap leaves no arc under this gauge: expected less than its own height");
    }
    return radius_from_sagitta(width, {height, gap.u, gap.dof});
}

Uncertain radius_between_gauges(double tighter, double flatter) {
    return {(tighter + flatter) / 2,
            metrology::standard_from_limit(std::abs(flatter - tighter) / 2, metrology::Shape::rectangular)};
}

Result<CircleFit> circle_through(std::span<const SectionHeight> heights) {
    if (heights.size() < 3) {
        return fail("missing", "heights", std::to_string(heights.size()) + " heights: a circle needs at least 3");
    }
    for (const SectionHeight& h : heights) {
        if (!(h.u > 0)) return fail("range", "u", "the uncertainty of a height must be over 0");
    }
    std::vector<double> z;
    for (const SectionHeight& h : heights) z.push_back(h.z);
    const numeric::Fit fit = fit_circle(heights, z);
    if (!fit.ok()) return fail("fit", "heights", "no arc meets these heights: expected three different places");
    // u of the curvature by first order: the fit again with each height moved up and down by its own u.
    double variance = 0;
    for (std::size_t i = 0; i < z.size(); ++i) {
        const double as_read = z[i];
        z[i] = as_read + heights[i].u;
        const double up = fit_circle(heights, z).parameters[2];
        z[i] = as_read - heights[i].u;
        const double down = fit_circle(heights, z).parameters[2];
        z[i] = as_read;
        variance += (up - down) * (up - down) / 4;
    }
    const double k = fit.parameters[2];
    CircleFit circle{.curvature = {k, std::sqrt(variance)}, .chi_squared = fit.rss, .dof = fit.dof};
    circle.radius = k == 0 ? Uncertain{kInfinity, kInfinity} : Uncertain{1 / k, circle.curvature.u / (k * k)};
    return circle;
}

Uncertain ConeFit::at(double x) const {
    const double t = x / x_end;
    const double a = (1 - t) * nut.u;
    const double b = t * end.u;
    return {nut.value + (end.value - nut.value) * t, std::sqrt(a * a + b * b + 2 * correlation * a * b)};
}

Result<ConeFit> fit_cone(std::span<const RadiusReading> readings, double x_end, const ConePrior& prior) {
    if (!(x_end > 0)) return fail("range", "x_end", "the far end of the board must lie past the nut");
    std::vector<RadiusReading> known(readings.begin(), readings.end());
    if (prior.nut.u > 0) known.push_back({0, prior.nut});
    if (prior.end.u > 0) known.push_back({x_end, prior.end});
    if (known.size() < 2)
        return fail("missing", "readings", "a cone needs two radii: at two places, or with a prior");
    // Normal equations of R = (1 - t) nut + t end.
    double nn = 0;
    double ne = 0;
    double ee = 0;
    double nr = 0;
    double er = 0;
    for (const RadiusReading& reading : known) {
        if (!(reading.radius.u > 0)) return fail("range", "u", "the uncertainty of a radius must be over 0");
        const double w = 1 / (reading.radius.u * reading.radius.u);
        const double t = reading.x / x_end;
        nn += w * (1 - t) * (1 - t);
        ne += w * (1 - t) * t;
        ee += w * t * t;
        nr += w * (1 - t) * reading.radius.value;
        er += w * t * reading.radius.value;
    }
    const double det = nn * ee - ne * ne;
    if (!(det > 1e-12 * nn * ee)) return fail("fit", "readings", "all radii were read at one place");
    ConeFit fit{.nut = {(ee * nr - ne * er) / det, std::sqrt(ee / det)},
                .end = {(nn * er - ne * nr) / det, std::sqrt(nn / det)},
                .correlation = -ne / std::sqrt(nn * ee),
                .dof = static_cast<int>(known.size()) - 2,
                .x_end = x_end};
    for (const RadiusReading& reading : known) {
        const double off = (reading.radius.value - fit.at(reading.x).value) / reading.radius.u;
        fit.chi_squared += off * off;
    }
    return fit;
}

PathHump hump_along(const Layout& layout, int string, int from, int to) {
    const auto surface = [&](int fret) { return -board_drop(layout, string, fret_place(layout, string, fret)); };
    const double a = fret_place(layout, string, from);
    const double b = fret_place(layout, string, to);
    PathHump hump;
    for (int fret = from + 1; fret < to; ++fret) {
        const double share = (fret_place(layout, string, fret) - a) / (b - a);
        const double over = surface(fret) - (surface(from) + (surface(to) - surface(from)) * share);
        if (hump.fret == 0 || std::abs(over) > std::abs(hump.height)) hump = {over, fret};
    }
    return hump;
}

double cylinder_hump(double widening, double radius) {
    return widening * widening / (8 * radius);
}

double straight_path_radius(double radius_nut, double y_nut, double y) {
    return radius_nut * (y / y_nut);
}

double zero_fret_drop(double y, double board_radius, double crown_height) {
    return arc_drop(y, board_radius + crown_height);
}

Result<SaddleArc> saddle_arc(const Layout& layout, int fret, std::span<const double> action) {
    const std::size_t strings = layout.strings.size();
    if (!action.empty() && action.size() != strings) {
        return fail("range", "action",
                    std::to_string(action.size()) + " heights for " + std::to_string(strings) + " strings");
    }
    const double mean =
        action.empty() ? 0 : std::accumulate(action.begin(), action.end(), 0.0) / static_cast<double>(strings);
    SaddleArc arc;
    for (std::size_t i = 0; i < strings; ++i) {
        const int string = static_cast<int>(i);
        const double x = fret_place(layout, string, fret);
        const double share = x / speaking_length(layout, string);
        const double higher = action.empty() ? 0 : action[i] - mean;
        const double drop =
            (board_drop(layout, string, x) - (1 - share) * board_drop(layout, string, 0) - higher) / share;
        arc.drop.push_back(drop);
        arc.radius.push_back(radius_of(layout.strings[i].y_saddle, drop));
    }
    return arc;
}

}  // namespace fallaway::neck
