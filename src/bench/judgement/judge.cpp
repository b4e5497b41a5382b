#include "bench/judgement/judge.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "bench/judgement/parts.h"
#include "bench/judgement/verdict.h"

namespace fallaway::judgement {
namespace {

using evidence::Bench;
using evidence::Catalogue;
using evidence::Severity;

// An acceptance lapses when the value has moved by more than its own uncertainty, or when the words are others.
bool lapsed(const evidence::Acceptance& acceptance, const Finding& finding) {
    if (!acceptance.value) return false;
    if (!finding.found.si || !finding.found.unit) return *acceptance.value != finding.found.text;
    const auto accepted = parse_quantity(*acceptance.value, finding.found.unit->dimension);
    return !accepted || std::abs(accepted->si - finding.found.si->value) > finding.found.si->u;
}

void attach_acceptances(std::vector<Finding>& findings, const Bench& bench) {
    for (Finding& finding : findings) {
        for (const auto& acceptance : bench.accepted) {
            if (acceptance.finding != finding.id) continue;
            finding.accepted = acceptance;
            finding.acceptance_lapsed = lapsed(acceptance, finding);
        }
    }
}

void sort_by_severity(std::vector<Finding>& findings) {
    std::ranges::stable_sort(findings, {}, [](const Finding& finding) {
        const bool accepted = finding.accepted && !finding.acceptance_lapsed;
        return std::pair(finding.severity, accepted);
    });
}

// An acceptance that meets no finding is told: the fault is gone, or its id is misspelt.
std::vector<Finding> idle_acceptances(const std::vector<Finding>& findings, const Bench& bench) {
    std::vector<Finding> idle;
    for (const auto& acceptance : bench.accepted) {
        if (std::ranges::count(findings, acceptance.finding, &Finding::id) > 0) continue;
        Finding note;
        note.id = "accepted:" + acceptance.finding;
        note.severity = Severity::note;
        note.title = "Accepted by " + acceptance.by + ", and not found now";
        note.found.text = acceptance.finding;
        note.why = "Either the fault is gone, or the id of the finding is misspelt";
        note.remedy = "Keep it as history, or correct the id: the findings above name theirs";
        idle.push_back(std::move(note));
    }
    return idle;
}

// Readings that no neck could give together are told, never averaged away.
std::vector<Finding> disagreements(const model::NeckSurvey& neck) {
    std::vector<Finding> findings;
    for (const model::Disagreement& disagreement : neck.disagreements) {
        const model::Asked& first = disagreement.suspects.front();
        Finding finding;
        finding.id = fmt::format("readings@{}:{}", evidence::key_of(first.at), first.observable);
        finding.severity = Severity::minor;
        finding.at = first.at;
        finding.title = disagreement.suspects.size() == 1 ? "A reading does not go with the others"
                                                          : "Readings do not go together";
        finding.found.text = fmt::format("{}", fmt::join(disagreement.texts, "; "));
        finding.standing = Standing::fails;
        finding.why = "No neck has all of these heights at once; the model of the neck leaves these out";
        finding.remedy = fmt::format("Read {}: {}", disagreement.again ? "again" : "next",
                                     model::describe(disagreement.decider));
        findings.push_back(std::move(finding));
    }
    return findings;
}

std::optional<Finding> price_finding(const std::optional<PriceResult>& price) {
    if (!price || !price->words.ends_with("above")) return std::nullopt;
    Finding finding;
    finding.id = "price";
    finding.severity = Severity::note;
    finding.title = "Price against recent sales";
    finding.found.text = price->with_repairs.empty() ? price->asked : price->with_repairs + " with repairs";
    finding.limit = price->range;
    finding.limit_source = "recent sales of like instruments";
    finding.standing = Standing::outside;
    finding.why = "The owner wants one sentence to decide by";
    finding.remedy = "Show the owner the range and its sources";
    return finding;
}

// One sentence a section: what applies, was not answered, and whether hands forbade it.
std::vector<std::string> not_looked_at(const std::vector<Answer>& answers, const evidence::Procedure& procedure) {
    std::vector<std::string> sentences;
    for (const auto& section : procedure.sections) {
        std::vector<std::string> titles;
        for (const Answer& answer : answers) {
            if (answer.section != section.id) continue;
            const std::string title = title_of(*evidence::find_checkpoint(procedure, answer.checkpoint));
            if (answer.state == AnswerState::not_looked_at) titles.push_back(title);
            if (answer.state == AnswerState::forbidden) titles.push_back(title + " (" + answer.because + ")");
        }
        if (!titles.empty()) sentences.push_back(fmt::format("{}: {}", section.title, fmt::join(titles, "; ")));
    }
    return sentences;
}

std::vector<std::string> never_judged(const Bench& bench) {
    std::vector<std::string> lines;
    lines.push_back("Tone of the wood: not judged. No reading here separates it from strings, pickups and hands.");
    if (std::ranges::any_of(bench.readings,
                            [](const auto& reading) { return reading.what.ends_with("resistance"); })) {
        lines.push_back(
            "How it will sound from the ohms: not judged. Ohms find breaks and wrong parts, not tone.");
    }
    return lines;
}

// The usual cautions for the work that the findings call for. Common practice; local codes come first.
std::vector<std::string> cautions(const std::vector<Finding>& findings, const evidence::Procedure& procedure,
                                  const Bench& bench) {
    // Work done belongs to the same trades as the findings.
    constexpr std::array<std::pair<std::string_view, std::string_view>, 9> kSectionOfWork = {
        {{"truss rod", "neck"},
         {"restring", "setup"},
         {"saddle height", "setup"},
         {"saddle length", "setup"},
         {"nut slot", "frets"},
         {"fret seating", "frets"},
         {"fret levelling", "frets"},
         {"fret ends", "frets"},
         {"wiring", "electrics"}}};
    const auto worked_on = [&](std::string_view section) {
        return std::ranges::any_of(bench.work, [&](const evidence::Work& work) {
            return std::ranges::count(kSectionOfWork, std::pair(std::string_view(work.what), section)) > 0;
        });
    };
    struct Caution {
        std::string_view section;
        std::string_view text;
    };
    constexpr std::array kCautions = {
        Caution{"setup",
                "Strings under tension whip: eye protection, and slacken before cutting or loosening anything."},
        Caution{"neck",
                "Truss rod: never force it. A quarter turn at most, retune, read again; stop when it binds or "
                "creaks."},
        Caution{"frets",
                "Dust of fretwork, bone, shell and lacquer harms the lungs: extraction and a mask. Eye protection "
                "with wire ends."},
        Caution{"wood-finish", "Solvents and finishes: air, no flame, gloves."},
        Caution{"electrics",
                "Soldering: heat, fume, lead. Valve and mains amplifiers are never opened here: they belong to a "
                "licensed person."},
    };
    std::vector<std::string> texts;
    for (const auto& caution : kCautions) {
        const bool needed = std::ranges::any_of(findings, [&](const Finding& finding) {
            const auto* checkpoint = evidence::find_checkpoint(procedure, finding.checkpoint);
            return checkpoint && checkpoint->section == caution.section && finding.severity != Severity::note;
        });
        if (needed || worked_on(caution.section)) texts.emplace_back(caution.text);
    }
    if (!texts.empty()) texts.emplace_back("Local codes and licensed practice come before anything said here.");
    return texts;
}

std::string name_of_hands(evidence::Hands hands) {
    switch (hands) {
        case evidence::Hands::look_only:
            return "look only";
        case evidence::Hands::adjust:
            return "adjust";
        case evidence::Hands::work:
            return "work";
    }
    return "";
}

}  // namespace

Assessment assess(const Bench& bench, const Catalogue& catalogue) {
    const model::CurrentReadings readings(bench, catalogue);
    Assessment result;
    result.scope = bench.scope.name;
    result.hands = name_of_hands(bench.hands);
    result.procedure = catalogue.procedure.id + " " + catalogue.procedure.version;
    result.answers = answer_checkpoints(bench, catalogue, readings);
    result.claims = judge_claims(bench, catalogue, readings);
    result.price = judge_price(bench);

    result.neck = model::survey_neck(bench, readings);
    result.strings = model::strings_of(bench, readings, catalogue);
    if (result.neck) result.intonation = model::intonation_of(bench, readings, *result.neck, result.strings);

    result.findings = findings_of(result.answers, catalogue.procedure);
    if (result.neck) std::ranges::move(disagreements(*result.neck), std::back_inserter(result.findings));
    std::ranges::move(findings_of(result.claims, bench, catalogue), std::back_inserter(result.findings));
    if (auto price = price_finding(result.price)) result.findings.push_back(std::move(*price));
    attach_acceptances(result.findings, bench);
    std::ranges::move(idle_acceptances(result.findings, bench), std::back_inserter(result.findings));
    sort_by_severity(result.findings);

    result.complaints = judge_complaints(bench, readings, result.findings);
    result.card = judge_card(bench, catalogue, readings);
    result.changes = judge_changes(readings);
    result.next = next_readings(bench, catalogue, result.answers, result.claims);
    result.assumed = still_assumed(bench, readings);
    result.not_looked_at = not_looked_at(result.answers, catalogue.procedure);
    result.not_judged = never_judged(bench);
    result.cautions = cautions(result.findings, catalogue.procedure, bench);

    auto verdict = reach_verdict(result, catalogue.procedure);
    result.verdict = verdict.verdict;
    result.reasons = std::move(verdict.reasons);
    return result;
}

}  // namespace fallaway::judgement
