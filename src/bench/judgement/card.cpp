#include <algorithm>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "bench/judgement/parts.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::CardLine;
using evidence::Catalogue;
using model::CurrentReadings;
using model::speaks_for;
using model::take;
using model::Taken;

std::string with_place(std::string text, const evidence::Place& at) {
    if (!evidence::key_of(at).empty()) text += ", " + evidence::describe(at);
    return text;
}

// Their line read as a reading of ours would be, so that it carries the uncertainty of their tool.
CardResult against_reading(const CardLine& line, const Bench& bench, const Catalogue& catalogue,
                           const CurrentReadings& readings) {
    evidence::Reading theirs;
    theirs.what = line.what;
    theirs.at = line.at;
    theirs.value = line.value;
    theirs.tool = line.tool;
    const Taken taken = take(theirs, bench, catalogue);
    CardResult result;
    result.title = with_place(line.what, line.at);
    result.theirs = taken.figure.text;
    // Their figure was taken before any work of ours: our arrival reading answers it, where there is one.
    const Taken* ours = nullptr;
    for (const Taken& own : readings.all()) {
        if (own.reading->what != line.what || !speaks_for(own.reading->at, line.at)) continue;
        if (!ours || own.reading->stage < ours->reading->stage) ours = &own;
    }
    if (!ours) return result;
    result.ours = ours->figure.text;
    if (taken.word.empty() && ours->word.empty()) {
        const auto agreement = metrology::agreement(taken.y, ours->y);
        result.en = agreement.en;
        result.outcome = agreement.agree ? CardOutcome::agrees : CardOutcome::differs;
    } else {
        result.outcome = taken.word == ours->word ? CardOutcome::agrees : CardOutcome::differs;
    }
    return result;
}

// Two people agree on a judged line when they are within one step.
CardResult against_rating(const CardLine& line, const Bench& bench, const Catalogue& catalogue) {
    const auto* checkpoint = evidence::find_checkpoint(catalogue.procedure, line.what);
    const auto words = [&](int step) {
        return checkpoint && checkpoint->anchors.size() == 4 ? checkpoint->anchors[std::size_t(step)]
                                                             : fmt::format("step {} of 3", step);
    };
    CardResult result;
    result.title = with_place(checkpoint ? title_of(*checkpoint) : line.what, line.at);
    result.theirs = words(*line.step);
    const auto ours = std::ranges::find_if(bench.ratings, [&](const evidence::Rating& rating) {
        return rating.checkpoint == line.what && speaks_for(rating.at, line.at);
    });
    if (ours == bench.ratings.end()) return result;
    result.ours = words(ours->step);
    result.outcome = std::abs(ours->step - *line.step) <= 1 ? CardOutcome::agrees : CardOutcome::differs;
    return result;
}

}  // namespace

std::vector<CardResult> judge_card(const Bench& bench, const Catalogue& catalogue,
                                   const CurrentReadings& readings) {
    std::vector<CardResult> results;
    if (!bench.card) return results;
    for (const CardLine& line : bench.card->lines) {
        results.push_back(line.step ? against_rating(line, bench, catalogue)
                                    : against_reading(line, bench, catalogue, readings));
    }
    return results;
}

}  // namespace fallaway::judgement
