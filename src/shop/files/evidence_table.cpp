// Wire tables of what is measured, judged and done in one stay.
#include <fmt/format.h>

#include "bench/evidence/observable.h"
#include "science/base/quote.h"
#include "shop/files/bench_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::Observable;
using evidence::Place;
using evidence::Value;

std::vector<std::string_view> observable_names() {
    std::vector<std::string_view> names;
    for (const Observable& observable : evidence::observables()) names.push_back(observable.name);
    return names;
}

std::vector<std::string_view> work_names() {
    std::vector<std::string_view> names;
    for (const evidence::WorkKind& kind : evidence::work_kinds()) names.push_back(kind.name);
    return names;
}

bool decode_quantity_value(const Json& value, const Spot& spot, Dimension dimension, std::optional<Value>& out) {
    QuantityText text;
    if (!decode_quantity(value, spot, dimension, text)) return false;
    out = std::move(text);
    return true;
}

bool decode_observed(const Json& value, const Spot& spot, const Observable& observable,
                     std::optional<Value>& out) {
    if (observable.words.empty()) return decode_quantity_value(value, spot, observable.dimension, out);
    std::string text;
    if (!decode_word(value, spot, observable.words, text)) return false;
    out = std::move(text);
    return true;
}

std::optional<Json> encode_value(const std::optional<Value>& value) {
    if (!value) return std::nullopt;
    const auto* quantity = std::get_if<QuantityText>(&*value);
    return Json::of(quantity != nullptr ? quantity->typed : std::get<std::string>(*value));
}

Json schema_of_value(Definitions&) {
    return Json::record(
        {{"type", Json::list({Json::of("string"), Json::of("integer")})}, {"minLength", Json::of(1)}});
}

constexpr std::string_view kSaysValue = "a quantity with its unit, or one of the words that the observable has";

// The row `value` of a record whose `what`, standing above it, says how to read it.
template <class T>
Field<T> value_field(std::string says, std::function<bool(const Json&, const Spot&, T&)> decode) {
    return {"value",
            std::move(says),
            false,
            std::string(kSaysValue),
            "",
            std::move(decode),
            [](const T& record) { return encode_value(record.value); },
            schema_of_value};
}

bool decode_reading_value(const Json& value, const Spot& spot, evidence::Reading& reading) {
    const Observable* observable = evidence::find_observable(reading.what);
    return observable != nullptr && decode_observed(value, spot, *observable, reading.value);
}

bool decode_repeats(const Json& value, const Spot& spot, evidence::Reading& reading) {
    const Observable* observable = evidence::find_observable(reading.what);
    if (observable == nullptr) return false;
    if (!observable->words.empty()) {
        spot.fault("unknown",
                   fmt::format("repeats of {}: it is told in words, write one of them as value", reading.what));
        return false;
    }
    return list_of(quantity(observable->dimension), 1).decode(value, spot, reading.repeats);
}

Field<evidence::Reading> repeats_field() {
    const auto encode_all = list_of(quantity(Dimension::length)).encode;  // typed texts, whatever the dimension
    return {
        "repeats",
        "the single readings, in place of a value: their mean counts",
        false,
        "list of quantities, each with its unit",
        "",
        decode_repeats,
        [encode_all](const evidence::Reading& reading) {
            return reading.repeats.empty() ? std::nullopt : std::optional(encode_all(reading.repeats));
        },
        [](Definitions& definitions) {
            return Json::record(
                {{"type", Json::of("array")}, {"items", schema_of_value(definitions)}, {"minItems", Json::of(1)}});
        }};
}

const evidence::ClaimKind* find_claim_kind(const Spot& spot, std::string_view id) {
    const auto& kinds = BenchSession::of(spot).catalogue.claims;
    const auto found = std::ranges::find(kinds, id, &evidence::ClaimKind::id);
    return found == kinds.end() ? nullptr : &*found;
}

bool decode_claim_kind(const Json& value, const Spot& spot, evidence::Claim& claim) {
    std::vector<std::string_view> ids;
    for (const auto& kind : BenchSession::of(spot).catalogue.claims) ids.push_back(kind.id);
    return decode_word(value, spot, ids, claim.what);
}

bool decode_claim_value(const Json& value, const Spot& spot, evidence::Claim& claim) {
    const auto* kind = find_claim_kind(spot, claim.what);
    if (kind == nullptr) return false;
    if (kind->dimension) return decode_quantity_value(value, spot, *kind->dimension, claim.value);
    std::string words;
    if (!name().decode(value, spot, words)) return false;
    claim.value = std::move(words);
    return true;
}

