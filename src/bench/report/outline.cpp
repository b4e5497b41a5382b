#include "bench/report/outline.h"

#include <algorithm>
#include <array>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using judgement::Finding;

std::string strength_words(evidence::Strength strength) {
    switch (strength) {
        case evidence::Strength::light:
            return "light";
        case evidence::Strength::medium:
            return "medium";
        case evidence::Strength::heavy:
            return "heavy";
    }
    return "";
}

std::string rattle_words(evidence::RattleAllowed rattle) {
    switch (rattle) {
        case evidence::RattleAllowed::none:
            return "none";
        case evidence::RattleAllowed::unplugged_only:
            return "unplugged only";
        case evidence::RattleAllowed::hard_only:
            return "when struck hard only";
    }
    return "";
}

// Everything that must be equal for two findings to be told in one line.
auto shared_by_group(const Finding& f) {
    return std::tie(f.checkpoint, f.standing, f.why, f.remedy, f.limit_source, f.remark, f.acceptance_lapsed,
                    f.accepted);
}

bool may_join(const FindingGroup& group, const Finding& finding) {
    return !finding.checkpoint.empty() && shared_by_group(group.first()) == shared_by_group(finding);
}

// "String height over fret 12, string 6" without what the place already says.
std::string without_place(const Finding& finding) {
    evidence::Place string_only;
    string_only.string = finding.at.string;
    for (const std::string& place : {describe(finding.at), describe(string_only)}) {
        const std::string tail = ", " + place;
        if (finding.title.ends_with(tail)) return finding.title.substr(0, finding.title.size() - tail.size());
    }
    return finding.title;
}

// The numbers of one part of the places (string or fret) and what the places have besides; a fret that the title
// names is not named again.
struct Numbered {
    std::set<int> numbers;
    std::set<evidence::Place> rest;
};

Numbered split_off(const FindingGroup& group, std::optional<int> evidence::Place::*part) {
    Numbered out;
    for (const Finding* finding : group.members) {
        evidence::Place rest = finding->at;
        if (rest.fret && group.title.find(fmt::format("fret {}", *rest.fret)) != std::string::npos)
            rest.fret.reset();
        if (rest.*part) out.numbers.insert(*(rest.*part));
        (rest.*part).reset();
        out.rest.insert(rest);
    }
    return out;
}

// "Strings 3, 6", "Frets 4, 5, 7, bass side"; places that differ in more than one part are counted, and stand
// beside what was found.
std::string place_of(const FindingGroup& group) {
    for (const bool by_string : {true, false}) {
        const auto [numbers, rest] =
            split_off(group, by_string ? &evidence::Place::string : &evidence::Place::fret);
        if (rest.size() != 1) continue;
        std::vector<std::string> parts;
        if (!numbers.empty()) {
            parts.push_back(fmt::format("{}{} {}", by_string ? "string" : "fret", numbers.size() == 1 ? "" : "s",
                                        fmt::join(numbers, ", ")));
        }
        if (*rest.begin() != evidence::Place{}) parts.push_back(describe(*rest.begin()));
        return parts.empty() ? "Whole instrument" : capital(join(parts, ", "));
    }
    return fmt::format("{} places", group.members.size());
}

}  // namespace

std::string instrument_name(const evidence::Instrument& instrument) {
    evidence::Instrument unnumbered = instrument;
    unnumbered.serial.reset();
    return capital(describe(unnumbered));
}

std::string instrument_facts(const evidence::Instrument& instrument) {
    std::vector<std::string> facts;
    if (instrument.serial) facts.push_back(*instrument.serial);
    if (instrument.maker || instrument.model) {
        evidence::Instrument unnamed;
        unnamed.kind = instrument.kind;
        unnamed.fretted = instrument.fretted;
        unnamed.strings.resize(static_cast<std::size_t>(string_count(instrument)));
        facts.push_back(describe(unnamed));
    }
    if (instrument.scale) facts.push_back(instrument.scale->typed);
    if (instrument.year) facts.push_back(*instrument.year);
    if (instrument.hand == evidence::Hand::left) facts.push_back("left-handed");
    return join(facts, ", ");
}

std::vector<TitleCell> title_cells(const Sheet& sheet) {
    const evidence::Bench& bench = sheet.bench;
    std::vector<TitleCell> cells;
    const auto add = [&](std::string label, std::string value) {
        if (!value.empty()) cells.push_back({std::move(label), std::move(value)});
    };
    if (bench.wants && bench.wants->player) add("Player", *bench.wants->player);
    if (bench.job && bench.job->owner) add("Owner", *bench.job->owner);
    add("Scope", sheet.assessment.scope);
    add("Hands", hands_words(bench.hands));
    if (bench.job && bench.job->received) add("Received", readable_day(*bench.job->received));
    if (bench.wants && bench.wants->promised) add("Promised", readable_day(*bench.wants->promised));
    const std::size_t ratings = bench.ratings.size();
    add("Readings",
        fmt::format("{}{}", bench.readings.size(), ratings ? fmt::format(", and {} judged", ratings) : ""));
    const std::size_t assumed = sheet.assessment.assumed.size();
    if (assumed > 0) add("Assumed", fmt::format("{} {}", assumed, assumed == 1 ? "fact" : "facts"));
    if (bench.job && bench.job->shop) add("Shop", *bench.job->shop);
    if (bench.job) add("By", list_of(bench.job->technicians));
    if (bench.job && bench.job->id) add("Job", *bench.job->id);
    return cells;
}

