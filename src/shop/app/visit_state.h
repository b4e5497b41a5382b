// One visit in memory: its history, the bench file that the history makes, and what judgement says of it. Values
// that never change once made; a new entry makes a new state.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "bench/judgement/assessment.h"
#include "science/base/result.h"
#include "shop/files/history.h"
#include "shop/store/store.h"

namespace fallaway::app {

struct VisitState {
    std::vector<files::Entry> entries;  // all of them, by seq; not yet stored ones have seq 0 and stand last
    evidence::Bench bench;
    std::shared_ptr<const evidence::Catalogue> under;      // that it was taken under
    std::shared_ptr<const evidence::Catalogue> catalogue;  // that it is judged by: with its own procedure, if any
};

// Errors of the bench file come back with the entry that they stem from: "/entries/0/value/at/fret" for entry
// number `first_new` and later, the path in the bench file for those before.
ResultAll<VisitState> make_state(std::vector<files::Entry> entries, std::size_t first_new,
                                 std::shared_ptr<const evidence::Catalogue> under);

// The catalogue that a bench is judged by, of the one that its visit was taken under.
std::shared_ptr<const evidence::Catalogue> own_catalogue(const evidence::Bench& bench,
                                                         const std::shared_ptr<const evidence::Catalogue>& under);

// Every id that an entry replaces must be one of the entries before it; ids are not used twice.
std::vector<Error> check_chain(std::span<const files::Entry> entries, std::size_t first_new);

// What the list can show before anything is judged: verdict and what comes next stay "".
store::VisitCard plain_card(const evidence::Bench& bench);
// The whole line.
store::VisitCard judged_card(const evidence::Bench& bench, const evidence::Procedure& procedure,
                             const judgement::Assessment& assessment);

// "Ostrel Heron"; what the kind and number of strings say while nobody named it.
std::string title_of(const evidence::Instrument& instrument);

}  // namespace fallaway::app
