// Vannick Dray: a bass with too much relief, tall strings and two shallow nut slots, before and after its set-up.
// Every height after follows from the moves that were made: the rod bends the neck, saddles and slots move their
// strings.
#include "stories.h"

namespace fallaway::demo {
namespace {

using neck::What;

constexpr double kMm = 1e-3;
constexpr double kDegree = 0.017453292519943295;
constexpr double kPick = 130e-3;
constexpr double kScale = 864e-3;
constexpr int kStrings = 4;
constexpr int kLast = 20;
constexpr double kNeckPickup = 640e-3;  // from the nut
constexpr double kBridgePickup = 750e-3;
constexpr double kNeckOhms = 7480;  // at 20 degC
constexpr double kBridgeOhms = 7810;
constexpr double kVolumeOhms = 238e3;

neck::Layout layout() {
    neck::Layout layout;
    const double setbacks[] = {2.5, 3.2, 4.0, 5.2};  // mm
    for (int i = 0; i < kStrings; ++i) {
        const double side = 1 - i / 1.5;
        layout.strings.push_back({side * 15 * kMm, side * 28.5 * kMm, kScale, 0, setbacks[i] * kMm});
    }
    layout.frets = kLast;
    layout.joint_fret = 16;
    layout.crown_height = 1.15 * kMm;
    layout.board = {305 * kMm, 305 * kMm, neck::centre_place(layout, kLast)};
    return layout;
}

NeckTruth neck_before(numeric::Random& random) {
    NeckTruth neck(
        layout(),
        {.width_nut = 41.1 * kMm, .width_last = 62.5 * kMm, .depth_nut = 21.4 * kMm, .depth_12 = 24.0 * kMm});
    neck.set(What::relief, 0.62 * kMm);
    neck.set(What::kink, -0.0006);     // rad: the board's end falls away
    neck.set(What::hump, 0.01 * kMm);  // where the neck is screwed on
    neck.scatter_crowns(0.005 * kMm, random);
    const StringTruth strings[] = {
        {0.09 * kMm, 2.75 * kMm}, {0.09 * kMm, 2.90 * kMm}, {0.28 * kMm, 3.10 * kMm}, {0.34 * kMm, 3.30 * kMm}};
    string_up(neck, strings);
    return neck;
}

// Three quarter turns on the rod, two slots filed in passes, saddles lowered by eighths of a turn of M3 (0.5 mm).
constexpr double kReliefPerQuarter = 0.10e-3;
constexpr int kQuarters = 3;
constexpr double kFiled[] = {0, 0, 0.18e-3, 0.23e-3};
constexpr double kTurnsDown[] = {1.0, 1.0, 1.125, 1.25};

NeckTruth neck_after(NeckTruth neck) {
    neck.bend(-kQuarters * kReliefPerQuarter);
    for (int i = 0; i < kStrings; ++i) {
        neck.move(i + 1, {.nut = -kFiled[i], .saddle = -kTurnsDown[i] * 0.5 * kMm});
    }
    return neck;
}

Json held(int string, int fret) {
    return {{"string", string}, {"pressed", fret}};
}

std::string named(const char* what, int number, const std::string& stage) {
    return what + std::string("-") + std::to_string(number) + "-" + stage;
}

// What the set-up is judged by, alike before and after.
void setting(Sheet& sheet, const NeckTruth& neck, const std::string& stage, const double (&cents)[kStrings]) {
    for (const int string : {4, 1}) {
        sheet.read("relief", held(string, kLast), neck.relief(string, 1, kLast).depth, "dial",
                   {.id = named("relief", string, stage), .repeats = 2});
    }
    for (int string = kStrings; string >= 1; --string) {
        sheet.tell("nut tap", on_string(string), std::string(tap_word(neck, string, sheet.random())),
                   {.id = named("nut-tap", string, stage)});
    }
    for (const int fret : {1, 12, 17, kLast}) {
        for (int string = kStrings; string >= 1; --string) {
            const std::string id = fret == 12 ? named("height", string, stage) : "";
            sheet.read("string height", on_string(string, fret), neck.open_height(string, fret), "height gauge",
                       {.id = id,
                        .remark = fret == 12 && string == 4 ? "held as it is played, not lying" : "",
                        .repeats = fret == 12 ? 2 : 1});
        }
    }
    for (int string = kStrings; string >= 1; --string) {
        sheet.read("intonation", on_string(string), cents[string - 1], "tuner",
                   {.id = named("intonation", string, stage), .repeats = 3});
    }
    for (const int string : {4, 1}) {
        sheet.read("pickup gap", {{"string", string}, {"pickup", "neck"}, {"pressed", kLast}},
                   neck.pickup_gap(string, kNeckPickup, -1.9 * kMm), "rule");
        sheet.read("pickup gap", {{"string", string}, {"pickup", "bridge"}, {"pressed", kLast}},
                   neck.pickup_gap(string, kBridgePickup, stage == "before" ? -0.9 * kMm : -1.1 * kMm), "rule");
    }
}

void arrival(Sheet& sheet) {
    sheet.sit_down({"arrival", "Joon Aster", "2026-11-03", 9 * 60});
    sheet.read("rest in the room", {}, 16 * 3600, "clock");
    const double drift[] = {-9, -12, -11, -16};
    for (int string = kStrings; string >= 1; --string) {
        sheet.read("pitch on arrival", on_string(string), drift[string - 1], "tuner");
    }
    sheet.read("weight", {}, 4.12, "scale", {.repeats = 2});
    sheet.read("largest mark", {{"spot", "back, at the belt"}}, 2.2 * kMm, "rule");
}

void board_and_frets(Sheet& sheet, const NeckTruth& neck) {
    for (const bool treble : {false, true}) {
        for (int fret = 2; fret < kLast; ++fret) {
            sheet.tell("rocker", on_fret(fret, treble ? "treble" : "bass"),
                       std::string(rocker_word(neck, treble ? 1 : kStrings, fret, sheet.random())));
        }
    }
    for (const int fret : {1, 7, 12, kLast}) {
        sheet.read("fret height", on_fret(fret, "bass"), neck.crown_height(kStrings, fret), "dial");
        sheet.read("fret height", on_fret(fret, "treble"), neck.crown_height(1, fret), "dial");
        sheet.read("fret overhang", on_fret(fret, "bass"), 0.01 * kMm, "dial");
        sheet.read("fret overhang", on_fret(fret, "treble"), 0, "dial");
        sheet.tell("fret end", on_fret(fret, "bass"), "clean");
        sheet.tell("fret end", on_fret(fret, "treble"), "clean");
    }
    sheet.tell("fret count", {}, "20");
    sheet.read("board radius", on_fret(1), neck.radius_at(neck.fret_place(1)), "radius set");
    sheet.read("nut width", {}, neck.width_at(0), "caliper", {.repeats = 3});
    sheet.read("neck thickness", on_fret(1), neck.thickness_at(neck.fret_place(1)), "caliper");
    sheet.read("neck thickness", on_fret(12), neck.thickness_at(neck.fret_place(12)), "caliper");
    sheet.read("scale length", {}, kScale, "rule", {.remark = "nut to fret 12, doubled"});
    sheet.read("string spread", {{"spot", "nut"}}, 30 * kMm, "caliper");
    sheet.read("string gap unevenness", {}, 0.18 * kMm, "caliper");
    for (const char* side : {"bass", "treble"}) {
        sheet.read("room at the edge", {{"fret", kLast}, {"side", side}}, 5.1 * kMm, "caliper");
    }
    sheet.read("twist", {}, 0.05 * kDegree, "angle");
    const double gauges[] = {1.143, 1.651, 2.159, 2.667};
    for (int string = kStrings; string >= 1; --string) {
        sheet.read("string gauge", on_string(string), gauges[string - 1] * kMm, "caliper");
    }
    sheet.tell("neck joint", {}, "firm");
    sheet.read("pocket gap", {{"side", "bass"}}, 0.10 * kMm, "leaves");
    sheet.read("pocket gap", {{"side", "treble"}}, 0.10 * kMm, "leaves");
    sheet.read("head dive", {}, 1.4, "spring");
}

void electrics(Sheet& sheet) {
    sheet.sit_down({"before", "Joon Aster", "2026-11-03", 14 * 60});
    constexpr double kCelsius = 20.6;
    for (const char* pickup : {"neck", "bridge"}) {
        sheet.read("coil temperature", {{"pickup", pickup}}, 273.15 + kCelsius, "thermometer");
    }
    const double neck = warm(kNeckOhms, kCelsius);
    const double bridge = warm(kBridgeOhms, kCelsius);
    sheet.read("jack resistance", {{"switch", "neck"}}, parallel(neck, kVolumeOhms), "meter");
    sheet.read("jack resistance", {{"switch", "both"}}, parallel(parallel(neck, bridge), kVolumeOhms), "meter");
    sheet.read("jack resistance", {{"switch", "bridge"}}, parallel(bridge, kVolumeOhms), "meter");
    for (const char* position : {"neck", "both", "bridge"}) {
        sheet.tell("switch sound", {{"switch", position}}, "works as claimed");
    }
    sheet.read("pickup resistance", {{"pickup", "neck"}}, neck, "meter", {.remark = "at its own leads"});
    sheet.read("pickup resistance", {{"pickup", "bridge"}}, bridge, "meter", {.remark = "at its own leads"});
    sheet.read("pot resistance", {{"control", "volume"}}, kVolumeOhms, "meter, high");
    sheet.read("ground resistance", {{"spot", "bridge plate"}}, 0.4, "meter, ohms");
    sheet.read("ground resistance", {{"spot", "control plate"}}, 0.3, "meter, ohms");
    sheet.read("string balance", {{"pickup", "neck"}}, 2.9, "level");
    sheet.read("string balance", {{"pickup", "bridge"}}, 2.2, "level");
}

void tuning_parts(Sheet& sheet) {
    const double returns[] = {-0.6, -0.9, -1.2, -1.4};
    const double angles[] = {9.8, 9.1, 10.4, 12.0};
    for (int string = kStrings; string >= 1; --string) {
        sheet.read("bend return", on_string(string), returns[string - 1], "tuner");
        sheet.read("break angle", on_string(string), angles[string - 1] * kDegree, "angle");
        sheet.read("tuner lash", on_string(string), (8 + string) * kDegree, "angle");
        sheet.read("saddle travel left", on_string(string), (2.0 + 0.3 * string) * kMm, "rule");
    }
}

void ear(Sheet& sheet, const NeckTruth& neck, const std::string& stage) {
    sheet.tell("note", {}, "rings",
               {.id = "notes-all-" + stage, .remark = "every note of every string, unplugged"});
    for (int string = kStrings; string >= 1; --string) {
        for (int fret = 0; fret <= kLast; ++fret) {
            const std::string word(heard(neck, string, fret, kPick));
            if (word != "rings") sheet.tell("note", on_string(string, fret), word);
        }
    }
    sheet.tell("dead spot", on_string(1, 7), "dead spot",
               {.id = "dead-spot-" + stage, .remark = "moves a fret when a clamp hangs on the head"});
    sheet.read("ring time", on_string(1, 6), 7.8, "recorder");
    sheet.read("ring time", on_string(1, 7), 3.4, "recorder", {.id = "ring-time-7-" + stage});
    sheet.read("ring time", on_string(1, 8), 7.1, "recorder");
}

// A quarter turn at most, then a reading; the last one on the next day.
void bend_the_neck(Sheet& sheet, NeckTruth neck) {
    sheet.sit_down({"before", "Ruta Vell", "2026-11-04", 9 * 60 + 10});
    sheet.work("pickup height", {}, "both backed off 2 turns", "so that magnets do not pull at the strings");
    for (int quarter = 1; quarter <= kQuarters; ++quarter) {
        if (quarter == kQuarters) {
            sheet.sit_down({"before", "Ruta Vell", "2026-11-05", 9 * 60 + 5});
            sheet.remark("Relief read again in the morning: it had not crept.");
        }
        neck.bend(-kReliefPerQuarter);
        const double read = neck.relief(kStrings, 1, kLast).depth;
        sheet.work(
            "truss rod", {}, "1/4 turn tighter",
            "turns freely; read after it: " + format_quantity(read, *find_unit("mm", Dimension::length), 2));
    }
}

void the_work(Sheet& sheet, const NeckTruth& before) {
    bend_the_neck(sheet, before);
    for (const int string : {4, 3, 2, 1}) {
        const double eighths = kTurnsDown[string - 1] * 8;
        sheet.work("saddle height", on_string(string),
                   std::to_string(static_cast<int>(eighths)) + "/8 turn down, both screws");
    }
    sheet.work("nut slot", on_string(4), "filed in five passes, tapped in between");
    sheet.work("nut slot", on_string(3), "filed in four passes, tapped in between");
    for (const int string : {4, 3, 2, 1})
        sheet.work("saddle length", on_string(string), "set at fret 12, tried at 5 and 17");
    sheet.work("pickup height", {{"pickup", "bridge"}}, "up again, 1/4 turn below where it was");
    sheet.work("pickup height", {{"pickup", "neck"}}, "up again to where it was");
    sheet.work("cleaning", {}, "", "lacquered board wiped with a damp cloth only");
}

}  // namespace

Visit dray(std::uint64_t seed) {
    Sheet sheet(seed);
    add_shop_tools(sheet);
    const NeckTruth before = neck_before(sheet.random());
    const NeckTruth after = neck_after(before);
    arrival(sheet);
    dray_hands(sheet);
    sheet.sit_down({"before", "Ruta Vell", "2026-11-03", 10 * 60});
    setting(sheet, before, "before", {3.9, 4.6, 7.2, 8.4});
    board_and_frets(sheet, before);
    tuning_parts(sheet);
    ear(sheet, before, "before");
    electrics(sheet);
    the_work(sheet, before);
    sheet.sit_down({"after", "Joon Aster", "2026-11-06", 10 * 60});
    setting(sheet, after, "after", {0.4, -0.3, 0.8, 0.6});
    tuning_parts(sheet);
    ear(sheet, after, "after");
    dray_hands_after(sheet);
    for (const int string : {4, 1}) {
        sheet.read("relief drift", held(string, kLast), 0.004 * kMm, "dial",
                   {.remark = "against the day of the rod"});
    }
    return {sheet.bench_file(dray_story()), after};
}

}  // namespace fallaway::demo
