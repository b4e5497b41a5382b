#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/neck/headstock.h"
#include "science/neck/moves.h"
#include "science/neck/nut.h"
#include "science/neck/profile.h"
#include "science/neck/section.h"

namespace fallaway::sums {
namespace {

using enum Dimension;

constexpr int kMostFrets = 36;
constexpr int kMostStrings = 12;

Input scale_input() {
    return quantity("scale", "open length of the string, nut to saddle, without compensation", length)
        .within(0.2, 1.2)
        .usually("648 mm");
}

Input span_input(const char* name, const char* says) {
    return quantity(name, says, length).within(0.005, 0.15);
}

Input joint_input() {
    return whole("joint", "fret at the neck joint").within(8, kMostFrets).usually("16");
}

std::vector<double> counted(std::size_t n) {
    std::vector<double> numbers;
    for (std::size_t i = 1; i <= n; ++i) numbers.push_back(static_cast<double>(i));
    return numbers;
}

// One string along the centre line of a flat board.
neck::Layout plain_neck(double scale, int frets, double joint) {
    neck::Layout layout{.strings = {{.scale = scale}}, .frets = frets, .joint_fret = joint};
    layout.board.x_end = neck::fret_place(layout, 0, frets);
    return layout;
}

Result<Outcome> nut_file_depth(const Inputs& in) {
    const neck::Layout layout = plain_neck(in.si("scale"), 22, 16);
    const neck::ProfileShapes shapes(layout);
    const double relief = in.si("relief");
    const auto profile = [&](double x) { return relief * shapes.at(x).bow; };
    const neck::CrownLine crowns = neck::crowns_under(layout, 0, profile);
    const int held = in.whole("held");
    const double zero = neck::gap_at_zero_fret(crowns, neck::zero_fret_height(layout, 0, profile(0)), held, 1);
    const metrology::Uncertain excess =
        neck::excess_when_held({in.si("gap"), in.u("gap")}, {zero, 0}, crowns, held, 1);
    const neck::FilePlan plan = neck::file_plan(excess, in.si("target"));
    Outcome out;
    out.put("excess", excess.value, excess.u).put("depth", plan.depth, excess.u).put("left", plan.left, excess.u);
    if (!plan.passes.empty()) out.column("pass", counted(plan.passes.size())).column("take", plan.passes);
    if (plan.depth <= 0) {
        out.note(
            "The slot is as low as wanted or lower: do not file. Below 0 fill it, or put a shim under the nut.");
    } else if (plan.passes.empty()) {
        out.note("What is too high is less than the reading can tell or a file can take: leave it.");
    }
    return out;
}

Sum nut_depth() {
    return {
        .name = "nut-file-depth",
        .title = "How deep to file a nut slot",
        .says =
            "How much a slot stands over the height of a zero-fret, from the gap over fret 1 with the string held "
            "down between frets 2 and 3 (held 2) or 3 and 4 (held 3), and in what passes to file it.",
        .inputs = {quantity("gap", "gap over fret 1", length).within(0, 0.002).with_u(UseOfU::used),
                   whole("held", "fret that the string rests on").within(2, 3).usually("2"),
                   quantity("target", "height over a zero-fret that you want to leave", length)
                       .within(0, 0.0005)
                       .usually("0.03 mm")
                       .with_u(UseOfU::refused),
                   quantity("relief", "relief of the neck", length)
                       .within(-0.002, 0.002)
                       .usually("0.2 mm")
                       .with_u(UseOfU::refused),
                   scale_input().with_u(UseOfU::refused)},
        .outputs = {shown("excess", "slot over a zero-fret", length, "mm", 3).in_unit_of("gap"),
                    shown("depth", "to take off in all", length, "mm", 3).in_unit_of("gap"),
                    shown("left", "of that not to file on this reading", length, "mm", 3).in_unit_of("gap"),
                    count_of("pass", "pass"), shown("take", "file so much, then read", length, "mm", 3)},
        .formula =
            "excess = (gap - gap that the relief makes) x_held / (x_held - x_1); a pass is half of what is left "
            "above twice its uncertainty, at most 0.15 mm, at most 0.03 mm in the last tenth",
        .source = "similar triangles; passes: common practice, no source",
        .cautions = {"File the slots last, after relief and saddles, string at pitch at every reading.",
                     "What is filed off does not come back. Read again after every pass.",
                     "File dust of bone and shell is bad for the lungs: wear a mask or file wet."},
        .example = {{"gap", "0.13 mm \u00B1 0.01"}},
        .function = nut_file_depth,
    };
}

Result<Outcome> nut_places(const Inputs& in) {
    const std::vector<double>& gauges = in.list("gauges");
    if (gauges.size() > kMostStrings) {
        return fail("range", "gauges", fmt::format("{} strings: expected 2 to {}", gauges.size(), kMostStrings));
    }
    const auto slots = neck::equal_gaps(in.si("span"), gauges);
    if (!slots) {
        return fail(slots.error().code, slots.error().path == "span" ? "span" : "gauges", slots.error().message);
    }
    return Outcome()
        .put("gap", slots->gap)
        .column("string", counted(gauges.size()))
        .column("equal-gaps", slots->places)
        .column("equal-centres", neck::equal_centres(in.si("span"), static_cast<int>(gauges.size())));
}

Sum nut_layout() {
    return {
        .name = "nut-layout",
        .title = "Slots across the nut",
        .says =
            "Where the middle of every slot lies, from the first string's: with the same air between all strings, "
            "and with the same pitch.",
        .inputs = {span_input("span", "first to last string, middle to middle"),
                   quantities("gauges", "gauges as they lie, bass first", length).within(0.0001, 0.005)},
        .outputs = {shown("gap", "air between neighbours", length, "mm", 3).in_unit_of("span"),
                    count_of("string", "string"),
                    shown("equal-gaps", "from the first, equal air", length, "mm", 3).in_unit_of("span"),
                    shown("equal-centres", "from the first, equal pitch", length, "mm", 3).in_unit_of("span")},
        .formula = "gap = (span + (d_1 + d_n)/2 - sum of d) / (n - 1); place + d/2 + gap + next d/2",
        .source = "geometry",
        .cautions = {"Measure every place from the same edge: errors then do not add up."},
        .example = {{"span", "35.5 mm"}, {"gauges", "0.046 0.036 0.026 0.017 0.013 0.010 in"}},
        .function = nut_places,
    };
}

Result<Outcome> zero_fret_arc(const Inputs& in) {
    const double span = in.si("span");
    const double radius = in.si("radius");
    const int strings = in.whole("strings");
    if (span > 2 * radius) return fail("range", "span", "wider than the whole circle");
    const std::vector<double> places = neck::equal_centres(span, strings);
    std::vector<double> drop;
    for (const double place : places)
        drop.push_back(neck::zero_fret_drop(place - span / 2, radius, in.si("crown")));
    return Outcome()
        .put("top-radius", radius + in.si("crown"))
        .column("string", counted(drop.size()))
        .column("drop", drop);
}

Sum zero_arc() {
    return {
        .name = "zero-fret-arc",
        .title = "Arc of the slots at zero-fret height",
        .says =
            "How far each string at the nut lies under the top of the arc of a fret on this board, for a gauge or "
            "a "
            "strip to file down to. The height of the frets hardly matters: one gauge serves every wire.",
        .inputs =
            {quantity("radius", "board radius at the nut", length).within(0.05, 3),
             span_input("span", "first to last string, middle to middle"),
             whole("strings", "how many strings, equally spaced").within(2, kMostStrings).usually("6"),
             quantity("crown", "height of the frets over the board", length).within(0, 0.003).usually("1.1 mm")},
        .outputs = {shown("top-radius", "over the frets", length, "mm", 1), count_of("string", "string"),
                    shown("drop", "under the top of the arc", length, "mm", 3)},
        .formula = "drop = R - sqrt(R^2 - y^2), R = board radius + fret height",
        .source = "geometry of the circle",
        .cautions = {},
        .example = {{"radius", "12 in"}, {"span", "35.5 mm"}},
        .function = zero_fret_arc,
    };
}

Result<Outcome> saddle_arc(const Inputs& in) {
    const int strings = in.whole("strings");
    neck::Layout layout = plain_neck(in.si("scale"), 22, 16);
    layout.board.radius_nut = in.si("radius");
    layout.board.radius_end = in.has("radius-end") ? in.si("radius-end") : in.si("radius");
    const neck::StringLine line = layout.strings.front();
    layout.strings.clear();
    std::vector<double> action;
    for (int i = 0; i < strings; ++i) {
        const double across = static_cast<double>(i) / (strings - 1);  // 0 the thinnest, 1 the thickest
        layout.strings.push_back({.y_nut = (0.5 - across) * in.si("span-nut"),
                                  .y_saddle = (0.5 - across) * in.si("span-saddle"),
                                  .scale = line.scale});
        action.push_back(across * in.si("bass-higher"));
    }
    const int fret = in.whole("fret");
    const auto arc = neck::saddle_arc(layout, fret, action);
    const auto even = neck::saddle_arc(layout, fret);
    if (!arc || !even || !std::isfinite(even->drop.front())) {
        return fail("range", "span-saddle", "the strings lie wider than the whole circle of the board");
    }
    return Outcome()
        .put("radius-of-saddle", even->radius.front())
        .column("string", counted(arc->drop.size()))
        .column("drop", arc->drop);
}

Sum saddle_heights() {
    return {
        .name = "saddle-arc",
        .title = "Arc of the saddles",
        .says =
            "How far the underside of each string at its saddle lies under the top of the arc, so that all have "
            "the "
            "same height over a fret, or a height that rises from treble to bass. The arc is flatter than the "
            "board.",
        .inputs = {quantity("radius", "board radius at the nut", length).within(0.05, 3),
                   quantity("radius-end", "at the last fret (22), of a compound board", length)
                       .within(0.05, 3)
                       .optional(),
                   span_input("span-nut", "first to last string at the nut"),
                   span_input("span-saddle", "the same at the saddles"),
                   whole("strings", "how many strings, equally spaced").within(2, kMostStrings).usually("6"),
                   quantity("bass-higher", "how much higher the last string is to be than the first", length)
                       .within(-0.003, 0.003)
                       .usually("0 mm"),
                   whole("fret", "fret over which heights are meant").within(5, 22).usually("12"), scale_input()},
        .outputs = {shown("radius-of-saddle", "of the outer strings, all heights equal", length, "mm", 1),
                    count_of("string", "string, 1 the thinnest"),
                    shown("drop", "under the top of the arc; above it when minus", length, "mm", 3)},
        .formula =
            "drop = [S(y_fret) - (1 - l) S(y_nut) - (height - mean)] / l, S = R - sqrt(R^2 - y^2), "
            "l = x_fret / scale",
        .source = "geometry; slots at the nut follow the board",
        .cautions = {},
        .example = {{"radius", "9.5 in"}, {"span-nut", "35.5 mm"}, {"span-saddle", "52.4 mm"}},
        .function = saddle_arc,
    };
}

Result<Outcome> neck_shim(const Inputs& in) {
    const neck::Layout layout = plain_neck(in.si("scale"), 22, in.si("joint"));
    const double reach = in.si("scale") - neck::centre_place_of_joint(layout);
    const double wedge = neck::wedge_for(in.si("lower"), in.si("pocket"), reach);
    return Outcome()
        .put("wedge", std::abs(wedge))
        .word("thick-edge", wedge < 0 ? "towards the nut" : "towards the bridge")
        .put("angle", std::abs(wedge) / in.si("pocket"));
}

Sum shim() {
    return {
        .name = "neck-shim",
        .title = "Wedge under a bolted neck",
        .says =
            "The wedge that does for the strings what saddles could not: tips the neck so that the strings come "
            "down "
            "as if every saddle were lower by so much.",
        .inputs =
            {quantity("lower", "how much lower the saddles would have to go; minus: higher", length)
                 .within(-0.01, 0.01),
             quantity("pocket", "length of the pocket along the neck", length).within(0.02, 0.2).usually("75 mm"),
             joint_input(), scale_input()},
        .outputs = {shown("wedge", "thickness of the thick edge, the other nothing", length, "mm", 2),
                    word_of("thick-edge", "it lies"), shown("angle", "of the wedge", angle, "deg", 3)},
        .formula = "wedge = lower pocket / (scale (2^(-joint/12))), turning about the joint",
        .source = "similar triangles",
        .cautions = {"Fill the whole pocket with the wedge: a strip at one end lets the neck bend there.",
                     "Slacken the strings and take the neck screws out evenly.",
                     "Read the gaps to the pickups afterwards."},
        .example = {{"lower", "0.86 mm"}},
        .function = neck_shim,
    };
}

Result<Outcome> relief_and_action(const Inputs& in) {
    const int fret = in.whole("fret");
    const int last = in.whole("last");
    if (fret > last) return fail("range", "fret", fmt::format("lies past the last fret, {}", last));
    const neck::MoveMap map(plain_neck(in.si("scale"), last, in.si("joint")));
    const neck::Moves rod{.relief = in.si("change")};
    return Outcome()
        .put("height-change", map.open_height(rod, 0, fret))
        .put("saddle-to-keep", map.saddle_to_keep(rod, 0, fret));
}

Sum relief_moves() {
    return {
        .name = "relief-and-action",
        .title = "What a change of relief does to string height",
        .says =
            "The neck's end rises as relief grows, so the strings rise over all frets. Relief first, saddles "
            "after.",
        .inputs = {quantity("change", "change of relief, more is +", length).within(-0.002, 0.002),
                   whole("fret", "fret over which the height is read").within(1, kMostFrets).usually("12"),
                   joint_input(), whole("last", "last fret").within(12, kMostFrets).usually("22"), scale_input()},
        .outputs =
            {shown("height-change", "of the open string over that fret", length, "mm", 3).in_unit_of("change"),
             shown("saddle-to-keep", "saddle move that takes it back", length, "mm", 3).in_unit_of("change")},
        .formula = "bending of a tapered half-ellipse neck, clamped at its joint, under an even moment",
        .source = "beam theory; dimensions of a usual neck",
        .cautions = {"Every neck has its own factor: read both before and after one turn and trust that more.",
                     "Up to a quarter turn, tune, read; read again next day."},
        .example = {{"change", "-0.10 mm"}},
        .function = relief_and_action,
    };
}

Sum hang_up() {
    return {
        .name = "string-hang-up",
        .title = "How much a string can hang in the nut",
        .says =
            "How far the pitch may stand off after a bend or a turn of the tuner, before friction in the slot "
            "lets go. "
            "It grows with the whole turn of the string, down and aside.",
        .inputs = {quantity("drop", "how much lower the string leaves at the post or tree", length).within(0, 0.1),
                   quantity("aside", "how far aside it leaves", length).within(-0.1, 0.1).usually("0 mm"),
                   quantity("run", "distance along the head to there", length).within(0.002, 0.4),
                   number("friction", "friction in the slot: 0.1 slippery, 0.2 usual, 0.3 dry")
                       .within(0, 1)
                       .usually("0.2")},
        .outputs = {shown("turn", "whole turn of the string", angle, "deg", 2),
                    shown("hang-up", "it may stand off by up to", interval, "cents", 1)},
        .formula = "turn = atan(sqrt(drop^2 + aside^2) / run); hang-up = 600 friction turn / ln 2",
        .source =
            "friction of a rope on a post (capstan); pitch as the root of tension; friction figures: common "
            "practice, no source",
        .cautions = {},
        .example = {{"drop", "8 mm"}, {"run", "40 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const double turn = neck::turning_angle(in.si("drop"), in.si("run"), in.si("aside"));
            return Outcome().put("turn", turn).put("hang-up", neck::hang_up_cents(in.si("friction"), turn));
        },
    };
}

Sum wraps() {
    return {
        .name = "post-wraps",
        .title = "Wraps on a post for a break angle",
        .says = "How many wraps down the post bring the string low enough behind the nut.",
        .inputs = {quantity("angle", "wanted break angle", angle).within(0, 0.8).usually("8 deg"),
                   quantity("run", "distance along the head from nut to post", length).within(0.002, 0.4),
                   quantity("drop-at-first", "how much lower than the slot the first wrap leaves", length)
                       .within(-0.02, 0.05),
                   quantity("gauge", "diameter of the string", length).within(0.0001, 0.005)},
        .outputs = {shown("drop", "the string must leave so much lower", length, "mm", 2),
                    plain("wraps", "wraps past the first", 1)},
        .formula = "drop = run tan(angle); wraps = (drop - drop at first) / gauge, none below 0",
        .source = "similar triangles; wraps lie close, each under the one before",
        .cautions = {"Too many wraps creep: two to four are usual."},
        .example = {{"run", "60 mm"}, {"drop-at-first", "7.5 mm"}, {"gauge", "0.017 in"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const double drop = neck::drop_for(in.si("angle"), in.si("run"));
            return Outcome()
                .put("drop", drop)
                .put("wraps", neck::wraps_for(drop, in.si("drop-at-first"), in.si("gauge")));
        },
    };
}

}  // namespace

std::vector<Sum> setup_sums() {
    return {nut_depth(), nut_layout(), zero_arc(), saddle_heights(), relief_moves(), shim(), hang_up(), wraps()};
}

}  // namespace fallaway::sums
