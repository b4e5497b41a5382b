// What must hold between the parts of a bench file, beyond the form of each part.
#pragma once

#include <vector>

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "science/base/result.h"

namespace fallaway::evidence {

// Every fault, each with the JSON pointer of the file's form ("/readings/3/at/fret") and what was expected. Places
// must exist on the instrument; observables, checkpoints, scopes, tools, kinds of claim and of work must be known
// and get the kind of value they take, within what is plausible; ids are unique and what points at one finds it; a
// file has one currency. A catalogue without checkpoints (or scopes) leaves those names unchecked.
std::vector<Error> validate(const Bench& bench, const Catalogue& catalogue);

}  // namespace fallaway::evidence
