// Where strings, frets and board of one instrument lie in plan and section, before any reading of height.
//
// Axes: x from the front edge of the nut along the board's centre line, y across (bass negative), z up. Everything
// in metres. Heights of a string are to its underside. Strings are numbered from 0 here, string 0 the thinnest;
// frets from 1, fret 0 is the nut.
#pragma once

#include <limits>
#include <vector>

namespace fallaway::neck {

struct StringLine {
    double y_nut = 0;     // at the front edge of the nut
    double y_saddle = 0;  // at x_nut + scale
    double scale = 0;     // > 0
    double x_nut = 0;     // where this string's nut lies along the centre line: 0 but on fanned boards
    double setback = 0;   // how far the saddle stands behind the scale; + is longer
};

// Radius of the board across its centre line: straight from nut to end (a cone), constant when both are equal (a
// cylinder). Infinite is flat.
struct Board {
    double radius_nut = std::numeric_limits<double>::infinity();
    double radius_end = std::numeric_limits<double>::infinity();
    double x_end = 0;  // where radius_end holds: the last fret on the centre line
};

struct Layout {
    std::vector<StringLine> strings;
    Board board;
    int frets = 0;            // 1..36; on a fretless board the marked places
    double joint_fret = 16;   // from here on the neck does not bend
    double crown_height = 0;  // of the wire over the board as it stands; 0 on a fretless board
    bool fretted = true;
    bool zero_fret = false;           // the open string rests on a crown at the nut
    std::vector<double> fret_errors;  // measured place less exact place, fret 1 first; empty: exact
};

// A fanned board: scales straight across from the thinnest string's to the thickest's by their place at the nut,
// so that frets are straight, and nuts placed so that `square_fret` (0 the nut; parts of a fret may be meant)
// stands square to the centre line. x stays 0 in the mean of all nuts. Equal scales make no fan.
Layout fanned(Layout layout, double scale_thinnest, double scale_thickest, double square_fret);

// Place of a fret along one string from its own nut: scale (1 - 2^(-fret/12)), plus the measured error. fret
// 0..36 (past the last fret the exact place).
double fret_place(const Layout& layout, int string, int fret);
// Nut to saddle along one string: scale + setback.
double speaking_length(const Layout& layout, int string);
// y of one string at a way x along it from its own nut; straight in plan.
double string_y(const Layout& layout, int string, double x);
// R at x along the centre line; past x_end the cone goes on. Flat when either end is.
double board_radius(const Board& board, double x);
// S(y; R) = R - sqrt(R^2 - y^2): how far an arc has dropped at y from its top. |y| <= R, else not a number.
double arc_drop(double y, double radius);
// Drop of the board's surface below its centre line under one string at x along it: S(y; R) = R - sqrt(R^2 - y^2),
// R taken at that place of the centre line. 0 on a flat board.
double board_drop(const Layout& layout, int string, double x);

}  // namespace fallaway::neck