bool decode_claim_tolerance(const Json& value, const Spot& spot, evidence::Claim& claim) {
    const auto* kind = find_claim_kind(spot, claim.what);
    if (kind == nullptr) return false;
    if (!kind->dimension) {
        spot.fault("unknown",
                   fmt::format("a tolerance for {}, which is claimed in words; leave it out", quote(claim.what)));
        return false;
    }
    return decode_quantity(value, spot, *kind->dimension, claim.tolerance.emplace());
}

// A row that holds a quantity whose dimension depends on the rows above.
template <class T>
Field<T> dependent_quantity(std::string key, std::string says, std::optional<QuantityText> T::*member,
                            std::function<bool(const Json&, const Spot&, T&)> decode) {
    return {std::move(key),
            std::move(says),
            false,
            "a quantity with its unit",
            "",
            std::move(decode),
            [member](const T& record) {
                return record.*member ? std::optional(Json::of((record.*member)->typed)) : std::nullopt;
            },
            schema_of_value};
}

bool decode_certificate(const Json& value, const Spot& spot, evidence::ToolUsed& tool) {
    const auto& kinds = BenchSession::of(spot).catalogue.tools;
    const auto kind = std::ranges::find(kinds, tool.kind, &metrology::ToolKind::id);
    return kind != kinds.end() && decode_quantity(value, spot, kind->dimension, tool.certificate_u.emplace());
}

bool decode_tool_kind(const Json& value, const Spot& spot, evidence::ToolUsed& tool) {
    std::vector<std::string_view> ids;
    for (const auto& kind : BenchSession::of(spot).catalogue.tools) ids.push_back(kind.id);
    return decode_word(value, spot, ids, tool.kind);
}

// Card lines name an observable or a checkpoint; what it is decides how the value is read.
bool decode_card_value(const Json& value, const Spot& spot, evidence::CardLine& line) {
    const Observable* observable = evidence::find_observable(line.what);
    if (observable != nullptr) return decode_observed(value, spot, *observable, line.value);
    std::string words;
    if (!name().decode(value, spot, words)) return false;
    line.value = std::move(words);
    return true;
}

// The dimension of a checkpoint's limits is that of the observable it reads first.
auto limit_decoder(std::optional<QuantityText> evidence::LimitOverride::*member) {
    return [member](const Json& value, const Spot& spot, evidence::LimitOverride& limit) {
        const auto* procedure = BenchSession::of(spot).procedure;
        const auto* checkpoint =
            procedure == nullptr ? nullptr : evidence::find_checkpoint(*procedure, limit.checkpoint);
        if (checkpoint == nullptr) return true;  // told by the row above
        const Observable* observable =
            checkpoint->reads.empty() ? nullptr : evidence::find_observable(checkpoint->reads.front());
        if (observable == nullptr || !observable->words.empty()) {
            spot.fault("unknown", fmt::format("a limit for {}, which reads no quantity", quote(limit.checkpoint)));
            return false;
        }
        return decode_quantity(value, spot, observable->dimension, (limit.*member).emplace());
    };
}

bool decode_limited_checkpoint(const Json& value, const Spot& spot, evidence::LimitOverride& limit) {
    std::vector<std::string_view> ids;
    const auto* procedure = BenchSession::of(spot).procedure;
    if (procedure == nullptr) return name().decode(value, spot, limit.checkpoint);
    for (const auto& checkpoint : procedure->checkpoints) ids.push_back(checkpoint.id);
    return decode_word(value, spot, ids, limit.checkpoint);
}

// A required text that is checked against a list known only while reading.
template <class T>
Field<T> listed_field(std::string key, std::string says, std::string T::*member,
                      std::function<bool(const Json&, const Spot&, T&)> decode) {
    const auto text = name();
    return {std::move(key),
            std::move(says),
            true,
            text.says,
            "",
            std::move(decode),
            [member](const T& record) { return std::optional(Json::of(record.*member)); },
            text.schema};
}

Codec<evidence::ComplaintEnding> ending_codec() {
    using E = evidence::ComplaintEnding;
    using evidence::Ending;
    return codec_of(Record<E>("ending", "How a complaint ended")
                        .required("as", "the outcome", &E::as,
                                  choice<Ending>({{"cured", Ending::cured},
                                                  {"explained, not cured", Ending::explained_not_cured},
                                                  {"not found", Ending::not_found},
                                                  {"left by agreement", Ending::left_by_agreement}}))
                        .defaulted("shown_by", "ids of the readings that show it", &E::shown_by, list_of(name()))
                        .optional("by", "who says so", &E::by, name())
                        .optional("when", "when", &E::when, moment())
                        .optional("why", "the reason", &E::why, prose()));
}

