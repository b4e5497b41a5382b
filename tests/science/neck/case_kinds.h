// The kinds of case about a neck: each takes what is given and answers with everything it can say, in SI.
#pragma once

#include <functional>
#include <map>
#include <string>

#include "case_units.h"
#include "instrument.h"
#include "science/neck/beam.h"
#include "science/neck/frets.h"
#include "science/neck/headstock.h"
#include "science/neck/heights.h"
#include "science/neck/moves.h"
#include "science/neck/nut.h"
#include "science/neck/profile.h"
#include "science/neck/relief.h"
#include "science/neck/section.h"

namespace fallaway::cases {

using Kind = Json (*)(CaseGiven&);

// One string, or one of two that mirror each other: "scale", "saddle_x" (from the nut; the scale), "frets" (22),
// "joint" (16), "crown" (0), "R" or "R_nut" and "R_end" (flat), "y_nut", "y_saddle" (0).
inline neck::Layout layout_of(CaseGiven& in) {
    neck::Layout layout;
    layout.frets = in.whole("frets", 22);
    layout.joint_fret = in.number("joint", 16);
    layout.crown_height = in.number("crown", 0);
    const double scale = in.number("scale");
    layout.strings = {{.y_nut = in.number("y_nut", 0),
                       .y_saddle = in.number("y_saddle", 0),
                       .scale = scale,
                       .setback = in.number("saddle_x", scale) - scale}};
    if (in.has("R")) layout.board.radius_nut = layout.board.radius_end = in.number("R");
    if (in.has("R_nut")) {
        layout.board.radius_nut = in.number("R_nut");
        layout.board.radius_end = in.number("R_end");
    }
    layout.board.x_end = neck::fret_place(layout, 0, layout.frets);
    return layout;
}

// Even curve of "relief_mid" between fret 1 and the last, or the beam's of "relief_beam"; "crown_dev" by fret.
inline std::function<double(double)> profile_of(CaseGiven& in, const neck::Layout& layout) {
    if (in.has("relief_beam")) {
        const double relief = in.number("relief_beam");
        return [relief, shapes = neck::ProfileShapes(layout)](double x) { return relief * shapes.at(x).bow; };
    }
    const double relief = in.number("relief_mid", 0);
    const double first = neck::centre_place(layout, 1);
    const double last = neck::centre_place(layout, layout.frets);
    return [=](double x) { return relief * neck::parabola((x - first) / (last - first)); };
}

inline std::vector<double> errors_of(CaseGiven& in, const neck::Layout& layout) {
    std::vector<double> errors(static_cast<std::size_t>(layout.frets), 0.0);
    if (!in.has("crown_dev")) return errors;
    for (const auto& [fret, error] : in.at("crown_dev").items()) errors.at(std::stoul(fret) - 1) = error;
    return errors;
}

struct Strung {
    neck::CrownLine crowns;
    double zero_fret = 0;
    double nut = 0;
    double saddle = 0;
};

// The slot is "nut_slot_over_zero_fret" (0) high, or "nut_height" over the chord; the saddle is where "action12"
// or "saddle_height" puts it.
inline Strung strung_of(CaseGiven& in) {
    const neck::Layout layout = layout_of(in);
    const auto profile = profile_of(in, layout);
    Strung strung{.crowns = neck::crowns_under(layout, 0, profile, errors_of(in, layout))};
    strung.zero_fret = neck::zero_fret_height(layout, 0, profile(0));
    strung.nut = in.has("nut_height") ? in.number("nut_height")
                                      : strung.zero_fret + in.number("nut_slot_over_zero_fret", 0);
    strung.saddle = in.has("action12") ? neck::saddle_for(strung.crowns, strung.nut, 12, in.number("action12"))
                                       : in.number("saddle_height", strung.nut);
    return strung;
}

inline metrology::Uncertain uncertain(CaseGiven& in, const std::string& name) {
    return {in.number(name), in.number("u_" + name, 0)};
}

inline Json fret_places(CaseGiven& in) {
    Json out;
    const double scale = in.number("scale");
    for (const int fret : in.wholes("frets")) {
        out["distance_from_nut"].push_back(neck::fret_place(Length::m(scale), fret).m());
    }
    return out;
}

inline Json scale_from_place(CaseGiven& in) {
    return {{"scale", neck::scale_from_fret(Length::m(in.number("place")), in.whole("fret")).m()}};
}

inline Json fret_rules(CaseGiven& in) {
    Json out{{"exact_divisor", neck::kExactDivisor}};
    const Length scale = Length::m(in.number("scale"));
    const int fret = in.whole("fret");
    for (const double divisor : in.numbers("rules")) {
        const Length place = neck::fret_place_by_divisor(scale, fret, divisor);
        out["pos"].push_back(place.m());
        out["of_note"].push_back(neck::error_of_fret(place, scale, fret).cents());
    }
    return out;
}

inline Json fret_error(CaseGiven& in) {
    return {{"of_note",
             neck::error_of_fret(Length::m(in.number("place")), Length::m(in.number("scale")), in.whole("fret"))
                 .cents()}};
}

inline Json path_hump(CaseGiven& in) {
    const neck::Layout layout = layout_of(in);
    const std::vector<int> chord = in.wholes("chord_frets");
    const neck::PathHump hump = neck::hump_along(layout, 0, chord.at(0), chord.at(1));
    const neck::StringLine& line = layout.strings[0];
    return {{"max_hump", hump.height},
            {"at_fret", hump.fret},
            {"full_length_estimate", neck::cylinder_hump(line.y_saddle - line.y_nut, layout.board.radius_nut)}};
}

inline Json straight_cone(CaseGiven& in) {
    const double nut = in.number("R_nut");
    const double y_nut = in.number("y_nut");
    const double y_saddle = in.number("y_saddle");
    neck::Layout layout;
    layout.frets = 22;
    layout.strings = {{.y_nut = y_nut, .y_saddle = y_saddle, .scale = in.number("scale")}};
    layout.board = {nut, neck::straight_path_radius(nut, y_nut, y_saddle), layout.strings[0].scale};
    const double y12 = neck::string_y(layout, 0, neck::fret_place(layout, 0, 12));
    return {{"R_at_12", neck::straight_path_radius(nut, y_nut, y12)},
            {"R_at_saddle", layout.board.radius_end},
            {"max_deviation_from_straight", neck::hump_along(layout, 0, 1, 22).height}};
}

inline Json board_drop(CaseGiven& in) {
    const neck::Layout layout = layout_of(in);
    Json out;
    for (const int fret : in.wholes("at_frets")) {
        out["drop"].push_back(neck::board_drop(layout, 0, neck::fret_place(layout, 0, fret)));
    }
    return out;
}

// Heights over the frets named: "open_over"; "fretted_at" and "over" (held above: behind the finger); "line_from",
// "line_to" and "line_over".
inline Json heights(CaseGiven& in) {
    const Strung s = strung_of(in);
    Json out{{"nut_height_over_chord_plane", s.nut},
             {"saddle_height_over_chord_plane", s.saddle},
             {"relief", neck::relief_of(s.crowns)}};
    if (in.has("open_over")) {
        for (const int fret : in.wholes("open_over")) {
            out["open_height"].push_back(neck::open_height(s.crowns, s.nut, s.saddle, fret));
        }
    }
    if (in.has("fretted_at")) {
        const int held = in.whole("fretted_at");
        for (const int over : in.wholes("over")) {
            out["clearance"].push_back(over > held ? neck::fretted_height(s.crowns, s.saddle, held, over)
                                                   : neck::height_behind(s.crowns, s.nut, held, over));
        }
    }
    if (in.has("line_from")) {
        const int from = in.whole("line_from");
        const int to = in.whole("line_to");
        for (const int over : in.wholes("line_over")) {
            out["gap"].push_back(neck::height_under(s.crowns, from, to, over));
        }
    }
    return out;
}

inline Json relief_ratio(CaseGiven& in) {
    const neck::Layout layout = layout_of(in);
    const auto shape =
        in.has("shape") && in.word("shape") == "beam" ? neck::ReliefShape::beam : neck::ReliefShape::even_curve;
    const int from = in.whole("capo", 1);
    const int held = in.whole("held");
    const int best = neck::deepest_fret(layout, from, held, shape);
    const int over = in.whole("over", best);
    return {{"best_fret", best}, {"ratio", neck::relief_ratio(layout, {from, over, held}, shape)}};
}

inline Json lying_sag(CaseGiven& in) {
    Json out;
    const double share = in.number("share", 0.5);
    for (const double f : in.numbers("f")) out["sag"].push_back(neck::lying_sag_at(f, share));
    return out;
}

inline Json rocker(CaseGiven& in) {
    neck::Layout layout = layout_of(in);
    const std::vector<int> on = in.wholes("on");
    const std::vector<double> errors = errors_of(in, layout);
    const auto rock = [&](const std::function<double(double)>& profile) {
        return neck::rock(neck::crowns_under(layout, 0, profile, errors), on.at(0), on.at(1), on.at(2));
    };
    return {{"rock", rock(profile_of(in, layout))}, {"straight_board_only", rock([](double) { return 0.0; })}};
}

inline Json radius_from_sagitta(CaseGiven& in) {
    const metrology::Uncertain r = neck::radius_from_sagitta(in.number("chord"), uncertain(in, "sagitta"));
    return {{"R", r.value}, {"u_R", r.u}};
}

inline Json circle(CaseGiven& in) {
    std::vector<neck::SectionHeight> heights;
    const std::vector<double> z = in.numbers("z");
    const std::vector<double> y = in.numbers("y");
    const double u = in.number("u_z");
    for (std::size_t i = 0; i < y.size(); ++i) heights.push_back({y[i], z.at(i), u});
    const auto fit = neck::circle_through(heights);
    if (!fit) throw std::invalid_argument(fit.error().message);
    return {{"R", fit->radius.value}, {"u_R", fit->radius.u}};
}

// "x", "R", "u_R" for the readings, "x_end", and "prior_nut", "u_prior_nut", "prior_end", "u_prior_end" if any.
inline Json cone(CaseGiven& in) {
    std::vector<neck::RadiusReading> readings;
    const std::vector<double> x = in.numbers("x");
    const std::vector<double> r = in.numbers("R");
    const std::vector<double> u = in.numbers("u_R");
    for (std::size_t i = 0; i < x.size(); ++i) readings.push_back({x[i], {r.at(i), u.at(u.size() > 1 ? i : 0)}});
    neck::ConePrior prior;
    if (in.has("prior_nut")) prior.nut = uncertain(in, "prior_nut");
    if (in.has("prior_end")) prior.end = uncertain(in, "prior_end");
    const auto fit = neck::fit_cone(readings, in.number("x_end"), prior);
    if (!fit) throw std::invalid_argument(fit.error().message);
    return {{"R_nut", fit->nut.value}, {"u_R_nut", fit->nut.u},           {"R_end", fit->end.value},
            {"u_R_end", fit->end.u},   {"correlation", fit->correlation}, {"chi_squared", fit->chi_squared}};
}

inline Json gauge_arc(CaseGiven& in) {
    const double radius = in.number("board_R");
    const double crown = in.number("crown");
    Json out{{"top_R", radius + crown}};
    const double spread = in.number("outer_spread");
    const int strings = in.whole("strings");
    const std::vector<double> places = neck::equal_centres(spread, strings);
    for (int i = 0; i < (strings + 1) / 2; ++i) {
        const double y = places[static_cast<std::size_t>(i)] - spread / 2;
        out["drop_outer_first"].push_back(neck::zero_fret_drop(y, radius, crown));
    }
    return out;
}

inline Json saddle_arc(CaseGiven& in) {
    neck::Layout layout = layout_of(in);
    layout.strings.push_back(layout.strings[0]);
    layout.strings[1].y_nut *= -1;
    layout.strings[1].y_saddle *= -1;
    std::vector<double> action;
    if (in.has("action")) action = in.numbers("action");
    const auto arc = neck::saddle_arc(layout, in.whole("fret", 12), action);
    if (!arc) throw std::invalid_argument(arc.error().message);
    const double y = layout.strings[0].y_saddle;
    return {{"outer_drop", arc->drop[0]},
            {"mirror_drop", arc->drop[1]},
            {"saddle_R_outer", arc->radius[0]},
            {"naive_drop_same_R", neck::arc_drop(y, layout.board.radius_nut)}};
}

// Excess of a slot: the board's own part is worked out from the relief and left without error.
inline Json slot_when_held(CaseGiven& in) {
    const Strung s = strung_of(in);
    const int held = in.whole("held", 2);
    const int over = in.whole("over", 1);
    const double zero = neck::gap_at_zero_fret(s.crowns, s.zero_fret, held, over);
    const metrology::Uncertain d = neck::excess_when_held(uncertain(in, "gap"), {zero, 0}, s.crowns, held, over);
    const metrology::Uncertain one = neck::excess_when_held({1, 0}, {0, 0}, s.crowns, held, over);
    return {{"gap_if_slot_equals_zero_fret", zero},
            {"slot_excess", d.value},
            {"u_slot_excess", d.u},
            {"multiplier", one.value}};
}

inline Json slot_when_open(CaseGiven& in) {
    const Strung s = strung_of(in);  // with the slot at zero-fret height
    const int fret = in.whole("over", 1);
    const double zero = neck::open_height(s.crowns, s.zero_fret, s.saddle, fret);
    const metrology::Uncertain d = neck::excess_when_open(uncertain(in, "height"), {zero, 0}, s.crowns, fret);
    const metrology::Uncertain one = neck::excess_when_open({1, 0}, {0, 0}, s.crowns, fret);
    return {{"height_if_slot_equals_zero_fret", zero},
            {"slot_excess", d.value},
            {"u_slot_excess", d.u},
            {"multiplier", one.value}};
}

// The middle of what "right" allows: where the string just touches the piece.
inline Json slot_by_wire(CaseGiven& in) {
    const neck::ExcessBounds bounds =
        neck::excess_by_wire(neck::Wire::right, in.number("zero_fret", 0), in.number("saddle_height"),
                             in.number("length"), in.number("wire_x"), in.number("taller", 0));
    return {{"touching_excess", (bounds.low + bounds.high) / 2}, {"low", bounds.low}, {"high", bounds.high}};
}

inline Json file_plan(CaseGiven& in) {
    const neck::FilePlan plan = neck::file_plan(uncertain(in, "excess"), in.number("target"));
    return {{"depth", plan.depth}, {"passes", plan.passes}, {"left", plan.left}};
}

inline neck::NeckBeam beam_of(CaseGiven& in) {
    const neck::NeckBeam usual;
    return {.modulus = in.number("E", usual.modulus),
            .offset = in.number("offset", usual.offset),
            .width_nut = in.number("width_nut", usual.width_nut),
            .width_last = in.number("width_22", usual.width_last),
            .depth_nut = in.number("thick_nut", usual.depth_nut),
            .depth_12 = in.number("thick_12", usual.depth_12)};
}

inline Json neck_bend(CaseGiven& in) {
    const neck::BeamBend bend = neck::bend_under(layout_of(in), beam_of(in), in.number("T"));
    return {{"moment", bend.moment},
            {"relief", bend.relief},
            {"at_fret", bend.deepest_fret},
            {"per_100N", neck::bend_under(layout_of(in), beam_of(in), 100).relief},
            {"nut_lift", bend.nut_lift}};
}

// The moves given: "relief_added", "nut_raised", "saddle_raised", "neck_raised", "tilt", "load" (newtons more),
// "shim_nut", "shim_bridge" over "pocket"; asked "over" frets, "held" at one (0: open), at "pickup_x".
inline Json moves(CaseGiven& in) {
    const neck::Layout layout = layout_of(in);
    const neck::MoveMap map(layout, beam_of(in));
    neck::Moves all{.relief = in.number("relief_added", 0),
                    .nut = in.number("nut_raised", 0),
                    .saddle = in.number("saddle_raised", 0),
                    .tilt = in.number("tilt", 0),
                    .raise = in.number("neck_raised", 0)};
    if (in.has("load")) all += map.of_load(in.number("load"));
    if (in.has("pocket")) {
        all += map.of_shim(in.number("shim_nut", 0), in.number("shim_bridge", 0), in.number("pocket"));
    }
    Json out{{"nut_lift", map.board(all, 0)},
             {"angle", all.tilt},
             {"relief_change", all.relief},
             {"saddle_must_change", map.saddle_to_keep(all, 0, 12)}};
    const int held = in.whole("held", 0);
    if (in.has("over")) {
        for (const int fret : in.wholes("over")) {
            out["height_change"].push_back(held > 0 ? map.fretted_height(all, 0, held, fret)
                                                    : map.open_height(all, 0, fret));
        }
    }
    if (in.has("pickup_x")) {
        for (const double x : in.numbers("pickup_x")) out["gap_change"].push_back(map.pickup_gap(all, 0, held, x));
    }
    return out;
}

inline Json nut_layout(CaseGiven& in) {
    const double span = in.number("centre_span");
    const std::vector<double> d = in.numbers("d");
    const auto slots = neck::equal_gaps(span, d);
    if (!slots) throw std::invalid_argument(slots.error().message);
    return {{"gap", slots->gap},
            {"positions_from_bass", slots->places},
            {"equal_centre_positions", neck::equal_centres(span, static_cast<int>(d.size()))}};
}

inline Json break_angle(CaseGiven& in) {
    const double angle = neck::turning_angle(in.number("drop"), in.number("run"), in.number("aside", 0));
    const double tension = in.number("T", 0);
    const double friction = in.number("mu", 0);
    return {{"angle", angle},
            {"force_on_nut", neck::force_at_turn(tension, angle)},
            {"held_by_friction", neck::held_by_friction(tension, friction, angle)},
            {"hang_up", neck::hang_up_cents(friction, angle)}};
}

inline Json posts(CaseGiven& in) {
    Json out;
    if (in.has("d")) {
        out["wraps"] = neck::wraps_for(in.number("drop_wanted"), in.number("drop_at_first"), in.number("d"));
    }
    if (in.has("runs")) out["lower_by"] = neck::stagger_for(in.numbers("runs"), in.number("angle"));
    if (in.has("tree_run")) out["tree_drop"] = neck::drop_for(in.number("angle"), in.number("tree_run"));
    return out;
}

inline Json lift_off(CaseGiven& in) {
    const double tension = in.number("T");
    const double angle = in.number("angle");
    const double margin = neck::lift_off_margin(in.number("swing"), in.number("length"), in.number("pick"), angle);
    return {{"margin", margin}, {"upward_force", tension * std::sin(angle) / margin}};
}

inline const std::map<std::string, Kind>& case_kinds() {
    static const std::map<std::string, Kind> kinds{
        {"fret-places", fret_places},
        {"scale-from-place", scale_from_place},
        {"fret-rules", fret_rules},
        {"fret-error", fret_error},
        {"path-hump", path_hump},
        {"straight-cone", straight_cone},
        {"board-drop", board_drop},
        {"heights", heights},
        {"relief-ratio", relief_ratio},
        {"lying-sag", lying_sag},
        {"rocker", rocker},
        {"radius-from-sagitta", radius_from_sagitta},
        {"circle", circle},
        {"cone", cone},
        {"gauge-arc", gauge_arc},
        {"saddle-arc", saddle_arc},
        {"slot-when-held", slot_when_held},
        {"slot-when-open", slot_when_open},
        {"slot-by-wire", slot_by_wire},
        {"file-plan", file_plan},
        {"neck-bend", neck_bend},
        {"moves", moves},
        {"nut-layout", nut_layout},
        {"break-angle", break_angle},
        {"posts", posts},
        {"lift-off", lift_off},
    };
    return kinds;
}

}  // namespace fallaway::cases
