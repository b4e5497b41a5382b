// Lines of equal height over a sheet that is known at the crossings of frets and strings, straight between them.
#pragma once

#include <vector>

#include "science/metrology/uncertainty.h"

namespace fallaway::model {

// A place on the board between the frets and the strings: 7.5 lies halfway from fret 7 to fret 8, 1 on string 1.
struct BoardPoint {
    double fret = 0;
    double string = 0;
};

struct Contour {
    double level = 0;  // m
    bool closed = false;
    bool sure = true;  // false: the sheet along it is not known to half a step between two lines
    std::vector<BoardPoint> points;
};

// rows[fret - 1][string - 1]; at least two by two, all rows of one length. Lines at every whole multiple of `step`
// (> 0), the highest level first. A sheet that is level exactly at a line's height counts as just above it.
std::vector<Contour> contours(const std::vector<std::vector<metrology::Uncertain>>& rows, double step);

}  // namespace fallaway::model
