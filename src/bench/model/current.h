// From all readings ever taken to what is true of the instrument now: the latest stage counts, equal stages are
// combined, and a reading that later work has overtaken is marked stale.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "bench/evidence/catalogue.h"
#include "bench/evidence/observable.h"
#include "bench/model/figure.h"

namespace fallaway::model {

// One reading, with the uncertainty that its tool and its repeats give it.
struct Taken {
    const evidence::Reading* reading = nullptr;
    const evidence::Observable* observable = nullptr;
    Figure figure;
    metrology::Uncertain y;        // meaningless for words; a relief as the deepest dip under fret 1 to the last
    metrology::Uncertain as_read;  // the same before it was brought to those frets
    double u_repeat = 0;           // the part of u that more repeats would shrink
    std::string word;              // "" for quantities
    std::string tool;              // name for a person
    bool tool_assumed = false;
    std::string stale_because;  // "" while it counts
};

Taken take(const evidence::Reading& reading, const evidence::Bench& bench, const evidence::Catalogue& catalogue);

// What is true now of one observable at one place.
struct Current {
    Taken taken;  // the reading, or several of one stage made into one
    evidence::Place at;
    bool disputed = false;  // read twice at the same stage, and the two do not agree
    std::vector<const evidence::Reading*> from;
};

inline constexpr std::string_view kHeldHeight = "string height, held";

// All readings, taken once; every later step looks here.
class CurrentReadings {
public:
    CurrentReadings(const evidence::Bench& bench, const evidence::Catalogue& catalogue);

    // In the order of places. Empty when nobody read it. Heights of a string that was held at a fret stand under
    // kHeldHeight, whatever else is a height is the open string's.
    const std::vector<Current>& of(std::string_view observable) const;

    // The reading that speaks for a place: the one with the most of its parts equal and none contradicting.
    const Current* at(std::string_view observable, const evidence::Place& place) const;

    // Every reading of the file in file order, stale ones included.
    const std::vector<Taken>& all() const { return all_; }

private:
    std::vector<Taken> all_;
    std::map<std::string, std::vector<Current>, std::less<>> current_;
};

// Does a reading taken at `reading` speak for `asked`? A part that the reading leaves open speaks for all.
bool speaks_for(const evidence::Place& reading, const evidence::Place& asked);

// Two readings of the same thing made into one: with the same tool only repeats average out, with different tools
// the weights are 1/u^2.
Taken combined(const Taken& a, const Taken& b);

}  // namespace fallaway::model
