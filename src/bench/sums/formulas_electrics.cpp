#include "bench/sums/formulas_electrics.h"

#include "science/metrology/correction.h"

namespace fallaway::sums {

Resistance copper_at_20(Resistance measured, Temperature temperature) {
    return Resistance::ohm(metrology::copper_at_20c(measured.ohm(), temperature.celsius()));
}

Resistance coil_behind_pot(Resistance reading, Resistance pot) {
    return reading / (1 - reading / pot);
}

Resistance pot_from_highest(Resistance highest, Resistance coil) {
    return 4 * highest - coil;
}

}  // namespace fallaway::sums
