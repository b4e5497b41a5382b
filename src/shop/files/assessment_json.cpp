#include "shop/files/assessment_json.h"

#include "shop/files/assessment_tables.h"
#include "shop/files/bench_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using judgement::Assessment;

Codec<judgement::ClaimLine> claim_line_codec() {
    using C = judgement::ClaimLine;
    using enum judgement::ClaimOutcome;
    return codec_of(
        Record<C>("claim_line", "A promise and what became of it")
            .tells("id", "as in the bench file", &C::id, any_text())
            .tells("name", "what was promised of", &C::name, any_text())
            .defaulted("at", "where; left out for the whole instrument", &C::at, place_codec())
            .tells("promised", "as typed", &C::promised, any_text())
            .defaulted("source", "who promised it where", &C::source, any_text())
            .tells("found", "what was found", told(&C::found), figure_codec())
            .defaulted("tolerance", "how far off still fits", &C::tolerance, any_text())
            .defaulted("how", "how it was found", &C::how, any_text())
            .tells(
                "outcome", "what became of it", &C::outcome,
                told_choice<judgement::ClaimOutcome>("claim_outcome", {confirmed, contradicted, not_established}))
            .tells("p_conform", "probability, 0 to 1, that the true value fits", &C::p_conform, any_number())
            .defaulted("advice", "what would settle it", &C::advice, any_text())
            .tells("checkable", "can any reading settle it?", &C::checkable, boolean()));
}

Codec<judgement::ComplaintLine> complaint_line_codec() {
    using C = judgement::ComplaintLine;
    using enum evidence::Ending;
    const auto texts = list_of(any_text());
    return codec_of(Record<C>("complaint_line", "A complaint and how it ended")
                        .tells("text", "in the player's own words", &C::text, any_text())
                        .defaulted("at", "where; left out for the whole instrument", &C::at, place_codec())
                        .tells("ending", "left out while it is open", &C::ending,
                               told_choice<evidence::Ending>(
                                   "complaint_ending", {cured, explained_not_cured, not_found, left_by_agreement}))
                        .tells("shown", "do readings bear the ending out?", &C::shown, boolean())
                        .tells("evidence", "one sentence a reading; while open, the faults found at its place",
                               &C::evidence, texts)
                        .tells("findings", "ids of findings at its place or behind it", &C::findings, texts)
                        .defaulted("remark", "anything else", &C::remark, any_text())
                        .defaulted("ended_by", "who says how it ended", &C::ended_by, any_text()));
}

Codec<judgement::CardResult> card_result_codec() {
    using C = judgement::CardResult;
    using enum judgement::CardOutcome;
    return codec_of(Record<C>("card_result", "A line of another inspector's card against what was read here")
                        .tells("title", "what was read", &C::title, any_text())
                        .tells("theirs", "what they say", &C::theirs, any_text())
                        .defaulted("ours", "what was read here", &C::ours, any_text())
                        .tells("outcome", "do the two agree?", &C::outcome,
                               told_choice<judgement::CardOutcome>("card_outcome", {agrees, differs, not_checked}))
                        .tells("en", "normalised error: they agree up to 1", &C::en, any_number()));
}

Codec<judgement::PriceResult> price_result_codec() {
    using P = judgement::PriceResult;
    return codec_of(
        Record<P>("price_result", "What is asked against what like instruments went for")
            .defaulted("asked", "what is asked", &P::asked, any_text())
            .defaulted("range", "what like instruments went for", &P::range, any_text())
            .defaulted("with_repairs", "what is asked, with the cost of what has to be mended", &P::with_repairs,
                       any_text())
            .defaulted("words", "where it lies; left out when the sales are too few", &P::words, any_text())
            .tells("sources", "where the sales are known from", &P::sources, list_of(any_text())));
}

