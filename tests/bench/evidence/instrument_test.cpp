#include "bench/evidence/instrument.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "bench/evidence/assumptions.h"
#include "bench/evidence/tuning.h"

namespace fallaway::evidence {
namespace {

QuantityText length(std::string_view text) {
    return *parse_quantity(text, Dimension::length);
}

const Assumption* find(const std::vector<Assumption>& list, std::string_view what) {
    const auto found = std::ranges::find(list, what, &Assumption::what);
    return found == list.end() ? nullptr : &*found;
}

TEST(Instrument, UsualNumbersYieldToWhatIsStated) {
    Instrument guitar;
    EXPECT_EQ(string_count(guitar), 6);
    EXPECT_EQ(fret_count(guitar), 22);
    Instrument bass;
    bass.kind = Kind::electric_bass;
    EXPECT_EQ(string_count(bass), 4);
    EXPECT_EQ(fret_count(bass), 20);
    bass.strings.resize(5);
    bass.frets = 24;
    EXPECT_EQ(string_count(bass), 5);
    EXPECT_EQ(fret_count(bass), 24);
    bass.fretted = false;
    bass.frets.reset();
    EXPECT_EQ(fret_count(bass), 20);
}

TEST(Instrument, FannedMeansTwoScales) {
    Instrument guitar;
    EXPECT_FALSE(is_fanned(guitar));
    guitar.strings.resize(2);
    guitar.strings[0].scale = length("635 mm");
    guitar.strings[1].scale = length("25 in");
    EXPECT_FALSE(is_fanned(guitar));
    guitar.strings[1].scale = length("650 mm");
    EXPECT_TRUE(is_fanned(guitar));
}

TEST(Instrument, DescribesItself) {
    Instrument guitar;
    EXPECT_EQ(describe(guitar), "electric guitar, six strings");
    guitar.maker = "Ostrel";
    guitar.model = "Heron";
    guitar.serial = "OH-0412";
    EXPECT_EQ(describe(guitar), "Ostrel Heron, OH-0412");
    Instrument bass;
    bass.kind = Kind::electric_bass;
    bass.fretted = false;
    EXPECT_EQ(describe(bass), "fretless electric bass, four strings");
}

// MIDI numbers: A4 = 69 and C-1 = 0 (MIDI 1.0 with the octave of scientific pitch notation).
TEST(Tuning, NumbersOfNotes) {
    EXPECT_EQ(note_number("A4"), 69);
    EXPECT_EQ(note_number("C-1"), 0);
    EXPECT_EQ(note_number("E2"), 40);
    EXPECT_EQ(note_number("Bb1"), note_number("A#1"));
    EXPECT_EQ(note_number("Cb4"), note_number("B3"));
    EXPECT_EQ(note_number("B#3"), note_number("C4"));
    for (const char* bad : {"", "E", "e2", "H2", "E10", "E##2", "Ebb2", "E-2", "2E", "E2 "}) {
        EXPECT_FALSE(note_number(bad).has_value()) << bad;
    }
}

TEST(Tuning, StringsByName) {
    Instrument guitar;
    EXPECT_EQ(strings_named(guitar, "E2"), (std::vector{6}));
    EXPECT_EQ(strings_named(guitar, "E"), (std::vector{1, 6}));
    EXPECT_EQ(strings_named(guitar, "A"), (std::vector{5}));
    EXPECT_TRUE(strings_named(guitar, "F").empty());
    EXPECT_TRUE(strings_named(guitar, "low E").empty());
    guitar.strings.resize(6);
    guitar.strings[5].note = "D2";
    EXPECT_EQ(strings_named(guitar, "D2"), (std::vector{6}));
    EXPECT_EQ(strings_named(guitar, "E"), (std::vector{1}));
}

TEST(Tuning, UsualTuningsFallFromStringToString) {
    for (const int strings : {6, 7, 8}) {
        Instrument guitar;
        guitar.strings.resize(strings);
        const auto notes = tuning_of(guitar);
        ASSERT_EQ(std::ssize(notes), strings);
        for (int i = 1; i < strings; ++i) EXPECT_LT(*note_number(notes[i]), *note_number(notes[i - 1]));
    }
    Instrument odd;
    odd.strings.resize(3);
    EXPECT_EQ(tuning_of(odd), (std::vector<std::string>(3)));
}

TEST(Assumptions, ScaleIsRectangular) {
    const auto list = assumptions({});
    const Assumption* scale = find(list, "scale length");
    ASSERT_NE(scale, nullptr);
    EXPECT_EQ(scale->text, "648 ± 12 mm");
    EXPECT_EQ(scale->observable, "scale length");
    EXPECT_DOUBLE_EQ(scale->value.value, 0.648);
    EXPECT_NEAR(scale->value.u, 0.012 / std::sqrt(3.0), 1e-12);  // JCGM 100:2008, 4.3.7
    EXPECT_EQ(scale->because, "usual for an electric guitar, six strings; common practice, no source");
}

TEST(Assumptions, NothingThatTheInstrumentStates) {
    Instrument bass;
    bass.kind = Kind::electric_bass;
    bass.scale = length("34 in");
    bass.frets = 21;
    bass.radius = length("305 mm");
    bass.fretwire = Fretwire{length("1.1 mm"), {}, {}};
    bass.neck_joint = "set";
    bass.battery = true;
    const auto list = assumptions(bass);
    for (const char* stated :
         {"scale length", "frets", "fingerboard radius", "fret height", "neck joint", "battery"}) {
        EXPECT_EQ(find(list, stated), nullptr) << stated;
    }
    EXPECT_EQ(find(list, "tuning")->text, "G2 D2 A1 E1");
    EXPECT_EQ(find(list, "gauges")->text, "45-105");
    EXPECT_EQ(find(list, "truss rod type")->text, "not known");
}

TEST(Assumptions, FretlessBoardHasNoFretHeight) {
    Instrument bass;
    bass.kind = Kind::electric_bass;
    bass.fretted = false;
    EXPECT_EQ(find(assumptions(bass), "fret height"), nullptr);
    EXPECT_EQ(find(assumptions(bass), "zero fret"), nullptr);
}

}  // namespace
}  // namespace fallaway::evidence
