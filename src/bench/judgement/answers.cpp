#include "bench/judgement/answers.h"

#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/format.h>

#include "bench/judgement/limits.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::Catalogue;
using evidence::Checkpoint;
using evidence::CheckpointKind;
using evidence::Each;
using evidence::Place;
using evidence::Rating;
using evidence::Severity;
using model::Current;
using model::CurrentReadings;
using model::speaks_for;
using model::Taken;

bool asks_for_every_note(const Checkpoint& checkpoint) {
    return !checkpoint.reads.empty() && checkpoint.reads.front() == "note";
}

std::vector<Place> every_note(const evidence::Instrument& instrument) {
    std::vector<Place> places;
    for (int string = 1; string <= evidence::string_count(instrument); ++string) {
        for (int fret = 0; fret <= evidence::fret_count(instrument); ++fret) {
            places.emplace_back();
            places.back().string = string;
            places.back().fret = fret;
        }
    }
    return places;
}

Line line_from(const Current& current, const Checkpoint& checkpoint, const Bench& bench,
               const Catalogue& catalogue) {
    const Taken& taken = current.taken;
    Line line;
    line.at = current.at;
    line.observable = taken.reading->what;
    line.found = taken.figure;
    line.stage = taken.reading->stage;
    line.by = taken.reading->by.value_or("");
    line.tool = taken.tool;
    line.tool_assumed = taken.tool_assumed;
    line.stale = !taken.stale_because.empty();
    line.stale_because = taken.stale_because;
    line.disputed = current.disputed;
    line.remark = taken.reading->remark.value_or("");
    if (!line.stale) hold_against_limit(line, current, checkpoint, bench, catalogue);
    return line;
}

std::vector<Line> lines_from_readings(const Checkpoint& checkpoint, const Bench& bench, const Catalogue& catalogue,
                                      const CurrentReadings& readings) {
    std::vector<Line> lines;
    for (const auto& observable : checkpoint.reads) {
        for (const Current& current : readings.of(observable)) {
            if (checkpoint.fret && current.at.fret && current.at.fret != checkpoint.fret) continue;
            lines.push_back(line_from(current, checkpoint, bench, catalogue));
        }
    }
    return lines;
}

// The latest stage's ratings of a checkpoint, one line a place; of two people the one who saw more harm counts.
std::vector<Line> lines_from_ratings(const Checkpoint& checkpoint, const Bench& bench) {
    std::map<Place, std::vector<const Rating*>> by_place;
    for (const Rating& rating : bench.ratings) {
        if (rating.checkpoint == checkpoint.id) by_place[rating.at].push_back(&rating);
    }
    std::vector<Line> lines;
    for (const auto& [place, ratings] : by_place) {
        const auto latest = (*std::ranges::max_element(ratings, {}, &Rating::stage))->stage;
        const Rating* worst = nullptr;
        int best_step = 0;
        for (const Rating* rating : ratings) {
            if (rating->stage != latest) continue;
            best_step = std::max(best_step, rating->step);
            if (!worst || rating->step < worst->step) worst = rating;
        }
        Line line;
        line.at = place;
        line.stage = latest;
        line.by = worst->by.value_or("");
        line.remark = worst->remark.value_or("");
        line.disputed = best_step - worst->step > 1;
        line.found.text = std::size_t(worst->step) < checkpoint.anchors.size()
                              ? checkpoint.anchors[std::size_t(worst->step)]
                              : fmt::format("step {} of 3", worst->step);
        constexpr std::array kStanding = {Standing::fails, Standing::fails, Standing::passes_barely,
                                          Standing::passes};
        line.standing = kStanding[std::size_t(worst->step)];
        if (worst->step == 0) line.severity = checkpoint.severity;
        if (worst->step == 1) line.severity = one_class_lower(checkpoint.severity);
        lines.push_back(std::move(line));
    }
    return lines;
}

// A checkpoint that asks for a photo, and has no steps to rate it on, is answered by the photo of the latest
// stage.
std::vector<Line> lines_from_photos(const Checkpoint& checkpoint, const Bench& bench) {
    std::map<Place, const evidence::Photo*> latest;
    if (checkpoint.kind == CheckpointKind::photographed && checkpoint.anchors.empty()) {
        for (const evidence::Photo& photo : bench.photos) {
            if (photo.checkpoint != checkpoint.id) continue;
            const evidence::Photo*& kept = latest[photo.at];
            if (!kept || photo.stage >= kept->stage) kept = &photo;
        }
    }
    std::vector<Line> lines;
    for (const auto& [place, photo] : latest) {
        Line line;
        line.at = place;
        line.stage = photo->stage;
        line.by = photo->by.value_or("");
        line.found.text = photo->what.value_or("photographed");
        lines.push_back(std::move(line));
    }
    return lines;
}