Codec<evidence::Assumption> assumption_codec() {
    using A = evidence::Assumption;
    return codec_of(Record<A>("assumption", "What is taken for granted until a reading knows better")
                        .tells("what", "of what", &A::what, any_text())
                        .tells("text", "what is taken", &A::text, any_text())
                        .tells("because", "on what ground", &A::because, any_text())
                        .defaulted("observable", "the reading that would replace it", &A::observable, any_text()));
}

Codec<judgement::NextReading> next_reading_codec() {
    using N = judgement::NextReading;
    return codec_of(Record<N>("next_reading", "What to read next")
                        .defaulted("checkpoint", "id of the checkpoint", &N::checkpoint, any_text())
                        .tells("what", "what to read", &N::what, any_text())
                        .tells("minutes", "what it takes", &N::minutes, any_number())
                        .tells("why", "what it would decide", &N::why, any_text())
                        .tells("needs", "tools", &N::needs, list_of(any_text())));
}

// The row of one member of the assessment, always there.
template <class M>
auto of(M Assessment::*member) {
    return [member](const Assessed& a) -> const M& { return a.assessment.*member; };
}

Record<Assessed> assessed_record() {
    using A = Assessment;
    const auto texts = list_of(any_text());
    Record<Assessed> record("assessment", "What judgement says of one bench file");
    record.add(schema_field<Assessed>("fallaway/assessment/1"))
        .tells("version", "of the program", &Assessed::version, any_text())
        .tells("demo", "true: invented instrument and values", &Assessed::demo, boolean())
        .tells("instrument", "its name in words", &Assessed::instrument, any_text())
        .tells("verdict", "the verdict", of(&A::verdict), verdict_codec())
        .tells("scope", "what the verdict rests on", of(&A::scope), any_text())
        .tells("hands", "what hands may do", of(&A::hands), any_text())
        .tells("procedure", "id and version", of(&A::procedure), any_text())
        .tells("reasons", "sentences, the weightiest first", of(&A::reasons), texts)
        .tells("complaints", "what the player complained of", of(&A::complaints), list_of(complaint_line_codec()))
        .tells("findings", "the worst first", of(&A::findings), list_of(finding_codec()))
        .tells("claims", "what was promised", of(&A::claims), list_of(claim_line_codec()))
        .tells("card", "another inspector's lines", of(&A::card), list_of(card_result_codec()))
        .tells("changes", "what was read before and after", of(&A::changes), list_of(change_codec()))
        .tells("price", "null when none was asked", of(&A::price), or_null(price_result_codec()))
        .tells("neck", "null where frets or strings are not such as a neck can be rebuilt from", of(&A::neck),
               or_null(survey_codec()))
        .tells("strings", "what is on it and how hard that pulls", of(&A::strings), pull_codec())
        .tells("intonation", "null without frets, or where nothing of the strings is known", of(&A::intonation),
               or_null(intonation_codec()))
        .tells("answers", "every checkpoint that applies or was answered, in trade order", of(&A::answers),
               list_of(answer_codec()))
        .tells("not_looked_at", "sentences", of(&A::not_looked_at), texts)
        .tells("not_judged", "sentences", of(&A::not_judged), texts)
        .tells("assumed", "what is still taken for granted", of(&A::assumed), list_of(assumption_codec()))
        .tells("next", "the most telling reading first", of(&A::next), list_of(next_reading_codec()))
        .tells("cautions", "sentences", of(&A::cautions), texts);
    return record;
}

}  // namespace

Codec<Assessed> assessed_codec() {
    static const auto kCodec = codec_of(assessed_record());
    return kCodec;
}

Definitions assessment_definitions() {
    Definitions definitions;
    assessed_codec().schema(definitions);
    return definitions;
}

std::string assessment_json(const evidence::Bench& bench, const Assessment& assessment, std::string_view version) {
    return write_json(
        assessed_codec().encode({std::string(version), bench.demo, describe(bench.instrument), assessment}));
}

std::string assessment_documentation() {
    return pages_of(assessment_definitions(), {{"bench-file.md", bench_definitions()}});
}

}  // namespace fallaway::files
