#include "bench/evidence/tuning.h"

#include <array>
#include <span>

namespace fallaway::evidence {
namespace {

// Common practice, no source. A twelve-string has its octave string first in each of the four lower pairs.
constexpr std::array<std::string_view, 8> kGuitar{"E4", "B3", "G3", "D3", "A2", "E2", "B1", "F#1"};
constexpr std::array<std::string_view, 12> kTwelve{"E4", "E4", "B3", "B3", "G4", "G3",
                                                   "D4", "D3", "A3", "A2", "E3", "E2"};
constexpr std::array<std::string_view, 5> kBass{"G2", "D2", "A1", "E1", "B0"};
constexpr std::array<std::string_view, 6> kSixBass{"C3", "G2", "D2", "A1", "E1", "B0"};

std::span<const std::string_view> usual_tuning(Kind kind, int strings) {
    const auto first = [strings](auto& notes) { return std::span<const std::string_view>(notes).first(strings); };
    if (kind == Kind::electric_guitar && strings >= 6 && strings <= 8) return first(kGuitar);
    if (kind == Kind::electric_guitar && strings == 12) return kTwelve;
    if (kind == Kind::electric_bass && strings >= 4 && strings <= 5) return first(kBass);
    if (kind == Kind::electric_bass && strings == 6) return kSixBass;
    return {};
}

// Semitones above C of a letter with at most one sign, which are taken off the front of `text`.
std::optional<int> take_pitch_class(std::string_view& text) {
    static constexpr std::string_view kLetters = "CDEFGAB";
    static constexpr std::array<int, 7> kSemitones{0, 2, 4, 5, 7, 9, 11};
    const auto letter = text.empty() ? std::string_view::npos : kLetters.find(text.front());
    if (letter == std::string_view::npos) return std::nullopt;
    int semitones = kSemitones[letter];
    text.remove_prefix(1);
    if (text.starts_with('#') || text.starts_with('b')) {
        semitones += text.front() == '#' ? 1 : -1;
        text.remove_prefix(1);
    }
    return semitones;
}

}  // namespace

std::optional<int> note_number(std::string_view name) {
    const auto semitones = take_pitch_class(name);
    if (!semitones) return std::nullopt;
    int octave = -1;
    if (name != "-1") {
        if (name.size() != 1 || name.front() < '0' || name.front() > '9') return std::nullopt;
        octave = name.front() - '0';
    }
    return 12 * (octave + 1) + *semitones;
}

std::vector<std::string> tuning_of(const Instrument& instrument) {
    const int count = string_count(instrument);
    const auto usual = usual_tuning(instrument.kind, count);
    std::vector<std::string> notes(usual.begin(), usual.end());
    notes.resize(count);
    for (std::size_t i = 0; i < instrument.strings.size(); ++i) {
        if (instrument.strings[i].note) notes[i] = *instrument.strings[i].note;
    }
    return notes;
}

std::vector<int> strings_named(const Instrument& instrument, std::string_view name) {
    std::string_view rest = name;
    const auto pitch_class = take_pitch_class(rest);
    if (!pitch_class) return {};
    const bool any_octave = rest.empty();
    const auto wanted = any_octave ? std::optional<int>((*pitch_class + 12) % 12) : note_number(name);
    if (!wanted) return {};
    std::vector<int> found;
    const auto notes = tuning_of(instrument);
    for (std::size_t i = 0; i < notes.size(); ++i) {
        const auto note = note_number(notes[i]);
        if (!note) continue;
        if ((any_octave ? (*note + 12) % 12 : *note) == *wanted) found.push_back(static_cast<int>(i) + 1);
    }
    return found;
}

}  // namespace fallaway::evidence
