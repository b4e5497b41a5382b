// Heights of one string over the crowns under it, all along that string: crown heights, nut and saddle may be
// given over any plane whatever, since adding one plane to all of them changes no gap. Metres; heights are to the
// string's underside; positive is clear, negative is where a straight string would run through metal.
//
// A fretless board is read the same way, its crowns being the board under the marks. With a zero-fret the open
// string rests on a crown at the nut: `nut` is then that crown's height.
// Assumptions: strings are straight lines, and touch crowns at their highest point (a crown of 1 to 1.5 mm radius
// moves the point of contact by less than 0.02 mm).
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "science/neck/layout.h"

namespace fallaway::neck {

struct CrownLine {
    std::vector<double> x;  // m from this string's nut, fret 1 first, rising
    std::vector<double> z;  // m
    double length = 0;      // m, nut to saddle
};

// Crowns under one string for a profile of the centre line (height at x along it): profile - board drop + crown
// height + error. `errors` is empty or holds one per fret.
CrownLine crowns_under(const Layout& layout, int string, const std::function<double(double)>& profile,
                       std::span<const double> errors = {});

// Frets are numbered from 1. Open string over a fret, nut and saddle at these heights.
double open_height(const CrownLine& crowns, double nut, double saddle, int fret);
// Held at a fret, over a higher one: from its crown to the saddle.
double fretted_height(const CrownLine& crowns, double saddle, int held, int over);
// Held at a fret, over a lower one, between finger and nut.
double height_behind(const CrownLine& crowns, double nut, int held, int over);
// Under a straight line over crowns a and b: capo and finger, or a straightedge; `over` anywhere.
double height_under(const CrownLine& crowns, int a, int b, int over);
// Three crowns under a short straightedge: how far the middle one stands over the line of its neighbours. Positive
// rocks. The relief's own part is about -curvature (x_m - x_a)(x_b - x_m)/2.
double rock(const CrownLine& crowns, int below, int middle, int above);
// Deepest gap under the line from fret 1 to the last; below 0 when the board stands over it everywhere.
double relief_of(const CrownLine& crowns);

// The saddle's height that puts the open string at `height` over a fret: s = n + (h + c - n) length/x.
double saddle_for(const CrownLine& crowns, double nut, int fret, double height);
// The nut's height that does so with the saddle given: n = (h + c - s x/length) / (1 - x/length).
double nut_for(const CrownLine& crowns, double saddle, int fret, double height);
// Nut and saddle from the heights over two frets.
struct Ends {
    double nut = 0;
    double saddle = 0;
};
Ends ends_from(const CrownLine& crowns, int fret_a, double height_a, int fret_b, double height_b);

// Sag of a string lying level under its own weight, m, at a share (0..1) of its sounding length:
// that of its middle (strings::lying_sag) times 4 u (1 - u).
// A height read with the instrument on its back is low by this much: add it. frequency > 0, Hz.
double lying_sag_at(double frequency, double share);

}  // namespace fallaway::neck
