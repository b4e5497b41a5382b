// The shapes that a board's length-wise profile is made of. Each is a height over the chord from fret 1 to the
// last fret for one unit of its own measure, so that a profile is a sum, linear in every measure:
//
//   F(x) = relief * bow(x) + skew * skew(x) + kink * past_joint(x) + hump * hump(x)
//
// Every shape is 0 at fret 1 and at the last fret of the centre line and is defined for all x from the nut to the
// saddle. On a fanned board the centre line's frets are the mean of the strings'. Fewer than 2 frets: all 0.
#pragma once

#include "science/neck/beam.h"
#include "science/neck/layout.h"

namespace fallaway::neck {

struct Shapes {
    double bow = 0;         // beam-shaped relief, deepest dip -1 (bent below the joint, straight past it)
    double skew = 0;        // for a rod that works more at one end, largest value 1 below the middle
    double past_joint = 0;  // m per rad: the board past the joint turned up by one radian (negative: fallaway)
    double hump = 0;        // Gaussian of sd 30 mm at the joint, less its chord
};

// The shapes of one instrument, made once and read anywhere along the centre line.
class ProfileShapes {
public:
    explicit ProfileShapes(const Layout& layout);
    Shapes at(double x) const;

private:
    double x_first_ = 0;
    double x_last_ = 0;
    double x_joint_ = 0;
    BentNeck bent_;         // of a usual neck's taper; only its shape counts here
    double bow_scale_ = 0;  // 1 over its own deepest dip; 0 when nothing bends
};

// Half a pressed parabola: phi = -4 u (1 - u), u from fret 1 to the last; constant curvature, the shape that the
// trade's relief conversions assume.
double parabola(double u);

}  // namespace fallaway::neck
