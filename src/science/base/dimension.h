// The kinds of quantity a bench deals in. Two kinds with the same SI unit stay apart when mixing them
// would be a mistake: a temperature is not a temperature difference, a humidity is not a plain ratio.
#pragma once

#include <cstdint>
#include <string_view>

namespace fallaway {

enum class Dimension : std::uint8_t {
    length,                  // m
    frequency,               // Hz
    interval,                // cents (1200 to the octave)
    force,                   // N
    mass,                    // kg
    linear_density,          // kg/m
    density,                 // kg/m^3
    pressure,                // Pa (stress, elastic modulus)
    resistance,              // ohm
    resistance_per_length,   // ohm/m
    capacitance,             // F
    inductance,              // H
    temperature,             // K, absolute
    temperature_difference,  // K
    relative_humidity,       // fraction 0..1
    moisture,                // fraction of dry mass
    angle,                   // rad; a turn is 2 pi rad
    time,                    // s
    ratio,                   // fraction; percent at the edge
    level,                   // dB
    count,                   // whole number
    money,                   // in the currency written with it; a bench file uses one currency
};

// "length", "temperature difference", ...: as errors and documents say it.
std::string_view name_of(Dimension dimension);

// A text that would be accepted, for error messages: "1.60 mm", "82.4 Hz", "-3 cents".
std::string_view example_of(Dimension dimension);

}  // namespace fallaway
