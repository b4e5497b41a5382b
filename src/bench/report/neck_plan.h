// The fingerboard in plan: where frets and strings lie on the drawing. Along the neck everything is in true
// proportion; across it is stretched by a stated number of times.
#pragma once

#include <vector>

#include "bench/evidence/instrument.h"
#include "bench/judgement/assessment.h"
#include "bench/report/svg.h"

namespace fallaway::report {

inline constexpr double kFigureWidth = 1120;  // units of the viewBox, for every figure of the page

class NeckPlan {
public:
    // Scale from the instrument, else from the assumptions; 0.648 m when neither knows.
    NeckPlan(const evidence::Instrument& instrument, const std::vector<evidence::Assumption>& assumed);

    int strings() const { return strings_; }
    int frets() const { return frets_; }
    bool fretted() const { return fretted_; }
    bool fanned() const { return fanned_; }
    bool left_handed() const { return left_; }
    double times_wider() const { return times_wider_; }

    // Along the neck in drawing units, head left, before any mirroring. Fret 0 is the nut. The place of fret n is
    // scale * (1 - 2^(-n/12)), the definition of equal temperament.
    double fret(int fret, int string) const;
    double nut() const { return nut_; }
    double end() const { return end_; }  // past the last fret, where the drawing of the strings breaks off

    // Across the neck, string 1 on top, 0 the middle of the board.
    double across(double string, double along) const;
    double edge(bool treble, double along) const;
    double thickness(int string) const;  // of the line, 0.8 to 2.4

    // A point on the page: mirrored for a left-handed instrument.
    svg::Point place(double along, double y) const;
    svg::Anchor anchor(svg::Anchor right_handed) const;

private:
    double along_mm(int fret, int string) const;

    int strings_;
    int frets_;
    bool fretted_;
    bool fanned_;
    bool left_;
    std::vector<double> scale_mm_;   // string 1 first
    std::vector<double> gauge_mm_;   // 0 where not known
    std::vector<double> offset_mm_;  // of a string's nut, for fanned frets
    double nut_ = 0;
    double end_ = 0;
    double units_per_mm_ = 1;
    double times_wider_ = 1;
    // Between neighbouring strings, and from the outer string to the edge of the board, in mm; common practice, no
    // source.
    double nut_gap_ = 7;
    double bridge_gap_ = 10.4;
    double edge_mm_ = 3.2;
};

}  // namespace fallaway::report