Codec<evidence::Complaint> complaint_codec() {
    using C = evidence::Complaint;
    return codec_of(Record<C>("complaint", "What the player complains of")
                        .required("text", "in the player's own words", &C::text, prose())
                        .defaulted("at", "where", &C::at, place_codec())
                        .optional("ending", "how it ended", &C::ending, ending_codec()));
}

Codec<evidence::CardLine> card_line_codec() {
    using L = evidence::CardLine;
    return codec_of(Record<L>("card_line", "One line of another inspector's card")
                        .required("what", "an observable, or a checkpoint for a rating", &L::what, name())
                        .defaulted("at", "where", &L::at, place_codec())
                        .add(value_field<L>("what they read", decode_card_value))
                        .optional("step", "what they judged, 0 worst to 3 best", &L::step, whole(0, 3))
                        .optional("tool", "what they read it with", &L::tool, name())
                        .optional("remark", "anything else", &L::remark, prose()));
}

Codec<evidence::Sale> sale_codec() {
    using S = evidence::Sale;
    return codec_of(Record<S>("sale", "A recent sale of a like instrument")
                        .required("price", "what was paid", &S::price, quantity(Dimension::money))
                        .required("where", "where this is known from", &S::where, name()));
}

}  // namespace

Codec<evidence::Stage> stage_codec() {
    using evidence::Stage;
    return choice<Stage>({{"arrival", Stage::arrival},
                          {"before", Stage::before},
                          {"after", Stage::after},
                          {"hand-over", Stage::handover}});
}

Codec<evidence::Job> job_codec() {
    using J = evidence::Job;
    return codec_of(Record<J>("job", "Whose instrument it is and why it is here")
                        .optional("id", "the shop's number", &J::id, name())
                        .optional("owner", "whose it is", &J::owner, name())
                        .optional("shop", "where the work is done", &J::shop, name())
                        .defaulted("technicians", "who works on it", &J::technicians, list_of(name()))
                        .optional("received", "when it came", &J::received, day())
                        .optional("purpose", "why it is here", &J::purpose,
                                  word({"customer", "delivery", "loan for review", "own"})));
}

Codec<evidence::Wants> wants_codec() {
    using W = evidence::Wants;
    using evidence::RattleAllowed;
    using evidence::Strength;
    return codec_of(
        Record<W>("wants", "What the player wishes; it can be laid on the next instrument")
            .optional("player", "who plays it", &W::player, name())
            .defaulted("complaints", "what is wrong with it", &W::complaints, list_of(complaint_codec()))
            .defaulted("tuning", "one note for each string, string 1 first", &W::tuning, list_of(note()))
            .optional("strings", "the set wanted, such as \"10-46\"", &W::strings, name())
            .optional("height_bass", "string height wanted over fret 12, bass side", &W::height_bass,
                      quantity(Dimension::length))
            .optional("height_treble", "the same on the treble side", &W::height_treble,
                      quantity(Dimension::length))
            .optional("hand", "how hard the player strikes", &W::hand,
                      choice<Strength>(
                          {{"light", Strength::light}, {"medium", Strength::medium}, {"heavy", Strength::heavy}}))
            .optional("rattle", "how much rattle is allowed", &W::rattle,
                      choice<RattleAllowed>({{"none", RattleAllowed::none},
                                             {"unplugged only", RattleAllowed::unplugged_only},
                                             {"hard only", RattleAllowed::hard_only}}))
            .defaulted("untouchables", "what must stay as it is", &W::untouchables, list_of(name()))
            .optional("money_limit", "what it may cost", &W::money_limit, quantity(Dimension::money))
            .optional("promised", "when it was promised", &W::promised, day())
            .optional("remark", "anything else", &W::remark, prose()));
}

Codec<evidence::ScopeChoice> scope_codec() {
    using S = evidence::ScopeChoice;
    const auto named = name();
    const auto own = codec_of(
        Record<S>("own_scope", "The shop's own list of checkpoints")
            .required("name", "what the shop calls it", &S::name, name())
            .required("checkpoints", "ids of checkpoints, in order", &S::checkpoints, list_of(name(), 1)));
    return {
        [named, own](const Json& value, const Spot& spot, S& out) {
            if (value.kind == Json::Kind::record) return own.decode(value, spot, out);
            return named.decode(value, spot, out.name);
        },
        [named, own](const S& scope) {
            return scope.checkpoints.empty() ? named.encode(scope.name) : own.encode(scope);
        },
        [named, own](Definitions& definitions) {
            return Json::record({{"anyOf", Json::list({named.schema(definitions), own.schema(definitions)})}});
        },
        "name of a scope of the procedure, or " + own.says,
    };
}

