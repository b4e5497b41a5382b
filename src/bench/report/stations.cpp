#include "bench/report/stations.h"

#include <set>
#include <tuple>

#include <fmt/format.h>

#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using judgement::Line;

bool is_written_on_strings(const Line& line) {
    const bool nut = line.observable == "nut gap" || line.observable == "nut tap" || line.observable == "nut wire";
    return nut || (line.observable == "string height" && line.at.fret);
}

// Later stages outrank earlier ones; within a stage what still holds outranks what went stale.
bool outranks(const Line& candidate, const Line& present) {
    return std::pair(candidate.stage, !candidate.stale) > std::pair(present.stage, !present.stale);
}

}  // namespace

std::string Station::title() const {
    if (observable != "string height") return observable;
    const std::string at = fret == 0 ? "nut" : fmt::format("fret {}", fret);
    return pressed ? fmt::format("{}, held at fret {}", at, *pressed) : at;
}

std::string Station::shared_unit() const {
    std::set<std::string> seen;
    for (const auto& [string, line] : strings) {
        const FigureParts parts = parts_of(line->found);
        if (!line->disputed)
            seen.insert(parts.unit.empty() ? "" : parts.unit + (parts.u.empty() ? "" : " " + parts.u));
    }
    return seen.size() == 1 ? *seen.begin() : "";
}

std::vector<Station> stations(const judgement::Assessment& assessment) {
    using Key = std::tuple<int, std::string, std::optional<int>>;
    std::map<Key, Station> found;
    for (const judgement::Answer& answer : assessment.answers) {
        for (const Line& line : answer.lines) {
            if (!is_written_on_strings(line)) continue;
            const bool height = line.observable == "string height";
            const int fret = height ? *line.at.fret : 1;
            const std::optional<int> pressed = height ? line.at.pressed : std::nullopt;
            Station& station = found[{fret, line.observable, pressed}];
            station.observable = line.observable;
            station.fret = fret;
            station.pressed = pressed;
            const Line*& slot = line.at.string ? station.strings[*line.at.string] : station.whole;
            if (!slot || outranks(line, *slot)) slot = &line;
        }
    }
    std::vector<Station> out;
    for (auto& [key, station] : found) out.push_back(std::move(station));
    return out;
}

const Line* relief_line(const judgement::Assessment& assessment) {
    const Line* latest = nullptr;
    for (const judgement::Answer& answer : assessment.answers) {
        for (const Line& line : answer.lines) {
            if (line.observable == "relief" && line.found.si && (!latest || outranks(line, *latest)))
                latest = &line;
        }
    }
    return latest;
}

}  // namespace fallaway::report
