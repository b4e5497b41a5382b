// One visit as a page shows it, on the wire.
#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;

Codec<ConflictPair> conflict_codec() {
    using C = ConflictPair;
    return codec_of(Record<C>("conflict", "Two entries about the same thing that do not know of each other")
                        .tells("slot", "what they are about", &C::slot, any_text())
                        .tells("earlier", "id of the one", &C::earlier, id())
                        .tells("later", "id of the other", &C::later, id()));
}

Codec<InstrumentFacts> facts_codec() {
    using I = InstrumentFacts;
    return codec_of(Record<I>("instrument_facts", "What the drawing and the places depend on")
                        .tells("strings", "how many", &I::strings, any_whole())
                        .tells("frets", "how many", &I::frets, any_whole())
                        .tells("fretted", "false: without frets", &I::fretted, boolean())
                        .tells("left", "true: played left-handed", &I::left, boolean())
                        .tells("notes", "string 1 first, \"\" where not known", &I::notes, list_of(any_text())));
}

Codec<Neck> neck_codec() {
    using N = Neck;
    using F = N::FretLine;
    using S = N::StringLine;
    using C = N::Corner;
    const auto number = any_number();
    const auto fret = codec_of(Record<F>("fret_line", "A fret from treble edge to bass edge")
                                   .tells("fret", "0 is the nut", &F::fret, any_whole())
                                   .tells("x1", "treble end, along", &F::x1, number)
                                   .tells("y1", "treble end, across", &F::y1, number)
                                   .tells("x2", "bass end, along", &F::x2, number)
                                   .tells("y2", "bass end, across", &F::y2, number));
    const auto string = codec_of(Record<S>("string_line", "A string from the nut to the end of the drawing")
                                     .tells("string", "1 is the thinnest", &S::string, any_whole())
                                     .tells("note", "\"\" where not known", &S::note, any_text())
                                     .tells("x1", "at the nut, along", &S::x1, number)
                                     .tells("y1", "at the nut, across", &S::y1, number)
                                     .tells("x2", "at the end, along", &S::x2, number)
                                     .tells("y2", "at the end, across", &S::y2, number)
                                     .tells("thick", "line width", &S::thick, number));
    const auto corner = codec_of(Record<C>("corner", "A corner of the outline")
                                     .tells("x", "along", &C::x, number)
                                     .tells("y", "across", &C::y, number));
    return codec_of(
        Record<N>(
            "neck",
            "The fingerboard in plan, head left, string 1 on top, for a right-handed player; in units of the "
            "drawing")
            .tells("width", "along the strings", &N::width, number)
            .tells("height", "across the strings", &N::height, number)
            .tells("times_wider", "how much wider than true it is drawn across", &N::times_wider, number)
            .tells("left", "true: mirror the drawing, never its figures", &N::left, boolean())
            .tells("fretted", "false: the frets are positions without wire", &N::fretted, boolean())
            .tells("frets", "from the nut on", &N::frets, list_of(fret))
            .tells("strings", "string 1 first", &N::strings, list_of(string))
            .tells("edge", "outline of the board", &N::edge, list_of(corner)));
}

Codec<Minutes> minutes_codec() {
    using M = Minutes;
    return codec_of(Record<M>("minutes", "What the scope takes")
                        .tells("total", "all of it", &M::total, any_number())
                        .tells("left", "what is left", &M::left, any_number()));
}

Codec<Next> next_codec() {
    using N = Next;
    return codec_of(Record<N>("next", "What to read next")
                        .tells("checkpoint", "its id, or \"\"", &N::checkpoint, any_text())
                        .tells("what", "what to read", &N::what, any_text())
                        .tells("minutes", "what it takes", &N::minutes, any_number())
                        .tells("why", "what it would decide", &N::why, any_text()));
}

