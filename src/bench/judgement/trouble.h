// What kind of trouble a player's own words speak of: the three that diagnosis knows.
#pragma once

#include <string_view>

#include "bench/evidence/bench.h"

namespace fallaway::judgement {

enum class Trouble {
    noise,   // when played: buzz, rattle, choke
    tuning,  // does not stay in tune, notes are off
    hum,     // hum, crackle, silence: the electrics
    unknown
};

// By the words of the trade and by the place: a switch, a pickup or a knob is electric whatever the words.
Trouble trouble_of(const evidence::Complaint& complaint);

// May a reading of this observable show its cause?
bool may_explain(Trouble trouble, std::string_view observable);

}  // namespace fallaway::judgement
