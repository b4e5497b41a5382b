// Benches made in memory; those of files are in tests/broken.
#include "bench/evidence/validation.h"

#include <gtest/gtest.h>

#include "bench/evidence/observable.h"

namespace fallaway::evidence {
namespace {

QuantityText mm(std::string_view text) {
    return *parse_quantity(text, Dimension::length);
}

Reading height(int string, int fret, std::string_view value) {
    Reading reading;
    reading.what = "string height";
    reading.at.string = string;
    reading.at.fret = fret;
    reading.value = mm(value);
    return reading;
}

TEST(Validation, EmptyBenchIsGood) {
    EXPECT_TRUE(validate({}, {}).empty());
}

TEST(Validation, WithoutAProcedureNamesOfCheckpointsPass) {
    Bench bench;
    bench.scope.name = "anything";
    Rating rating;
    rating.checkpoint = "anything";
    bench.ratings = {rating};
    EXPECT_TRUE(validate(bench, {}).empty());
    Catalogue catalogue;
    catalogue.procedure.checkpoints.resize(1);
    catalogue.procedure.checkpoints[0].id = "finish";
    const auto faults = validate(bench, catalogue);
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].path, "/ratings/0/checkpoint");
}

TEST(Validation, PlausibleEndsPassInEveryUnit) {
    Bench bench;
    bench.readings = {height(6, 12, "12 mm"), height(6, 12, "-1 mm"), height(6, 12, "1.2 cm")};
    EXPECT_TRUE(validate(bench, {}).empty());
    bench.readings = {height(6, 12, "12.1 mm"), height(6, 12, "-1.1 mm")};
    EXPECT_EQ(validate(bench, {}).size(), 2u);
}

TEST(Validation, EveryObservableTakesAValueInItsRangeAtItsPlace) {
    for (const Observable& observable : observables()) {
        Bench bench;
        Reading reading;
        reading.what = observable.name;
        if (observable.needs & kString) reading.at.string = 1;
        if (observable.needs & kFret) reading.at.fret = 1;
        if (observable.needs & kSide) reading.at.side = "bass";
        if (observable.needs & kSwitch) reading.at.switch_position = "both";
        if (observable.needs & kPickup) reading.at.pickup = "neck";
        if (observable.needs & kControl) reading.at.control = "volume";
        if (observable.needs & kSpot) reading.at.spot = "body";
        if (observable.words.empty()) {
            QuantityText value;
            value.unit = &units_of(observable.dimension).front();
            value.si = (observable.plausible_low + observable.plausible_high) / 2;
            reading.value = value;
        } else {
            reading.value = std::string(observable.words.front());
        }
        bench.readings = {reading};
        EXPECT_TRUE(validate(bench, {}).empty()) << observable.name;
        bench.readings[0].at = {};
        EXPECT_EQ(validate(bench, {}).empty(), observable.needs == kNoPlace) << observable.name;
    }
}

TEST(Validation, ValueOfTheWrongKind) {
    Bench bench;
    Reading reading = height(1, 1, "1 mm");
    reading.value = std::string("low");
    bench.readings = {reading};
    auto faults = validate(bench, {});
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].message, "\"low\": string height is a quantity, expected one such as \"1.60 mm\"");
    bench.readings[0].value = *parse_quantity("3 g", Dimension::mass);
    faults = validate(bench, {});
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].code, "unit");
}

TEST(Validation, LeftHandedIsLegalAndChangesNoNumber) {
    Bench bench;
    bench.instrument.hand = Hand::left;
    bench.readings = {height(6, 12, "1.9 mm")};
    EXPECT_TRUE(validate(bench, {}).empty());
}

TEST(Validation, ReadingOfFretCountCorrectsTheAssumption) {
    Bench bench;
    bench.readings = {height(1, 24, "1.5 mm")};
    EXPECT_EQ(validate(bench, {}).size(), 1u);
    Reading count;
    count.what = "fret count";
    count.value = *parse_quantity("24", Dimension::count);
    bench.readings.push_back(count);
    EXPECT_TRUE(validate(bench, {}).empty());
    bench.instrument.frets = 22;  // what is stated holds
    EXPECT_EQ(validate(bench, {}).size(), 1u);
}

TEST(Validation, ScalesForAllStringsOrNone) {
    Bench bench;
    bench.instrument.strings.resize(2);
    bench.instrument.strings[0].scale = mm("648 mm");
    auto faults = validate(bench, {});
    ASSERT_EQ(faults.size(), 1u);
    EXPECT_EQ(faults[0].message, "1 of 2 strings have a scale, expected all of them or none");
    bench.instrument.strings[1].scale = mm("650 mm");
    EXPECT_TRUE(validate(bench, {}).empty());
}

TEST(Validation, AcceptanceNeedsAPersonAndAReason) {
    Bench bench;
    bench.accepted = {{"finish", {}, " ", {}, ""}};
    const auto faults = validate(bench, {});
    ASSERT_EQ(faults.size(), 2u);
    EXPECT_EQ(faults[0].path, "/accepted/0/by");
    EXPECT_EQ(faults[1].path, "/accepted/0/why");
}

}  // namespace
}  // namespace fallaway::evidence
