// The nut: where its slots lie across, how high they are over a zero-fret, and how to file them down.
//
// "Excess" of a slot is its floor at the front edge over where a zero-fret would hold the string: a crown of the
// same wire at x = 0 on the board's continued curve. 0 to 0.05 mm suits a light hand, 0.05 to 0.10 mm a heavy one;
// below 0 the open string meets fret 1 (common practice, no source). Metres; errors of several readings are taken
// as independent.
#pragma once

#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/metrology/uncertainty.h"
#include "science/neck/heights.h"
#include "science/neck/readings.h"

namespace fallaway::neck {

// Places of the slots' centres from the first string's, in the order given; `span` from first to last centre. One
// string stands at 0.
std::vector<double> equal_centres(double span, int strings);

// The same air between all neighbours: g = (span + (d_1 + d_n)/2 - sum d)/(n - 1).
struct EqualGaps {
    double gap = 0;
    std::vector<double> places;  // as in equal_centres
};
// Errors: "missing" fewer than two strings, "range" a diameter that is not positive, or strings that leave no gap.
Result<EqualGaps> equal_gaps(double span, std::span<const double> diameters);

// What a slot should be, for a string of this diameter. Common practice, no source.
struct SlotShape {
    double width_least = 0;
    double width_most = 0;
    double floor_radius = 0;
    double depth_least = 0;  // string below the nut's top
    double depth_most = 0;
};
SlotShape slot_shape(double diameter, bool wound);

// Where a zero-fret would hold the string, over the plane of the crowns given: profile at the nut - drop of an arc
// of board radius + crown height + crown height.
double zero_fret_height(const Layout& layout, int string, double profile_at_nut);

// String held at a fret: the gap over a lower one if the slot stood at zero-fret height, from the board's curve
// alone. About 0.007 mm over fret 1 held at 2 for a relief of 0.25 mm.
double gap_at_zero_fret(const CrownLine& crowns, double zero_fret, int held, int over);
// Excess from the gap over fret `over`, held at a fret above: (gap - gap_at_zero) x_h/(x_h - x_o).
metrology::Uncertain excess_when_held(const metrology::Uncertain& gap, const metrology::Uncertain& gap_at_zero,
                                      const CrownLine& crowns, int held, int over);
// Excess from the open string's height over a fret, against its height there with no excess and the same saddle:
// (height - height_at_zero)/(1 - x/length).
metrology::Uncertain excess_when_open(const metrology::Uncertain& height,
                                      const metrology::Uncertain& height_at_zero, const CrownLine& crowns,
                                      int fret);

// A loose piece of this instrument's wire laid on the board against the nut, its top `x` m along the string. What
// the string does bounds the excess; `taller` is how much higher the piece is than the crowns (0: the same wire).
// Touching means the string at x stands as high as the piece: excess = taller length/(length - x)
// - (saddle - zero_fret) x/(length - x). Ends may be infinite.
struct ExcessBounds {
    double low = 0;
    double high = 0;
};
ExcessBounds excess_by_wire(Wire word, double zero_fret, double saddle, double length, double x,
                            double taller = 0);

// Filing: how far down, in strokes between which the slot is read again, since what is off does not come back.
// Every pass takes at most half of what is left above target + 2 u, within the largest pass, and in the last tenth
// of a millimetre at most 0.03 mm; it stops there, or where less than one hundredth would be taken. Common
// practice, no source.
struct FilePlan {
    double depth = 0;            // excess - target; below 0 the slot is too low: fill it or shim the nut
    std::vector<double> passes;  // m, in order; read again after each
    double left = 0;             // of depth, not to be filed on this reading
};
FilePlan file_plan(const metrology::Uncertain& excess, double target, double largest_pass = 0.15e-3);

}  // namespace fallaway::neck
