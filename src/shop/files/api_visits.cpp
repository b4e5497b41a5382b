// Visits, dossiers and names on the wire.
#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;
using evidence::Hand;
using evidence::Hands;

constexpr std::string_view kVisitLine = "fallaway/visit-line/1";

Codec<std::string> kind_codec() {
    return named("kind", word({"electric guitar", "electric bass"}));
}

// In a list a line has no schema of its own.
Field<VisitLine> line_schema_field() {
    auto field = schema_field<VisitLine>(kVisitLine);
    field.required = false;
    field.says = "what this is; left out in a list";
    field.encode = [](const VisitLine&) { return std::nullopt; };
    return field;
}

Codec<KnownInstrument> known_instrument_codec() {
    using K = KnownInstrument;
    using S = K::Stay;
    const auto stay = codec_of(Record<S>("stay", "A visit and its day")
                                   .tells("visit", "its id", &S::visit, id())
                                   .tells("day", "when it was opened", &S::day, day()));
    return codec_of(Record<K>("known_instrument", "An instrument that was here before")
                        .tells("id", "of its dossier", &K::id, id())
                        .tells("title", "its name", &K::title, any_text())
                        .tells("serial", "its number", &K::serial, any_text())
                        .tells("kind", "what it is", &K::kind, kind_codec())
                        .defaulted("owner", "whose it is", &K::owner, any_text())
                        .tells("visits", "how often it was here", &K::visits, any_whole())
                        .tells("last", "the latest visit", &K::last, stay));
}

Codec<KnownPlayer> known_player_codec() {
    using K = KnownPlayer;
    return codec_of(
        Record<K>("known_player", "A player whose wishes are known")
            .tells("name", "the name", &K::name, any_text())
            .defaulted("wants", "the wishes in one line, such as \"medium hand, 10-46\"", &K::wants, any_text()));
}

Codec<Dossier::Row> row_codec() {
    using R = Dossier::Row;
    using V = Dossier::Value;
    const auto value = codec_of(Record<V>("row_value", "One reading of a row")
                                    .tells("visit", "its id", &V::visit, id())
                                    .tells("day", "of the visit", &V::day, day())
                                    .tells("stage", "when in the stay", &V::stage, any_text())
                                    .tells("text", "as typed", &V::text, any_text()));
    return codec_of(Record<R>("row", "One observable at one place, visit by visit")
                        .tells("what", "what was read", &R::what, any_text())
                        .tells("at", "such as \"string 6, fret 12\", or \"\"", &R::at, any_text())
                        .tells("values", "the earliest first", &R::values, list_of(value)));
}

}  // namespace

Codec<VisitLine> visit_line_codec() {
    using V = VisitLine;
    return codec_of(Record<V>("visit_line", "A visit in one line")
                        .add(line_schema_field())
                        .tells("id", "of the visit", &V::id, id())
                        .tells("dossier", "id of the instrument's dossier", &V::dossier, id())
                        .tells("title", "the instrument's name", &V::title, any_text())
                        .tells("serial", "its number", &V::serial, any_text())
                        .tells("player", "who plays it", &V::player, any_text())
                        .tells("scope", "what the verdict rests on", &V::scope, any_text())
                        .defaulted("promised", "when it was promised", &V::promised, day())
                        .tells("verdict", "the verdict", &V::verdict, any_text())
                        .tells("next", "what to read next", &V::next, any_text())
                        .tells("minutes_total", "what the scope takes", &V::minutes_total, any_number())
                        .tells("minutes_left", "what is left of that", &V::minutes_left, any_number())
                        .tells("readings", "how many there are", &V::readings, any_whole())
                        .tells("opened", "when", &V::opened, moment())
                        .defaulted("closed", "when; left out while it is open", &V::closed, moment())
                        .tells("demo", "true: invented instrument and values", &V::demo, boolean()));
}

Codec<Visits> visits_codec() {
    using V = Visits;
    return codec_of(Record<V>("visits", "Visits that were asked for, the latest first")
                        .add(schema_field<V>("fallaway/visits/1"))
                        .tells("today", "by the clock of the server", &V::today, day())
                        .tells("visits", "one by one", &V::visits, list_of(visit_line_codec()))
                        .tells("total", "how many there are with those not sent", &V::total, count()));
}

