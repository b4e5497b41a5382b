// Direct-current readings of a passive guitar circuit.
#pragma once

#include "science/base/quantity.h"

namespace fallaway::sums {

// R20 = R / (1 + 0.00393 (t - 20 degC)), annealed copper: IEC 60028:1925.
Resistance copper_at_20(Resistance measured, Temperature temperature);

// The coil on the outer lug of a volume pot at its full end stands in parallel with the whole track:
// 1/coil = 1/reading - 1/pot. reading < pot.
Resistance coil_behind_pot(Resistance reading, Resistance pot);

// A coil R on the outer lug, volume turned: the reading is t P ((1 - t) P + R)/(P + R), whose highest value is
// (P + R)/4 at any taper, so P = 4 highest - R. Holds while the peak lies inside the track, R <= P.
Resistance pot_from_highest(Resistance highest, Resistance coil);

}  // namespace fallaway::sums
