#include "bench/model/figure.h"

namespace fallaway::model {

Figure in_unit(const metrology::Uncertain& value, std::string_view unit, Dimension dimension) {
    const Unit& named = *find_unit(unit, dimension);
    return {format_at_the_bench(value.value, value.u, named), &named, value};
}

Figure in_mm(const metrology::Uncertain& length) {
    return in_unit(length, "mm", Dimension::length);
}

Figure in_cents(const metrology::Uncertain& interval) {
    return in_unit(interval, "cents", Dimension::interval);
}

}  // namespace fallaway::model
