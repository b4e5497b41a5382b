#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/base/quantity.h"
#include "science/strings/choice.h"
#include "science/strings/stiffness.h"

namespace fallaway::sums {
namespace {

using enum Dimension;
using strings::Estimate;
using strings::Wrap;

constexpr const char* kEyes = "Wear eye protection: a string under tension whips when it breaks or slips.";
constexpr const char* kSlacken = "Slacken a string before cutting it.";
constexpr const char* kWeigh =
    "Geometry knows a wound string to some percent. A cut length on a balance knows better.";
constexpr const char* kLaw = "law of the ideal string, Mersenne 1636";
constexpr double kThinnestWound = 0.0195 * 25.4e-3;  // m; thinner strings of a set are plain

Input scale_input() {
    return quantity("scale", "open length of the string", length).within(0.2, 1.2);
}
Input pitch_input() {
    return quantity("pitch", "pitch of the open string, a frequency or a note (A4 at 440 Hz)", frequency)
        .within(15, 2000)
        .or_note();
}
Input wrap_input() {
    return one_of("wrap", "what is wound on the core", {"round", "ground", "flat", "tape"}).usually("round");
}
Input core_input() {
    return one_of("core", "form of the core", {"hex", "round"}).usually("hex");
}
Input core_diameter_input() {
    return quantity("core-diameter", "of the core, hex across flats; left out: usual for the gauge", length)
        .within(0.0001, 0.003)
        .optional();
}
Input wound_gauge_input() {
    return quantity("gauge", "outer diameter of the string", length).within(0.0003, 0.006);
}

Wrap wrap_named(const std::string& word) {
    if (word == "plain") return Wrap::plain;
    if (word == "ground") return Wrap::ground;
    if (word == "flat") return Wrap::flat;
    return word == "tape" ? Wrap::tape : Wrap::round;
}

// Science names its fields with underscores, sums with hyphens.
tl::unexpected<Error> as_input(Error error) {
    if (error.path == "outer_diameter") error.path = "gauge";
    if (error.path == "core_diameter") error.path = "core-diameter";
    return tl::unexpected(std::move(error));
}

Result<strings::Body> wound_body(const Inputs& in) {
    strings::Make make;
    make.core = in.word("core") == "hex" ? strings::Core::hex : strings::Core::round;
    make.wrap = wrap_named(in.word("wrap"));
    make.outer_diameter = {in.si("gauge"), 0};
    if (in.has("core-diameter")) make.core_diameter = Estimate{in.si("core-diameter"), 0};
    return strings::body_of(make);
}

Result<Outcome> wound_mass(const Inputs& in) {
    const auto body = wound_body(in);
    if (!body) return as_input(body.error());
    return Outcome()
        .put("mass", body->mass.value, body->mass.u)
        .put("core-used", body->core_diameter.value, body->core_diameter.u)
        .put("packing", body->packing.value);
}

Sum wound_string_mass() {
    return {
        .name = "wound-string-mass",
        .title = "Mass of a wound string by its sizes",
        .says = "Mass per length of a string wound in one layer, with what geometry cannot know of it.",
        .inputs = {wound_gauge_input(), wrap_input(), core_input(), core_diameter_input()},
        .outputs = {shown("mass", "mass per length", linear_density, "g/m", 3),
                    shown("core-used", "core reckoned with", length, "mm", 3),
                    plain("packing", "of a solid rod as thick", 3)},
        .formula = "mass = core + wrap density (pi w/4) sqrt((pi (core + w))^2 + w^2), w = (gauge - core)/2",
        .source = "geometry of a helix; ground, flat and tape by stated shares, docs/strings.md",
        .cautions = {kWeigh},
        .example = {{"gauge", "0.046 in"}},
        .function = wound_mass,
    };
}

Result<Outcome> wound_tension(const Inputs& in) {
    const auto body = wound_body(in);
    if (!body) return as_input(body.error());
    const auto pull = strings::pull_of(*body, {in.si("scale"), 0}, {in.si("pitch"), 0});
    if (!pull) return tl::unexpected(pull.error());
    const Estimate t = pull->tension;
    return Outcome().put("tension", t.value, t.u).put("tension-lbf", t.value, t.u);
}

Sum wound_string_tension() {
    return {
        .name = "wound-string-tension",
        .title = "Tension of a wound string by its sizes",
        .says = "Pull of a wound string at pitch when its mass is not known.",
        .inputs = {scale_input(), pitch_input(), wound_gauge_input(), wrap_input(), core_input(),
                   core_diameter_input()},
        .outputs = {shown("tension", "pull at pitch", force, "N", 1),
                    shown("tension-lbf", "the same", force, "lbf", 2)},
        .formula = "tension = mass (2 scale pitch)^2, mass as in wound-string-mass",
        .source = kLaw,
        .cautions = {kWeigh, kEyes, kSlacken},
        .example = {{"scale", "647.7 mm"}, {"pitch", "E2"}, {"gauge", "0.046 in"}},
        .function = wound_tension,
    };
}

Result<Outcome> set_tension(const Inputs& in) {
    const auto& gauges = in.list("gauges");
    const auto& pitches = in.list("pitches");
    if (gauges.size() != pitches.size()) {
        return fail("range", "pitches",
                    fmt::format("{} values, expected {} as in gauges", pitches.size(), gauges.size()));
    }
    std::vector<strings::Pull> set;
    std::vector<double> tensions, numbers;
    for (std::size_t i = 0; i < gauges.size(); ++i) {
        const Wrap wrap = gauges[i] < kThinnestWound && in.word("wrap") != "all" ? Wrap::plain : Wrap::round;
        const auto string = strings::string_of_gauge({}, gauges[i], wrap);
        if (!string) return fail(string.error().code, "gauges", string.error().message);
        const auto body = strings::body_of(string->make);
        if (!body) return fail(body.error().code, "gauges", body.error().message);
        const auto pull = strings::pull_of(*body, {in.si("scale"), 0}, {pitches[i], 0});
        if (!pull) return fail(pull.error().code, "pitches", pull.error().message);
        set.push_back(*pull);
        tensions.push_back(pull->tension.value);
        numbers.push_back(static_cast<double>(i + 1));
    }
    const Estimate sum = strings::set_pull(set);
    return Outcome()
        .column("string", numbers)
        .column("tension", tensions)
        .put("on-neck", sum.value, sum.u)
        .put("on-neck-lbf", sum.value, sum.u);
}

Sum set_tension_sum() {
    return {
        .name = "set-tension",
        .title = "Pull of a whole set on the neck",
        .says =
            "Pull of every string of a set and of all together, by gauges alone. Strings thinner than 0.0195 in "
            "are reckoned plain, unless all are wound.",
        .inputs = {scale_input(),
                   quantities("gauges", "of the strings, thinnest first", length).within(1e-4, 6e-3),
                   quantities("pitches", "of the open strings, in the same order, parted by commas", frequency)
                       .within(15, 2000)
                       .or_note(),
                   one_of("wrap", "which strings are wound", {"thick", "all"}).usually("thick")},
        .outputs = {count_of("string", "string"), shown("tension", "pull at pitch", force, "N", 1),
                    shown("on-neck", "all strings together", force, "N", 1),
                    shown("on-neck-lbf", "the same", force, "lbf", 1)},
        .formula = "sum of mass (2 scale pitch)^2, masses as in plain-string-mass and wound-string-mass",
        .source = kLaw,
        .cautions = {kWeigh, "Another set moves the relief: read it again a day later."},
        .example = {{"scale", "647.7 mm"},
                    {"gauges", "0.010 0.013 0.017 0.026 0.036 0.046 in"},
                    {"pitches", "329.63 246.94 196.00 146.83 110.00 82.41 Hz"}},
        .function = set_tension,
    };
}

Result<Outcome> gauge_for_tension(const Inputs& in) {
    if (in.word("wrap") == "plain") {
        const auto gauge =
            strings::plain_gauge_for({in.si("tension"), 0}, {in.si("scale"), 0}, {in.si("pitch"), 0});
        return Outcome().put("gauge", gauge.value, gauge.u).put("gauge-inch", gauge.value, gauge.u);
    }
    const auto gauge = strings::wound_gauge_for(in.si("tension"), in.si("scale"), in.si("pitch"),
                                                wrap_named(in.word("wrap")), strings::Core::hex);
    if (!gauge) return tl::unexpected(gauge.error());
    return Outcome().put("gauge", *gauge).put("gauge-inch", *gauge);
}

Sum gauge_for_tension_sum() {
    return {
        .name = "gauge-for-tension",
        .title = "Gauge that pulls so much",
        .says =
            "Which gauge to put on for a wanted pull, plain or wound on a usual hex core. Buy the nearest one.",
        .inputs =
            {quantity("tension", "wanted pull", force).within(5, 1000), scale_input(), pitch_input(),
             one_of("wrap", "kind of string", {"plain", "round", "ground", "flat", "tape"}).usually("plain")},
        .outputs = {shown("gauge", "outer diameter", length, "mm", 3),
                    shown("gauge-inch", "the same", length, "in", 4)},
        .formula =
            "plain: gauge = sqrt(4 tension / (pi density)) / (2 scale pitch); wound: the gauge whose "
            "wound-string-tension it is",
        .source = kLaw,
        .cautions = {"See breaking-pitch before a plain string is tuned higher than usual.", kEyes, kSlacken},
        .example = {{"tension", "72 N"}, {"scale", "647.7 mm"}, {"pitch", "E4"}},
        .function = gauge_for_tension,
    };
}

Sum tension_after() {
    return {
        .name = "tension-after-change",
        .title = "Tension after a change of tuning or scale",
        .says = "What the same string pulls at another pitch or on another scale.",
        .inputs = {quantity("tension", "pull now", force).within(1, 1000),
                   quantity("up-by", "tuned up (+) or down (-)", interval).within(-2400, 2400).usually("0 cents"),
                   quantity("scale", "scale now", length).within(0.2, 1.2).usually("647.7 mm"),
                   quantity("new-scale", "scale then; left out: the same", length).within(0.2, 1.2).optional()},
        .outputs = {shown("tension-then", "pull then", force, "N", 1),
                    shown("change", "more (+) or less (-)", force, "N", 1)},
        .formula = "tension then = tension (new scale / scale)^2 2^(up-by / 600)",
        .source = kLaw,
        .cautions = {kEyes, "A changed pull moves the relief: tune, wait, read again."},
        .example = {{"tension", "460 N"}, {"up-by", "-2 semitones"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const double t = in.si("tension");
            const double scales = in.si_or("new-scale", in.si("scale")) / in.si("scale");
            const double then =
                strings::retuned({t, 0}, scales, in.get<Interval>("up-by").frequency_ratio()).value;
            return Outcome().put("tension-then", then).put("change", then - t);
        },
    };
}

Result<Outcome> bend(const Inputs& in) {
    strings::Make make;
    make.outer_diameter = {in.si("gauge"), 0};
    const auto body = strings::body_of(make);
    if (!body) return as_input(body.error());
    const auto pull = strings::pull_of(*body, {in.si("scale"), 0}, {in.si("pitch"), 0});
    if (!pull) return tl::unexpected(pull.error());
    const auto feel = strings::feel_of(*pull, in.si("scale"), in.whole("fret"), in.si("bend"));
    if (!feel) return fail(feel.error().code, "bend", feel.error().message);
    return Outcome()
        .put("aside", feel->aside.value, feel->aside.u)
        .put("force", feel->bend_force.value, feel->bend_force.u);
}

Sum bend_sum() {
    return {
        .name = "string-bend",
        .title = "Way and force of a bend",
        .says =
            "How far a plain steel string must be pushed aside for a bend, and how hard. The way does not depend "
            "on the gauge, the force does.",
        .inputs = {scale_input(), pitch_input(),
                   quantity("gauge", "diameter of the plain wire", length).within(0.0001, 0.003),
                   whole("fret", "fret where it is pressed").within(1, 24).usually("12"),
                   quantity("bend", "how far up", interval).within(10, 500).usually("200 cents")},
        .outputs = {shown("aside", "pushed aside", length, "mm", 1), shown("force", "then", force, "N", 1)},
        .formula = "tension and length of the string pushed aside; strain times elasticity over stress",
        .source = "geometry of the bent string; elasticity of music wire 200 GPa",
        .cautions = {"String drawn in from behind nut and saddle asks for more way than this.", kEyes},
        .example = {{"scale", "647.7 mm"}, {"pitch", "E4"}, {"gauge", "0.010 in"}},
        .function = bend,
    };
}

Sum stiffness_sum() {
    return {
        .name = "string-stiffness",
        .title = "Stiffness of a string by a sharp overtone",
        .says =
            "How stiff a string is, from how sharp one of its overtones stands. Compare old with new: a string "
            "that "
            "grew stiffer cannot be set.",
        .inputs = {quantity("sharp", "overtone above its number times the fundamental", interval).within(0, 600),
                   whole("overtone", "its number, the fundamental is 1").within(2, 60)},
        .outputs = {plain("stiffness", "B of f = n f0 sqrt(1 + B n^2)", 6)},
        .formula = "B = (r - 1) / (n^2 - r), r = 2^(sharp / 600)",
        .source = "Fletcher, J. Acoust. Soc. Am. 36 (1964) 203",
        .cautions = {},
        .example = {{"sharp", "100 cents"}, {"overtone", "10"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto b = strings::inharmonicity_from_partial(in.si("sharp"), in.whole("overtone"));
            if (!b)
                return fail(b.error().code, b.error().path == "partial" ? "overtone" : "sharp", b.error().message);
            return Outcome().put("stiffness", *b);
        },
    };
}

}  // namespace

std::vector<Sum> string_choice_sums() {
    return {wound_string_mass(),     wound_string_tension(), set_tension_sum(),
            gauge_for_tension_sum(), tension_after(),        bend_sum(),
            stiffness_sum()};
}

}  // namespace fallaway::sums
