#include "bench/evidence/instrument.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace fallaway::evidence {
namespace {

constexpr int kUsualGuitarStrings = 6;
constexpr int kUsualBassStrings = 4;
constexpr int kUsualGuitarFrets = 22;
constexpr int kUsualBassFrets = 20;
constexpr double kSameScale_m = 1e-6;  // far below what anybody reads: only the unit was written otherwise

std::string in_words(int count) {
    static constexpr std::array<std::string_view, 13> kWords{
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"};
    return count < static_cast<int>(kWords.size()) ? std::string(kWords[count]) : fmt::format("{}", count);
}

}  // namespace

int string_count(const Instrument& instrument) {
    if (!instrument.strings.empty()) return static_cast<int>(instrument.strings.size());
    return instrument.kind == Kind::electric_guitar ? kUsualGuitarStrings : kUsualBassStrings;
}

int fret_count(const Instrument& instrument) {
    return instrument.frets.value_or(instrument.kind == Kind::electric_guitar ? kUsualGuitarFrets
                                                                              : kUsualBassFrets);
}

bool is_fanned(const Instrument& instrument) {
    std::optional<double> first;
    for (const StringSpec& string : instrument.strings) {
        const auto& scale = string.scale ? string.scale : instrument.scale;
        if (!scale) continue;
        if (!first) first = scale->si;
        if (std::abs(scale->si - *first) > kSameScale_m) return true;
    }
    return false;
}

std::string describe(const Instrument& instrument) {
    std::string name = instrument.maker.value_or("");
    if (instrument.model) name += (name.empty() ? "" : " ") + *instrument.model;
    if (name.empty()) {
        const int strings = string_count(instrument);
        name = fmt::format("{}{}, {} string{}", instrument.fretted ? "" : "fretless ",
                           instrument.kind == Kind::electric_guitar ? "electric guitar" : "electric bass",
                           in_words(strings), strings == 1 ? "" : "s");
    }
    return instrument.serial ? fmt::format("{}, {}", name, *instrument.serial) : name;
}

}  // namespace fallaway::evidence