std::vector<FindingGroup> grouped(const std::vector<Finding>& findings, evidence::Severity severity) {
    std::vector<FindingGroup> groups;
    for (const Finding& finding : findings) {
        if (finding.severity != severity) continue;
        const auto home =
            std::ranges::find_if(groups, [&](const FindingGroup& group) { return may_join(group, finding); });
        if (home != groups.end() && home->title == without_place(finding)) {
            home->members.push_back(&finding);
        } else {
            groups.push_back({{&finding}, "", without_place(finding)});
        }
    }
    for (FindingGroup& group : groups) group.place = place_of(group);
    return groups;
}

std::string mark_within(const FindingGroup& group, const Finding& finding) {
    if (group.members.size() < 2) return "";
    const bool by_string = std::ranges::all_of(group.members, [&](const Finding* f) {
        evidence::Place here = f->at;
        here.string = finding.at.string;
        return f->at.string && here == finding.at;
    });
    return by_string ? fmt::format("{}", *finding.at.string) : describe(finding.at);
}

std::string found_words(const FindingGroup& group) {
    std::set<std::string> tails;
    for (const Finding* finding : group.members) {
        const FigureParts parts = parts_of(finding->found);
        tails.insert(parts.u + "|" + parts.unit);
    }
    std::vector<std::string> out;
    for (const Finding* finding : group.members) {
        const bool last = finding == group.members.back();
        const std::string mark = mark_within(group, *finding);
        const std::string words =
            tails.size() == 1 && !last ? parts_of(finding->found).value : finding->found.text;
        out.push_back(mark.empty() ? words : fmt::format("{}: {}", mark, words));
    }
    return join(out, ", ");
}

std::string limit_words(const FindingGroup& group) {
    const std::string& limit = group.first().limit;
    const bool one = std::ranges::all_of(group.members, [&](const Finding* f) { return f->limit == limit; });
    return one ? limit : "differs by string";
}

std::vector<AssumptionGroup> grouped(const std::vector<evidence::Assumption>& assumed) {
    std::vector<AssumptionGroup> groups;
    for (const evidence::Assumption& a : assumed) {
        auto home = std::ranges::find(groups, a.because, &AssumptionGroup::because);
        if (home == groups.end()) home = groups.insert(groups.end(), AssumptionGroup{a.because, {}, {}});
        if (a.text == "not known") {
            home->unknown.push_back(a.what);
        } else {
            home->taken.push_back({capital(a.what), a.text});
        }
    }
    return groups;
}

std::vector<TitleCell> wishes(const evidence::Bench& bench) {
    std::vector<TitleCell> cells;
    if (!bench.wants) return cells;
    const evidence::Wants& wants = *bench.wants;
    if (!wants.tuning.empty()) {
        cells.push_back({"Tuning", join({wants.tuning.rbegin(), wants.tuning.rend()}, " ") + ", thickest first"});
    }
    if (wants.strings) cells.push_back({"Strings", *wants.strings});
    std::vector<std::string> heights;
    if (wants.height_bass) heights.push_back("bass " + wants.height_bass->typed);
    if (wants.height_treble) heights.push_back("treble " + wants.height_treble->typed);
    if (!heights.empty()) cells.push_back({"Height over fret 12", join(heights, ", ")});
    if (wants.hand) cells.push_back({"Hand", strength_words(*wants.hand)});
    if (wants.rattle) cells.push_back({"Rattle allowed", rattle_words(*wants.rattle)});
    if (!wants.untouchables.empty()) cells.push_back({"Stays as it is", join(wants.untouchables, "; ")});
    if (wants.money_limit) cells.push_back({"Money limit", wants.money_limit->typed});
    if (wants.remark) cells.push_back({"Remark", *wants.remark});
    return cells;
}

std::string complaint_ending(const judgement::ComplaintLine& complaint) {
    if (!complaint.ending) return "open";
    std::string out(judgement::name_of(*complaint.ending));
    if (!complaint.ended_by.empty()) out += fmt::format(", says {}", complaint.ended_by);
    if (!complaint.shown) return out + ", no reading shows it";
    return out + (complaint.evidence.empty() ? ", for the reason given" : ", shown by readings");
}

std::string severity_heading(evidence::Severity severity) {
    switch (severity) {
        case evidence::Severity::critical:
            return "Critical";
        case evidence::Severity::major:
            return "Major";
        case evidence::Severity::minor:
            return "Minor";
        case evidence::Severity::note:
            return "Notes";
    }
    return "";
}

}  // namespace fallaway::report
