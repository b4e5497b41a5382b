#include "bench/sums/formulas_pitch.h"

#include <array>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "science/base/quote.h"

namespace fallaway::sums {
namespace {

constexpr int kA4 = 69;
constexpr int kLowestOctave = -1;
constexpr int kHighestOctave = 9;
constexpr std::array<std::string_view, 12> kNames{"C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"};

int semitone_of_letter(char letter) {
    constexpr std::array<int, 7> kFromA{9, 11, 0, 2, 4, 5, 7};  // A B C D E F G
    return letter >= 'A' && letter <= 'G' ? kFromA[static_cast<std::size_t>(letter - 'A')] : -1;
}

bool take(std::string_view& text, std::string_view prefix) {
    if (!text.starts_with(prefix)) return false;
    text.remove_prefix(prefix.size());
    return true;
}

}  // namespace

Result<int> note_number(std::string_view name) {
    const auto bad = [name] {
        return fail(
            "note", "",
            fmt::format("{}: not a note, expected a letter and an octave such as \"E2\" or \"F#3\"", quote(name)));
    };
    std::string_view rest = name;
    if (rest.empty() || semitone_of_letter(rest.front()) < 0) return bad();
    int semitone = semitone_of_letter(rest.front());
    rest.remove_prefix(1);
    if (take(rest, "#") || take(rest, "\u266F")) {
        ++semitone;
    } else if (take(rest, "b") || take(rest, "\u266D")) {
        --semitone;
    }
    int octave = 0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), octave);
    if (error != std::errc{} || end != rest.data() + rest.size()) return bad();
    if (octave < kLowestOctave || octave > kHighestOctave) return bad();
    return 12 * (octave + 1) + semitone;
}

std::string note_name(int number) {
    const int octave = static_cast<int>(std::floor(number / 12.0)) - 1;
    return fmt::format("{}{}", kNames[static_cast<std::size_t>(number - 12 * (octave + 1))], octave);
}

Frequency frequency_of_note(int number, Frequency a4) {
    return a4 * std::exp2((number - kA4) / 12.0);
}

NearestNote nearest_note(Frequency f, Frequency a4) {
    const double semitones = 12 * std::log2(f / a4);
    const double whole = std::round(semitones);
    return {kA4 + static_cast<int>(whole), Interval::semitones(semitones - whole)};
}

}  // namespace fallaway::sums
