// What every move of a set-up does to every height of a string: linear maps, so that moves add up and can be
// solved for. Metres and radians; the body stands still, x runs along the string from its nut, z up.
//
// Assumptions, all common practice: strings are straight; the neck bends as the beam of beam.h whatever the cause
// (rod, load, weather), its nut end rising as relief grows; it is one stiff piece when it is tilted or raised;
// bridge and pickups ride on the body. A neck's own factor, learnt from one move, beats these maps.
#pragma once

#include "science/neck/beam.h"
#include "science/neck/layout.h"

namespace fallaway::neck {

// How much of each move, all at once. The names of the fields are the moves.
struct Moves {
    double relief = 0;  // m added: deepest dip under the line from fret 1 to the last
    double nut = 0;     // m, of this string's rest at the nut over the board; filing is negative
    double saddle = 0;  // m, of this string's saddle over the body
    double tilt = 0;    // rad, of the neck about its joint; positive tips the nut back and the board's end up
    double raise = 0;   // m, of the whole neck out of the body

    Moves& operator+=(const Moves& more);
    friend Moves operator+(Moves a, const Moves& b) { return a += b; }
    friend Moves operator*(double k, const Moves& m) {
        return {k * m.relief, k * m.nut, k * m.saddle, k * m.tilt, k * m.raise};
    }
};

class MoveMap {
public:
    explicit MoveMap(const Layout& layout, const NeckBeam& beam = {});

    // Change of the board's surface at x along the centre line.
    double board(const Moves& moves, double x) const;
    // Change of the open string's height over a fret; fret 0 is the string's height over the board at the nut.
    double open_height(const Moves& moves, int string, int fret) const;
    // Change of the height over a higher fret of the string held at a fret; held 0 is open.
    double fretted_height(const Moves& moves, int string, int held, int over) const;
    // Change of the gap between the string held at a fret and a pickup pole at x_pole along the string.
    double pickup_gap(const Moves& moves, int string, int held, double x_pole) const;
    // Saddle move that leaves the open string's height over a fret as it was, whatever else is moved.
    double saddle_to_keep(const Moves& moves, int string, int fret) const;

    // More pull of all strings together, N. No rod takes its share: the bare beam.
    Moves of_load(double newton) const;
    // A shim in the neck's pocket: thickness at the edge towards the nut and at the edge towards the bridge,
    // `pocket` m apart. The first of them lies under the joint.
    Moves of_shim(double towards_nut, double towards_bridge, double pocket) const;

private:
    double string_at(const Moves& moves, int string, double x) const;

    Layout layout_;
    BentNeck bent_;
    double per_relief_ = 0;  // 1 over the beam's deepest dip for 1 N
    double joint_ = 0;       // m along the centre line
};

// Thickness at one edge of a wedge that changes the saddle's height over the board's plane by `change`, seen from
// a neck that turns about its joint: change * pocket/(saddle - joint). Positive: the edge towards the bridge.
double wedge_for(double change, double pocket, double joint_to_saddle);

}  // namespace fallaway::neck
