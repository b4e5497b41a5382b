// Wire tables of figures, answers, findings and changes.
#include <cmath>

#include "shop/files/assessment_tables.h"
#include "shop/files/bench_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::Cure;
using evidence::Place;
using evidence::Severity;
using evidence::Stage;
using judgement::Answer;
using judgement::AnswerState;
using judgement::Change;
using judgement::Figure;
using judgement::Finding;
using judgement::Line;
using judgement::Standing;

// Fifteen digits are exact for a value that was read; the sixteenth is dust from the change of unit.
double dusted(double value) {
    if (value == 0 || !std::isfinite(value)) return value;
    const double scale = std::pow(10, 14 - std::floor(std::log10(std::abs(value))));
    return std::isfinite(scale) ? std::round(value * scale) / scale : value;
}

bool is_quantity(const Figure& figure) {
    return figure.si && figure.unit != nullptr;
}

Codec<Cure> told_cure_codec() {
    return choice<Cure>({{"none", Cure::none},
                         {"set up", Cure::set_up},
                         {"repair", Cure::repair},
                         {"send back", Cure::send_back}});
}

Codec<Stage> told_stage_codec() {
    return choice<Stage>({{"arrival", Stage::arrival},
                          {"before", Stage::before},
                          {"after", Stage::after},
                          {"handover", Stage::handover}});
}

Codec<AnswerState> state_codec() {
    using enum AnswerState;
    return told_choice<AnswerState>(
        "answer_state", {fine, faulty, cannot_tell, incomplete, stale, not_looked_at, forbidden, not_applicable});
}

Codec<evidence::Acceptance> accepted_codec() {
    using A = evidence::Acceptance;
    return codec_of(Record<A>("accepted", "Who takes a finding as it is")
                        .tells("by", "who", &A::by, any_text())
                        .tells("why", "the reason", &A::why, any_text())
                        .tells("when", "when", &A::when, moment())
                        .tells("value", "at which value, as printed", &A::value, any_text()));
}

Codec<Line> line_codec() {
    using L = Line;
    return codec_of(
        Record<L>("line", "What one place of one checkpoint says")
            .defaulted("at", "where; left out for the whole instrument", &L::at, place_codec())
            .defaulted("observable", "what was read; left out for ratings", &L::observable, any_text())
            .tells("found", "what was found", &L::found, figure_codec())
            .defaulted("limit", "its limit in words", &L::limit, any_text())
            .defaulted("limit_source", "whose limit that is", &L::limit_source, any_text())
            .tells("standing", "how it stands against that", &L::standing, standing_codec())
            .tells("severity", "of the fault, where it is one", &L::severity, told_severity_codec())
            .tells("p_conform", "probability, 0 to 1, that the true value lies within the limit", &L::p_conform,
                   any_number())
            .tells("stage", "when in the stay", &L::stage, told_stage_codec())
            .defaulted("by", "who read it", &L::by, any_text())
            .defaulted("tool", "with what, for a person", &L::tool, any_text())
            .defaulted("tool_assumed", "true: no tool was named, the usual one was taken", &L::tool_assumed,
                       boolean())
            .tells(
                "stale", "the work that made it worthless",
                [](const L& line) { return line.stale ? std::optional(line.stale_because) : std::nullopt; },
                any_text())
            .defaulted("disputed", "true: read twice, and the two do not agree", &L::disputed, boolean())
            .defaulted("advice", "what would decide it", &L::advice, any_text())
            .defaulted("remark", "anything else", &L::remark, any_text()));
}

// Before and after at one place, in the unit of the change.
struct Pair {
    Place at;
    double before = 0;
    double after = 0;
};

Codec<Pair> pair_codec() {
    return codec_of(Record<Pair>("pair", "One place read twice, in the unit of the change")
                        .tells("at", "where", &Pair::at, place_codec())
                        .tells("before", "first", &Pair::before, any_number())
                        .tells("after", "then", &Pair::after, any_number()));
}

std::vector<Pair> pairs_of(const Change& change) {
    const auto in_unit = [&](double si) { return change.unit ? dusted(from_si(si, *change.unit)) : si; };
    std::vector<Pair> pairs;
    for (const auto& [place, values] : change.pairs) {
        pairs.push_back({place, in_unit(values.first), in_unit(values.second)});
    }
    return pairs;
}

double difference(const Change& change, double si) {
    return change.unit ? dusted(difference_from_si(si, *change.unit)) : si;
}

}  // namespace

Codec<judgement::Verdict> verdict_codec() {
    using enum judgement::Verdict;
    return told_choice<judgement::Verdict>("verdict",
                                           {ready, set_up_first, repair_first, send_back, cannot_tell_yet});
}

Codec<Severity> told_severity_codec() {
    using enum Severity;
    return told_choice<Severity>("severity", {critical, major, minor, note});
}

