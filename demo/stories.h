// The demo instruments: each function gives one complete bench file as text, the same bytes on every run.
#pragma once

#include <string>
#include <vector>

#include "neck_truth.h"
#include "science/numeric/random.h"
#include "sheet.h"

namespace fallaway::demo {

std::string heron();  // a guitar between inspection and work
std::string dray();   // a bass before and after its set-up
std::string quick();  // a guitar of which only the kind is known, looked at for ten minutes

struct DemoFile {
    const char* name;
    std::string (*write)();
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

// Every crown a little off, with this standard deviation (m), tilted across by half as much.
std::vector<CrownError> scattered_crowns(int frets, double sd, numeric::Random& random);

// The tools of the shop with their certificates, drawn anew for each sheet.
void add_shop_tools(Sheet& sheet);

// One coil or several parallel ones read at the jack: R20 brought to the coil's temperature (copper, 0.00393 /K at
// 20 degC) and loaded by the volume control. SI; `celsius` in degC.
double warm(double ohms_at_20, double celsius);
double parallel(double a, double b);

}  // namespace fallaway::demo
