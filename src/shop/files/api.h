// What page and server say to each other, as plain values; the wire tables in api_*.cpp turn them into JSON, into
// schema/api.schema.json and into docs/api.md. Keys on the wire are the names of the members here; absent values
// are left out, and "" where the schema does not require the key. Routes: docs/api.md.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bench/evidence/bench.h"
#include "bench/evidence/catalogue.h"
#include "bench/judgement/assessment.h"
#include "science/base/result.h"
#include "shop/files/history.h"
#include "shop/files/json_text.h"

namespace fallaway::files::api {

// --- the shop ---

struct Person {
    std::string name;
    bool technician = false;
    std::string contact;
    std::string remark;
};

struct Tool {
    std::string id;
    std::string kind;
    std::string calibrated;     // a day
    std::string due;            // a day
    std::string certificate_u;  // a quantity with its unit
    double certificate_k = 2;
    std::string remark;
    bool retired = false;
};

struct Rate {
    std::string work;
    std::string amount;  // "60 EUR"
    std::string remark;
};

struct DeviceName {
    std::string id;
    std::string name;
};

struct Shop {
    std::string version;
    std::string name;
    bool demo = false;
    std::string today;
    std::vector<Person> people;
    std::vector<Tool> tools;
    std::vector<Rate> rates;
    std::vector<evidence::LimitOverride> limits;
    bool opened = false;
    std::string address;
    bool local = false;
    DeviceName device;
};

struct ShopName {
    std::string name;
};

// --- visits ---

struct VisitLine {
    std::string id;
    std::string dossier;
    std::string title;
    std::string serial;
    std::string player;
    std::string scope;
    std::string promised;
    std::string verdict;
    std::string next;
    double minutes_total = 0;
    double minutes_left = 0;
    int readings = 0;
    std::string opened;
    std::string closed;
    bool demo = false;
};

struct Visits {
    std::string today;
    std::vector<VisitLine> visits;
    std::int64_t total = 0;
};

struct KnownInstrument {
    struct Stay {
        std::string visit;
        std::string day;
    };
    std::string id;
    std::string title;
    std::string serial;
    std::string kind;
    std::string owner;
    int visits = 0;
    std::optional<Stay> last;
};

struct KnownPlayer {
    std::string name;
    std::string wants;  // one line
};

struct Names {
    std::vector<KnownInstrument> dossiers;
    std::vector<KnownPlayer> players;
};

struct NewVisit {
    std::string id;
    std::string kind;
    std::optional<evidence::Hand> hand;
    std::optional<bool> fretted;
    std::string dossier;
    std::string player;
    std::optional<evidence::Hands> hands;
    std::string scope;
    std::string by;
};

struct VisitOpened {
    std::string id;
    std::string dossier;
};

struct StoredEntry {
    Entry entry;
    std::int64_t place = 0;  // order within its list
};

struct ConflictPair {
    std::string slot;
    std::string earlier;  // ids of entries
    std::string later;
};

struct InstrumentFacts {
    int strings = 0;
    int frets = 0;
    bool fretted = true;
    bool left = false;
    std::vector<std::string> notes;  // string 1 first, "" unknown
};

// The fingerboard in plan, head left, string 1 on top, for a right-handed player; in units of the drawing.
struct Neck {
    struct FretLine {
        int fret = 0;  // 0: the nut
        double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
    };
    struct StringLine {
        int string = 0;
        std::string note;
        double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
        double thick = 1;
    };
    struct Corner {
        double x = 0, y = 0;
    };
    double width = 0;
    double height = 0;
    double times_wider = 1;
    bool left = false;
    bool fretted = true;
    std::vector<FretLine> frets;
    std::vector<StringLine> strings;
    std::vector<Corner> edge;
};

struct Minutes {
    double total = 0;
    double left = 0;
};

struct Next {
    std::string checkpoint;
    std::string what;
    double minutes = 0;
    std::string why;
};

struct CheckpointPlace {
    evidence::Place at;
    std::string observable;  // "" for ratings
};

struct CheckpointState {
    std::string id;
    bool in_scope = true;
    bool done = false;
    double minutes = 0;
    std::vector<CheckpointPlace> places;
};

struct LastStay {
    struct Value {
        std::string what;  // an observable
        evidence::Place at;
        std::string text;  // as typed
    };
    std::string visit;
    std::string day;
    std::string by;
    std::vector<Value> values;
};

struct UndoOffer {
    std::string id;
    std::string says;
};

struct VisitView {
    std::string id;
    std::string dossier;
    std::string title;
    std::string opened;
    std::string closed;
    std::int64_t seq = 0;
    std::vector<StoredEntry> entries;  // in force, by seq
    std::vector<ConflictPair> conflicts;
    InstrumentFacts instrument;
    Neck neck;
    Minutes minutes;
    std::optional<Next> next;
    std::vector<CheckpointState> checkpoints;
    judgement::Assessment assessment;
    std::string assessed_as;  // describe(instrument), for the assessment's `instrument`
    bool demo = false;        // for the assessment's `demo`
    std::string version;      // of the program, for the assessment's `version`
    std::optional<LastStay> last;
    std::optional<UndoOffer> undo;
};

struct NewEntries {
    std::vector<Entry> entries;
};

struct StoredSeq {
    std::string id;
    std::int64_t seq = 0;
};

struct EntriesStored {
    std::int64_t seq = 0;
    std::vector<StoredSeq> stored;
    std::optional<UndoOffer> took_back;
};

struct Tried {
    judgement::Verdict verdict = judgement::Verdict::cannot_tell_yet;
    std::vector<std::string> reasons;
    std::vector<judgement::Answer> answers;  // those that the tried entries change
};

struct UndoAsked {
    std::string id;
};

struct CloseAsked {
    bool closed = true;
};

struct PastEntry {
    StoredEntry stored;
    bool in_force = true;
    std::string says;
    std::string device_name;
};

struct History {
    std::vector<PastEntry> entries;
};

struct Dossier {
    struct Value {
        std::string visit;
        std::string day;
        std::string stage;
        std::string text;
    };
    struct Row {
        std::string what;
        std::string at;
        std::vector<Value> values;
    };
    std::string id;
    std::string kind;
    std::string title;
    std::string serial;
    std::string owner;
    std::vector<VisitLine> visits;
    std::vector<Row> rows;
};

struct OwnerSet {
    std::string owner;
};

struct Medium {
    std::string hash;
    std::string path;
    std::string type;
    std::int64_t bytes = 0;
};

struct SumAsked {
    std::vector<std::pair<std::string, std::string>> inputs;
};

// --- devices ---

struct Pairing {
    std::string code;
    std::string url;
    std::string qr_svg;
    std::string until;
    std::string trust_url;
};

struct PairAsked {
    std::string code;
    std::string name;
};

struct Paired {
    DeviceName device;
};

struct KnownDevice {
    std::string id;
    std::string name;
    std::string paired;
    std::string seen;
    bool revoked = false;
    bool here = false;
};

struct Devices {
    std::vector<KnownDevice> devices;
};

// --- from and to the wire ---

std::string encode(const Shop&);
std::string encode(const Visits&);
std::string encode(const VisitLine&);
std::string encode(const Names&);
std::string encode(const VisitOpened&);
std::string encode(const VisitView&);
std::string encode(const EntriesStored&);
std::string encode(const Tried&);
std::string encode(const History&);
std::string encode(const Dossier&);
std::string encode(const Medium&);
std::string encode(const Pairing&);
std::string encode(const Paired&);
std::string encode(const Devices&);
// {"schema": "fallaway/catalogue/1", ...}: procedure, kinds of tool and claim, observables, kinds of work.
std::string encode_catalogue(const evidence::Catalogue&);

ResultAll<NewVisit> decode_new_visit(std::string_view text);
// Checks form alone (ids, paths, at most 500 entries); what a value means is checked when the bench file is made.
ResultAll<NewEntries> decode_new_entries(std::string_view text);
ResultAll<UndoAsked> decode_undo(std::string_view text);
ResultAll<CloseAsked> decode_close(std::string_view text);
ResultAll<Person> decode_person(std::string_view text);
ResultAll<Tool> decode_tool(std::string_view text);
ResultAll<Rate> decode_rate(std::string_view text);
ResultAll<evidence::LimitOverride> decode_limit(std::string_view text);
ResultAll<ShopName> decode_shop_name(std::string_view text);
ResultAll<OwnerSet> decode_owner(std::string_view text);
ResultAll<SumAsked> decode_sum(std::string_view text);
ResultAll<PairAsked> decode_pair(std::string_view text);

// One line each, for the store and for WebSockets.
std::string encode_limit(const evidence::LimitOverride&);  // as in a bench file
std::string encode_entry(const Entry&);                    // what its writer wrote: id, path, value, replaces, saw
Result<Entry> decode_entry(std::string_view text);
// {"type": "visit", "seq", "put", "drop"}
std::string live_visit(std::int64_t seq, const std::vector<StoredEntry>& put,
                       const std::vector<std::string>& drop);
// {"type": "judged", ...}: of `now` only what differs from `before` (all of it when null), docs/api.md.
std::string live_judged(const VisitView& now, const VisitView* before);
std::string live_here(const std::vector<DeviceName>& devices);  // {"type": "here", ...}

std::string api_schema();         // JSON schema, draft 2020-12, every message under $defs
std::string api_documentation();  // Markdown tables of every record

}  // namespace fallaway::files::api
