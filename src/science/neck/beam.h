// The neck as a beam: what the strings' pull bends, from the nut to the joint. Past the joint it does not bend.
//
//   w''(x) = M(x) / (E I(x)),  w = w' = 0 at the joint,  M = load * offset
//
// Sections are half ellipses of half width a and depth b (fingerboard included), I = a b^3 (pi/8 - 8/(9 pi)) about
// their own centroid; width runs straight from nut to last fret, depth straight through nut and fret 12.
// Assumptions: one modulus for all the wood, no rod, no stiffening bars, the load at one height over the centroid.
#pragma once

#include <span>
#include <vector>

#include "science/neck/layout.h"

namespace fallaway::neck {

struct NeckBeam {
    double modulus = 12.6e9;   // Pa; sugar maple at 12 % moisture, USDA Wood Handbook
    double offset = 0.013;     // m, strings over the section's centroid
    double width_nut = 0.042;  // m
    double width_last = 0.056;
    double depth_nut = 0.0205;  // m, board and wood together
    double depth_12 = 0.023;
};

// Second moment of area of a half ellipse about its centroid, m^4. Source: parallel axes, pi a b^3/8 less
// (pi a b/2) (4 b/(3 pi))^2.
double half_ellipse_moment(double half_width, double depth);

// Where the profile of the centre line has its marks: the mean over the strings, so that a fanned board has one
// profile too. Measured errors of frets included.
double centre_place(const Layout& layout, int fret);
double centre_place_of_joint(const Layout& layout);

// Deflection, m, at the points of an even grid from the nut (first) to the joint (last), for the curvature there,
// 1/m: exact for a curvature that runs straight between points. Positive where the free end rises.
std::vector<double> clamped_deflection(std::span<const double> curvature, double step);

// The centre line bent by a load of 1 N, m.
class BentNeck {
public:
    BentNeck(const Layout& layout, const NeckBeam& beam);
    // Rise at x along the centre line: 0 from the joint on, straight before the nut.
    double at(double x) const;
    // Deepest dip under the chord from fret 1 to the last; 0 when the joint leaves nothing to bend.
    double deepest_dip() const;
    // Rise over that chord: a dip is negative.
    double over_chord(double x) const;

private:
    double first_ = 0;
    double last_ = 0;
    double joint_ = 0;
    std::vector<double> rise_;
};

// How a neck answers to the pull of all its strings together; all linear in the load.
struct BeamBend {
    double moment = 0;     // N m
    double relief = 0;     // m, deepest dip under the chord from fret 1 to the last
    int deepest_fret = 0;  // the fret nearest to it in depth
    double nut_lift = 0;   // m, of the board at the nut, the body standing still
};
// layout.frets >= 2; load in N.
BeamBend bend_under(const Layout& layout, const NeckBeam& beam, double load);

}  // namespace fallaway::neck
