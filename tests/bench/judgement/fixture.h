// A small catalogue and a way to write benches in a few lines, so that each test shows only what it is about.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "bench/evidence/observable.h"
#include "bench/judgement/judge.h"

namespace fallaway::judgement::testing {

using namespace fallaway::evidence;

inline QuantityText quantity(const std::string& text, Dimension dimension) {
    const auto parsed = parse_quantity(text, dimension);
    EXPECT_TRUE(parsed.has_value()) << text << ": " << (parsed ? "" : parsed.error().message);
    return parsed.value_or(QuantityText{});
}

inline Moment at_time(std::int64_t seconds) {
    return {"", seconds};
}

// place("s6f12") : string 6, fret 12; place("f9") ; place("").
inline Place place(const std::string& text) {
    Place result;
    for (std::size_t i = 0; i < text.size();) {
        std::size_t used = 0;
        const int number = std::stoi(text.substr(i + 1), &used);
        (text[i] == 's' ? result.string : result.fret) = number;
        i += 1 + used;
    }
    return result;
}

inline Reading reading(const std::string& what, const std::string& at, const std::string& value,
                       Stage stage = Stage::arrival) {
    Reading result;
    result.what = what;
    result.at = place(at);
    result.stage = stage;
    const auto* observable = find_observable(what);
    EXPECT_NE(observable, nullptr) << what;
    if (observable->words.empty()) {
        result.value = quantity(value, observable->dimension);
    } else {
        result.value = value;
    }
    return result;
}

inline Rating rating(const std::string& checkpoint, int step, Stage stage = Stage::arrival) {
    Rating result;
    result.checkpoint = checkpoint;
    result.step = step;
    result.stage = stage;
    return result;
}

inline metrology::ToolKind tool(const std::string& id, Dimension dimension, double total) {
    metrology::FeatureBudget line;
    line.total = total;
    return {id, id, dimension, std::nullopt, {line}};
}

// String height and relief with soft limits, a strict overhang, a judged head, a nut in words and notes by ear.
inline Catalogue catalogue() {
    Catalogue result;
    auto& procedure = result.procedure;
    procedure.id = "test";
    procedure.version = "1";
    procedure.sections = {{"head", "Head"}, {"setup", "Set-up"}, {"frets", "Frets"}, {"electrics", "Electrics"}};

    Checkpoint head;
    head.id = "head-break";
    head.section = "head";
    head.title = "Head";
    head.severity = Severity::critical;
    head.cure = Cure::repair;
    head.anchors = {"open break", "repaired", "hairline", "none"};
    procedure.checkpoints.push_back(head);

    Checkpoint height;
    height.id = "height-12";
    height.section = "setup";
    height.title = "String height at fret 12";
    height.kind = CheckpointKind::measured;
    height.severity = Severity::major;
    height.cure = Cure::set_up;
    height.reads = {"string height"};
    height.each = Each::string;
    height.fret = 12;
    Limit band;
    band.low = BassToTreble{1.3e-3, 1.0e-3};
    band.high = BassToTreble{2.2e-3, 1.8e-3};
    band.source = "common practice, no source";
    height.limits = {band};
    height.minutes = 3;
    procedure.checkpoints.push_back(height);

    Checkpoint overhang;
    overhang.id = "overhang";
    overhang.section = "frets";
    overhang.title = "Fret ends past the wood";
    overhang.kind = CheckpointKind::measured;
    overhang.severity = Severity::major;
    overhang.cure = Cure::repair;
    overhang.reads = {"fret overhang"};
    Limit strict;
    strict.high = BassToTreble{0.05e-3, 0.05e-3};
    strict.strict = true;
    strict.source = "agreed";
    overhang.limits = {strict};
    overhang.minutes = 2;
    procedure.checkpoints.push_back(overhang);

    Checkpoint nut;
    nut.id = "nut";
    nut.section = "setup";
    nut.title = "Nut slots";
    nut.kind = CheckpointKind::measured;
    nut.severity = Severity::minor;
    nut.cure = Cure::set_up;
    nut.reads = {"nut gap", "nut tap"};
    nut.each = Each::string;
    Limit gap;
    gap.high = BassToTreble{0.08e-3, 0.08e-3};
    gap.high_major = 0.12e-3;
    gap.source = "common practice, no source";
    nut.limits = {gap};
    nut.words = {{"clear gap", Severity::minor}};
    procedure.checkpoints.push_back(nut);

    Checkpoint notes;
    notes.id = "ring";
    notes.section = "frets";
    notes.title = "Every note rings";
    notes.kind = CheckpointKind::heard;
    notes.severity = Severity::major;
    notes.cure = Cure::set_up;
    notes.reads = {"note"};
    notes.each = Each::fret;
    notes.words = {
        {"rattles when struck hard", Severity::minor}, {"buzzes", Severity::major}, {"chokes", Severity::major}};
    notes.minutes = 5;
    procedure.checkpoints.push_back(notes);

    Checkpoint cavity;
    cavity.id = "cavity";
    cavity.section = "electrics";
    cavity.title = "Joints";
    cavity.severity = Severity::major;
    cavity.cure = Cure::repair;
    cavity.anchors = {"bare", "dull", "untidy", "clean"};
    cavity.disturbs = Disturbs::opens_a_cavity;
    procedure.checkpoints.push_back(cavity);

    procedure.scopes = {{"all", 20, {"head-break", "height-12", "overhang", "nut", "ring", "cavity"}},
                        {"quick look", 5, {"head-break", "ring"}}};
    result.claims = {
        {"scale", "scale length", "scale length", Dimension::length, 1e-3, 0, false, Severity::major,
         Cure::send_back, true, "common practice, no source"},
        {"fret count", "number of frets", "fret count", Dimension::count, 0, 0, true, Severity::minor,
         Cure::send_back, true, "exact"},
        {"winding ohms", "winding ohms", "pickup resistance", Dimension::resistance, 0, 0.1, false,
         Severity::major, Cure::send_back, true, ""},
        {"body wood", "body wood", "", std::nullopt, 0, 0, false, Severity::major, Cure::send_back, true, ""},
        {"origin", "origin", "", std::nullopt, 0, 0, false, Severity::minor, Cure::send_back, false, ""},
    };
    result.tools = {tool("steel rule 0.5 mm", Dimension::length, 0.34e-3),
                    tool("string-height gauge", Dimension::length, 0.038e-3),
                    tool("feeler leaves", Dimension::length, 0.0156e-3),
                    tool("dial indicator", Dimension::length, 0.010e-3),
                    tool("digital caliper", Dimension::length, 0.019e-3),
                    tool("multimeter", Dimension::resistance, 40)};
    return result;
}

inline Bench bench(const std::string& scope = "all") {
    Bench result;
    result.scope.name = scope;
    result.hands = Hands::work;
    return result;
}

// Six string heights at fret 12, string 6 first, as a technician says them.
inline void add_heights(Bench& bench, const std::vector<std::string>& values, Stage stage = Stage::arrival) {
    for (std::size_t i = 0; i < values.size(); ++i) {
        bench.readings.push_back(
            reading("string height", "s" + std::to_string(values.size() - i) + "f12", values[i], stage));
    }
}

inline const Finding* find(const Assessment& assessment, const std::string& id) {
    for (const Finding& finding : assessment.findings) {
        if (finding.id == id) return &finding;
    }
    return nullptr;
}

inline const Answer& answer(const Assessment& assessment, const std::string& checkpoint) {
    for (const Answer& a : assessment.answers) {
        if (a.checkpoint == checkpoint) return a;
    }
    static const Answer kNone;
    ADD_FAILURE() << "no answer to " << checkpoint;
    return kNone;
}

}  // namespace fallaway::judgement::testing
