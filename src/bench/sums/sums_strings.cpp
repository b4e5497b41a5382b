#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/strings/ideal.h"

namespace fallaway::sums {
namespace {

using enum Dimension;
using namespace strings;

constexpr const char* kEyes = "Wear eye protection: a string under tension whips when it breaks or slips.";
constexpr const char* kSlacken = "Slacken a string before cutting it.";
constexpr const char* kEdges =
    "A wire bent round an edge gives way there first: windings, saddle and ball end break below this figure.";

Input scale_input() {
    return quantity("scale", "open length of the string", length).within(0.2, 1.2);
}
Input pitch_input() {
    return quantity("pitch", "pitch of the open string, a frequency or a note (A4 at 440 Hz)", frequency)
        .within(15, 2000)
        .or_note();
}
Input gauge_input() {
    return quantity("gauge", "diameter of the plain wire", length).within(0.0001, 0.003);
}
Input density_input() {
    return quantity("density", "of the wire; music wire 7800 to 7850 kg/m3", density)
        .within(500, 22000)
        .usually("7850 kg/m3");
}

Outcome with_tension(Force tension) {
    return Outcome().put("tension", tension).put("tension-lbf", tension).put("tension-kgf", tension);
}

std::vector<Output> tension_outputs() {
    return {shown("tension", "pull at pitch", force, "N", 1), shown("tension-lbf", "the same", force, "lbf", 2),
            shown("tension-kgf", "the same", force, "kgf", 3)};
}

Sum plain_mass() {
    return {
        .name = "plain-string-mass",
        .title = "Mass of a plain string by its gauge",
        .says = "Mass per length of a plain wire. A wound string cannot be had this way: weigh a cut length.",
        .inputs = {gauge_input(), density_input()},
        .outputs = {shown("mass", "mass per length", linear_density, "g/m", 4)},
        .formula = "mass = density pi gauge^2 / 4",
        .source = "geometry of the cylinder",
        .cautions = {},
        .example = {{"gauge", "0.010 in"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return Outcome().put("mass", plain_density(in.get<Length>("gauge"), in.get<Density>("density")));
        },
    };
}

Sum plain_tension() {
    return {
        .name = "plain-string-tension",
        .title = "Tension of a plain string",
        .says = "Pull of a plain wire at pitch.",
        .inputs = {scale_input(), pitch_input(), gauge_input(), density_input()},
        .outputs = tension_outputs(),
        .formula = "tension = density (pi gauge^2 / 4) (2 scale pitch)^2",
        .source = "law of the ideal string, Mersenne 1636",
        .cautions = {kEyes, kSlacken},
        .example = {{"scale", "647.7 mm"}, {"pitch", "E4"}, {"gauge", "0.010 in"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const LinearDensity mass = plain_density(in.get<Length>("gauge"), in.get<Density>("density"));
            return with_tension(string_tension(mass, in.get<Length>("scale"), in.get<Frequency>("pitch")));
        },
    };
}

Sum tension_by_mass() {
    return {
        .name = "string-tension",
        .title = "Tension of any string by its mass",
        .says = "Pull of a string at pitch, wound or plain, from its mass per length.",
        .inputs = {scale_input(), pitch_input(),
                   quantity("mass", "mass per length", linear_density).within(1e-5, 0.1)},
        .outputs = tension_outputs(),
        .formula = "tension = mass (2 scale pitch)^2",
        .source = "law of the ideal string, Mersenne 1636",
        .cautions = {kEyes, kSlacken},
        .example = {{"scale", "864 mm"}, {"pitch", "E1"}, {"mass", "35.4 g/m"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return with_tension(string_tension(in.get<LinearDensity>("mass"), in.get<Length>("scale"),
                                               in.get<Frequency>("pitch")));
        },
    };
}

Result<Outcome> stress(const Inputs& in) {
    const auto scale = in.get<Length>("scale");
    const auto pitch = in.get<Frequency>("pitch");
    const auto density = in.get<Density>("density");
    const auto strength = music_wire_strength(in.get<Length>("gauge"));
    if (!strength) return fail("range", "gauge", "the table of music wire runs from 0.008 in to 0.026 in");
    const Pressure pull = plain_stress(density, scale, pitch);
    const Frequency highest = pitch_at_stress(*strength, density, scale);
    Outcome out;
    out.put("stress", pull)
        .put("strength", *strength)
        .put("share", pull / *strength)
        .put("breaking-pitch", highest)
        .put("room-above", Interval::between(highest, pitch));
    if (pull > *strength) out.note("Above the least strength of the wire: do not tune up to this pitch.");
    return out;
}

Sum breaking_pitch() {
    return {
        .name = "breaking-pitch",
        .title = "How near a plain string is to breaking",
        .says =
            "Stress of a plain steel string at pitch against the least strength of music wire, and the pitch at "
            "which it would be reached. Bends and tuning slips must fit into the room above.",
        .inputs = {scale_input(), pitch_input(), gauge_input().within(0.0002, 0.0007), density_input()},
        .outputs = {shown("stress", "stress at pitch", pressure, "MPa", 0),
                    shown("strength", "least strength of the wire", pressure, "MPa", 0),
                    percent("share", "stress of strength"),
                    shown("breaking-pitch", "pitch at which it may break", frequency, "Hz", 1),
                    shown("room-above", "that is above the pitch by", interval, "semitones", 2)},
        .formula = "stress = density (2 scale pitch)^2; breaking pitch = sqrt(strength / density) / (2 scale)",
        .source = "ideal string; least strength: ASTM A228 as reprinted by a wire maker",
        .cautions = {kEyes, kEdges, kSlacken},
        .example = {{"scale", "647.7 mm"}, {"pitch", "E4"}, {"gauge", "0.010 in"}},
        .function = stress,
    };
}

Sum sag() {
    return {
        .name = "lying-string-sag",
        .title = "Sag of a lying string",
        .says =
            "How far a string hangs below its straight line when the instrument lies flat. Add it to a height "
            "read "
            "on the bench to have the height in playing position; it matters on basses.",
        .inputs = {pitch_input()},
        .outputs = {shown("sag", "sag in the middle", length, "mm", 4)},
        .formula = "sag = g / (32 pitch^2), whatever gauge, tension and scale",
        .source = "parabola of an evenly loaded string, sag = mass g scale^2 / (8 tension)",
        .cautions = {},
        .example = {{"pitch", "E1"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return Outcome().put("sag", lying_sag(in.get<Frequency>("pitch")));
        },
    };
}

Sum nut_force() {
    return {
        .name = "break-angle",
        .title = "Break angle and force on the nut",
        .says =
            "Angle of the string behind the nut and how hard it presses into its slot. It holds for a saddle too.",
        .inputs = {quantity("drop", "how much lower the string leaves at the post", length).within(0, 0.1),
                   quantity("run", "distance along the head from nut to post", length).within(0.002, 0.4),
                   quantity("tension", "tension of the string", force).within(1, 1000)},
        .outputs = {shown("angle", "break angle", Dimension::angle, "deg", 2),
                    shown("force", "force on the nut", force, "N", 2)},
        .formula = "angle = atan(drop / run); force = 2 tension sin(angle / 2), friction left out",
        .source = "balance of two equal pulls",
        .cautions = {"Slacken the string before lifting it out of its slot."},
        .example = {{"drop", "8 mm"}, {"run", "40 mm"}, {"tension", "72.1 N"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const Angle turn = break_angle(in.get<Length>("drop"), in.get<Length>("run"));
            return Outcome().put("angle", turn).put("force", force_on_bearing(in.get<Force>("tension"), turn));
        },
    };
}

}  // namespace

std::vector<Sum> string_sums() {
    return {plain_mass(), plain_tension(), tension_by_mass(), breaking_pitch(), sag(), nut_force()};
}

}  // namespace fallaway::sums
