#include <algorithm>

#include <fmt/format.h>

#include "bench/judgement/parts.h"
#include "bench/judgement/trouble.h"

namespace fallaway::judgement {
namespace {

using evidence::Complaint;
using evidence::Ending;
using evidence::Place;
using evidence::Stage;
using model::CurrentReadings;
using model::speaks_for;
using model::Taken;

// "bass" or "treble": as stated, else by the half of the neck that the string runs on; "" when neither tells.
std::string_view half_of(const Place& place, int strings) {
    if (place.side) return *place.side;
    if (!place.string || 2 * *place.string == strings + 1) return "";
    return 2 * *place.string > strings ? "bass" : "treble";
}

bool other_half(const Place& a, const Place& b, int strings) {
    const auto first = half_of(a, strings);
    const auto second = half_of(b, strings);
    return !first.empty() && !second.empty() && first != second;
}

// The same string, pickup, ... is named by both, and no part of one contradicts the other.
bool same_place(const Place& complaint, const Place& finding) {
    const auto shared = [](const auto& a, const auto& b) { return a && a == b; };
    const bool common = shared(complaint.string, finding.string) || shared(complaint.fret, finding.fret) ||
                        shared(complaint.switch_position, finding.switch_position) ||
                        shared(complaint.pickup, finding.pickup) || shared(complaint.control, finding.control);
    return common && speaks_for(finding, complaint);
}

// A note chokes on the crown in front of it: a fault one to three frets up the neck may be its cause.
bool just_above(const Place& complaint, const Place& finding) {
    if (!complaint.fret || !finding.fret || complaint.side) return false;
    const int frets_up = *finding.fret - *complaint.fret;
    const bool same_string = !finding.string || !complaint.string || finding.string == complaint.string;
    return same_string && frets_up >= 1 && frets_up <= 3;
}

// A string that stands high has room: it does not make the noise.
bool clears(Trouble trouble, const Finding& finding) {
    return trouble == Trouble::noise && finding.too_high &&
           (finding.observable == "string height" || finding.observable == "nut gap");
}

std::string sentence(const Taken& taken) {
    const auto& reading = *taken.reading;
    constexpr std::string_view kStage[] = {"on arrival", "before the work", "after the work", "at hand-over"};
    return fmt::format("{}, {}: {} {}{}", reading.what, evidence::describe(reading.at), taken.figure.text,
                       kStage[std::size_t(reading.stage)], reading.by ? " (" + *reading.by + ")" : "");
}

// Which readings an ending needs: a cure is shown after the work; the others by any reading, or by a reason.
void hold_ending(ComplaintLine& line, const evidence::ComplaintEnding& ending, const CurrentReadings& readings) {
    line.ending = ending.as;
    line.ended_by = ending.by.value_or("");
    bool after = false;
    for (const Taken& taken : readings.all()) {
        if (!taken.reading->id || std::ranges::count(ending.shown_by, *taken.reading->id) == 0) continue;
        line.evidence.push_back(sentence(taken));
        after = after || taken.reading->stage >= Stage::after;
    }
    if (ending.why) line.remark = *ending.why;
    const auto say_unshown = [&](std::string text) {
        line.remark = text + (ending.why ? "; " + *ending.why : "");
    };
    switch (ending.as) {
        case Ending::cured:
            line.shown = after;
            if (!after) say_unshown("said to be cured, no reading after the work shows it");
            return;
        case Ending::not_found:
            line.shown = !line.evidence.empty();
            if (!line.shown) say_unshown("said not to be found, no reading shows it");
            return;
        case Ending::explained_not_cured:
        case Ending::left_by_agreement:
            line.shown = !line.evidence.empty() || ending.why.has_value();
            if (!line.shown) line.remark = "no reading and no reason given";
            return;
    }
}

}  // namespace

std::vector<ComplaintLine> judge_complaints(const evidence::Bench& bench, const CurrentReadings& readings,
                                            const std::vector<Finding>& findings) {
    std::vector<ComplaintLine> lines;
    if (!bench.wants) return lines;
    const int strings = evidence::string_count(bench.instrument);
    for (const Complaint& complaint : bench.wants->complaints) {
        ComplaintLine line;
        line.text = complaint.text;
        line.at = complaint.at;
        const Trouble trouble = trouble_of(complaint);
        for (const Finding& finding : findings) {
            if (other_half(complaint.at, finding.at, strings) || clears(trouble, finding)) continue;
            if (!same_place(complaint.at, finding.at) && !just_above(complaint.at, finding.at)) continue;
            line.findings.push_back(finding.id);
            if (!complaint.ending && finding.severity != evidence::Severity::note) {
                line.evidence.push_back(fmt::format("{}: {}", finding.title, finding.found.text));
            }
        }
        if (complaint.ending) hold_ending(line, *complaint.ending, readings);
        lines.push_back(std::move(line));
    }
    return lines;
}

}  // namespace fallaway::judgement
