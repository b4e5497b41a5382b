#include "bench/report/heard.h"

#include <algorithm>
#include <array>

namespace fallaway::report {
namespace {

using evidence::Reading;

struct Word {
    std::string_view text;
    Sound sound;
};
constexpr std::array<Word, 4> kWords{{{"rings", Sound::rings},
                                      {"rattles when struck hard", Sound::rattles},
                                      {"buzzes", Sound::buzzes},
                                      {"chokes", Sound::chokes}}};

bool is_about_sound(const Reading& reading) {
    return (reading.what == "note" || reading.what == "dead spot") && reading.value &&
           std::holds_alternative<std::string>(*reading.value);
}

int parts_named(const Reading& reading) {
    return (reading.at.string ? 1 : 0) + (reading.at.fret ? 1 : 0);
}

void write(const Reading& reading, HeardNote& note) {
    const std::string& word = std::get<std::string>(*reading.value);
    note.stage = reading.stage;
    if (reading.what == "dead spot") {
        note.dead_spot = word == "dead spot";
        return;
    }
    const auto known = std::ranges::find(kWords, word, &Word::text);
    if (known != kWords.end()) note.sound = known->sound;
}

}  // namespace

HeardMap heard_map(const evidence::Bench& bench) {
    HeardMap map{.strings = string_count(bench.instrument), .frets = std::max(fret_count(bench.instrument), 0)};
    map.notes.resize(static_cast<std::size_t>(map.strings) * (map.frets + 1));
    std::vector<const Reading*> readings;
    for (const Reading& reading : bench.readings) {
        if (is_about_sound(reading)) readings.push_back(&reading);
    }
    std::ranges::stable_sort(readings, [](const Reading* a, const Reading* b) {
        return std::pair(a->stage, parts_named(*a)) < std::pair(b->stage, parts_named(*b));
    });
    for (const Reading* reading : readings) {
        for (int s = 1; s <= map.strings; ++s) {
            for (int f = 0; f <= map.frets; ++f) {
                const bool here = reading->at.string.value_or(s) == s && reading->at.fret.value_or(f) == f;
                if (here) write(*reading, map.notes[(s - 1) * (map.frets + 1) + f]);
            }
        }
        if (map.stages.empty() || map.stages.back() != reading->stage) map.stages.push_back(reading->stage);
    }
    return map;
}

std::string words_of(const HeardNote& note) {
    std::string out = "not tried";
    for (const Word& word : kWords) {
        if (word.sound == note.sound) out = word.text;
    }
    return note.dead_spot ? out + ", dead spot" : out;
}

}  // namespace fallaway::report
