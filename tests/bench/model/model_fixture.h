// Instruments and readings in a few lines, against the tables inside the program.
#pragma once

#include <string>

#include <gtest/gtest.h>

#include "bench/evidence/observable.h"
#include "bench/model/intonation.h"
#include "shop/files/catalogue_codec.h"

namespace fallaway::model::testing {

using evidence::Bench;
using evidence::Kind;

inline QuantityText quantity(const std::string& text, Dimension dimension) {
    const auto parsed = parse_quantity(text, dimension);
    EXPECT_TRUE(parsed.has_value()) << text;
    return parsed.value_or(QuantityText{});
}

inline QuantityText size(const std::string& text) {
    return quantity(text, Dimension::length);
}

inline Bench guitar(const std::string& scale = "647.7 mm") {
    Bench bench;
    bench.instrument.scale = size(scale);
    return bench;
}

inline void string_of(Bench& bench, const std::string& note, const std::string& gauge,
                      const std::string& scale = "") {
    evidence::StringSpec spec;
    spec.note = note;
    if (!gauge.empty()) spec.gauge = size(gauge);
    if (!scale.empty()) spec.scale = size(scale);
    bench.instrument.strings.push_back(spec);
}

inline void read(Bench& bench, const std::string& what, int string, std::optional<int> fret,
                 const std::string& value) {
    evidence::Reading reading;
    reading.what = what;
    reading.at.string = string;
    reading.at.fret = fret;
    reading.value = quantity(value, evidence::find_observable(what)->dimension);
    bench.readings.push_back(reading);
}

inline FittedStrings strings_on(const Bench& bench) {
    const auto& catalogue = files::built_in_catalogue();
    return strings_of(bench, CurrentReadings(bench, catalogue), catalogue);
}

inline std::optional<Intonation> intonation_on(const Bench& bench) {
    const auto& catalogue = files::built_in_catalogue();
    const CurrentReadings readings(bench, catalogue);
    const auto neck = survey_neck(bench, readings);
    EXPECT_TRUE(neck.has_value());
    return intonation_of(bench, readings, *neck, strings_of(bench, readings, catalogue));
}

}  // namespace fallaway::model::testing
