// Ostrel Heron: a guitar in a dry flat, one fret risen at the treble, one nut slot too low, a pickup and a control
// that are not what the advert said. Measured on arrival and after three days in the work room; nothing is worked
// on yet.
#include <cmath>

#include "stories.h"

namespace fallaway::demo {
namespace {

using neck::What;

constexpr double kMm = 1e-3;
constexpr double kDegree = 0.017453292519943295;
constexpr double kScale = 635e-3;
constexpr int kLast = 22;
constexpr int kRisen = 9;               // the fret that stands up at the treble
constexpr double kPick = 90e-3;         // where the string is struck, from the saddle
constexpr double kReliefDry = 0.31e-3;  // a board that dries faster than its neck bows it forward
constexpr double kReliefNextDay = 0.27e-3;
constexpr double kReliefRested = 0.25e-3;
constexpr double kBridgePickup = 560e-3;  // from the nut
constexpr double kNeckPickup = 475e-3;

// What is inside. Advert: 8.4 kohm, 6.2 kohm, 500 kohm, 500 kohm.
constexpr double kBridgeOhms = 7150;
constexpr double kNeckOhms = 6080;
constexpr double kVolumeOhms = 251e3;
constexpr double kToneOhms = 486e3;

neck::Layout layout() {
    neck::Layout layout;
    const double setbacks[] = {1.3, 2.2, 3.6, 2.6, 2.9, 3.8};  // mm
    for (int i = 0; i < 6; ++i) {
        const double side = 1 - i / 2.5;
        layout.strings.push_back({side * 17.75 * kMm, side * 26 * kMm, kScale, 0, setbacks[i] * kMm});
    }
    layout.frets = kLast;
    layout.joint_fret = 16;
    layout.crown_height = 1.18 * kMm;
    // 254 mm at fret 1, where the gauge stands.
    layout.board = {245 * kMm, 406 * kMm, neck::centre_place(layout, kLast)};
    return layout;
}

NeckTruth true_neck(numeric::Random& random) {
    NeckTruth neck(
        layout(),
        {.width_nut = 42.7 * kMm, .width_last = 56.2 * kMm, .depth_nut = 20.2 * kMm, .depth_12 = 22.4 * kMm});
    neck.set(What::relief, kReliefRested);
    neck.set(What::kink, -0.0006);  // rad: the board's end falls away
    neck.scatter_crowns(0.004 * kMm, random);
    // Risen by 0.07 mm under the first string, not at all under the sixth.
    neck.set(What::crown, kRisen, 0.035 * kMm);
    neck.set(What::tilt, kRisen, 0.035 * kMm);
    const StringTruth strings[] = {{0.055 * kMm, 1.72 * kMm}, {0.06 * kMm, 1.42 * kMm}, {-0.17 * kMm, 1.60 * kMm},
                                   {0.065 * kMm, 1.70 * kMm}, {0.08 * kMm, 1.78 * kMm}, {0.10 * kMm, 1.90 * kMm}};
    string_up(neck, strings);
    return neck;
}

Json held(int string, int fret) {
    return {{"string", string}, {"pressed", fret}};
}

void heights_over(Sheet& sheet, const NeckTruth& neck, int fret, int repeats = 1) {
    for (int string = 6; string >= 1; --string) {
        sheet.read("string height", on_string(string, fret), neck.open_height(string, fret), "height gauge",
                   {.repeats = repeats});
    }
}

// The board has shrunk away from its frets; `back` is what it took up again in the work room.
void edges(Sheet& sheet, double back) {
    const double sprout[] = {0.13, 0.15, 0.14, 0.12};  // mm past the wood, treble side a little less
    int i = 0;
    for (const int fret : {1, 7, 12, 22}) {
        sheet.read("fret overhang", on_fret(fret, "bass"), sprout[i] * kMm - back, "dial");
        sheet.read("fret overhang", on_fret(fret, "treble"), (sprout[i++] - 0.03) * kMm - back, "dial");
    }
    for (const int fret : {4, 5, 7, 9, 12}) sheet.tell("fret end", on_fret(fret, "bass"), "catches");
    for (const int fret : {7, 12})
        sheet.tell("fret end", on_fret(fret, "treble"), back > 0 ? "clean" : "cloth marks");
}

void arrival(Sheet& sheet, NeckTruth neck) {
    neck.bend(kReliefDry - kReliefRested);
    sheet.sit_down({"arrival", "Ruta Vell", "2026-11-17", 9 * 60 + 10});
    sheet.read("rest in the room", {}, 17.5 * 3600, "clock", {.remark = "case closed, opened at ten past nine"});
    const double drift[] = {-21, -24, -30, -18, -22, -26};
    for (int string = 6; string >= 1; --string) {
        sheet.read("pitch on arrival", on_string(string), drift[string - 1], "tuner");
    }
    for (const int string : {6, 1}) {
        sheet.read("relief", held(string, kLast), neck.relief(string, 1, kLast).depth, "dial");
    }
    heights_over(sheet, neck, 12);
    edges(sheet, 0);
    sheet.tell("note", on_string(2, 8), std::string(heard(neck, 2, 8, kPick)),
               {.remark = "first try, before anything was read"});
    sheet.tell("note", on_string(3, 0), std::string(heard(neck, 3, 0, kPick)), {.remark = "pings, then dies"});

    sheet.sit_down({"arrival", "Joon Aster", "2026-11-18", 9 * 60 + 30});
    for (const int string : {6, 1}) {
        sheet.read("relief drift", held(string, kLast), kReliefNextDay - kReliefDry, "dial",
                   {.remark = "still moving: no metal is touched this week"});
    }
}

// All are tapped, two gaps measured; wire under the one that is dead.
void nut(Sheet& sheet, const NeckTruth& neck) {
    for (int string = 6; string >= 1; --string) {
        sheet.tell("nut tap", on_string(string), std::string(tap_word(neck, string, sheet.random())),
                   {.id = "nut-tap-" + std::to_string(string)});
    }
    for (const int string : {6, 1}) {
        sheet.read("nut gap", on_string(string), neck.nut_gap(string), "leaves",
                   {.id = "nut-gap-" + std::to_string(string)});
    }
    sheet.tell("nut wire", on_string(3), std::string(wire_word(neck, 3, sheet.random())), {.id = "nut-wire-3"});
}

// Held at fret 1 the nut has no say; the second string where its owner hears it buzz.
void held_heights(Sheet& sheet, const NeckTruth& neck) {
    const auto read = [&](int string, int held, int over) {
        sheet.read("string height", {{"string", string}, {"fret", over}, {"pressed", held}},
                   neck.fretted_height(string, held, over), "height gauge");
    };
    for (const int string : {6, 3, 1}) read(string, 1, 12);
    for (const int over : {kRisen, 10, 12}) read(2, 8, over);
}

// Along both outer strings, resting on the first fret and the last; then the middle of the neck by its own string.
void straightedge(Sheet& sheet, const NeckTruth& neck) {
    for (const int string : {6, 1}) {
        for (const int fret : {3, 5, 7, kRisen, 11, 13, 15, 18}) {
            sheet.read("straightedge gap", on_fret(fret, string == 6 ? "bass" : "treble"),
                       neck.gap(string, 1, kLast, fret), "leaves");
        }
    }
    const Dip dip = neck.relief(3, 3, 15);
    sheet.read("relief", {{"string", 3}, {"capo", 3}, {"pressed", 15}}, dip.depth, "dial",
               {.id = "relief-3", .remark = "between capo at 3 and finger at 15, clear of the risen fret"});
}

void neck_and_frets(Sheet& sheet, const NeckTruth& neck) {
    sheet.sit_down({"before", "Ruta Vell", "2026-11-20", 9 * 60 + 20});
    for (const int string : {6, 1}) {
        const Dip dip = neck.relief(string, 1, kLast);
        sheet.read("relief", held(string, kLast), dip.depth, "dial",
                   {.id = "relief-" + std::to_string(string),
                    .remark = "deepest at fret " + std::to_string(dip.fret),
                    .repeats = 3});
    }
    nut(sheet, neck);
    for (const int fret : {1, 12, 17, kLast}) heights_over(sheet, neck, fret, fret == 12 ? 3 : 1);
    held_heights(sheet, neck);
    for (const bool treble : {false, true}) {
        for (int fret = 2; fret < kLast; ++fret) {
            const std::string id = "rocker-" + std::to_string(fret) + (treble ? "-treble" : "-bass");
            sheet.tell("rocker", on_fret(fret, treble ? "treble" : "bass"),
                       std::string(rocker_word(neck, treble ? 1 : 6, fret, sheet.random())), {.id = id});
        }
    }
    // A leaf under the end that stands off shows twice what the middle crown stands over the line of the others.
    sheet.read("rocker gap", on_fret(kRisen, "treble"), 2 * neck.rock(1, kRisen), "leaves",
               {.id = "rocker-gap-9", .remark = "rocked down on fret 8, the leaf over fret 10"});
    straightedge(sheet, neck);
    for (const int fret : {1, 5, 8, kRisen, 10, 12, 17, kLast}) {
        sheet.read("fret height", on_fret(fret, "bass"), neck.crown_height(6, fret), "dial");
        sheet.read("fret height", on_fret(fret, "treble"), neck.crown_height(1, fret), "dial",
                   {.remark = fret == kRisen ? "light shows under the bead: lifted, not high wire" : ""});
    }
}

void sizes(Sheet& sheet, const NeckTruth& neck) {
    edges(sheet, 0.04 * kMm);
    sheet.read("board radius", on_fret(1), neck.radius_at(neck.fret_place(1)), "radius set");
    sheet.read("board radius", on_fret(22), neck.radius_at(neck.fret_place(kLast)), "radius set");
    sheet.tell("fret count", {}, "22");
    sheet.read("fret width", on_fret(12), 2.68 * kMm, "caliper");
    sheet.read("nut width", {}, neck.width_at(0), "caliper", {.repeats = 3});
    sheet.read("neck thickness", on_fret(1), neck.thickness_at(neck.fret_place(1)), "caliper");
    sheet.read("neck thickness", on_fret(12), neck.thickness_at(neck.fret_place(12)), "caliper");
    sheet.read("nut to last fret", {}, neck.fret_place(kLast), "rule", {.repeats = 3});
    sheet.read("string spread", {{"spot", "nut"}}, 35.5 * kMm, "caliper");
    sheet.read("string spread", {{"spot", "bridge"}}, 52 * kMm, "caliper");
    sheet.read("string gap unevenness", {}, 0.22 * kMm, "caliper");
    const double beside =
        neck.width_at(neck.fret_place(kLast)) / 2 - 17.75 * kMm - 8.25 * kMm * (1 - std::exp2(-22 / 12.0));
    for (const char* side : {"bass", "treble"}) {
        sheet.read("board edge room", {{"fret", 22}, {"side", side}}, beside, "caliper");
        sheet.read("room at the edge", {{"fret", 22}, {"side", side}}, beside - 0.7 * kMm, "caliper");
    }
    sheet.read("twist", {}, 0.1 * kDegree, "angle");
    const double gauges[] = {0.254, 0.330, 0.432, 0.660, 0.914, 1.168};
    for (int string = 6; string >= 1; --string) {
        sheet.read("string gauge", on_string(string), gauges[string - 1] * kMm, "caliper");
    }
    sheet.tell("neck joint", {}, "firm");
    sheet.read("pocket gap", {{"side", "bass"}}, 0.10 * kMm, "leaves");
    sheet.read("pocket gap", {{"side", "treble"}}, 0.15 * kMm, "leaves");
    sheet.read("weight", {}, 3.455, "scale", {.repeats = 2});
    sheet.read("head dive", {}, 0.8, "spring");
    for (const char* spot : {"back seam", "heel"}) sheet.read("seam opening", {{"spot", spot}}, 0, "leaves");
    sheet.read("outer size", {{"spot", "length"}}, 0.986, "tape");
    sheet.read("outer size", {{"spot", "width"}}, 0.327, "tape");
    sheet.read("largest mark", {{"spot", "lower edge"}}, 4 * kMm, "rule", {.remark = "a dent, lacquer whole"});
}

void tuning(Sheet& sheet, const NeckTruth& neck) {
    sheet.sit_down({"before", "Joon Aster", "2026-11-20", 13 * 60 + 40});
    // How far each saddle stands from its best place: cents at fret 12 are 1731.2 a scale length.
    const double saddle_error[] = {0.2, -0.3, -1.6, 0.4, 0.1, -0.5};
    for (int string = 6; string >= 1; --string) {
        sheet.read("intonation", on_string(string), -1731.2 * saddle_error[string - 1] * kMm / kScale, "tuner",
                   {.repeats = 3});
    }
    const double returns[] = {-1.0, -1.4, -1.8, -0.8, -0.6, -1.1};
    for (int string = 6; string >= 1; --string) {
        sheet.read("bend return", on_string(string), returns[string - 1], "tuner");
    }
    const double angles[] = {8.2, 7.9, 7.4, 7.2, 7.8, 8.4};
    for (int string = 6; string >= 1; --string) {
        sheet.read("break angle", on_string(string), angles[string - 1] * kDegree, "angle");
        sheet.read("tuner lash", on_string(string), (6 + string) * kDegree, "angle");
    }
    for (const int string : {6, 1}) {
        sheet.read("pickup gap", {{"string", string}, {"pickup", "bridge"}, {"pressed", kLast}},
                   neck.pickup_gap(string, kBridgePickup, 0.2 * kMm), "rule");
        sheet.read("pickup gap", {{"string", string}, {"pickup", "neck"}, {"pressed", kLast}},
                   neck.pickup_gap(string, kNeckPickup, -1.3 * kMm), "rule");
    }
    for (int string = 6; string >= 1; --string) {
        sheet.read("saddle travel left", on_string(string), (3.4 - 0.2 * string) * kMm, "rule");
    }
}

void ear(Sheet& sheet, const NeckTruth& neck) {
    sheet.sit_down({"before", "Joon Aster", "2026-11-20", 14 * 60 + 30});
    sheet.tell("note", {}, "rings",
               {.id = "notes-all", .remark = "every note of every string, unplugged; what differs follows"});
    for (int string = 6; string >= 1; --string) {
        for (int fret = 0; fret <= kLast; ++fret) {
            const std::string word(heard(neck, string, fret, kPick));
            if (word == "rings") continue;
            sheet.tell("note", on_string(string, fret), word,
                       {.id = "note-" + std::to_string(string) + "-" + std::to_string(fret)});
        }
    }
    sheet.tell("dead spot", on_string(3, 5), "dead spot",
               {.remark = "short, clean, the same with a hand on the head"});
    sheet.read("ring time", on_string(3, 4), 6.4, "recorder");
    sheet.read("ring time", on_string(3, 5), 2.3, "recorder");
    sheet.read("ring time", on_string(3, 6), 5.9, "recorder");
}

void electrics(Sheet& sheet) {
    sheet.sit_down({"before", "Joon Aster", "2026-11-20", 15 * 60 + 10});
    constexpr double kCelsius = 21.2;
    sheet.read("coil temperature", {{"pickup", "bridge"}}, 273.15 + kCelsius, "thermometer");
    sheet.read("coil temperature", {{"pickup", "neck"}}, 273.15 + kCelsius, "thermometer");
    const double bridge = warm(kBridgeOhms, kCelsius);
    const double neck = warm(kNeckOhms, kCelsius);
    sheet.read("jack resistance", {{"switch", "bridge"}}, parallel(bridge, kVolumeOhms), "meter",
               {.id = "jack-bridge"});
    sheet.read("jack resistance", {{"switch", "both"}}, parallel(parallel(bridge, neck), kVolumeOhms), "meter");
    sheet.read("jack resistance", {{"switch", "neck"}}, parallel(neck, kVolumeOhms), "meter", {.id = "jack-neck"});
    sheet.read("pickup resistance", {{"pickup", "bridge"}}, bridge, "meter",
               {.id = "coil-bridge", .remark = "at its own leads, unsoldered", .repeats = 2});
    sheet.read("pickup resistance", {{"pickup", "neck"}}, neck, "meter", {.id = "coil-neck", .repeats = 2});
    sheet.read("pot resistance", {{"control", "volume"}}, kVolumeOhms, "meter, high",
               {.id = "pot-volume", .remark = "leads off; the part bears the stamp 250K"});
    sheet.read("pot resistance", {{"control", "tone"}}, kToneOhms, "meter, high", {.id = "pot-tone"});
    sheet.read("ground resistance", {{"spot", "bridge plate"}}, 0.5, "meter, ohms");
    sheet.read("ground resistance", {{"spot", "control plate"}}, 0.3, "meter, ohms");
    for (const char* position : {"bridge", "both", "neck"}) {
        sheet.tell("switch sound", {{"switch", position}}, "works as claimed");
        sheet.read("noise below a strum", {{"switch", position}}, position[0] == 'n' ? 41.5 : 48.0, "level");
    }
    sheet.tell("pole alignment", {{"pickup", "bridge"}}, "a little off");
    sheet.tell("pole alignment", {{"pickup", "neck"}}, "centred");
    sheet.read("string balance", {{"pickup", "bridge"}}, 3.1, "level");
    sheet.read("string balance", {{"pickup", "neck"}}, 2.4, "level");
}

// The guitar lay open in the work room; what was read before it lay there no longer holds.
void conditioning(Sheet& sheet) {
    sheet.sit_down({"arrival", "Ruta Vell", "2026-11-18", 17 * 60});
    sheet.work("conditioning", {}, "three days in the open case at 44 to 47 %RH",
               "no oil until the board is at rest");
}

// Eight lines by another pair of hands, and the neck once more a day later.
void second_look(Sheet& sheet, const NeckTruth& neck) {
    sheet.sit_down({"before", "Joon Aster", "2026-11-21", 9 * 60 + 40});
    for (const int string : {6, 1}) {
        sheet.read("relief", held(string, kLast), neck.relief(string, 1, kLast).depth, "dial");
        sheet.read("string height", on_string(string, 12), neck.open_height(string, 12), "height gauge");
        sheet.read("relief drift", held(string, kLast), -0.005 * kMm, "dial", {.remark = "at rest"});
    }
    sheet.tell("nut wire", on_string(3), std::string(wire_word(neck, 3, sheet.random())));
    sheet.tell("rocker", on_fret(kRisen, "treble"), std::string(rocker_word(neck, 1, kRisen, sheet.random())));
    sheet.read("nut width", {}, neck.width_at(0), "caliper");
    sheet.read("fret height", on_fret(kRisen, "treble"), neck.crown_height(1, kRisen), "dial");
    sheet.tell("agreement fraction", {}, "100 %",
               {.remark = "eight lines of eight, written down before comparing"});
}

}  // namespace

Visit heron(std::uint64_t seed) {
    Sheet sheet(seed);
    add_shop_tools(sheet);
    const NeckTruth neck = true_neck(sheet.random());
    arrival(sheet, neck);
    heron_hands(sheet);
    conditioning(sheet);
    neck_and_frets(sheet, neck);
    sizes(sheet, neck);
    tuning(sheet, neck);
    ear(sheet, neck);
    electrics(sheet);
    second_look(sheet, neck);
    return {sheet.bench_file(heron_story()), neck};
}

}  // namespace fallaway::demo
