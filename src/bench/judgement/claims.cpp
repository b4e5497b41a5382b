#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "bench/judgement/limits.h"
#include "bench/judgement/parts.h"
#include "science/metrology/conformity.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::Catalogue;
using evidence::Claim;
using evidence::ClaimKind;
using model::Current;
using model::CurrentReadings;

// Copper, IEC 60028 (from memory): R20 = R / (1 + alpha (t - 20 C)).
constexpr double kCopperPerKelvin = 0.00393;
constexpr double kReferenceTemperature = 293.15;  // K
// A pickup whose own temperature nobody read may be this far from the room; common practice, no source.
constexpr double kCoilToRoom = 3 / 1.7320508075688772;  // K, standard uncertainty

// What was found about a claim: a value with the way it was come by.
struct Found {
    metrology::Uncertain y;
    double u_repeat = 0;
    Figure figure;
    std::string how;
    std::string tool;
    bool by_last_fret = false;
};

Found found_from(const Current& current) {
    return {current.taken.y, current.taken.u_repeat, current.taken.figure,
            current.taken.tool.empty() ? "read" : "read with: " + current.taken.tool, current.taken.tool};
}

void scale_by(Found& found, double factor) {
    found.y.value *= factor;
    found.y.u *= factor;
    found.u_repeat *= factor;
    found.figure.si = found.y;
    found.figure.text = format_at_the_bench(found.y.value, found.y.u, *found.figure.unit);
}

// Nut to last fret n, divided by 1 - 2^(-n/12): there is no end mark at a compensated saddle, and the uncertainty
// grows by 1.39 at fret 22 where doubling the way to fret 12 would double it.
std::optional<Found> scale_length(const CurrentReadings& readings, const evidence::Place& at, const Bench& bench) {
    const int frets = evidence::fret_count(bench.instrument);
    const Current* last = readings.at("nut to last fret", at);
    if (last && last->taken.stale_because.empty() && frets > 0) {
        Found found = found_from(*last);
        const int fret = last->at.fret.value_or(frets);
        scale_by(found, 1 / (1 - std::exp2(-fret / 12.0)));
        found.by_last_fret = true;
        found.how = fmt::format("nut to fret {} {}", fret, found.how);
        return found;
    }
    const Current* whole = readings.at("scale length", at);
    if (!whole) return std::nullopt;
    return found_from(*whole);
}

// Brought to 20 C with the coil's own temperature, else with the room's, else with an ordinary room.
void bring_to_20(Found& found, const CurrentReadings& readings, const evidence::Place& at, const Bench& bench) {
    double t = kReferenceTemperature;
    double u = 5 / std::sqrt(3.0);
    std::string from = "an assumed room of 20 °C";
    if (const Current* coil = readings.at("coil temperature", at)) {
        t = coil->taken.y.value;
        u = coil->taken.y.u;
        from = coil->taken.figure.text;
    } else {
        for (const auto& room : bench.room) {
            if (!room.temperature) continue;
            t = room.temperature->si;
            u = kCoilToRoom;
            from = "the room's " + room.temperature->typed;
        }
    }
    const double rise = 1 + kCopperPerKelvin * (t - kReferenceTemperature);
    const double value = found.y.value / rise;
    found.y = {value, std::hypot(found.y.u / rise, value * kCopperPerKelvin / rise * u), metrology::kInfiniteDof};
    found.figure.si = found.y;
    found.figure.text = format_at_the_bench(value, found.y.u, *found.figure.unit);
    found.how += ", brought to 20 °C from " + from;
}

std::optional<Found> find_value(const ClaimKind& kind, const Claim& claim, const Bench& bench,
                                const CurrentReadings& readings) {
    if (kind.reads.empty()) return std::nullopt;
    if (kind.reads == "scale length") return scale_length(readings, claim.at, bench);
    const Current* current = readings.at(kind.reads, claim.at);
    if (!current || !current->taken.word.empty() || !current->taken.stale_because.empty()) return std::nullopt;
    Found found = found_from(*current);
    if (kind.reads == "pickup resistance") bring_to_20(found, readings, claim.at, bench);
    return found;
}

double tolerance_of(const Claim& claim, const ClaimKind& kind, double promised) {
    if (claim.tolerance) return claim.tolerance->si;
    return std::max(kind.tolerance, kind.tolerance_relative * std::abs(promised));
}

void decide_by_value(ClaimLine& line, const Claim& claim, const ClaimKind& kind, const Found& found,
                     const Catalogue& catalogue) {
    const auto& promised = std::get<QuantityText>(*claim.value);
    const double tolerance = tolerance_of(claim, kind, promised.si);
    line.found = found.figure;
    line.how = found.how;
    if (kind.exact) {
        line.outcome = found.y.value == promised.si ? ClaimOutcome::confirmed : ClaimOutcome::contradicted;
        return;
    }
    line.tolerance = "± " + limit_text({std::nullopt, tolerance}, *promised.unit).substr(6);
    const auto conformity =
        metrology::decide(found.y, {promised.si - tolerance, promised.si + tolerance}, found.u_repeat);
    line.p_conform = conformity.p_conform;
    constexpr std::array kOutcome = {ClaimOutcome::confirmed, ClaimOutcome::contradicted,
                                     ClaimOutcome::not_established};
    line.outcome = kOutcome[std::size_t(conformity.decision)];
    if (conformity.decision != metrology::Decision::cannot_tell) return;
    if (conformity.tool_too_coarse) line.how += "; too coarse for this claim";
    line.advice = finer_tool(kind.reads, found.y.value, conformity.u_needed, found.tool, catalogue);
    if (!line.advice.empty()) return;
    if (kind.reads == "scale length" && !found.by_last_fret) {
        line.advice = "a reading from the nut to the last fret";
    } else if (conformity.repeats_needed > 1 && conformity.repeats_needed <= 10) {
        line.advice = fmt::format("the mean of {} readings", conformity.repeats_needed);
    } else {
        line.advice = "no tool known here is fine enough";
    }
}

