// The demo instruments: each function gives one complete bench file, the same bytes for the same seed.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "neck_truth.h"
#include "sheet.h"

namespace fallaway::demo {

// A bench file as text, and the neck it leaves behind: as it stood when the last readings were taken.
struct Visit {
    std::string bench_file;
    NeckTruth neck;
};

Visit heron(std::uint64_t seed);  // a guitar between inspection and work
Visit dray(std::uint64_t seed);   // a bass before and after its set-up
Visit quick(std::uint64_t seed);  // a guitar of which only the kind is known, looked at for ten minutes

struct DemoFile {
    const char* name;
    Visit (*write)(std::uint64_t seed);
    std::uint64_t seed;  // told in a remark of the file
};
const std::vector<DemoFile>& demo_files();

// What the hands find is told by hand: instrument, wants, claims, card, price. Kept as JSON, as a person would
// write it.
Json heron_story();
Json dray_story();

// The judged checkpoints.
void heron_hands(Sheet& sheet);
void dray_hands(Sheet& sheet);
void dray_hands_after(Sheet& sheet);

// The tools of the shop with their certificates, drawn anew for each sheet.
void add_shop_tools(Sheet& sheet);

// One coil or several parallel ones read at the jack: R20 brought to the coil's temperature (copper, 0.00393 /K at
// 20 degC) and loaded by the volume control. SI; `celsius` in degC.
double warm(double ohms_at_20, double celsius);
double parallel(double a, double b);

}  // namespace fallaway::demo
