// Relief as it is read, between a capo and a finger, and as it is kept: the deepest dip under the line from fret 1
// to the last. A reading is the ratio below times the relief, whatever the amount.
#pragma once

#include "science/neck/layout.h"

namespace fallaway::neck {

enum class ReliefShape {
    beam,        // ours: bent below the joint, straight past it (profile.h)
    even_curve,  // the trade's: one arc from end to end, deepest in the middle of the line
};

// A straight line laid over two frets, and the fret between them over which the gap is read. 1 <= from < over <
// to.
struct ReliefReading {
    int from = 1;
    int over = 0;
    int to = 0;
};

// Reading to relief. Both shapes are read at the layout's own frets along the centre line.
double relief_ratio(const Layout& layout, const ReliefReading& reading, ReliefShape shape);
// The fret over which the gap under a line from one fret to another is largest; the lower of equals. to >= from
// + 2.
int deepest_fret(const Layout& layout, int from, int to, ReliefShape shape);

}  // namespace fallaway::neck
