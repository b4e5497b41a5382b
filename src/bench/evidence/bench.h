// A bench file in memory: one instrument, one stay. Plain values; every text is kept as typed.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "bench/evidence/instrument.h"
#include "bench/evidence/place.h"
#include "bench/evidence/procedure.h"
#include "science/base/quantity_text.h"

namespace fallaway::evidence {

enum class Stage { arrival, before, after, handover };
enum class Strength { light, medium, heavy };
enum class RattleAllowed { none, unplugged_only, hard_only };

// RFC 3339 with offset ("2026-11-24T09:10:00+01:00"), kept as typed; `instant` is seconds since 1970 UTC.
struct Moment {
    std::string typed;
    std::int64_t instant = 0;

    friend bool operator==(const Moment&, const Moment&) = default;
};

// What a reading says: a quantity, or one of the observable's words.
using Value = std::variant<QuantityText, std::string>;

struct Reading {
    std::optional<std::string> id;  // so that endings and remarks can point at it; unique in the file
    std::string what;               // an observable's name
    Place at;
    std::optional<Value> value;  // absent when `repeats` is given: then their mean
    std::vector<QuantityText> repeats;
    std::optional<std::string> tool;  // an id from `tools` or a tool kind; absent: the shop's default, assumed
    std::optional<std::string> by;
    std::optional<Moment> when;
    Stage stage = Stage::arrival;
    std::optional<std::string> remark;

    friend bool operator==(const Reading&, const Reading&) = default;
};

// A judged checkpoint on four anchored steps, 0 worst to 3 best.
struct Rating {
    std::string checkpoint;
    int step = 3;
    Place at;
    std::optional<std::string> by;
    std::optional<Moment> when;
    Stage stage = Stage::arrival;
    std::optional<std::string> remark;
    std::vector<std::string> photos;  // paths

    friend bool operator==(const Rating&, const Rating&) = default;
};

// How a complaint ended, with the readings that show it.
enum class Ending { cured, explained_not_cured, not_found, left_by_agreement };

struct ComplaintEnding {
    Ending as = Ending::cured;
    std::vector<std::string> shown_by;  // ids of readings
    std::optional<std::string> by;
    std::optional<Moment> when;
    std::optional<std::string> why;

    friend bool operator==(const ComplaintEnding&, const ComplaintEnding&) = default;
};

struct Complaint {
    std::string text;  // in the player's own words
    Place at;
    std::optional<ComplaintEnding> ending;

    friend bool operator==(const Complaint&, const Complaint&) = default;
};

// The wishes of a player. They belong to the player and can be laid on the next instrument.
struct Wants {
    std::optional<std::string> player;
    std::vector<Complaint> complaints;
    std::vector<std::string> tuning;          // string 1 first
    std::optional<std::string> strings;       // "10-46"
    std::optional<QuantityText> height_bass;  // string height wanted over fret 12
    std::optional<QuantityText> height_treble;
    std::optional<Strength> hand;
    std::optional<RattleAllowed> rattle;
    std::vector<std::string> untouchables;  // "the nut stays"
    std::optional<QuantityText> money_limit;
    std::optional<std::string> promised;  // a day, "2026-11-28"
    std::optional<std::string> remark;

    friend bool operator==(const Wants&, const Wants&) = default;
};

// What was promised. `what` is a claim kind of data/claims.json ("scale", "pickup type", "accessory", ...).
struct Claim {
    std::string id;  // unique in the file
    std::string what;
    Place at;
    std::optional<Value> value;             // quantity, or words ("humbucker", "hard case")
    std::optional<QuantityText> tolerance;  // else the tolerance of its kind
    std::string source;                     // "advert", "order", "seller by letter", ...
    std::optional<std::string> text;        // the sentence as promised
    // What a person found, for claims no reading can decide ("origin", "accessory").
    std::optional<std::string> found;    // free words
    std::optional<std::string> outcome;  // "confirmed", "contradicted", "not established": a person's judgement
    std::optional<std::string> by;
    std::optional<std::string> remark;

    friend bool operator==(const Claim&, const Claim&) = default;
};

struct ToolUsed {
    std::string id;                             // as readings name it; unique in the file
    std::string kind;                           // a tool kind of data/tools.json
    std::optional<std::string> calibrated;      // a day
    std::optional<QuantityText> certificate_u;  // expanded uncertainty from its certificate
    std::optional<double> certificate_k;        // default 2
    std::optional<std::string> remark;

    friend bool operator==(const ToolUsed&, const ToolUsed&) = default;
};

struct RoomState {
    std::optional<Moment> when;
    std::optional<QuantityText> temperature;
    std::optional<QuantityText> humidity;
    std::optional<std::string> remark;

    friend bool operator==(const RoomState&, const RoomState&) = default;
};

struct Recording {
    std::string path;
    std::optional<std::string> what;  // free words
    std::optional<std::string> by;
    std::optional<Moment> when;
    Stage stage = Stage::arrival;

