// The parts of a visit's view that are derived from evidence and judgement: places, minutes, the drawing of the
// neck. Pure.
#pragma once

#include "bench/evidence/bench.h"
#include "bench/judgement/assessment.h"
#include "shop/files/api.h"

namespace fallaway::app {

files::api::InstrumentFacts facts_of(const evidence::Instrument& instrument);
files::api::Neck neck_of(const evidence::Instrument& instrument, const judgement::Assessment& assessment);

// Every checkpoint that applies, in trade order, with the places where it is read.
std::vector<files::api::CheckpointState> checkpoint_states(const evidence::Bench& bench,
                                                           const evidence::Procedure& procedure,
                                                           const judgement::Assessment& assessment);
// Of those in scope. What the hands rule forbids takes no time.
files::api::Minutes minutes_of(const std::vector<files::api::CheckpointState>& checkpoints);

// The latest word of an earlier stay on every place, for this one to begin with.
files::api::LastStay last_stay(const evidence::Bench& earlier, std::string visit, std::string day);

// "medium hand, 10-46, rattle unplugged only": one line, "" for nothing.
std::string wants_line(const evidence::Wants& wants);

// A reading's value as typed: "1.6 mm", "1.60 mm, 1.65 mm", "just moves".
std::string typed_value(const evidence::Reading& reading);

// What an entry says, for undo and history: "string height 1.6 mm, string 2, fret 12".
std::string says(const files::Entry& entry, const evidence::Procedure& procedure);

}  // namespace fallaway::app