Codec<Names> names_codec() {
    using N = Names;
    return codec_of(Record<N>("names", "Instruments and players that a word may mean")
                        .add(schema_field<N>("fallaway/names/1"))
                        .tells("dossiers", "instruments", &N::dossiers, list_of(known_instrument_codec()))
                        .tells("players", "players", &N::players, list_of(known_player_codec())));
}

Codec<NewVisit> new_visit_codec() {
    using V = NewVisit;
    const auto hand = choice<Hand>({{"right", Hand::right}, {"left", Hand::left}});
    const auto hands =
        choice<Hands>({{"look only", Hands::look_only}, {"adjust", Hands::adjust}, {"work", Hands::work}});
    return codec_of(
        Record<V>("new_visit", "A visit to open")
            .required("id", "made by whoever opens it: sending it again is harmless", &V::id, id())
            .required("kind", "what the instrument is", &V::kind, kind_codec())
            .optional("hand", "the hand that plucks", &V::hand, hand)
            .optional("fretted", "false: without frets", &V::fretted, boolean())
            .defaulted("dossier", "of an instrument that was here before: its facts are copied", &V::dossier, id())
            .defaulted("player", "whose wishes are laid on it, where they are known", &V::player, name())
            .optional("hands", "what hands may do", &V::hands, hands)
            .defaulted("scope", "name of a scope of the procedure", &V::scope, name())
            .defaulted("by", "who opens it", &V::by, name()));
}

Codec<VisitOpened> visit_opened_codec() {
    using V = VisitOpened;
    return codec_of(Record<V>("visit_opened", "A visit that is open")
                        .add(schema_field<V>("fallaway/visit-opened/1"))
                        .tells("id", "of the visit", &V::id, id())
                        .tells("dossier", "id of the instrument's dossier", &V::dossier, id()));
}

Codec<CloseAsked> close_asked_codec() {
    return codec_of(Record<CloseAsked>("close_asked", "Close a visit, or open it again")
                        .required("closed", "true: close it", &CloseAsked::closed, boolean()));
}

Codec<Dossier> dossier_codec() {
    using D = Dossier;
    return codec_of(Record<D>("dossier", "One instrument over all its visits")
                        .add(schema_field<D>("fallaway/dossier/1"))
                        .tells("id", "of the dossier", &D::id, id())
                        .tells("kind", "what it is", &D::kind, kind_codec())
                        .tells("title", "its name", &D::title, any_text())
                        .tells("serial", "its number", &D::serial, any_text())
                        .tells("owner", "whose it is", &D::owner, any_text())
                        .tells("visits", "its visits", &D::visits, list_of(visit_line_codec()))
                        .tells("rows", "what was read, place by place", &D::rows, list_of(row_codec())));
}

Codec<OwnerSet> owner_set_codec() {
    return codec_of(Record<OwnerSet>("owner_set", "What may change in a dossier")
                        .defaulted("owner", "whose it is; left out: not known", &OwnerSet::owner, name()));
}

std::string encode(const Visits& visits) {
    static const auto kCodec = visits_codec();
    return write_json_line(kCodec.encode(visits));
}

std::string encode(const VisitLine& line) {
    static const auto kCodec = visit_line_codec();
    Json json = kCodec.encode(line);
    json.keys.insert(json.keys.begin(), "schema");
    json.items.insert(json.items.begin(), Json::of(kVisitLine));
    return write_json_line(json);
}

std::string encode(const Names& names) {
    static const auto kCodec = names_codec();
    return write_json_line(kCodec.encode(names));
}
std::string encode(const VisitOpened& opened) {
    return write_json_line(visit_opened_codec().encode(opened));
}
std::string encode(const Dossier& dossier) {
    static const auto kCodec = dossier_codec();
    return write_json_line(kCodec.encode(dossier));
}

ResultAll<NewVisit> decode_new_visit(std::string_view text) {
    return decode_as(text, new_visit_codec());
}
ResultAll<CloseAsked> decode_close(std::string_view text) {
    return decode_as(text, close_asked_codec());
}
ResultAll<OwnerSet> decode_owner(std::string_view text) {
    return decode_as(text, owner_set_codec());
}

}  // namespace fallaway::files::api