// A judged checkpoint that checks this kind of claim: its best step proves it, its worst disproves it.
void decide_by_rating(ClaimLine& line, const ClaimKind& kind, const Bench& bench, const Catalogue& catalogue) {
    for (const auto& rating : bench.ratings) {
        const auto* checkpoint = evidence::find_checkpoint(catalogue.procedure, rating.checkpoint);
        if (!checkpoint || checkpoint->claims != kind.id || checkpoint->anchors.size() != 4) continue;
        line.found.text = checkpoint->anchors[std::size_t(rating.step)];
        line.how = "judged" + (rating.by ? " by " + *rating.by : std::string());
        line.outcome = rating.step == 3   ? ClaimOutcome::confirmed
                       : rating.step == 0 ? ClaimOutcome::contradicted
                                          : ClaimOutcome::not_established;
    }
}

void decide_by_person(ClaimLine& line, const Claim& claim, const ClaimKind& kind) {
    if (claim.found) line.found = {*claim.found, nullptr, std::nullopt};
    if (!claim.outcome) return;
    line.how = "judged" + (claim.by ? " by " + *claim.by : std::string());
    if (*claim.outcome == "contradicted") line.outcome = ClaimOutcome::contradicted;
    if (*claim.outcome == "not established") line.outcome = ClaimOutcome::not_established;
    if (*claim.outcome != "confirmed") return;
    if (kind.checkable) {
        line.outcome = ClaimOutcome::confirmed;
    } else {
        line.how += "; nothing on the instrument can prove it";
    }
}

std::string advice_for_unread(const ClaimKind& kind, const Bench& bench, const Catalogue& catalogue) {
    if (!kind.checkable) return "";
    for (const auto& checkpoint : catalogue.procedure.checkpoints) {
        const bool reads_it = !kind.reads.empty() && std::ranges::count(checkpoint.reads, kind.reads) > 0;
        if (checkpoint.claims != kind.id && !reads_it) continue;
        if (!evidence::allowed(checkpoint.disturbs, bench.hands))
            return "the hands rule does not allow the look that it needs";
        return "look at: " + title_of(checkpoint);
    }
    return kind.reads.empty() ? "" : "a reading of " + kind.reads;
}

std::string typed(const evidence::Value& value) {
    return std::holds_alternative<std::string>(value) ? std::get<std::string>(value)
                                                      : std::get<QuantityText>(value).typed;
}

ClaimLine judge_one(const Claim& claim, const Bench& bench, const Catalogue& catalogue,
                    const CurrentReadings& readings) {
    const ClaimKind& kind = *std::ranges::find(catalogue.claims, claim.what, &ClaimKind::id);
    ClaimLine line;
    line.id = claim.id;
    line.name = kind.name;
    line.at = claim.at;
    line.promised = claim.value ? typed(*claim.value) : claim.text.value_or("");
    line.source = claim.source;
    line.checkable = kind.checkable;
    const bool quantity = claim.value && std::holds_alternative<QuantityText>(*claim.value);
    const auto found = quantity ? find_value(kind, claim, bench, readings) : std::nullopt;
    if (found) {
        decide_by_value(line, claim, kind, *found, catalogue);
        return line;
    }
    decide_by_rating(line, kind, bench, catalogue);
    decide_by_person(line, claim, kind);
    if (line.found.text.empty() && line.how.empty()) line.advice = advice_for_unread(kind, bench, catalogue);
    return line;
}

}  // namespace

std::vector<ClaimLine> judge_claims(const Bench& bench, const Catalogue& catalogue,
                                    const CurrentReadings& readings) {
    std::vector<ClaimLine> lines;
    for (const Claim& claim : bench.claims) lines.push_back(judge_one(claim, bench, catalogue, readings));
    return lines;
}

std::vector<Finding> findings_of(const std::vector<ClaimLine>& claims, const Bench& bench,
                                 const Catalogue& catalogue) {
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < claims.size(); ++i) {
        const ClaimLine& line = claims[i];
        if (line.outcome != ClaimOutcome::contradicted) continue;
        const ClaimKind& kind = *std::ranges::find(catalogue.claims, bench.claims[i].what, &ClaimKind::id);
        Finding finding;
        finding.id = "claim:" + line.id;
        finding.severity = kind.severity;
        finding.cure = kind.severity <= evidence::Severity::major ? kind.cure : evidence::Cure::none;
        finding.at = line.at;
        finding.title = "Not as promised: " + line.name +
                        (evidence::key_of(line.at).empty() ? "" : ", " + evidence::describe(line.at));
        finding.found = line.found;
        if (finding.found.text.empty()) finding.found.text = "not as promised";
        finding.limit = "promised " + line.promised + (line.tolerance.empty() ? "" : " " + line.tolerance);
        finding.limit_source = line.source;
        finding.standing = Standing::broken;
        finding.p_conform = line.p_conform;
        finding.why = "What was promised is what was paid for";
        finding.remedy = "Tell the owner; the seller answers for it before any work";
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace fallaway::judgement
