#include <vector>

#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/neck/frets.h"
#include "science/neck/relief.h"

namespace fallaway::sums {
namespace {

using enum Dimension;
using neck::fret_place;

constexpr double kShortestScale = 0.2;  // m: a soprano ukulele has 330 mm, half of it is a slip of the unit
constexpr double kLongestScale = 1.2;   // m: a double bass
constexpr int kMostFrets = 48;

Input scale_input() {
    return quantity("scale", "open length of the string, nut to saddle, without compensation", length)
        .within(kShortestScale, kLongestScale);
}

Result<Outcome> places(const Inputs& in) {
    const auto scale = in.get<Length>("scale");
    std::vector<double> fret;
    std::vector<double> place;
    std::vector<double> gap;
    for (int k = 1; k <= in.whole("frets"); ++k) {
        fret.push_back(k);
        place.push_back(fret_place(scale, k).si());
        gap.push_back((fret_place(scale, k) - fret_place(scale, k - 1)).si());
    }
    Outcome out;
    out.column("fret", fret).column("place", place).column("gap", gap);
    if (in.has("divisor")) {
        const double divisor = in.si("divisor");
        std::vector<double> by_rule;
        std::vector<double> cents;
        for (int k = 1; k <= in.whole("frets"); ++k) {
            const Length old_place = neck::fret_place_by_divisor(scale, k, divisor);
            by_rule.push_back(old_place.si());
            cents.push_back(neck::error_of_fret(old_place, scale, k).si());
        }
        out.column("place-by-rule", by_rule).column("rule-error", cents);
        out.note(fmt::format("The exact divisor is 17.817154; {:g} is the one asked for.", divisor));
    }
    return out;
}

Sum fret_places() {
    return {
        .name = "fret-places",
        .title = "Fret places",
        .says =
            "Where every fret stands. Measure each place from the nut, never from fret to fret: errors then do "
            "not add up. With a divisor it shows what an old workshop rule would have done.",
        .inputs = {scale_input(), whole("frets", "how many frets").within(1, kMostFrets).usually("22"),
                   number("divisor", "an old rule to compare with, such as 18")
                       .within(10, 30)
                       .optional()
                       .with_u(UseOfU::refused)},
        .outputs = {count_of("fret", "fret"), shown("place", "from the nut", length, "mm", 3).in_unit_of("scale"),
                    shown("gap", "from the fret before", length, "mm", 3).in_unit_of("scale"),
                    shown("place-by-rule", "by the old rule", length, "mm", 3).in_unit_of("scale"),
                    shown("rule-error", "its note is off by", interval, "cents", 2)},
        .formula = "place = scale (1 - 2^(-fret/12)); old rule: place = scale (1 - (1 - 1/divisor)^fret)",
        .source = "twelve-tone equal temperament, by definition",
        .cautions = {"Saw one slot in scrap and measure it before the board: a slot cannot be moved."},
        .example = {{"scale", "647.7 mm"}, {"frets", "12"}},
        .function = places,
    };
}

Sum scale_from_last_fret() {
    return {
        .name = "scale-from-fret",
        .title = "Scale from the last fret",
        .says =
            "The scale of a finished instrument. There is no end mark at a compensated saddle, so measure from "
            "the "
            "nut to a high fret: the last one gives the smallest error.",
        .inputs = {quantity("place", "front of the nut to the crown of the fret", length).within(0.01, 1.1),
                   whole("fret", "number of that fret").within(1, kMostFrets)},
        .outputs = {shown("scale", "open length, without compensation", length, "mm", 2).in_unit_of("place"),
                    plain("error-grows", "an error of the place grows by this factor", 2)},
        .formula = "scale = place / (1 - 2^(-fret/12))",
        .source = "twelve-tone equal temperament, by definition",
        .cautions = {"A nut moved forward for intonation makes the scale read short by about as much."},
        .example = {{"place", "465.9 mm \u00B1 0.3 mm"}, {"fret", "22"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const Length scale = neck::scale_from_fret(in.get<Length>("place"), in.whole("fret"));
            return Outcome().put("scale", scale).put("error-grows", scale / in.get<Length>("place"));
        },
    };
}

Sum radius() {
    return {
        .name = "radius-from-sagitta",
        .title = "Radius from the height of an arc",
        .says =
            "Fingerboard or saddle radius from a straight bridge of known width and the height of the arc in its "
            "middle, by a dial indicator or a depth gauge.",
        .inputs = {quantity("chord", "width between the two feet", length).within(0.005, 0.2),
                   quantity("sagitta", "height of the arc in the middle", length).between(0, 0.05)},
        .outputs = {shown("radius", "of the circle", length, "mm", 1),
                    shown("radius-inch", "the same", length, "in", 2)},
        .formula = "radius = chord^2 / (8 sagitta) + sagitta / 2",
        .source = "geometry of the circle",
        .cautions = {},
        .example = {{"chord", "40 mm"}, {"sagitta", "0.66 mm \u00B1 0.01 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto chord = in.get<Length>("chord");
            const auto sagitta = in.get<Length>("sagitta");
            if (sagitta > chord / 2) {
                return fail("range", "sagitta", "higher than half the chord: that is more than half a circle");
            }
            const Length r = neck::radius_from_sagitta(chord, sagitta);
            return Outcome().put("radius", r).put("radius-inch", r);
        },
    };
}

Sum sagitta() {
    return {
        .name = "sagitta-from-radius",
        .title = "Height of an arc from its radius",
        .says =
            "What a dial indicator should read in the middle of a bridge of known width on a board of that "
            "radius.",
        .inputs = {quantity("chord", "width between the two feet", length).within(0.005, 0.2),
                   quantity("radius", "radius", length).within(0.02, 3)},
        .outputs = {shown("sagitta", "height of the arc", length, "mm", 3)},
        .formula = "sagitta = radius - sqrt(radius^2 - (chord/2)^2)",
        .source = "geometry of the circle",
        .cautions = {},
        .example = {{"chord", "52 mm"}, {"radius", "9.5 in"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto chord = in.get<Length>("chord");
            const auto r = in.get<Length>("radius");
            if (chord > 2 * r) return fail("range", "chord", "wider than the whole circle");
            return Outcome().put("sagitta", neck::sagitta_from_radius(chord, r));
        },
    };
}

Result<Outcome> convert_relief(const Inputs& in) {
    const int held = in.whole("held");
    const neck::Layout board{.strings = {{.scale = 1}}, .frets = in.whole("last"), .joint_fret = in.si("joint")};
    const int over =
        in.has("over") ? in.whole("over") : neck::deepest_fret(board, 1, held, neck::ReliefShape::even_curve);
    if (over >= held) return fail("range", "over", "must lie between fret 1 and the fret held down");
    const auto ratio = [&](neck::ReliefShape shape) { return neck::relief_ratio(board, {1, over, held}, shape); };
    const double even = ratio(neck::ReliefShape::even_curve);
    return Outcome()
        .put("relief", in.get<Length>("reading") / even)
        .put("relief-as-bent", in.get<Length>("reading") / ratio(neck::ReliefShape::beam))
        .put("over-fret", over)
        .put("ratio", even)
        .note(fmt::format("Capo at fret 1, held at fret {}, read over fret {}.", held, over));
}

Sum relief_reading() {
    return {
        .name = "relief-reading",
        .title = "Relief held at another fret",
        .says =
            "Makes relief readings comparable that were taken with the string held at different frets: the dip in "
            "the middle of the line from fret 1 to the last fret, for a neck of even curve, and the deepest dip "
            "under "
            "it for one that bends up to its joint and is straight past it.",
        .inputs = {quantity("reading", "gap under the string, capo at fret 1", length).within(-0.005, 0.005),
                   whole("held", "fret where the string was held down").within(3, kMostFrets),
                   whole("over", "fret over which the gap was read; left out: where it is deepest")
                       .within(2, kMostFrets)
                       .optional(),
                   whole("last", "last fret of the line to compare on").within(3, kMostFrets).usually("22"),
                   whole("joint", "fret at the neck joint").within(8, kMostFrets).usually("16")},
        .outputs =
            {shown("relief", "relief on that line, neck of even curve", length, "mm", 3).in_unit_of("reading"),
             shown("relief-as-bent", "the same, bent up to the joint", length, "mm", 3).in_unit_of("reading"),
             count_of("over-fret", "read over fret"), plain("ratio", "reading to relief", 4)},
        .formula =
            "even curve: relief = reading (x_last - x_1)^2 / (4 (x_over - x_1)(x_held - x_over)), x_k = 1 - "
            "2^(-k/12); "
            "bent: the curve of a tapered beam that the strings pull, clamped at the joint",
        .source = "geometry of an arc; bending of beams; common practice, no source for the choice of frets",
        .cautions =
            {"The two shapes lie up to a tenth of the relief apart. Write down where the string was held."},
        .example = {{"reading", "0.15 mm"}, {"held", "17"}},
        .function = convert_relief,
    };
}

}  // namespace

std::vector<Sum> fret_sums() {
    return {fret_places(), scale_from_last_fret(), radius(), sagitta(), relief_reading()};
}

}  // namespace fallaway::sums
