// Fret places, fingerboard arcs and saddle moves of one ideal straight string.
// Frets are numbered from 1; x runs from the front edge of the nut along the string.
#pragma once

#include "science/base/quantity.h"

namespace fallaway::neck {

// x = scale (1 - 2^(-fret/12)): twelve-tone equal temperament by definition. fret >= 0.
Length fret_place(Length scale, int fret);

// The inverse of fret_place: the scale whose fret stands at `place`. fret >= 1.
Length scale_from_fret(Length place, int fret);

// Divides what is left of the string into the exact place of the next fret: 1/(1 - 2^(-1/12)).
inline constexpr double kExactDivisor = 17.81715374510577;

// Fret place by the old workshop rule: each fret a `divisor`-th of what is left of the string. The rule of 18 lets
// every note sound flat.
Length fret_place_by_divisor(Length scale, int fret, double divisor);

// How much the note of a fret at `place` sounds above that of the exact place, on a string of that scale.
Interval error_of_fret(Length place, Length scale, int fret);

// Circle through the ends of a chord and the top of its arc: R = c^2/(8 h) + h/2. chord, sagitta > 0.
Length radius_from_sagitta(Length chord, Length sagitta);

// h = R - sqrt(R^2 - (c/2)^2), in the form that keeps its digits for a flat arc. chord <= 2 radius.
Length sagitta_from_radius(Length chord, Length radius);

// How far the saddle must go back to bring the fretted note down by `sharp`, the open string being retuned:
// first order in sharp, L ln2/(1200 (2^(fret/12) - 1)) per cent. fret >= 1.
Length saddle_move_for(Interval sharp, Length scale, int fret);

// Height of the saddle for a change of height over a fret, the nut staying: change / (1 - 2^(-fret/12)).
Length saddle_height_for(Length change, int fret);

}  // namespace fallaway::neck