Codec<CheckpointState> checkpoint_state_codec() {
    using C = CheckpointState;
    using P = CheckpointPlace;
    const auto place =
        codec_of(Record<P>("checkpoint_place", "One place at which a checkpoint is read")
                     .tells("at", "where", &P::at, place_codec())
                     .tells("observable", "what is read there, \"\" for ratings", &P::observable, any_text()));
    return codec_of(Record<C>("visit_checkpoint", "A checkpoint that applies to this instrument")
                        .tells("id", "of the checkpoint", &C::id, any_text())
                        .tells("in_scope", "does the verdict rest on it?", &C::in_scope, boolean())
                        .tells("done", "is it answered?", &C::done, boolean())
                        .tells("minutes", "what it takes", &C::minutes, any_number())
                        .tells("places", "in the order of work", &C::places, list_of(place)));
}

Codec<LastStay> last_stay_codec() {
    using L = LastStay;
    using V = L::Value;
    const auto value =
        codec_of(Record<V>("last_value", "What was read then")
                     .tells("what", "an observable", &V::what, any_text())
                     .defaulted("at", "where; left out for the whole instrument", &V::at, place_codec())
                     .tells("text", "as typed", &V::text, any_text()));
    return codec_of(Record<L>("last_stay", "The visit before, shown as assumed")
                        .tells("visit", "its id", &L::visit, id())
                        .tells("day", "when it was opened", &L::day, day())
                        .defaulted("by", "who read it", &L::by, any_text())
                        .tells("values", "one by one", &L::values, list_of(value)));
}

Assessed assessed(const VisitView& view) {
    return {view.version, view.demo, view.assessed_as, view.assessment};
}

}  // namespace

Codec<VisitView> visit_view_codec() {
    using V = VisitView;
    Record<V> record("visit_view", "One visit as a page shows it");
    record.add(schema_field<V>("fallaway/visit/1"))
        .tells("id", "of the visit", &V::id, id())
        .tells("dossier", "id of the instrument's dossier", &V::dossier, id())
        .tells("title", "the instrument's name", &V::title, any_text())
        .tells("opened", "when", &V::opened, moment())
        .defaulted("closed", "when; left out while it is open", &V::closed, moment())
        .tells("seq", "the latest entry that this takes account of", &V::seq, count())
        .tells("entries", "those in force, by seq", &V::entries, list_of(stored_entry_codec()))
        .tells("conflicts", "what two devices wrote differently", &V::conflicts, list_of(conflict_codec()))
        .tells("instrument", "what the drawing and the places depend on", &V::instrument, facts_codec())
        .tells("neck", "drawing of the neck", &V::neck, neck_codec())
        .tells("minutes", "what the scope takes", &V::minutes, minutes_codec())
        .tells("next", "what to read next; null when nothing is left", &V::next, or_null(next_codec()))
        .tells("checkpoints", "all that apply, in trade order", &V::checkpoints, list_of(checkpoint_state_codec()))
        .tells("assessment", "what `fallaway assess --json` says of the exported file", assessed, assessed_codec())
        .tells("last", "the visit before", &V::last, last_stay_codec())
        .tells("undo", "what undo on this device would take back", &V::undo, undo_offer_codec());
    return codec_of(record);
}

Codec<Tried> tried_codec() {
    using T = Tried;
    return codec_of(Record<T>("tried", "What entries would change; nothing is stored")
                        .add(schema_field<T>("fallaway/tried/1"))
                        .tells("verdict", "the verdict there would be", &T::verdict, verdict_codec())
                        .tells("reasons", "sentences, the weightiest first", &T::reasons, list_of(any_text()))
                        .tells("answers", "those that would change", &T::answers, list_of(answer_codec())));
}

std::string encode(const VisitView& view) {
    static const auto kCodec = visit_view_codec();
    return write_json_line(kCodec.encode(view));
}

std::string encode(const Tried& tried) {
    static const auto kCodec = tried_codec();
    return write_json_line(kCodec.encode(tried));
}

}  // namespace fallaway::files::api
