// What goes over the WebSocket, one JSON object a message.
#include <map>

#include "shop/files/api_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;

// Of a view: told by the message itself, by "visit" messages, or never changed.
constexpr std::string_view kNotJudged[] = {"schema", "id", "seq", "entries", "assessment"};
// Of a view: left out where there is none. A message says null, else a page could not tell that from "as before".
constexpr std::string_view kMayBeMissing[] = {"closed", "last", "undo"};

bool is_in(std::span<const std::string_view> list, std::string_view key) {
    return std::ranges::find(list, key) != list.end();
}

struct LiveVisit {
    std::int64_t seq = 0;
    std::vector<StoredEntry> put;
    std::vector<std::string> drop;
};

Codec<LiveVisit> live_visit_codec() {
    using L = LiveVisit;
    return codec_of(Record<L>("live_visit", "What changed among the entries in force")
                        .add(constant_field<L>("type", "which message this is", "visit"))
                        .tells("seq", "the latest entry that this takes account of", &L::seq, count())
                        .tells("put", "entries that are in force now", &L::put, list_of(stored_entry_codec()))
                        .tells("drop", "ids of entries that are not any more", &L::drop, list_of(id())));
}

struct LiveHere {
    std::vector<DeviceName> devices;
};

Codec<LiveHere> live_here_codec() {
    using L = LiveHere;
    return codec_of(Record<L>("live_here", "Who has this visit open")
                        .add(constant_field<L>("type", "which message this is", "here"))
                        .tells("devices", "one by one", &L::devices, list_of(device_name_codec())));
}

struct Bare {};

Codec<Bare> bare_codec(std::string name, std::string says, std::string_view type) {
    return codec_of(Record<Bare>(std::move(name), std::move(says))
                        .add(constant_field<Bare>("type", "which message this is", type)));
}

Json view_json(const VisitView& view) {
    static const auto kCodec = visit_view_codec();
    return kCodec.encode(view);
}

std::string_view checkpoint_of(const Json& answer) {
    return answer.find("checkpoint")->text;
}

std::map<std::string_view, const Json*> by_checkpoint(const Json& answers) {
    std::map<std::string_view, const Json*> out;
    for (const Json& answer : answers.items) out[checkpoint_of(answer)] = &answer;
    return out;
}

Json changed_answers(const Json& now, const Json& before) {
    const auto known = by_checkpoint(before);
    Json out = Json::list();
    for (const Json& answer : now.items) {
        const auto found = known.find(checkpoint_of(answer));
        if (found == known.end() || *found->second != answer) out.items.push_back(answer);
    }
    return out;
}

Json gone_answers(const Json& now, const Json& before) {
    const auto still = by_checkpoint(now);
    Json out = Json::list();
    for (const Json& answer : before.items) {
        if (!still.contains(checkpoint_of(answer))) out.items.push_back(Json::of(checkpoint_of(answer)));
    }
    return out;
}

// Both records hold the same keys.
Json changed_assessment(const Json& now, const Json& before) {
    Json out = Json::record();
    for (std::size_t i = 0; i < now.keys.size(); ++i) {
        const Json& old = *before.find(now.keys[i]);
        if (now.items[i] == old) continue;
        const bool merged = now.keys[i] == "answers";
        out.add(now.keys[i], merged ? changed_answers(now.items[i], old) : now.items[i]);
    }
    return out;
}

void add_changed(Json& message, const Json& now, const Json* before) {
    for (std::size_t i = 0; i < now.keys.size(); ++i) {
        if (is_in(kNotJudged, now.keys[i])) continue;
        const Json* old = before == nullptr ? nullptr : before->find(now.keys[i]);
        if (old == nullptr || *old != now.items[i]) message.add(now.keys[i], now.items[i]);
    }
    for (const std::string_view key : kMayBeMissing) {
        const bool known_missing = before != nullptr && before->find(key) == nullptr;
        if (now.find(key) == nullptr && !known_missing) message.add(std::string(key), Json{});
    }
}

