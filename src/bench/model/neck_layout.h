// Where strings, frets and board of one instrument lie: as read, else as stated, else as usual for its kind.
#pragma once

#include "bench/model/current.h"
#include "science/neck/layout.h"

namespace fallaway::model {

// What no reading and no statement says is taken as usual: spread of the strings, saddle setback, joint at fret 16
// (common practice, no source). Heights depend little on it: 10 mm of scale move a height over fret 12 by less
// than 0.001 mm, 100 mm of board radius by less than 0.02 mm.
neck::Layout neck_layout(const evidence::Bench& bench, const CurrentReadings& readings);

}  // namespace fallaway::model
