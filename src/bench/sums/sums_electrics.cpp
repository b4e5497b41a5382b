#include "bench/sums/formulas_electrics.h"
#include "bench/sums/themes.h"

namespace fallaway::sums {
namespace {

using enum Dimension;

constexpr const char* kUnplug =
    "Unplug the instrument and take out any battery before reading ohms; never read them in a powered circuit.";
constexpr const char* kAmplifier = "Never open a valve or mains amplifier: refer it to a licensed person.";

Input ohms(std::string name, std::string says) {
    return quantity(std::move(name), std::move(says), resistance).within(1, 20e6);
}

Sum winding_at_20() {
    return {
        .name = "winding-at-20",
        .title = "Ohms of a winding at 20 degC",
        .says =
            "Copper gains 0.39 % per kelvin: a coil warm from the hand or the iron reads high. Only readings "
            "brought "
            "to one temperature can be compared.",
        .inputs = {ohms("ohms", "reading at the coil"),
                   quantity("temperature", "of the coil, not of the room", temperature).within(253.15, 373.15)},
        .outputs = {shown("at-20", "at 20 degC", resistance, "kohm", 4)},
        .formula = "at-20 = ohms / (1 + 0.00393 (temperature - 20 degC))",
        .source = "IEC 60028:1925, annealed copper (coefficient from memory)",
        .cautions = {kUnplug, kAmplifier},
        .example = {{"ohms", "7.50 kohm \u00B1 0.05"}, {"temperature", "28 degC \u00B1 1 K"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return Outcome().put("at-20",
                                 copper_at_20(in.get<Resistance>("ohms"), in.get<Temperature>("temperature")));
        },
    };
}

Sum coil_behind_volume() {
    return {
        .name = "coil-behind-pot",
        .title = "Coil ohms behind a volume pot",
        .says =
            "What the coil itself has when it is read at the jack with the volume full up and the pickup on the "
            "outer "
            "lug of the pot.",
        .inputs = {ohms("reading", "at the jack, volume full up"), ohms("pot", "value of the volume pot")},
        .outputs = {shown("coil", "the coil alone", resistance, "kohm", 3)},
        .formula = "1 / coil = 1 / reading - 1 / pot",
        .source = "two resistances in parallel",
        .cautions =
            {"A volume pot only a little below full up makes the reading wrong by far: turn it to its stop.",
             kUnplug},
        .example = {{"reading", "7.59 kohm"}, {"pot", "500 kohm \u00B1 50 kohm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto reading = in.get<Resistance>("reading");
            const auto pot = in.get<Resistance>("pot");
            if (reading >= pot) {
                return fail("range", "reading",
                            "not below the value of the pot: the coil is open, or the wiring is another");
            }
            return Outcome().put("coil", coil_behind_pot(reading, pot));
        },
    };
}

Sum pot_from_sweep() {
    return {
        .name = "pot-from-sweep",
        .title = "Pot value from the highest reading",
        .says =
            "The value of a volume pot without opening the guitar: turn the volume slowly and note the highest "
            "ohms "
            "at the jack.",
        .inputs = {ohms("highest", "highest reading at the jack while the volume is turned"),
                   ohms("coil", "the coil alone")},
        .outputs = {shown("pot", "value of the pot", resistance, "kohm", 1)},
        .formula = "pot = 4 highest - coil, whatever the taper",
        .source = "highest value of t P ((1 - t) P + R) / (P + R) over t",
        .cautions =
            {"It holds for a pickup on the outer lug and nothing else across the pot: a treble-bleed resistor "
             "makes the pot look small.",
             kUnplug},
        .example = {{"highest", "126.9 kohm"}, {"coil", "7.7 kohm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto coil = in.get<Resistance>("coil");
            const Resistance pot = pot_from_highest(in.get<Resistance>("highest"), coil);
            if (pot < coil) {
                return fail("range", "highest",
                            "too low for a peak inside the track: the pot would be smaller than the coil");
            }
            return Outcome().put("pot", pot);
        },
    };
}

}  // namespace

std::vector<Sum> electric_sums() {
    return {winding_at_20(), coil_behind_volume(), pot_from_sweep()};
}

}  // namespace fallaway::sums
