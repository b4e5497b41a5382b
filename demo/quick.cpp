// A guitar over the counter: only its kind is known; ten minutes with the shop's usual tools, none of them named.
#include "stories.h"

namespace fallaway::demo {
namespace {

constexpr int kLast = 22;
constexpr double kMm = 1e-3;
constexpr double kPick = 90e-3;

// 648 mm, 22 frets, one radius: what the file leaves to be assumed.
neck::Layout layout() {
    neck::Layout layout;
    for (int i = 0; i < 6; ++i) {
        const double side = 1 - i / 2.5;
        layout.strings.push_back({side * 17.6 * kMm, side * 26.2 * kMm, 648 * kMm, 0, 2.5 * kMm});
    }
    layout.frets = kLast;
    layout.joint_fret = 16;
    layout.crown_height = 1.05 * kMm;
    layout.board = {305 * kMm, 305 * kMm, neck::centre_place(layout, kLast)};
    return layout;
}

NeckTruth true_neck(numeric::Random& random) {
    NeckTruth neck(layout(), {});
    neck.set(neck::What::relief, 0.22 * kMm);
    neck.scatter_crowns(0.006 * kMm, random);
    const StringTruth strings[] = {{0.08 * kMm, 1.72 * kMm}, {0.09 * kMm, 1.78 * kMm}, {0.24 * kMm, 1.84 * kMm},
                                   {0.09 * kMm, 1.95 * kMm}, {0.10 * kMm, 2.02 * kMm}, {0.17 * kMm, 2.10 * kMm}};
    string_up(neck, strings);
    return neck;
}

Json story() {
    return {{"fallaway", 1},
            {"demo", true},
            {"instrument", {{"kind", "electric guitar"}}},
            {"wants", {{"complaints", {{{"text", "is it worth setting up before I sell it?"}}}}}},
            {"hands", "look only"},
            {"scope", "quick look"}};
}

void looks(Sheet& sheet) {
    sheet.rate("headstock-break", 3);
    sheet.tell("neck joint", {}, "firm");
    sheet.rate("tuners", 3);
    sheet.rate("fret-crown", 2);
    sheet.rate("bridge-fixings", 3);
    sheet.rate("string-age", 1, "dull, dents under the first frets");
}

void readings(Sheet& sheet, const NeckTruth& neck) {
    const double drift[] = {6, 3, -8, -4, -2, -11};
    const double cents[] = {1.1, 0.4, 5.8, 0.8, 0.2, 1.5};
    const auto every_string = [](auto&& action) {
        for (int string = 6; string >= 1; --string) action(string);
    };
    every_string([&](int s) { sheet.read("pitch on arrival", on_string(s), drift[s - 1], "tuner"); });
    sheet.read("relief", on_string(6), neck.relief(6, 1, kLast).depth, "leaves");
    every_string(
        [&](int s) { sheet.tell("nut tap", on_string(s), std::string(tap_word(neck, s, sheet.random()))); });
    every_string(
        [&](int s) { sheet.read("string height", on_string(s, 12), neck.open_height(s, 12), "height gauge"); });
    every_string([&](int s) { sheet.read("intonation", on_string(s), cents[s - 1], "tuner"); });
    sheet.tell("note", {}, "rings");
    every_string([&](int s) {
        for (int fret = 0; fret <= kLast; ++fret) {
            const std::string word(heard(neck, s, fret, kPick));
            if (word != "rings") sheet.tell("note", on_string(s, fret), word);
        }
    });
    sheet.read("ground resistance", {}, 0.6, "meter, ohms");
    sheet.read("jack resistance", {}, parallel(warm(6900, 20.5), 490e3), "meter");
}

}  // namespace

const std::vector<DemoFile>& demo_files() {
    static const std::vector<DemoFile> kFiles{
        {"heron.json", heron, 412}, {"dray.json", dray, 88}, {"quick.json", quick, 7}};
    return kFiles;
}

Visit quick(std::uint64_t seed) {
    Sheet sheet(seed);
    sheet.add_tool("height gauge", "", {"mm", 0.05 * kMm, 0.02 * kMm, 0, 0.015 * kMm});
    sheet.add_tool("leaves", "", {"mm", 0.05 * kMm, 0.002 * kMm, 0, 0.004 * kMm});
    sheet.add_tool("tuner", "", {"cents", 0.1, 0.3, 0, 0.5});
    sheet.add_tool("meter", "", {"kohm", 10, 5, 0.004, 4});
    sheet.add_tool("meter, ohms", "", {"ohm", 0.1, 0.05, 0.004, 0.05});
    const NeckTruth neck = true_neck(sheet.random());
    sheet.sit_down({"arrival", "Joon Aster", "2026-11-24", 16 * 60 + 5});
    looks(sheet);
    readings(sheet, neck);
    return {sheet.bench_file(story()), neck};
}

}  // namespace fallaway::demo
