#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "bench/judgement/parts.h"
#include "bench/judgement/trouble.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::Checkpoint;
using evidence::Severity;

// What a fault of each class is worth to a verdict, against a note; own scale after Dodge's demerits (1928, from
// memory: 100, 50, 10, 1).
constexpr std::array kWeight = {100.0, 50.0, 10.0, 1.0};
constexpr double kComplaintFactor = 8;  // what the player came for is looked at first; common practice, no source
constexpr double kClaimFactor = 2;
constexpr double kOptionalFactor = 0.3;

// Bits that a yes-or-no answer of probability p is expected to bring (Shannon 1948).
double information(double p) {
    if (p <= 0 || p >= 1) return 0;
    return -p * std::log2(p) - (1 - p) * std::log2(1 - p);
}

// Could this checkpoint explain one of the complaints?
bool touches_complaint(const Checkpoint& checkpoint, const Bench& bench) {
    if (!bench.wants) return false;
    return std::ranges::any_of(bench.wants->complaints, [&](const evidence::Complaint& complaint) {
        if (complaint.ending) return false;
        const Trouble trouble = trouble_of(complaint);
        if (trouble == Trouble::hum && checkpoint.section == "electrics") return true;
        return std::ranges::any_of(checkpoint.reads,
                                   [&](const std::string& what) { return may_explain(trouble, what); });
    });
}

std::string why_next(const Answer& answer, const Checkpoint& checkpoint, bool complaint) {
    const auto severity = name_of(checkpoint.severity);
    switch (answer.state) {
        case AnswerState::stale:
            return answer.because;
        case AnswerState::incomplete:
            return answer.because;
        case AnswerState::cannot_tell:
            return answer.because;
        default:
            break;
    }
    if (complaint) return "may explain the complaint; not looked at yet";
    return fmt::format("{}, fails {:.0f} in 100; not looked at yet", severity, checkpoint.fails_in_100);
}

double p_fault(const Answer& answer, const Checkpoint& checkpoint) {
    double p = checkpoint.fails_in_100 / 100;
    for (const Line& line : answer.lines) {
        if (line.standing == Standing::undecided && line.p_conform)
            p = std::max(p, std::min(*line.p_conform, 1 - *line.p_conform));
    }
    return p;
}

bool open(AnswerState state) {
    return state == AnswerState::not_looked_at || state == AnswerState::incomplete ||
           state == AnswerState::stale || state == AnswerState::cannot_tell;
}

}  // namespace

std::vector<NextReading> next_readings(const Bench& bench, const evidence::Catalogue& catalogue,
                                       const std::vector<Answer>& answers, const std::vector<ClaimLine>& claims) {
    std::vector<NextReading> next;
    for (const Answer& answer : answers) {
        const Checkpoint& checkpoint = *evidence::find_checkpoint(catalogue.procedure, answer.checkpoint);
        // A claim's own checkpoint is worth reading even outside the scope.
        const bool settles_claim = std::ranges::any_of(claims, [&](const ClaimLine& claim) {
            return claim.checkable && claim.outcome == ClaimOutcome::not_established &&
                   claim.advice == "look at: " + title_of(checkpoint);
        });
        if (!open(answer.state) || !(answer.in_scope || settles_claim)) continue;
        if (!evidence::allowed(checkpoint.disturbs, bench.hands)) continue;
        const bool complaint = touches_complaint(checkpoint, bench);
        NextReading reading;
        reading.checkpoint = checkpoint.id;
        reading.what =
            answer.state == AnswerState::stale ? title_of(checkpoint) + ", again" : title_of(checkpoint);
        reading.minutes = checkpoint.minutes;
        reading.needs = checkpoint.needs;
        reading.why = settles_claim ? "would settle a claim" : why_next(answer, checkpoint, complaint);
        double value = kWeight[std::size_t(checkpoint.severity)] * information(p_fault(answer, checkpoint));
        if (complaint) value *= kComplaintFactor;
        if (settles_claim) value *= kClaimFactor;
        if (checkpoint.optional) value *= kOptionalFactor;
        reading.value_per_minute = value / std::max(0.25, checkpoint.minutes);
        next.push_back(std::move(reading));
    }
    std::ranges::stable_sort(next, std::greater{}, &NextReading::value_per_minute);
    return next;
}

std::vector<evidence::Assumption> still_assumed(const Bench& bench, const model::CurrentReadings& readings) {
    auto list = evidence::assumptions(bench.instrument);
    std::erase_if(list, [&](const evidence::Assumption& assumption) {
        if (assumption.observable.empty()) return false;
        const bool by_last_fret =
            assumption.observable == "scale length" && !readings.of("nut to last fret").empty();
        return by_last_fret || !readings.of(assumption.observable).empty();
    });
    return list;
}

}  // namespace fallaway::judgement