Codec<evidence::Claim> claim_codec() {
    using C = evidence::Claim;
    return codec_of(
        Record<C>("claim", "What was promised of the instrument")
            .required("id", "for the report; once in the file", &C::id, name())
            .add(listed_field<C>("what", "a kind of claim (data/claims.json)", &C::what, decode_claim_kind))
            .defaulted("at", "where", &C::at, place_codec())
            .add(value_field<C>("what is claimed", decode_claim_value))
            .add(dependent_quantity<C>("tolerance", "half width of what still fits; else that of its kind",
                                       &C::tolerance, decode_claim_tolerance))
            .required("source", "who promised it where: \"advert\", \"order\"", &C::source, name())
            .optional("text", "the sentence as promised", &C::text, prose())
            .optional("found", "what a person found, where no reading can decide", &C::found, prose())
            .optional("outcome", "that person's judgement", &C::outcome,
                      word({"confirmed", "contradicted", "not established"}))
            .optional("by", "who judged", &C::by, name())
            .optional("remark", "anything else", &C::remark, prose()));
}

Codec<evidence::ToolUsed> tool_used_codec() {
    using T = evidence::ToolUsed;
    return codec_of(
        Record<T>("tool", "A tool that readings name")
            .required("id", "as readings name it; once in the file", &T::id, name())
            .add(listed_field<T>("kind", "a kind of tool (data/tools.json)", &T::kind, decode_tool_kind))
            .optional("calibrated", "when last", &T::calibrated, day())
            .add(dependent_quantity<T>("certificate_u", "expanded uncertainty from its certificate",
                                       &T::certificate_u, decode_certificate))
            .optional("certificate_k", "coverage factor of that; 2 when left out", &T::certificate_k,
                      number(0.1, 10))
            .optional("remark", "anything else", &T::remark, prose()));
}

Codec<evidence::RoomState> room_state_codec() {
    using R = evidence::RoomState;
    return codec_of(Record<R>("room", "The air in the work room")
                        .optional("when", "when it was read", &R::when, moment())
                        .optional("temperature", "of the air", &R::temperature, quantity(Dimension::temperature))
                        .optional("humidity", "of the air", &R::humidity, quantity(Dimension::relative_humidity))
                        .optional("remark", "anything else", &R::remark, prose()));
}

Codec<evidence::Reading> reading_codec() {
    using R = evidence::Reading;
    const auto alternative = [](const char* key) {
        return Json::record({{"required", Json::list({Json::of(key)})}});
    };
    return codec_of(
        Record<R>("reading", "A measured value, or what was seen or heard, with its place and tool")
            .optional("id", "so that endings can point at it; once in the file", &R::id, name())
            .required("what", "what was read, from the list of observables", &R::what, word(observable_names()))
            .defaulted("at", "where", &R::at, place_codec())
            .add(value_field<R>("what it was", decode_reading_value))
            .add(repeats_field())
            .optional("tool", "id or kind of a tool; the shop's usual one, marked assumed, when left out",
                      &R::tool, name())
            .optional("by", "who read it", &R::by, name())
            .optional("when", "when", &R::when, moment())
            .defaulted("stage", "when in the stay", &R::stage, stage_codec())
            .optional("remark", "anything else", &R::remark, prose())
            .also("oneOf", Json::list({alternative("value"), alternative("repeats")})));
}

Codec<evidence::Rating> rating_codec() {
    using R = evidence::Rating;
    return codec_of(
        Record<R>("rating", "A judged checkpoint")
            .required("checkpoint", "id of the checkpoint", &R::checkpoint, name())
            .required("step", "0 worst to 3 best, as anchored in the checkpoint", &R::step, whole(0, 3))
            .defaulted("at", "where", &R::at, place_codec())
            .optional("by", "who judged", &R::by, name())
            .optional("when", "when", &R::when, moment())
            .defaulted("stage", "when in the stay", &R::stage, stage_codec())
            .optional("remark", "anything else", &R::remark, prose())
            .defaulted("photos", "paths of photos", &R::photos, list_of(name())));
}

