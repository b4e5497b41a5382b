#include "bench/report/neck_plan.h"

#include <algorithm>
#include <cmath>

namespace fallaway::report {
namespace {

constexpr double kLeft = 84;        // room for the names of the strings
constexpr double kLastFret = 1020;  // where the last fret lies
constexpr double kEnd = 1080;
constexpr double kRowWanted = 42;  // between strings at the nut: room for a figure
constexpr int kSquareFret = 7;     // of a fanned board, where nothing says otherwise
constexpr int kFewestFrets = 12;   // shorter boards leave the rest of the drawing to the strings
constexpr double kThinnest = 0.8;
constexpr double kThickest = 2.4;
constexpr double kThickest_mm = 2.8;

double fraction_at(int fret) {
    return 1 - std::exp2(-fret / 12.0);
}

double common_scale_mm(const evidence::Instrument& instrument, const std::vector<evidence::Assumption>& assumed) {
    if (instrument.scale) return instrument.scale->si * 1e3;
    for (const evidence::Assumption& a : assumed) {
        if (a.what == "scale length" && a.value.value > 0) return a.value.value * 1e3;
    }
    return 648;
}

}  // namespace

NeckPlan::NeckPlan(const evidence::Instrument& instrument, const std::vector<evidence::Assumption>& assumed)
    : strings_(std::max(string_count(instrument), 1)),
      frets_(std::max(fret_count(instrument), 1)),
      fretted_(instrument.fretted),
      fanned_(is_fanned(instrument)),
      left_(instrument.hand == evidence::Hand::left) {
    const double common = common_scale_mm(instrument, assumed);
    for (int s = 1; s <= strings_; ++s) {
        const bool known = static_cast<std::size_t>(s) <= instrument.strings.size();
        const evidence::StringSpec spec = known ? instrument.strings[s - 1] : evidence::StringSpec{};
        scale_mm_.push_back(spec.scale && spec.scale->si > 0 ? spec.scale->si * 1e3 : common);
        gauge_mm_.push_back(spec.gauge ? spec.gauge->si * 1e3 : 0);
    }
    const double longest = *std::ranges::max_element(scale_mm_);
    for (const double scale : scale_mm_) offset_mm_.push_back((longest - scale) * fraction_at(kSquareFret));
    double reach = 1;
    for (int s = 1; s <= strings_; ++s) reach = std::max(reach, along_mm(std::max(frets_, kFewestFrets), s));
    if (instrument.kind == evidence::Kind::electric_bass) {
        nut_gap_ = 9.5;
        bridge_gap_ = 18;
        edge_mm_ = 5.5;
    }
    units_per_mm_ = (kLastFret - kLeft) / reach;
    times_wider_ = std::max(1.0, std::ceil(kRowWanted / (nut_gap_ * units_per_mm_) * 2) / 2);
    nut_ = kLeft;
    end_ = kEnd;
}

double NeckPlan::along_mm(int fret, int string) const {
    return offset_mm_[string - 1] + scale_mm_[string - 1] * fraction_at(fret);
}

double NeckPlan::fret(int fret, int string) const {
    return nut_ + along_mm(fret, string) * units_per_mm_;
}

double NeckPlan::across(double string, double along) const {
    const double longest = *std::ranges::max_element(scale_mm_);
    const double way = (along - nut_) / (longest * units_per_mm_);
    const double gap = nut_gap_ + (bridge_gap_ - nut_gap_) * way;
    return (string - (strings_ + 1) / 2.0) * gap * units_per_mm_ * times_wider_;
}

double NeckPlan::edge(bool treble, double along) const {
    const double room = edge_mm_ * units_per_mm_ * times_wider_;
    return treble ? across(1, along) - room : across(strings_, along) + room;
}

double NeckPlan::thickness(int string) const {
    const double gauge = gauge_mm_[string - 1];
    const double part = gauge > 0 ? gauge / kThickest_mm : (string - 0.5) / strings_;
    return kThinnest + (kThickest - kThinnest) * std::clamp(part, 0.0, 1.0);
}

svg::Point NeckPlan::place(double along, double y) const {
    return {left_ ? kFigureWidth - along : along, y};
}

svg::Anchor NeckPlan::anchor(svg::Anchor right_handed) const {
    if (!left_ || right_handed == svg::Anchor::middle) return right_handed;
    return right_handed == svg::Anchor::start ? svg::Anchor::end : svg::Anchor::start;
}

}  // namespace fallaway::report