// The schema of live_judged: that of a view with every key left out when it did not change.
Json judged_schema(const Json& view, const Json& assessment) {
    Json properties = Json::record({{"type", Json::record({{"const", Json::of("judged")}})}});
    const Json& whole = *view.find("properties");
    properties.add("seq", *whole.find("seq"));
    properties.add("whole", Json::record({{"type", Json::of("boolean")}}));
    properties.add("assessment", Json::record({{"type", Json::of("object")},
                                               {"properties", *assessment.find("properties")},
                                               {"additionalProperties", Json::of(false)}}));
    properties.add("answers_gone", Json::record({{"type", Json::of("array")},
                                                 {"items", Json::record({{"type", Json::of("string")}})}}));
    for (std::size_t i = 0; i < whole.keys.size(); ++i) {
        const std::string& key = whole.keys[i];
        if (is_in(kNotJudged, key)) continue;
        const Json null = Json::record({{"type", Json::of("null")}});
        properties.add(key, is_in(kMayBeMissing, key)
                                ? Json::record({{"anyOf", Json::list({whole.items[i], null})}})
                                : whole.items[i]);
    }
    Json required = Json::list();
    for (const char* key : {"type", "seq", "whole", "assessment", "answers_gone"}) {
        required.items.push_back(Json::of(key));
    }
    return Json::record({{"description", Json::of("What the sums changed in a view.")},
                         {"type", Json::of("object")},
                         {"properties", std::move(properties)},
                         {"required", std::move(required)},
                         {"additionalProperties", Json::of(false)}});
}

std::string judged_page() {
    const FieldPage rows[] = {
        {"type", "which message this is", "\"judged\"", "", true},
        {"seq", "the latest entry that this takes account of", "a whole number from 0", "", true},
        {"whole", "true: everything, nothing to merge", "true or false", "", true},
        {"assessment", "keys that changed; of `answers` those that changed",
         "part of an [assessment](#assessment)", "", true},
        {"answers_gone", "checkpoints whose answers are there no more", "list: text", "", true},
        {"...", "what changed; null where `closed`, `last` or `undo` is there no more",
         "other keys of a [visit_view](#visit_view)", "", false}};
    return page_of("live_judged", "What the sums changed in a view", rows);
}

const Json& schema_named(const Definitions& definitions, std::string_view name) {
    return std::ranges::find(definitions.entries(), name, &Definitions::Entry::name)->schema;
}

}  // namespace

void add_live(Definitions& definitions) {
    Json messages = Json::list();
    messages.items.push_back(live_visit_codec().schema(definitions));
    const Json judged =
        judged_schema(schema_named(definitions, "visit_view"), schema_named(definitions, "assessment"));
    definitions.fill(definitions.reserve("live_judged"), judged, judged_page());
    messages.items.push_back(Json::record({{"$ref", Json::of("#/$defs/live_judged")}}));
    messages.items.push_back(
        bare_codec("live_visits", "The list of visits changed: ask again", "visits").schema(definitions));
    messages.items.push_back(live_here_codec().schema(definitions));
    messages.items.push_back(bare_codec("live_pong", "The answer to a ping", "pong").schema(definitions));
    definitions.fill(definitions.reserve("live_message"), Json::record({{"oneOf", messages}}), "");
    bare_codec("live_ping", "From the page: is the line up?", "ping").schema(definitions);
}

std::string live_visit(std::int64_t seq, const std::vector<StoredEntry>& put,
                       const std::vector<std::string>& drop) {
    static const auto kCodec = live_visit_codec();
    return write_json_line(kCodec.encode({seq, put, drop}));
}

std::string live_judged(const VisitView& now, const VisitView* before) {
    const Json now_json = view_json(now);
    const std::optional<Json> old = before == nullptr ? std::nullopt : std::optional(view_json(*before));
    const Json& assessment = *now_json.find("assessment");
    const Json* old_assessment = old ? old->find("assessment") : nullptr;
    Json message = Json::record(
        {{"type", Json::of("judged")}, {"seq", Json::of(now.seq)}, {"whole", Json::of(!old.has_value())}});
    message.add("assessment", old ? changed_assessment(assessment, *old_assessment) : assessment);
    message.add("answers_gone",
                old ? gone_answers(*assessment.find("answers"), *old_assessment->find("answers")) : Json::list());
    add_changed(message, now_json, old ? &*old : nullptr);
    return write_json_line(message);
}

std::string live_here(const std::vector<DeviceName>& devices) {
    return write_json_line(live_here_codec().encode({devices}));
}

}  // namespace fallaway::files::api
