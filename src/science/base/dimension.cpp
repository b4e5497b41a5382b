#include "science/base/dimension.h"

#include <array>

namespace fallaway {
namespace {

struct Words {
    Dimension dimension;
    std::string_view name;
    std::string_view example;
};

constexpr std::array kWords{
    Words{Dimension::length, "length", "1.60 mm"},
    Words{Dimension::frequency, "frequency", "82.4 Hz"},
    Words{Dimension::interval, "interval", "-3 cents"},
    Words{Dimension::force, "force", "0.4 N"},
    Words{Dimension::mass, "mass", "3.60 kg"},
    Words{Dimension::linear_density, "linear density", "6.8 g/m"},
    Words{Dimension::density, "density", "7850 kg/m3"},
    Words{Dimension::pressure, "pressure", "12.5 GPa"},
    Words{Dimension::resistance, "resistance", "8.42 kohm"},
    Words{Dimension::resistance_per_length, "resistance per length", "5.3 ohm/m"},
    Words{Dimension::capacitance, "capacitance", "22 nF"},
    Words{Dimension::inductance, "inductance", "3.2 H"},
    Words{Dimension::temperature, "temperature", "21.5 degC"},
    Words{Dimension::temperature_difference, "temperature difference", "3 K"},
    Words{Dimension::relative_humidity, "relative humidity", "52 %RH"},
    Words{Dimension::moisture, "moisture content", "8.5 %MC"},
    Words{Dimension::angle, "angle", "1/4 turn"},
    Words{Dimension::time, "time", "12 h"},
    Words{Dimension::ratio, "ratio", "5 %"},
    Words{Dimension::level, "level", "-6 dB"},
    Words{Dimension::count, "count", "22"},
    Words{Dimension::money, "amount of money", "980 EUR"},
};

constexpr bool in_enum_order() {
    for (std::size_t i = 0; i < kWords.size(); ++i) {
        if (kWords[i].dimension != static_cast<Dimension>(i)) return false;
    }
    return true;
}
static_assert(in_enum_order() && kWords.back().dimension == Dimension::money);

}  // namespace

std::string_view name_of(Dimension dimension) {
    return kWords.at(static_cast<std::size_t>(dimension)).name;
}

std::string_view example_of(Dimension dimension) {
    return kWords.at(static_cast<std::size_t>(dimension)).example;
}

}  // namespace fallaway