    friend bool operator==(const Recording&, const Recording&) = default;
};

// A photo of the stay. Its marks point at what is meant: fractions of its width from the left, of its height from
// the top.
struct Photo {
    struct Mark {
        double x = 0;
        double y = 0;
        std::optional<std::string> says;

        friend bool operator==(const Mark&, const Mark&) = default;
    };
    std::string path;
    std::optional<std::string> checkpoint;
    Place at;
    std::optional<std::string> what;  // free words
    std::optional<std::string> by;
    std::optional<Moment> when;
    Stage stage = Stage::arrival;
    std::vector<Mark> marks;

    friend bool operator==(const Photo&, const Photo&) = default;
};

// Work done so far. `what` is from a closed list (work_kinds()): it tells which readings went stale.
struct Work {
    std::string what;
    Place at;
    std::optional<std::string> amount;  // "1/8 turn tighter"
    std::optional<std::string> by;
    std::optional<Moment> when;
    std::optional<std::string> remark;

    friend bool operator==(const Work&, const Work&) = default;
};

struct WorkKind {
    std::string_view name;                      // "truss rod", "saddle height", ...
    std::vector<std::string_view> makes_stale;  // observables; "*" for every setting of the instrument
};
const std::vector<WorkKind>& work_kinds();

// A finding that a person takes as it is. It survives re-runs and lapses when the value changes.
struct Acceptance {
    std::string finding;               // the finding's id
    std::optional<std::string> value;  // the value it was accepted at, as printed in the finding
    std::string by;
    std::optional<Moment> when;
    std::string why;

    friend bool operator==(const Acceptance&, const Acceptance&) = default;
};

// One line of another inspector's card, taken over as it stands.
struct CardLine {
    std::string what;  // an observable's name, or a checkpoint's id for a rating
    Place at;
    std::optional<Value> value;  // quantity or words
    std::optional<int> step;     // a rating
    std::optional<std::string> tool;
    std::optional<std::string> remark;

    friend bool operator==(const CardLine&, const CardLine&) = default;
};

struct Card {
    std::string by;
    std::optional<std::string> date;
    std::vector<CardLine> lines;

    friend bool operator==(const Card&, const Card&) = default;
};

struct Sale {
    QuantityText price;
    std::string where;  // source: "own log 2026-03"
    friend bool operator==(const Sale&, const Sale&) = default;
};

struct Price {
    std::optional<QuantityText> asked;
    std::vector<Sale> like;               // recent sales of like instruments
    std::optional<QuantityText> repairs;  // cost of what has to be mended, from quotes

    friend bool operator==(const Price&, const Price&) = default;
};

struct Remark {
    std::string text;
    Place at;
    std::optional<std::string> by;
    std::optional<Moment> when;

    friend bool operator==(const Remark&, const Remark&) = default;
};

struct Job {
    std::optional<std::string> id;
    std::optional<std::string> owner;
    std::optional<std::string> shop;
    std::vector<std::string> technicians;
    std::optional<std::string> received;  // a day
    std::optional<std::string> purpose;   // "customer", "delivery", "loan for review", "own"

    friend bool operator==(const Job&, const Job&) = default;
};

// The scope by name, or the shop's own list of checkpoints.
struct ScopeChoice {
    std::string name = "quick look";
    std::vector<std::string> checkpoints;  // only for an own list

    friend bool operator==(const ScopeChoice&, const ScopeChoice&) = default;
};

// The shop's own limit in place of the procedure's, for one checkpoint.
struct LimitOverride {
    std::string checkpoint;
    std::optional<QuantityText> low;
    std::optional<QuantityText> high;
    std::optional<std::string> strings;  // "bass", "treble": one end; absent: all
    std::string source;                  // "shop rule 2026", ...

    friend bool operator==(const LimitOverride&, const LimitOverride&) = default;
};

struct Bench {
    int format = 1;
    std::optional<Job> job;
    Instrument instrument;
    std::optional<Wants> wants;
    Hands hands = Hands::look_only;
    ScopeChoice scope;
    std::optional<Procedure> procedure;  // its text as this visit was taken under; absent: the built-in one
    std::vector<Claim> claims;
    std::vector<ToolUsed> tools;
    std::vector<RoomState> room;
    std::vector<Reading> readings;
    std::vector<Rating> ratings;
    std::vector<Recording> recordings;
    std::vector<Photo> photos;
    std::vector<Work> work;
    std::vector<Acceptance> accepted;
    std::optional<Card> card;
    std::optional<Price> price;
    std::vector<LimitOverride> limits;
    std::vector<Remark> remarks;
    bool demo = false;  // marked on every page: invented values

    friend bool operator==(const Bench&, const Bench&) = default;
};

}  // namespace fallaway::evidence
