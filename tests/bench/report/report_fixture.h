// A small visit made by hand, and a checker for the tags of a page.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>

#include "bench/report/report.h"

namespace fallaway::report {

struct Visit {
    evidence::Bench bench;
    evidence::Catalogue catalogue;
    judgement::Assessment assessment;

    Sheet sheet() const { return {bench, catalogue, assessment, "0.1.0"}; }
};

inline evidence::Place at_string(int string, std::optional<int> fret = {}) {
    evidence::Place place;
    place.string = string;
    place.fret = fret;
    return place;
}

inline judgement::Figure millimetres(double value, double u) {
    judgement::Figure figure;
    figure.text = fmt::format("{:.2f} ± {:.2f} mm", value, u);
    figure.unit = find_unit("mm", Dimension::length);
    figure.si = metrology::Uncertain{value * 1e-3, u * 1e-3};
    return figure;
}

inline judgement::Figure in_words(std::string words) {
    judgement::Figure figure;
    figure.text = std::move(words);
    return figure;
}

inline evidence::Reading heard(std::optional<int> string, std::optional<int> fret, std::string word,
                               evidence::Stage stage = evidence::Stage::arrival) {
    evidence::Reading reading;
    reading.what = word == "dead spot" ? "dead spot" : "note";
    reading.at.string = string;
    reading.at.fret = fret;
    reading.value = std::move(word);
    reading.stage = stage;
    return reading;
}

inline judgement::Finding high_string(int string, double value) {
    judgement::Finding finding;
    finding.id = fmt::format("action-12@s{}.f12", string);
    finding.checkpoint = "action-12";
    finding.at = at_string(string, 12);
    finding.title = fmt::format("String height over fret 12, string {}", string);
    finding.found = millimetres(value, 0.05);
    finding.limit = "1.30 to 2.20 mm";
    finding.limit_source = "common practice, no source";
    finding.standing = judgement::Standing::outside;
    finding.why = "High strings pull notes sharp.";
    finding.remedy = "Saddle down, then read.";
    return finding;
}

inline judgement::Answer heights() {
    judgement::Answer answer;
    answer.checkpoint = "action-12";
    answer.section = "setting";
    answer.question = "String height over fret 12";
    answer.state = judgement::AnswerState::faulty;
    for (int string = 1; string <= 6; ++string) {
        judgement::Line line;
        line.at = at_string(string, 12);
        line.observable = "string height";
        line.found = millimetres(1.40 + 0.20 * string, 0.05);
        line.limit = "1.30 to 2.20 mm";
        line.limit_si = metrology::Limits{1.3e-3, 2.2e-3};
        line.standing = string > 4 ? judgement::Standing::outside : judgement::Standing::usual;
        answer.lines.push_back(line);
    }
    return answer;
}

// Invented values: an Ostrel Heron whose two thickest strings stand high and whose string 2 buzzes at fret 8.
inline Visit small_visit() {
    Visit visit;
    visit.bench.demo = true;
    visit.bench.instrument.maker = "Ostrel";
    visit.bench.instrument.model = "Heron";
    visit.bench.instrument.serial = "OH-0412";
    visit.bench.instrument.scale = parse_quantity("635 mm", Dimension::length).value();
    visit.bench.hands = evidence::Hands::adjust;
    visit.bench.wants.emplace();
    visit.bench.wants->player = "Maren Tolk";
    visit.bench.wants->promised = "2026-11-28";
    visit.bench.readings = {heard({}, {}, "rings"), heard(2, 8, "buzzes")};

    judgement::Assessment& a = visit.assessment;
    a.verdict = judgement::Verdict::set_up_first;
    a.scope = "set-up";
    a.procedure = "guitar 1";
    a.reasons = {"Strings 5 and 6 stand high over fret 12."};
    a.not_looked_at = {"Wiring", "Weight"};
    a.findings = {high_string(5, 2.40), high_string(6, 2.60)};
    a.answers = {heights()};
    judgement::ClaimLine claim;
    claim.name = "scale length";
    claim.promised = "635 mm";
    claim.source = "advert";
    claim.found.text = "634.8 ± 0.5 mm";
    claim.outcome = judgement::ClaimOutcome::confirmed;
    a.claims = {claim};
    judgement::ComplaintLine complaint;
    complaint.text = "B buzzes around the eighth";
    complaint.at = at_string(2, 8);
    complaint.ending = evidence::Ending::explained_not_cured;
    complaint.shown = true;
    complaint.evidence = {"String 2 buzzes at fret 8."};
    a.complaints = {complaint};
    a.assumed = {{"fret height", "1.2 ± 0.25 mm", "usual; common practice, no source", "fret height", {}}};
    a.next = {{"rocker", "Rocker over frets 7 to 9", 1, 1, "would show which fret stands proud", {"rocker"}}};
    a.cautions = {"Never force the rod: a quarter turn, then read."};
    return visit;
}

// What is wrong with the tags of a page; "" when every one is closed in its turn. Knows the few that have no end.
inline std::string tag_fault(std::string_view html) {
    const std::set<std::string_view> endless{"meta", "col", "br", "!doctype"};
    std::vector<std::string> open;
    for (std::size_t i = html.find('<'); i != std::string_view::npos; i = html.find('<', i)) {
        const std::size_t end = html.find('>', i);
        if (end == std::string_view::npos) return "a tag without its end";
        const std::string_view inside = html.substr(i + 1, end - i - 1);
        const std::string name(inside.substr(0, inside.find_first_of(" \n")));
        i = end;
        if (endless.contains(name)) continue;
        if (!name.starts_with('/')) {
            open.push_back(name);
        } else if (open.empty() || open.back() != name.substr(1)) {
            return fmt::format("<{}> closes <{}>", name, open.empty() ? "" : open.back());
        } else {
            open.pop_back();
        }
    }
    return open.empty() ? "" : fmt::format("<{}> stays open", open.back());
}

inline std::size_t count_of(std::string_view text, std::string_view part) {
    std::size_t n = 0;
    for (std::size_t i = text.find(part); i != std::string_view::npos; i = text.find(part, i + part.size())) ++n;
    return n;
}

}  // namespace fallaway::report
