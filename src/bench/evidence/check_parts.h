// The smaller checks that validate() is made of. For this room only.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "bench/evidence/bench.h"
#include "bench/evidence/observable.h"
#include "science/base/result.h"

namespace fallaway::evidence {

class Faults {
public:
    void add(std::string code, std::string path, std::string message) {
        list_.push_back({std::move(code), std::move(path), std::move(message)});
    }
    std::vector<Error> take() { return std::move(list_); }

private:
    std::vector<Error> list_;
};

// What places and values are held against: the instrument, with a count of its frets that a reading may have
// corrected.
struct Ground {
    const Instrument& instrument;
    int strings = 0;
    int frets = 0;
    bool frets_stated = false;  // by the instrument or by a reading
};
Ground ground_of(const Bench& bench);

// Does the place exist on this instrument?
void check_place(const Place& place, const std::string& path, const Ground& ground, Faults& faults);

// Has a reading of the observable the parts of a place that it needs and no others, and can it be read here at
// all? `path` is that of the record that holds `at`.
void check_place_of(const Observable& observable, const Place& place, const std::string& path,
                    const Ground& ground, Faults& faults);

// Is it of the observable's kind, and plausible?
void check_quantity(const Observable& observable, const QuantityText& value, const std::string& path,
                    Faults& faults);
void check_value(const Observable& observable, const Value& value, const std::string& path, Faults& faults);

// The observable of a name, or a fault and null.
const Observable* check_observable(std::string_view name, const std::string& path, Faults& faults);

// The instrument by itself: lengths within reason, no name twice, scales for all strings or none.
void check_instrument(const Instrument& instrument, Faults& faults);

// Is every value different? `noun` for the message: "reading id".
void check_unique(std::span<const std::string> values, std::span<const std::string> paths, std::string_view noun,
                  Faults& faults);

// Is the word in the list? Else a fault with the nearest one.
bool check_known(std::string_view word, std::span<const std::string_view> known, std::string_view noun,
                 const std::string& path, Faults& faults);

}  // namespace fallaway::evidence
