#include "neck_truth.h"

#include <algorithm>
#include <cmath>

namespace fallaway::demo {
namespace {

const StringTruth& string_of(const NeckTruth& neck, int string) {
    return neck.strings.at(string - 1);
}

double across(const NeckTruth& neck, int string, double x) {
    const StringTruth& s = string_of(neck, string);
    return s.y_nut + (s.y_saddle - s.y_nut) * x / neck.scale;
}

double saddle_place(const NeckTruth& neck, int string) {
    return neck.scale + string_of(neck, string).setback;
}

// Drop below the centre line of a circle.
double drop(double y, double radius) {
    return radius - std::sqrt(radius * radius - y * y);
}

// 1/I of a half-ellipse up to a factor: I ~ width * thickness^3.
double flexibility(const NeckTruth& neck, double x) {
    const double thickness = thickness_at(neck, x);
    return 1 / (width_at(neck, x) * thickness * thickness * thickness);
}

// Deflection at x of the neck clamped at the joint under a constant moment, up to a factor: the double integral of
// flexibility by the trapezoid rule, fine enough for a tenth of a micrometre.
double bent(const NeckTruth& neck, double x) {
    constexpr int kSteps = 64;
    const double joint = fret_place(neck, neck.joint_fret);
    if (x >= joint) return 0;
    const double step = (joint - x) / kSteps;
    double slope = 0;
    double deflection = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double here = flexibility(neck, joint - i * step);
        const double next = flexibility(neck, joint - (i + 1) * step);
        const double slope_next = slope + step * (here + next) / 2;
        deflection += step * (slope + slope_next) / 2;
        slope = slope_next;
    }
    return deflection;
}

// Largest dip of `bent` under the line over crowns 1 and last.
double bent_dip(const NeckTruth& neck) {
    const double first = fret_place(neck, 1);
    const double last = fret_place(neck, neck.frets);
    const double at_first = bent(neck, first);
    double dip = 0;
    for (int fret = 1; fret <= neck.frets; ++fret) {
        const double x = fret_place(neck, fret);
        dip = std::max(dip, at_first * (last - x) / (last - first) - bent(neck, x));
    }
    return dip;
}

double profile(const NeckTruth& neck, double x) {
    const double beyond = std::max(0.0, x - fret_place(neck, neck.joint_fret));
    return neck.relief * bent(neck, x) / bent_dip(neck) - neck.fallaway * beyond;
}

double error_at(const NeckTruth& neck, int fret, double side) {
    const CrownError& e = neck.crowns.at(fret - 1);
    const double part = std::clamp(side, -1.0, 1.0);
    return part < 0 ? e.middle + (e.bass - e.middle) * -part : e.middle + (e.treble - e.middle) * part;
}

double nut_floor(const NeckTruth& neck, int string) {
    const StringTruth& s = string_of(neck, string);
    const double zero_fret =
        profile(neck, 0) - drop(s.y_nut, neck.radius_nut + neck.fret_height) + neck.fret_height;
    return zero_fret + s.slot_excess;
}

double line(double x0, double z0, double x1, double z1, double x) {
    return z0 + (z1 - z0) * (x - x0) / (x1 - x0);
}

}  // namespace

double fret_place(const NeckTruth& neck, int fret) {
    return neck.scale * (1 - std::exp2(-fret / 12.0));
}

double width_at(const NeckTruth& neck, double x) {
    return line(0, neck.width_nut, fret_place(neck, neck.frets), neck.width_last, x);
}

double radius_at(const NeckTruth& neck, double x) {
    return line(0, neck.radius_nut, fret_place(neck, neck.frets), neck.radius_last, x);
}

double thickness_at(const NeckTruth& neck, double x) {
    return line(0, neck.thickness_nut, fret_place(neck, 12), neck.thickness_12, x);
}

double crown(const NeckTruth& neck, int string, int fret) {
    const double x = fret_place(neck, fret);
    const double y = across(neck, string, x);
    return profile(neck, x) - drop(y, radius_at(neck, x)) + neck.fret_height +
           error_at(neck, fret, 2 * y / width_at(neck, x));
}

double fret_height_at(const NeckTruth& neck, int fret, double side) {
    return neck.fret_height + error_at(neck, fret, side);
}

double open_height(const NeckTruth& neck, int string, int fret) {
    return fretted_gap(neck, string, 0, fret);
}

double fretted_gap(const NeckTruth& neck, int string, int held, int over) {
    const double from = held == 0 ? nut_floor(neck, string) : crown(neck, string, held);
    return line(fret_place(neck, held), from, saddle_place(neck, string), string_of(neck, string).saddle_height,
                fret_place(neck, over)) -
           crown(neck, string, over);
}

double held_gap(const NeckTruth& neck, int string, int low, int high, int over) {
    return line(fret_place(neck, low), crown(neck, string, low), fret_place(neck, high), crown(neck, string, high),
                fret_place(neck, over)) -
           crown(neck, string, over);
}

Dip relief_reading(const NeckTruth& neck, int string, int low, int high) {
    Dip deepest{-1, low};
    for (int fret = low + 1; fret < high; ++fret) {
        const double gap = held_gap(neck, string, low, high, fret);
        if (gap > deepest.depth) deepest = {gap, fret};
    }
    return deepest;
}

double nut_gap(const NeckTruth& neck, int string) {
    const double at_1 =
        line(0, nut_floor(neck, string), fret_place(neck, 2), crown(neck, string, 2), fret_place(neck, 1));
    return std::max(0.0, at_1 - crown(neck, string, 1));
}

double rocker_gap(const NeckTruth& neck, int string, int fret) {
    return -held_gap(neck, string, fret - 1, fret + 1, fret);
}

double pickup_gap(const NeckTruth& neck, int string, double x, double top) {
    return line(fret_place(neck, neck.frets), crown(neck, string, neck.frets), saddle_place(neck, string),
                string_of(neck, string).saddle_height, x) -
           top;
}

void set_height_at_12(NeckTruth& neck, int string, double height) {
    const double share = fret_place(neck, 12) / saddle_place(neck, string);
    neck.strings.at(string - 1).saddle_height =
        (height + crown(neck, string, 12) - nut_floor(neck, string) * (1 - share)) / share;
}

std::string_view heard(const NeckTruth& neck, int string, int fret, double pick) {
    const double from = fret_place(neck, fret);
    const double length = saddle_place(neck, string) - from;
    double touching = 1;  // the smallest swing that touches a crown ahead, m
    for (int over = fret + 1; over <= neck.frets; ++over) {
        const double way = fret_place(neck, over) - from;
        const double excursion = std::min({1.0, way / pick, (length - way) / pick});
        touching = std::min(touching, fretted_gap(neck, string, fret, over) / excursion);
    }
    if (touching < 0.25e-3) return "chokes";
    if (touching < 0.41e-3) return "buzzes";
    return touching < 0.47e-3 ? "rattles when struck hard" : "rings";
}

}  // namespace fallaway::demo
