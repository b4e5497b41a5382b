// Instruments for the tests of this room: six strings over 22 frets, as plain or as odd as a test wants.
#pragma once

#include "science/neck/layout.h"

namespace fallaway::neck {

// Equal spread of `strings` strings, thinnest first (treble is +y).
inline Layout instrument(double scale = 0.6477, int strings = 6, double spread_nut = 0.035,
                         double spread_saddle = 0.0524, int frets = 22) {
    Layout layout;
    for (int i = 0; i < strings; ++i) {
        const double across = strings > 1 ? 0.5 - static_cast<double>(i) / (strings - 1) : 0;
        layout.strings.push_back(
            {.y_nut = across * spread_nut, .y_saddle = across * spread_saddle, .scale = scale});
    }
    layout.frets = frets;
    layout.board.x_end = fret_place(layout, 0, frets);
    return layout;
}

}  // namespace fallaway::neck
