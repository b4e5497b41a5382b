#include "bench/judgement/limits.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "science/metrology/conformity.h"
#include "science/metrology/tool.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::Checkpoint;
using evidence::Place;
using evidence::Severity;
using model::Current;

// A height that was asked for is met within this; common practice, no source.
constexpr double kWantedHeightTolerance = 0.15e-3;  // m

const evidence::Limit* limit_that_applies(const Checkpoint& checkpoint, const Bench& bench) {
    const auto found = std::ranges::find_if(checkpoint.limits, [&](const evidence::Limit& given) {
        return evidence::applies(given.when, bench.instrument);
    });
    return found == checkpoint.limits.end() ? nullptr : &*found;
}

// How much higher the bass string usually stands than the treble one, for a want that names one of them.
double usual_rise(const Checkpoint& checkpoint, const Bench& bench) {
    const evidence::Limit* limit = limit_that_applies(checkpoint, bench);
    if (limit == nullptr || !limit->high) return 0;
    const double high = limit->high->bass - limit->high->treble;
    return limit->low ? (high + limit->low->bass - limit->low->treble) / 2 : high;
}

std::optional<PlaceLimit> wanted_height(const Checkpoint& checkpoint, const Place& at, const Bench& bench) {
    if (!bench.wants || checkpoint.fret != 12) return std::nullopt;
    const bool heights = !checkpoint.reads.empty() && checkpoint.reads.front() == "string height";
    const auto& bass = bench.wants->height_bass;
    const auto& treble = bench.wants->height_treble;
    if (!heights || (!bass && !treble)) return std::nullopt;
    const double rise = bass && treble ? bass->si - treble->si : usual_rise(checkpoint, bench);
    const evidence::BassToTreble wanted{bass ? bass->si : treble->si + rise,
                                        treble ? treble->si : bass->si - rise};
    const double middle = wanted.at(at.string.value_or(1), evidence::string_count(bench.instrument));
    PlaceLimit limit;
    limit.limits = {middle - kWantedHeightTolerance, middle + kWantedHeightTolerance};
    limit.low_severity = Severity::minor;
    limit.source = "the player's want";
    return limit;
}

std::optional<PlaceLimit> shop_limit(const Checkpoint& checkpoint, const Place& at, const Bench& bench) {
    const int strings = evidence::string_count(bench.instrument);
    for (const auto& own : bench.limits) {
        if (own.checkpoint != checkpoint.id) continue;
        // "bass" and "treble" name the outer half of the strings.
        const bool bass_half = at.string && 2 * *at.string > strings;
        if (own.strings && at.string && (*own.strings == "bass") != bass_half) continue;
        PlaceLimit limit;
        if (own.low) limit.limits.lower = own.low->si;
        if (own.high) limit.limits.upper = own.high->si;
        limit.source = own.source;
        return limit;
    }
    return std::nullopt;
}

std::optional<PlaceLimit> procedure_limit(const Checkpoint& checkpoint, const Place& at, const Bench& bench) {
    const evidence::Limit* given = limit_that_applies(checkpoint, bench);
    if (given == nullptr) return std::nullopt;
    const int strings = evidence::string_count(bench.instrument);
    PlaceLimit limit;
    // One figure for the whole guitar is held against the outer, more generous end.
    const int string = at.string.value_or(strings);
    if (given->low) limit.limits.lower = given->low->at(string, strings);
    if (given->high) limit.limits.upper = given->high->at(string, strings);
    limit.high_major = given->high_major;
    limit.low_severity = given->low_severity;
    limit.strict = given->strict;
    limit.source = given->source;
    return limit;
}

Severity one_class_worse(Severity severity) {
    return severity == Severity::critical ? severity : Severity(int(severity) - 1);
}

void hold_against_practice(Line& line, const metrology::Uncertain& y, const PlaceLimit& limit, Severity severity) {
    const auto result = metrology::against_practice(y, limit.limits);
    constexpr std::array kStanding = {Standing::usual, Standing::at_the_edge, Standing::outside};
    line.standing = kStanding[std::size_t(result.practice)];
    if (result.practice != metrology::Practice::outside) return;
    line.too_high = result.beyond_upper;
    line.severity = result.beyond_upper ? severity : limit.low_severity;
    if (result.beyond_upper && limit.high_major && y.value - *limit.high_major > y.u) {
        line.severity = one_class_worse(severity);
    }
}

