// The board across its length: arcs, radius gauges, the cone that a compound board is, and the arcs at the two
// ends that the strings' height asks for. Metres; a value with its standard uncertainty is metrology::Uncertain.
#pragma once

#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/metrology/uncertainty.h"
#include "science/neck/layout.h"

namespace fallaway::neck {

// R = c^2/(8 h) + h/2 from a chord and the height of the arc over its middle, u of the height carried (first
// order). chord > 0, 0 < sagitta <= chord/2.
metrology::Uncertain radius_from_sagitta(double chord, const metrology::Uncertain& sagitta);

// A radius gauge of known width laid across the board: where light shows, and how thick a leaf goes there.
enum class LightUnder { middle, edges };
// Light in the middle: the board is flatter than the gauge. Errors: "range" when the gap leaves no arc.
Result<metrology::Uncertain> radius_by_gauge(double gauge_radius, double width, const metrology::Uncertain& gap,
                                             LightUnder where);
// Rocks on one gauge, light in the middle of the next: anywhere between the two, evenly likely.
metrology::Uncertain radius_between_gauges(double tighter, double flatter);

// One height of a section: z at y across, with its standard uncertainty.
struct SectionHeight {
    double y = 0;
    double z = 0;
    double u = 0;  // > 0
};

// The circle through three or more heights, weighted by 1/u^2. Given by its curvature, which a flat board has too.
struct CircleFit {
    metrology::Uncertain curvature;  // 1/m; positive is a board high in the middle
    metrology::Uncertain radius;     // m; infinite when the curvature is 0, u by first order
    double chi_squared = 0;          // of `dof` degrees of freedom, for the u given
    int dof = 0;
};
// Errors: "missing" fewer than three heights, "range" a u that is not positive, "fit" heights that no arc meets.
Result<CircleFit> circle_through(std::span<const SectionHeight> heights);

struct RadiusReading {
    double x = 0;                 // along the centre line
    metrology::Uncertain radius;  // u > 0
};
// R(x) straight from the nut to x_end, by weighted least squares. A prior on either end counts as one more reading
// there, so that one reading and two priors are enough. u is that of the readings, not of their scatter.
struct ConeFit {
    metrology::Uncertain nut;
    metrology::Uncertain end;
    double correlation = 0;  // of the two ends
    double chi_squared = 0;
    int dof = 0;
    double x_end = 0;

    // The radius at any x, past the ends too.
    metrology::Uncertain at(double x) const;
};
struct ConePrior {
    metrology::Uncertain nut{0, 0};  // u 0: nothing known beforehand
    metrology::Uncertain end{0, 0};
};
// Errors: "missing" fewer than two things known, "range" x_end or a u that is not positive, "fit" when all
// readings stand at one place.
Result<ConeFit> fit_cone(std::span<const RadiusReading> readings, double x_end, const ConePrior& prior = {});

// How far the board leaves the straight chord between two frets along a string that runs outwards (the fan of
// the strings over a cylinder makes a hump), and the fret at which it does most. The profile of the centre line
// left out.
struct PathHump {
    double height = 0;  // m; negative where a cone widens faster than the strings
    int fret = 0;       // where; 0 when no fret lies between
};
PathHump hump_along(const Layout& layout, int string, int from, int to);
// First order of that on a cylinder, along whatever length y grows by `widening`: widening^2/(8 R).
double cylinder_hump(double widening, double radius);
// Radius at y of a string for which its path over the cone is straight: R/y the same all along.
double straight_path_radius(double radius_nut, double y_nut, double y);

// Height of the open strings over the wire of a zero-fret, or over a wire piece bent to the board: drop under the
// top of an arc of radius board + crown height.
double zero_fret_drop(double y, double board_radius, double crown_height);

// Saddle heights below the arc's top, thinnest string first, that give every string its wanted height over one
// fret when the slots at the nut follow the board. `action` is empty for equal heights, else holds one per string;
// the drop is then that from a string in the middle at their mean. Source:
// [S(y_fret) - (1 - lam) S(y_nut) - (action - mean)]/lam, lam = x_fret/(scale + setback).
struct SaddleArc {
    std::vector<double> drop;    // m
    std::vector<double> radius;  // of the circle through the top and this string: y^2/(2 d) + d/2; infinite on top
};
// Errors: "range" when `action` is neither empty nor one per string.
Result<SaddleArc> saddle_arc(const Layout& layout, int fret, std::span<const double> action = {});

}  // namespace fallaway::neck