Codec<evidence::Recording> recording_codec() {
    using R = evidence::Recording;
    return codec_of(Record<R>("recording", "A sound file")
                        .required("path", "beside the bench file", &R::path, name())
                        .optional("what", "what is heard", &R::what, name())
                        .optional("by", "who recorded it", &R::by, name())
                        .optional("when", "when", &R::when, moment())
                        .defaulted("stage", "when in the stay", &R::stage, stage_codec()));
}

Codec<evidence::Photo> photo_codec() {
    using P = evidence::Photo;
    const auto mark = codec_of(Record<P::Mark>("mark", "What is meant in a photo")
                                   .required("x", "from the left, 1 the whole width", &P::Mark::x, number(0, 1))
                                   .required("y", "from the top, 1 the whole height", &P::Mark::y, number(0, 1))
                                   .optional("says", "what is seen there", &P::Mark::says, name()));
    return codec_of(Record<P>("photo", "A photo")
                        .required("path", "beside the bench file", &P::path, name())
                        .optional("checkpoint", "id of the checkpoint that it answers", &P::checkpoint, name())
                        .defaulted("at", "where", &P::at, place_codec())
                        .optional("what", "what is seen", &P::what, name())
                        .optional("by", "who took it", &P::by, name())
                        .optional("when", "when", &P::when, moment())
                        .defaulted("stage", "when in the stay", &P::stage, stage_codec())
                        .defaulted("marks", "what is meant in it", &P::marks, list_of(mark)));
}

Codec<evidence::Work> work_codec() {
    using W = evidence::Work;
    return codec_of(Record<W>("work", "Work done so far; it makes older readings of what it moves stale")
                        .required("what", "kind of work", &W::what, word(work_names()))
                        .defaulted("at", "where", &W::at, place_codec())
                        .optional("amount", "how much, such as \"1/8 turn tighter\"", &W::amount, name())
                        .optional("by", "who did it", &W::by, name())
                        .optional("when", "when", &W::when, moment())
                        .optional("remark", "anything else", &W::remark, prose()));
}

Codec<evidence::Acceptance> acceptance_codec() {
    using A = evidence::Acceptance;
    return codec_of(Record<A>("acceptance", "A finding that a person takes as it is, until its value changes")
                        .required("finding", "id of the finding", &A::finding, name())
                        .optional("value", "as printed in the finding", &A::value, name())
                        .required("by", "who accepts it", &A::by, name())
                        .optional("when", "when", &A::when, moment())
                        .required("why", "the reason", &A::why, prose()));
}

Codec<evidence::Card> card_codec() {
    using C = evidence::Card;
    return codec_of(Record<C>("card", "Another inspector's card, taken over as it stands")
                        .required("by", "who filled it in", &C::by, name())
                        .optional("date", "when", &C::date, day())
                        .required("lines", "its lines", &C::lines, list_of(card_line_codec())));
}

Codec<evidence::Price> price_codec() {
    using P = evidence::Price;
    return codec_of(Record<P>("price", "What is asked, and what like instruments went for")
                        .optional("asked", "what is asked", &P::asked, quantity(Dimension::money))
                        .defaulted("like", "recent sales of like instruments", &P::like, list_of(sale_codec()))
                        .optional("repairs", "cost of what has to be mended, from quotes", &P::repairs,
                                  quantity(Dimension::money)));
}

Codec<evidence::LimitOverride> limit_override_codec() {
    using L = evidence::LimitOverride;
    return codec_of(
        Record<L>("limit", "The shop's own limit in place of the procedure's")
            .add(listed_field<L>("checkpoint", "id of the checkpoint", &L::checkpoint, decode_limited_checkpoint))
            .add(dependent_quantity<L>("low", "lowest value that passes", &L::low, limit_decoder(&L::low)))
            .add(dependent_quantity<L>("high", "highest value that passes", &L::high, limit_decoder(&L::high)))
            .optional("strings", "the end of the strings it holds for; all when left out", &L::strings,
                      side_codec())
            .required("source", "whose rule it is", &L::source, name()));
}

Codec<evidence::Remark> remark_codec() {
    using R = evidence::Remark;
    return codec_of(Record<R>("remark", "Anything worth keeping; it reaches the report")
                        .required("text", "the remark", &R::text, prose())
                        .defaulted("at", "where", &R::at, place_codec())
                        .optional("by", "whose it is", &R::by, name())
                        .optional("when", "when", &R::when, moment()));
}

}  // namespace fallaway::files
