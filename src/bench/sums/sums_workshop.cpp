#include <cmath>
#include <string>

#include <fmt/format.h>

#include "bench/sums/formulas_workshop.h"
#include "bench/sums/themes.h"
#include "science/base/quantity_text.h"
#include "science/neck/frets.h"
#include "science/strings/screw_thread.h"

namespace fallaway::sums {
namespace {

using enum Dimension;
using strings::Thread;
using strings::thread_named;

constexpr double kMostMove = 0.02;  // m: more than any screw of an instrument travels
constexpr int kMostFrets = 48;

Input thread_input() {
    return text("thread", "a thread such as \"M3\", \"M3x0.35\" or \"4-40\", or its pitch such as \"0.5 mm\"");
}

Output turns_output() {
    return shown("turns", "turns of the screw", angle, "turn", 2);
}

Result<Thread> thread_of(const Inputs& in) {
    auto thread = thread_named(in.word("thread"));
    if (!thread) thread.error().path = "thread";
    return thread;
}

// Adds the turns when a thread is named. `move` keeps its sign.
Result<Outcome> with_turns(Outcome out, const Inputs& in, Length move) {
    if (!in.has("thread")) return out;
    const auto thread = thread_of(in);
    if (!thread) return tl::unexpected(thread.error());
    const double turns = move / thread->pitch;
    out.put("turns", Angle::turns(turns));
    out.note(fmt::format("{}: {:.5g} mm a turn ({}).", thread->name, thread->pitch.mm(), thread->source));
    const std::string near = in_eighths(turns);
    if (!near.empty()) out.note(fmt::format("About {} turn, then read again.", near));
    return out;
}

Sum screw_turns() {
    return {
        .name = "screw-turns",
        .title = "Turns of a screw for a move",
        .says =
            "How far to turn a saddle, pickup or post screw. An unknown thread is never guessed: turn once, read "
            "the move, and give that as the pitch.",
        .inputs = {quantity("move", "wanted move along the screw", length).within(-kMostMove, kMostMove),
                   thread_input()},
        .outputs = {turns_output()},
        .formula = "turns = move / pitch",
        .source = "ISO 261:1998; ASME B1.1",
        .cautions = {"Turn in eighths and quarters, reading in between; stop when a screw turns hard."},
        .example = {{"move", "-0.40 mm"}, {"thread", "M3"}},
        .function = [](const Inputs& in) { return with_turns(Outcome(), in, in.get<Length>("move")); },
    };
}

Sum saddle_height() {
    return {
        .name = "saddle-height",
        .title = "Saddle move for a change of string height",
        .says =
            "How far a saddle must rise or sink to change the string height over a fret, nut and neck untouched.",
        .inputs = {quantity("change", "wanted change of height over the fret", length).within(-0.01, 0.01),
                   whole("fret", "fret over which the height is read").within(1, kMostFrets).usually("12"),
                   thread_input().optional()},
        .outputs = {shown("move", "saddle up (+) or down (-)", length, "mm", 3).in_unit_of("change"),
                    turns_output()},
        .formula = "move = change / (1 - 2^(-fret/12)), twice the change at fret 12",
        .source = "similar triangles",
        .cautions = {"Set relief first: 0.1 mm of relief moves the height at fret 12 by about 0.16 mm.",
                     "Bring the string to pitch again before reading."},
        .example = {{"change", "-0.20 mm"}, {"thread", "M3"}},
        .function =
            [](const Inputs& in) {
                const Length move = neck::saddle_height_for(in.get<Length>("change"), in.whole("fret"));
                return with_turns(Outcome().put("move", move), in, move);
            },
    };
}

Sum intonation_move() {
    return {
        .name = "intonation-move",
        .title = "Saddle move for a note that is sharp or flat",
        .says =
            "How far a saddle goes back when the fretted note is sharp against the open string, the string being "
            "tuned again after the move. Minus: towards the nut.",
        .inputs =
            {quantity("sharp", "fretted note above its due place; minus when flat", interval).within(-100, 100),
             quantity("scale", "open length of the string", length).within(0.2, 1.2),
             whole("fret", "fret of that note").within(1, kMostFrets).usually("12"), thread_input().optional()},
        .outputs = {shown("move", "saddle back (+) or forward (-)", length, "mm", 2), turns_output()},
        .formula = "move = sharp scale ln2 / (1200 (2^(fret/12) - 1)), first order",
        .source = "derivative of the law of the ideal string",
        .cautions = {"Slacken the string before moving its saddle, then stretch, tune and listen again.",
                     "An old or damaged string cannot be set: change it first."},
        .example = {{"sharp", "3 cents"}, {"scale", "647.7 mm"}, {"thread", "4-40"}},
        .function =
            [](const Inputs& in) {
                const Length move =
                    neck::saddle_move_for(in.get<Interval>("sharp"), in.get<Length>("scale"), in.whole("fret"));
                return with_turns(Outcome().put("move", move), in, move);
            },
    };
}

Sum length_change() {
    return {
        .name = "length-change-cents",
        .title = "What a change of length does to the pitch",
        .says =
            "Change of pitch when the sounding length changes at the same tension, for instance a saddle that has "
            "slipped forward (+, shorter) by half a millimetre.",
        .inputs = {quantity("length", "sounding length before", length).within(0.05, 1.2),
                   quantity("shorter-by", "how much it became shorter", length).within(-0.05, 0.04)},
        .outputs = {shown("change", "pitch rises by", interval, "cents", 3)},
        .formula = "change = 1200 log2(length / (length - shorter-by))",
        .source = "law of the ideal string at constant tension",
        .cautions = {},
        .example = {{"length", "648 mm"}, {"shorter-by", "0.5 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto before = in.get<Length>("length");
            return Outcome().put(
                "change", Interval::cents(1200 * std::log2(before / (before - in.get<Length>("shorter-by")))));
        },
    };
}

Sum inch_fraction() {
    return {
        .name = "inch-fraction",
        .title = "Nearest fraction of an inch",
        .says = "A length as the nearest mark of an inch rule, what that mark is worth in mm, and what was lost.",
        .inputs = {quantity("length", "any length", length).within(-10, 10).with_u(UseOfU::refused),
                   one_of("parts", "marks in an inch", {"2", "4", "8", "16", "32", "64", "128"}).usually("64")},
        .outputs = {word_of("fraction", "nearest mark"), shown("mark", "that is", length, "mm", 4),
                    shown("error", "mark minus length", length, "mm", 4),
                    shown("inches", "the length", length, "in", 4)},
        .formula = "nearest whole number of parts, in lowest terms; 1 in = 25.4 mm exactly",
        .source = "international yard and pound agreement, 1959",
        .cautions = {},
        .example = {{"length", "1.60 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto given = in.get<Length>("length");
            const InchFraction nearest = nearest_inch_fraction(given, std::stoi(in.word("parts")));
            return Outcome()
                .word("fraction", nearest.text)
                .put("mark", given + nearest.error)
                .put("error", nearest.error)
                .put("inches", given);
        },
    };
}

}  // namespace

std::vector<Sum> workshop_sums() {
    return {screw_turns(), saddle_height(), intonation_move(), length_change(), inch_fraction()};
}

}  // namespace fallaway::sums
