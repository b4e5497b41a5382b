#include "bench/sums/formulas_pitch.h"
#include "bench/sums/themes.h"

namespace fallaway::sums {
namespace {

using enum Dimension;

constexpr const char* kTemperament = "ISO 16:1975 (A4 = 440 Hz); twelve-tone equal temperament";

Input a4_input() {
    return quantity("a4", "pitch of A4", frequency).within(380, 480).usually("440 Hz");
}

Sum cents_between() {
    return {
        .name = "cents-between",
        .title = "Cents between two pitches",
        .says = "How far the first pitch lies above the second.",
        .inputs = {quantity("upper", "a frequency or a note", frequency).above(0).or_note(),
                   quantity("lower", "a frequency or a note", frequency).above(0).or_note()},
        .outputs = {shown("interval", "first above second", interval, "cents", 3)},
        .formula = "interval = 1200 log2(upper / lower)",
        .source = "definition of the cent",
        .cautions = {},
        .example = {{"upper", "441 Hz"}, {"lower", "440 Hz"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return Outcome().put("interval",
                                 Interval::between(in.get<Frequency>("upper"), in.get<Frequency>("lower")));
        },
    };
}

Sum note_frequency() {
    return {
        .name = "note-frequency",
        .title = "Frequency of a note",
        .says = "Frequency of a note of the scale, for any pitch of A4.",
        .inputs = {text("note", "a letter and an octave such as \"E2\" or \"F#3\""), a4_input()},
        .outputs = {shown("frequency", "of the note", frequency, "Hz", 4)},
        .formula = "frequency = a4 2^((n - 69)/12), n in semitones with A4 = 69",
        .source = kTemperament,
        .cautions = {},
        .example = {{"note", "E2"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto note = note_number(in.word("note"));
            if (!note) return fail(note.error().code, "note", note.error().message);
            return Outcome().put("frequency", frequency_of_note(*note, in.get<Frequency>("a4")));
        },
    };
}

Sum note_nearest() {
    return {
        .name = "nearest-note",
        .title = "Note nearest to a frequency",
        .says = "Which note a frequency belongs to, and by how much it is sharp (+) or flat (-).",
        .inputs = {quantity("frequency", "frequency heard", frequency).within(8, 20000), a4_input()},
        .outputs = {word_of("note", "nearest note"), shown("off", "sharp (+) or flat (-)", interval, "cents", 2),
                    shown("true", "frequency of the note", frequency, "Hz", 3)},
        .formula = "n = 69 + 12 log2(frequency / a4), rounded to the nearest whole number",
        .source = kTemperament,
        .cautions = {},
        .example = {{"frequency", "83.1 Hz"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto a4 = in.get<Frequency>("a4");
            const NearestNote nearest = nearest_note(in.get<Frequency>("frequency"), a4);
            return Outcome()
                .word("note", note_name(nearest.number))
                .put("off", nearest.above)
                .put("true", frequency_of_note(nearest.number, a4));
        },
    };
}

}  // namespace

std::vector<Sum> pitch_sums() {
    return {cents_between(), note_frequency(), note_nearest()};
}

}  // namespace fallaway::sums