void hold_strictly(Line& line, const Current& current, const PlaceLimit& limit, Severity severity,
                   const evidence::Catalogue& catalogue) {
    const auto& y = current.taken.y;
    const auto conformity = metrology::decide(y, limit.limits, current.taken.u_repeat);
    line.p_conform = conformity.p_conform;
    switch (conformity.decision) {
        case metrology::Decision::accept:
            line.standing = Standing::kept;
            return;
        case metrology::Decision::reject:
            line.standing = Standing::broken;
            line.severity = severity;
            return;
        case metrology::Decision::cannot_tell:
            break;
    }
    line.standing = Standing::undecided;
    if (conformity.repeats_needed > 1 && conformity.repeats_needed <= 10) {
        line.advice = fmt::format("the mean of {} readings", conformity.repeats_needed);
    } else if (const auto tool =
                   finer_tool(line.observable, y.value, conformity.u_needed, current.taken.tool, catalogue);
               !tool.empty()) {
        line.advice = tool;
    }
}

void hold_word(Line& line, const std::string& word, const Checkpoint& checkpoint, const Bench& bench) {
    line.standing = Standing::passes;
    const auto limit = std::ranges::find(checkpoint.words, word, &evidence::WordLimit::word);
    if (limit == checkpoint.words.end()) return;
    line.severity = limit->severity;
    // A rattle at a hard strike alone counts only where the player allows none.
    const bool hard_only = word == "rattles when struck hard";
    const bool none_allowed = bench.wants && bench.wants->rattle == evidence::RattleAllowed::none;
    if (hard_only) line.severity = none_allowed ? checkpoint.severity : Severity::note;
    line.standing = line.severity == Severity::note ? Standing::passes_barely : Standing::fails;
    if (hard_only && !none_allowed) line.severity.reset();
}

}  // namespace

std::optional<PlaceLimit> limit_for(const Checkpoint& checkpoint, const Place& at, const Bench& bench) {
    if (auto wanted = wanted_height(checkpoint, at, bench)) return wanted;
    if (auto own = shop_limit(checkpoint, at, bench)) return own;
    return procedure_limit(checkpoint, at, bench);
}

void hold_against_limit(Line& line, const Current& current, const Checkpoint& checkpoint, const Bench& bench,
                        const evidence::Catalogue& catalogue) {
    if (!current.taken.word.empty()) {
        hold_word(line, current.taken.word, checkpoint, bench);
        return;
    }
    // A limit in millimetres says nothing about a checkpoint's second observable in other units.
    const auto* preferred =
        checkpoint.reads.empty() ? nullptr : evidence::find_observable(checkpoint.reads.front());
    if (preferred && preferred->dimension != current.taken.observable->dimension) return;
    const auto limit = limit_for(checkpoint, line.at, bench);
    if (!limit || (!limit->limits.lower && !limit->limits.upper)) return;
    line.limit_si = limit->limits;
    line.limit = limit_text(limit->limits, *current.taken.figure.unit);
    line.limit_source = limit->source;
    if (limit->strict) {
        hold_strictly(line, current, *limit, checkpoint.severity, catalogue);
    } else {
        hold_against_practice(line, current.taken.y, *limit, checkpoint.severity);
    }
}

std::string finer_tool(std::string_view observable, double value, double u_needed, std::string_view used,
                       const evidence::Catalogue& catalogue) {
    const auto* wanted = evidence::find_observable(observable);
    if (!wanted || u_needed <= 0) return "";
    for (const auto& kind : catalogue.tools) {
        if (kind.dimension != wanted->dimension || std::abs(value) > kind.largest.value_or(std::abs(value)))
            continue;
        const auto* line = metrology::budget_for(kind, observable);
        // A line for "any other" feature promises nothing of this one, unless the tool is the usual one for it.
        const bool made_for_it = line && (!line->feature.empty() || kind.id == wanted->default_tool);
        if (!made_for_it || kind.name == used) continue;
        const std::array values = {value};
        if (metrology::budget(*line, values).result.u <= u_needed) return "a reading with: " + kind.name;
    }
    return "";
}

}  // namespace fallaway::judgement