bool covered(const Place& asked, const std::vector<Line>& lines, bool fresh_only) {
    return std::ranges::any_of(
        lines, [&](const Line& line) { return speaks_for(line.at, asked) && !(fresh_only && line.stale); });
}

std::string places_text(const std::vector<Place>& places) {
    if (places.size() > 12) return fmt::format("{} places", places.size());
    std::vector<std::string> words;
    for (const Place& place : places) words.push_back(evidence::describe(place));
    return fmt::format("{}", fmt::join(words, "; "));
}

// State of an answer from its lines; what is missing is told in `because`.
void settle(Answer& answer, const std::vector<Place>& asked) {
    std::vector<Place> missing;
    std::vector<Place> stale;
    for (const Place& place : asked) {
        if (!covered(place, answer.lines, false)) {
            missing.push_back(place);
        } else if (!covered(place, answer.lines, true)) {
            stale.push_back(place);
        }
    }
    const auto any = [&](auto predicate) { return std::ranges::any_of(answer.lines, predicate); };
    if (any([](const Line& line) { return line.severity.has_value(); })) {
        answer.state = AnswerState::faulty;
    } else if (missing.size() == asked.size()) {
        answer.state = AnswerState::not_looked_at;
    } else if (const auto two = std::ranges::find_if(
                   answer.lines, [](const Line& line) { return line.disputed && !line.stale; });
               two != answer.lines.end()) {
        answer.state = AnswerState::cannot_tell;
        answer.because = fmt::format("two readings do not agree, {}: read it again", two->found.text);
    } else if (!stale.empty()) {
        answer.state = AnswerState::stale;
        const auto old = std::ranges::find_if(answer.lines, [](const Line& line) { return line.stale; });
        answer.because = old->stale_because;
    } else if (any([](const Line& line) { return line.standing == Standing::undecided && !line.stale; })) {
        answer.state = AnswerState::cannot_tell;
        const auto open = std::ranges::find(answer.lines, Standing::undecided, &Line::standing);
        answer.because =
            fmt::format("{}: too close to the limit{}", evidence::describe(open->at),
                        open->advice.empty() ? " for any tool here" : "; would decide it: " + open->advice);
    } else if (!missing.empty()) {
        answer.state = AnswerState::incomplete;
        answer.because = places_text(missing) + " not read";
    } else {
        answer.state = AnswerState::fine;
    }
}

// Claim checkpoints ask whether the promises were written down; the claims themselves are decided elsewhere.
void settle_claims(Answer& answer, const Checkpoint& checkpoint, const Bench& bench) {
    if (bench.claims.empty()) {
        answer.state = AnswerState::not_applicable;
        answer.because = "nothing was claimed";
        return;
    }
    const bool written =
        !checkpoint.claims || std::ranges::any_of(bench.claims, [&](const evidence::Claim& claim) {
            return claim.what == *checkpoint.claims;
        });
    answer.state = written ? AnswerState::fine : AnswerState::not_applicable;
    if (!written) answer.because = "no such claim";
}

Answer answer_one(const Checkpoint& checkpoint, const Bench& bench, const Catalogue& catalogue,
                  const CurrentReadings& readings) {
    Answer answer;
    answer.checkpoint = checkpoint.id;
    answer.section = checkpoint.section;
    answer.question = checkpoint.question;
    answer.lines = lines_from_readings(checkpoint, bench, catalogue, readings);
    const auto ratings = lines_from_ratings(checkpoint, bench);
    std::ranges::copy(ratings, std::back_inserter(answer.lines));
    std::ranges::move(lines_from_photos(checkpoint, bench), std::back_inserter(answer.lines));
    if (answer.lines.empty() && checkpoint.kind == CheckpointKind::claim) {
        settle_claims(answer, checkpoint, bench);
        return answer;
    }
    // A rating speaks for every place; it is a judgement of the whole.
    settle(answer, ratings.empty() ? places_to_read(checkpoint, bench.instrument) : std::vector<Place>(1));
    if (answer.state == AnswerState::not_looked_at && !evidence::allowed(checkpoint.disturbs, bench.hands)) {
        answer.state = AnswerState::forbidden;
        answer.because = "the hands rule does not allow it";
    }
    return answer;
}

bool in_scope(const Checkpoint& checkpoint, const Bench& bench, const evidence::Procedure& procedure) {
    if (!bench.scope.checkpoints.empty()) return std::ranges::count(bench.scope.checkpoints, checkpoint.id) > 0;
    const auto* scope = evidence::find_scope(procedure, bench.scope.name);
    return scope && std::ranges::count(scope->checkpoints, checkpoint.id) > 0;
}

