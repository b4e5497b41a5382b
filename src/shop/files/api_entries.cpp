// Entries of a history on the wire.
#include <set>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;

constexpr std::size_t kMostEntries = 500;

Json any_value_schema(Definitions&) {
    return Json::record();
}

bool decode_path(const Json& value, const Spot& spot, Entry& entry) {
    if (value.kind != Json::Kind::text) {
        spot.refuse("type", value, "expected a text in double quotes");
        return false;
    }
    entry.path = value.text;
    if (entry.path.empty() || is_entry_path(entry.path)) return true;
    spot.refuse("unknown", value,
                "no part of a bench file that an entry writes, expected one such as \"/readings\" or "
                "\"/instrument/scale\"");
    return false;
}

// What its writer wrote, of a record that holds an entry.
template <class T, class Of>
Record<T>& tell_entry(Record<T>& record, Of of) {
    return record
        .tells(
            "id", "made by whoever wrote it", [of](const T& t) { return of(t).id; }, id())
        .tells(
            "path", "what it writes; \"\" when it only takes others out of force",
            [of](const T& t) { return of(t).path; }, any_text())
        .add({"value", "as in a bench file; null: not stated any more", false, "anything", "", nullptr,
              [of](const T& t) { return of(t).path.empty() ? std::nullopt : std::optional<Json>(of(t).value); },
              any_value_schema})
        .add({"replaces", "ids of entries that it takes out of force", false, "list: " + id().says, "", nullptr,
              [of](const T& t) {
                  return of(t).replaces.empty() ? std::nullopt
                                                : std::optional(list_of(id()).encode(of(t).replaces));
              },
              list_of(id()).schema})
        .tells(
            "saw", "the latest seq that its writer's device knew", [of](const T& t) { return of(t).saw; }, count())
        .tells(
            "seq", "its position in the history of the shop, from 1", [of](const T& t) { return of(t).seq; },
            count())
        .tells(
            "device", "whose it is", [of](const T& t) { return of(t).device; }, id())
        .tells(
            "at", "when it was stored", [of](const T& t) { return of(t).at; }, moment());
}

Codec<PastEntry> past_entry_codec() {
    using P = PastEntry;
    Record<P> record("history_entry", "An entry, in force or not");
    tell_entry(record, [](const P& past) -> const Entry& { return past.stored.entry; })
        .tells(
            "place", "order within its list", [](const P& past) { return past.stored.place; }, count())
        .tells("in_force", "does it count?", &P::in_force, boolean())
        .tells("says", "what it says, in words", &P::says, any_text())
        .tells("device_name", "what people call the device", &P::device_name, any_text());
    return codec_of(record);
}

Codec<StoredSeq> stored_seq_codec() {
    using S = StoredSeq;
    return codec_of(Record<S>("stored_seq", "Where an entry was stored")
                        .tells("id", "of the entry", &S::id, id())
                        .tells("seq", "its position in the history of the shop", &S::seq, count()));
}

// What one field cannot see. What a value means is known only with the whole visit; here alone whether there is
// one.
bool check_entry(const Entry& entry, const Json& json, const Spot& spot) {
    const Json* path = json.find("path");
    const Json* value = json.find("value");
    if (path == nullptr || path->kind != Json::Kind::text) return false;  // told already
    if (entry.path.empty() && value != nullptr) {
        spot.member("value").fault("unknown", "a value without a path to write it to");
    } else if (entry.path.empty() && entry.replaces.empty()) {
        spot.member("replaces").fault("missing", "missing, an entry without a path takes others out of force");
    } else if (is_entry_path(entry.path) && value == nullptr) {
        spot.member("value").fault("missing", fmt::format("missing, expected what {} is", quote(entry.path)));
    } else if (is_list_path(entry.path) && value->kind == Json::Kind::null) {
        spot.member("value").refuse("type", *value,
                                    fmt::format("expected a value for the list {}", quote(entry.path)));
    } else {
        return true;
    }
    return false;
}

void check_ids_differ(const std::vector<Entry>& entries, const Spot& spot) {
    std::set<std::string_view> seen;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const std::string& id = entries[i].id;
        if (id.empty() || seen.insert(id).second) continue;
        spot.item(i).member("id").fault("duplicate", quote(id) + ": stands twice");
    }
}

