// What is taken for granted of an instrument until a reading knows better.
#pragma once

#include <string>
#include <vector>

#include "bench/evidence/instrument.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::evidence {

struct Assumption {
    std::string what;            // "scale length", "frets", "tuning"
    std::string text;            // "648 mm ± 10" or "E4 B3 G3 D3 A2 E2", for a person
    std::string because;         // "usual for a six-string electric guitar; common practice, no source"
    std::string observable;      // the reading that replaces it; "" when none does
    metrology::Uncertain value;  // SI; u = 0 for words and counts

    friend bool operator==(const Assumption&, const Assumption&) = default;
};

// In a fixed order; nothing that the instrument states. Readings are applied by judgement.
std::vector<Assumption> assumptions(const Instrument& instrument);

}  // namespace fallaway::evidence