Finding finding_from(const Line& line, const Checkpoint& checkpoint, bool several_observables) {
    Finding finding;
    const std::string key = evidence::key_of(line.at);
    finding.id = checkpoint.id + (key.empty() ? "" : "@" + key);
    if (several_observables && !line.observable.empty() && line.observable != checkpoint.reads.front()) {
        finding.id += ":" + line.observable;
    }
    finding.checkpoint = checkpoint.id;
    finding.severity = *line.severity;
    const bool harmless = finding.severity == Severity::note;
    finding.cure = harmless ? evidence::Cure::none : checkpoint.cure;
    finding.at = line.at;
    finding.title = title_of(checkpoint) + (key.empty() ? "" : ", " + evidence::describe(line.at));
    finding.observable = line.observable;
    finding.too_high = line.too_high;
    finding.found = line.found;
    finding.limit = line.limit;
    finding.limit_source = line.limit_source;
    finding.standing = line.standing;
    finding.p_conform = line.p_conform;
    finding.why = checkpoint.why;
    finding.remedy = checkpoint.remedy;
    finding.remark = line.remark;
    return finding;
}

std::string trimmed_number(double value) {
    std::string text = fmt::format("{:.3f}", value);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

}  // namespace

std::vector<Place> places_to_read(const Checkpoint& checkpoint, const evidence::Instrument& instrument) {
    if (asks_for_every_note(checkpoint)) return every_note(instrument);
    std::vector<Place> places;
    const int strings = evidence::string_count(instrument);
    const auto on_string = [&](int string) {
        Place place;
        place.string = string;
        place.fret = checkpoint.fret;
        places.push_back(place);
    };
    switch (checkpoint.each) {
        case Each::string:
            for (int string = 1; string <= strings; ++string) on_string(string);
            break;
        case Each::outer_strings:
            on_string(1);
            on_string(strings);
            break;
        case Each::switch_position:
            for (const auto& name : instrument.switch_positions) {
                places.emplace_back();
                places.back().switch_position = name;
            }
            break;
        case Each::pickup:
            for (const auto& pickup : instrument.pickups) {
                places.emplace_back();
                places.back().pickup = pickup.name;
            }
            break;
        case Each::edge:
            for (const char* side : {"bass", "treble"}) {
                places.emplace_back();
                places.back().side = side;
            }
            break;
        case Each::once:
        case Each::fret:
            break;
    }
    if (places.empty()) {
        places.emplace_back();
        places.back().fret = checkpoint.fret;
    }
    return places;
}

std::string title_of(const Checkpoint& checkpoint) {
    if (!checkpoint.title.empty()) return checkpoint.title;
    std::string title = checkpoint.id;
    std::ranges::replace(title, '-', ' ');
    if (!title.empty()) title[0] = char(std::toupper(static_cast<unsigned char>(title[0])));
    return title;
}

std::string limit_text(const metrology::Limits& limits, const Unit& unit) {
    const auto number = [&](double si) { return trimmed_number(from_si(si, unit)); };
    if (limits.lower && limits.upper)
        return fmt::format("{} to {} {}", number(*limits.lower), number(*limits.upper), unit.symbol);
    if (limits.upper) return fmt::format("up to {} {}", number(*limits.upper), unit.symbol);
    if (limits.lower) return fmt::format("{} {} and more", number(*limits.lower), unit.symbol);
    return "";
}

Severity one_class_lower(Severity severity) {
    return severity == Severity::note ? severity : Severity(int(severity) + 1);
}

std::vector<Answer> answer_checkpoints(const Bench& bench, const Catalogue& catalogue,
                                       const CurrentReadings& readings) {
    std::vector<Answer> answers;
    for (const Checkpoint& checkpoint : catalogue.procedure.checkpoints) {
        if (!evidence::applies(checkpoint.when, bench.instrument)) continue;
        Answer answer = answer_one(checkpoint, bench, catalogue, readings);
        answer.surely_applies = evidence::surely_applies(checkpoint.when, bench.instrument);
        answer.in_scope = in_scope(checkpoint, bench, catalogue.procedure);
        answers.push_back(std::move(answer));
    }
    return answers;
}

std::vector<Finding> findings_of(const std::vector<Answer>& answers, const evidence::Procedure& procedure) {
    std::vector<Finding> findings;
    for (const Answer& answer : answers) {
        const Checkpoint& checkpoint = *evidence::find_checkpoint(procedure, answer.checkpoint);
        for (const Line& line : answer.lines) {
            if (line.severity) findings.push_back(finding_from(line, checkpoint, checkpoint.reads.size() > 1));
            if (!line.disputed) continue;
            Finding two = finding_from(
                [&] {
                    Line copy = line;
                    copy.severity = Severity::note;
                    return copy;
                }(),
                checkpoint, false);
            two.id = "two-say:" + two.id + (line.observable.empty() ? "" : ":" + line.observable);
            two.title = "Two readings do not agree: " + two.title;
            two.why = "Two figures for one thing decide nothing";
            two.remedy = "Read it again with the same tool, together where two people read it";
            findings.push_back(std::move(two));
        }
    }
    return findings;
}

}  // namespace fallaway::judgement
