#include "bench/model/neck_layout.h"

#include <algorithm>
#include <cmath>

#include "science/neck/beam.h"
#include "science/neck/frets.h"
#include "science/neck/section.h"

namespace fallaway::model {
namespace {

using evidence::Bench;
using evidence::Instrument;
using evidence::Kind;
using evidence::Place;
using metrology::Uncertain;

constexpr double kMm = 1e-3;

// From centre to centre of neighbours at the nut and at the saddles, scale, how far a saddle stands back. Common
// practice, no source.
struct Usual {
    double gap_nut;
    double gap_saddle;
    double scale;
    double setback;
    double radius;
    double radius_u;
    double crown_height;
};
constexpr Usual kGuitar{7.1 * kMm, 10.4 * kMm, 648 * kMm, 2.5 * kMm, 305 * kMm, 58 * kMm, 1.2 * kMm};
constexpr Usual kBass{10 * kMm, 19 * kMm, 864 * kMm, 4 * kMm, 305 * kMm, 69 * kMm, 1.2 * kMm};
constexpr double kStatedRadiusU = 6 * kMm;  // half a step between the gauges in use; common practice, no source
constexpr int kPerpendicularFret = 7;       // of a fanned board that nobody described; common practice, no source

// The reading of a quantity that speaks for a place and still counts.
std::optional<Uncertain> read(const CurrentReadings& readings, std::string_view what, const Place& at) {
    const Current* current = readings.at(what, at);
    if (current == nullptr || !current->taken.word.empty() || !current->taken.stale_because.empty()) {
        return std::nullopt;
    }
    return current->taken.y;
}

double scale_of(const Bench& bench, const CurrentReadings& readings, int string, double usual) {
    const Instrument& instrument = bench.instrument;
    const Place at{.string = string};
    if (const auto scale = read(readings, "scale length", at)) return scale->value;
    if (const auto last = read(readings, "nut to last fret", at)) {
        return neck::scale_from_fret(Length::m(last->value), evidence::fret_count(instrument)).m();
    }
    const auto index = static_cast<std::size_t>(string - 1);
    if (index < instrument.strings.size() && instrument.strings[index].scale) {
        return instrument.strings[index].scale->si;
    }
    return instrument.scale ? instrument.scale->si : usual;
}

// "nut" or fret 0 is one end; "bridge", "saddle", "saddles" the other.
std::optional<double> spread(const CurrentReadings& readings, bool at_nut) {
    for (const Current& current : readings.of("string spread")) {
        const auto spot = current.at.spot.value_or("");
        const bool nut = current.at.fret == 0 || spot.find("nut") != std::string::npos;
        const bool saddle = spot.find("bridge") != std::string::npos || spot.find("saddle") != std::string::npos;
        if ((at_nut ? nut : saddle) && current.taken.stale_because.empty()) return current.taken.y.value;
    }
    return std::nullopt;
}

void lay_strings(neck::Layout& layout, const Bench& bench, const CurrentReadings& readings, const Usual& usual) {
    const int count = evidence::string_count(bench.instrument);
    const double nut = spread(readings, true).value_or(usual.gap_nut * (count - 1));
    const double saddle = spread(readings, false).value_or(usual.gap_saddle * (count - 1));
    double longest = 0;
    for (int string = 1; string <= count; ++string) {
        // String 1 lies at the treble side, which is the positive one.
        const double side = count == 1 ? 0 : 0.5 - double(string - 1) / (count - 1);
        const double scale = scale_of(bench, readings, string, usual.scale);
        layout.strings.push_back({side * nut, side * saddle, scale, 0, usual.setback});
        longest = std::max(longest, scale);
    }
    const double to_perpendicular = 1 - std::exp2(-kPerpendicularFret / 12.0);
    for (neck::StringLine& line : layout.strings) line.x_nut = (longest - line.scale) * to_perpendicular;
}

neck::Board board_of(const neck::Layout& layout, const Bench& bench, const CurrentReadings& readings,
                     const Usual& usual) {
    const Instrument& instrument = bench.instrument;
    const double x_end = neck::centre_place(layout, layout.frets);
    neck::ConePrior prior;
    prior.nut = instrument.radius ? Uncertain{instrument.radius->si, kStatedRadiusU}
                                  : Uncertain{usual.radius, usual.radius_u};
    prior.end = instrument.radius_end ? Uncertain{instrument.radius_end->si, kStatedRadiusU} : prior.nut;
    std::vector<neck::RadiusReading> gauged;
    for (const Current& current : readings.of("board radius")) {
        if (!current.taken.stale_because.empty() || current.taken.y.u <= 0) continue;
        const int fret = std::clamp(current.at.fret.value_or(layout.frets / 2), 0, layout.frets);
        gauged.push_back({neck::centre_place(layout, fret), current.taken.y});
    }
    const auto cone = neck::fit_cone(gauged, x_end, prior);
    if (!cone || cone->nut.value <= 0 || cone->end.value <= 0) return {prior.nut.value, prior.end.value, x_end};
    return {cone->nut.value, cone->end.value, x_end};
}

double crown_height(const Bench& bench, const CurrentReadings& readings, const Usual& usual) {
    if (!bench.instrument.fretted) return 0;
    double sum = 0;
    int count = 0;
    for (const Current& current : readings.of("fret height")) {
        if (!current.taken.stale_because.empty()) continue;
        sum += current.taken.y.value;
        ++count;
    }
    if (count > 0) return sum / count;
    const auto& wire = bench.instrument.fretwire;
    return wire && wire->height ? wire->height->si : usual.crown_height;
}

}  // namespace

neck::Layout neck_layout(const Bench& bench, const CurrentReadings& readings) {
    const Usual& usual = bench.instrument.kind == Kind::electric_bass ? kBass : kGuitar;
    neck::Layout layout;
    layout.frets = evidence::fret_count(bench.instrument);
    layout.fretted = bench.instrument.fretted;
    layout.zero_fret = bench.instrument.fretted && bench.instrument.zero_fret.value_or(false);
    layout.joint_fret = std::min(16, layout.frets);
    lay_strings(layout, bench, readings, usual);
    layout.board = board_of(layout, bench, readings, usual);
    layout.crown_height = crown_height(bench, readings, usual);
    return layout;
}

}  // namespace fallaway::model