Codec<std::vector<Entry>> entries_codec() {
    auto codec = list_of(entry_codec(), 1);
    codec.decode = [decode = codec.decode](const Json& value, const Spot& spot, std::vector<Entry>& out) {
        if (value.items.size() > kMostEntries) {
            spot.fault("size", fmt::format("{} entries, expected {} at most", value.items.size(), kMostEntries));
            return false;
        }
        const bool good = decode(value, spot, out);
        check_ids_differ(out, spot);
        return good;
    };
    return codec;
}

}  // namespace

Codec<Entry> entry_codec() {
    using E = Entry;
    auto codec = codec_of(
        Record<E>("entry", "One change of a visit; nothing that was written is ever lost")
            .required("id", "made by whoever writes it: sending it again is harmless", &E::id, id())
            .add({"path",
                  "what it writes: a list that grows (\"/readings\") or something that is set "
                  "(\"/instrument/scale\"); \"\" when it only takes others out of force",
                  true, "text", "", decode_path,
                  [](const E& entry) { return std::optional(Json::of(entry.path)); }, any_text().schema})
            .add({"value",
                  "as in a bench file; null under something that is set: not stated any more; left out where path "
                  "is \"\"",
                  false, "anything", "",
                  [](const Json& value, const Spot&, E& entry) {
                      entry.value = value;
                      return true;
                  },
                  [](const E& entry) { return entry.path.empty() ? std::nullopt : std::optional(entry.value); },
                  any_value_schema})
            .defaulted("replaces", "ids of earlier entries that it takes out of force", &E::replaces,
                       list_of(id()))
            .required("saw", "the latest seq that the device knew", &E::saw, count()));
    codec.decode = [decode = codec.decode](const Json& value, const Spot& spot, E& out) {
        const bool good = decode(value, spot, out);
        return value.kind == Json::Kind::record && check_entry(out, value, spot) && good;
    };
    return codec;
}

Codec<StoredEntry> stored_entry_codec() {
    Record<StoredEntry> record("stored_entry", "An entry as it is kept");
    tell_entry(record, [](const StoredEntry& stored) -> const Entry& {
        return stored.entry;
    }).tells("place", "order within its list", &StoredEntry::place, count());
    return codec_of(record);
}

Codec<UndoOffer> undo_offer_codec() {
    using U = UndoOffer;
    return codec_of(Record<U>("undo_offer", "What undo on this device would take back")
                        .tells("id", "of the entry", &U::id, id())
                        .tells("says", "what it says, in words", &U::says, any_text()));
}

Codec<NewEntries> new_entries_codec() {
    return codec_of(
        Record<NewEntries>("new_entries", "Entries to store, all or none; 500 at most")
            .required("entries", "in the order in which they were made", &NewEntries::entries, entries_codec()));
}

Codec<EntriesStored> entries_stored_codec() {
    using E = EntriesStored;
    return codec_of(Record<E>("entries_stored", "What was stored, for good")
                        .add(schema_field<E>("fallaway/entries/1"))
                        .tells("seq", "the latest of the visit", &E::seq, count())
                        .tells("stored", "one by one", &E::stored, list_of(stored_seq_codec()))
                        .tells("took_back", "after undo: what was taken back; left out when there was nothing",
                               &E::took_back, undo_offer_codec()));
}

Codec<History> history_codec() {
    return codec_of(Record<History>("history", "All entries of a visit, by seq")
                        .add(schema_field<History>("fallaway/history/1"))
                        .tells("entries", "one by one", &History::entries, list_of(past_entry_codec())));
}

Codec<UndoAsked> undo_asked_codec() {
    return codec_of(Record<UndoAsked>("undo_asked", "Take back this device's latest entry")
                        .required("id", "of the entry that takes it back", &UndoAsked::id, id()));
}

std::string encode(const EntriesStored& stored) {
    static const auto kCodec = entries_stored_codec();
    return write_json_line(kCodec.encode(stored));
}
std::string encode(const History& history) {
    static const auto kCodec = history_codec();
    return write_json_line(kCodec.encode(history));
}
std::string encode_entry(const Entry& entry) {
    static const auto kCodec = entry_codec();
    return write_json_line(kCodec.encode(entry));
}

Result<Entry> decode_entry(std::string_view text) {
    static const auto kCodec = entry_codec();
    auto entry = decode_as(text, kCodec);
    if (!entry) return tl::unexpected(entry.error().front());
    return std::move(*entry);
}

ResultAll<NewEntries> decode_new_entries(std::string_view text) {
    static const auto kCodec = new_entries_codec();
    return decode_as(text, kCodec);
}

ResultAll<UndoAsked> decode_undo(std::string_view text) {
    return decode_as(text, undo_asked_codec());
}

}  // namespace fallaway::files::api