Codec<Standing> standing_codec() {
    using enum Standing;
    return told_choice<Standing>("standing", {usual, at_the_edge, outside, kept, broken, undecided, passes,
                                              passes_barely, fails, not_judged});
}

Codec<Figure> figure_codec() {
    using F = Figure;
    const auto of_quantity = [](auto of) {
        return [of](const F& figure) { return is_quantity(figure) ? std::optional(of(figure)) : std::nullopt; };
    };
    return codec_of(
        Record<F>("figure", "A quantity with value, unit, u and text; or words")
            .tells("value", "in the unit that is printed",
                   of_quantity([](const F& f) { return dusted(from_si(f.si->value, *f.unit)); }), any_number())
            .tells("unit", "its symbol", of_quantity([](const F& f) { return std::string(f.unit->symbol); }),
                   any_text())
            .tells("u", "standard uncertainty in the same unit",
                   of_quantity([](const F& f) { return dusted(difference_from_si(f.si->u, *f.unit)); }),
                   any_number())
            .tells("text", "as it stands in the report", of_quantity([](const F& f) { return f.text; }),
                   any_text())
            .tells(
                "words", "words, ratings and counts",
                [](const F& f) { return is_quantity(f) ? std::nullopt : std::optional(f.text); }, any_text()));
}

Codec<Answer> answer_codec() {
    using A = Answer;
    return codec_of(Record<A>("answer", "What is known of one checkpoint")
                        .tells("checkpoint", "its id", &A::checkpoint, any_text())
                        .tells("section", "its section", &A::section, any_text())
                        .tells("question", "what it asks", &A::question, any_text())
                        .tells("in_scope", "does the verdict rest on it?", &A::in_scope, boolean())
                        .defaulted("surely_applies", "false: a fact that decides it is not stated",
                                   &A::surely_applies, boolean())
                        .tells("state", "how far it is answered", &A::state, state_codec())
                        .defaulted("because", "why it is not", &A::because, any_text())
                        .tells("lines", "place by place", &A::lines, list_of(line_codec())));
}

Codec<Finding> finding_codec() {
    using F = Finding;
    return codec_of(
        Record<F>("finding", "A result that a person acts on")
            .tells("id", "the same on every run of the same evidence", &F::id, any_text())
            .defaulted("checkpoint", "left out for claims, card lines and prices", &F::checkpoint, any_text())
            .tells("severity", "how bad it is", &F::severity, told_severity_codec())
            .tells("cure", "what it calls for", &F::cure, told_cure_codec())
            .defaulted("at", "where; left out for the whole instrument", &F::at, place_codec())
            .tells("title", "one line", &F::title, any_text())
            .tells("found", "what was found", told(&F::found), figure_codec())
            .defaulted("limit", "its limit in words", &F::limit, any_text())
            .defaulted("limit_source", "whose limit that is", &F::limit_source, any_text())
            .tells("standing", "how it stands against that", &F::standing, standing_codec())
            .tells("p_conform", "probability, 0 to 1, that the true value lies within the limit", &F::p_conform,
                   any_number())
            .defaulted("why", "why it matters", &F::why, any_text())
            .defaulted("remedy", "what to do", &F::remedy, any_text())
            .tells("accepted", "a person takes it as it is", &F::accepted, accepted_codec())
            .defaulted("acceptance_lapsed", "true: it was accepted once, at another value", &F::acceptance_lapsed,
                       boolean())
            .defaulted("remark", "anything else", &F::remark, any_text()));
}

Codec<Change> change_codec() {
    using C = Change;
    return codec_of(
        Record<C>("change", "Before against after, the same places read twice; numbers in its unit")
            .tells("title", "what was read", &C::title, any_text())
            .tells("text", "the change in one sentence", &C::text, any_text())
            .tells(
                "real", "is it more than the readings scatter?", [](const C& c) { return c.paired.real; },
                boolean())
            .tells(
                "n", "pairs", [](const C& c) { return c.paired.n; }, any_whole())
            .tells(
                "unit", "its symbol, \"\" for plain numbers",
                [](const C& c) { return std::string(c.unit ? c.unit->symbol : ""); }, any_text())
            .tells(
                "mean", "mean difference", [](const C& c) { return difference(c, c.paired.mean); }, any_number())
            .tells(
                "ci95", "low and high end of where the mean lies 95 times in 100",
                [](const C& c) {
                    return std::vector<double>{difference(c, c.paired.ci95_low),
                                               difference(c, c.paired.ci95_high)};
                },
                list_of(any_number()))
            .tells(
                "p_two_sided", "probability, 0 to 1, of such a mean by chance alone",
                [](const C& c) { return c.paired.p_two_sided; }, any_number())
            .tells("pairs", "place by place", pairs_of, list_of(pair_codec())));
}

}  // namespace fallaway::files
