// Checkpoints and scopes: what a careful inspector asks, in which order, and against which limits.
// Plain values; the texts stand in data/procedures/*.json and are stored with the visit.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/evidence/instrument.h"

namespace fallaway::evidence {

// What hands may do. look_only: nothing is turned, slackened, flexed or opened.
enum class Hands { look_only, adjust, work };

enum class CheckpointKind { measured, judged, heard, photographed, claim };
enum class Severity { critical, major, minor, note };
enum class Disturbs { nothing, slackens_strings, turns_a_screw, opens_a_cavity };
// What a failed checkpoint calls for; decides between the verdicts.
enum class Cure { none, set_up, repair, send_back };

// When a checkpoint, a limit or a profile applies; an empty list does not restrict. A fact that the instrument
// does not state (bridge type, joint, ...) does not exclude, but for what assumptions() takes for granted: a head,
// no battery, no zero fret.
struct Condition {
    std::vector<Kind> kinds;
    std::optional<bool> fretted;
    std::optional<Hand> hand;
    std::optional<bool> fanned;
    std::optional<bool> headless;
    std::optional<bool> battery;
    std::optional<bool> zero_fret;
    std::optional<bool> pickups;   // has any
    std::optional<bool> switched;  // has a pickup switch; known once positions or pickups are stated
    std::vector<std::string> bridges;
    std::vector<std::string> rods;
    std::vector<std::string> joints;
    std::vector<std::string> board_finishes;
    std::optional<int> strings_min;
    std::optional<int> strings_max;

    friend bool operator==(const Condition&, const Condition&) = default;
};
bool applies(const Condition& condition, const Instrument& instrument);
// The same, and every fact that the condition asks for is stated: nothing is left to a guess.
bool surely_applies(const Condition& condition, const Instrument& instrument);

// A value that may run from the bass string to the treble string in even steps.
struct BassToTreble {
    double bass = 0;         // SI
    double treble = 0;       // SI; equal to bass when there is one value
    std::string bass_typed;  // as written; "" where nobody wrote it
    std::string treble_typed;
    // For string 1..n (1 = treble).
    double at(int string, int strings) const;

    friend bool operator==(const BassToTreble&, const BassToTreble&) = default;
};

// A limit of a measured checkpoint. The first one whose condition applies counts.
struct Limit {
    Condition when;
    std::optional<BassToTreble> low;
    std::optional<BassToTreble> high;
    std::optional<double> high_major;        // beyond this the finding is one class worse (SI)
    Severity low_severity = Severity::note;  // "low and clean is a virtue"
    bool strict = false;                     // decide at 95 %; otherwise usual / at the edge / outside
    std::string source;                      // "common practice, no source" or the source
    std::string high_major_typed;            // as written

    friend bool operator==(const Limit&, const Limit&) = default;
};

// Limit for readings in words: each word's severity (absent: fine).
struct WordLimit {
    std::string word;
    Severity severity = Severity::minor;

    friend bool operator==(const WordLimit&, const WordLimit&) = default;
};

// The places at which a measured checkpoint is read.
enum class Each { once, string, outer_strings, fret, switch_position, pickup, edge };

struct Checkpoint {
    std::string id;
    std::string section;
    std::string title;  // a few words for lists: "String height at fret 12"
    std::string question;
    CheckpointKind kind = CheckpointKind::judged;
    Severity severity = Severity::minor;
    Cure cure = Cure::none;
    std::vector<std::string> reads;  // observables that answer it (measured, heard); the first is preferred
    Each each = Each::once;
    std::optional<int> fret;            // where it is read
    std::optional<std::string> claims;  // claim kind that it checks
    std::vector<Limit> limits;
    std::vector<WordLimit> words;
    std::vector<std::string> anchors;  // four, worst first, for judged ones; empty otherwise
    double minutes = 1;
    std::vector<std::string> needs;  // tools, as names for a person
    Condition when;
    Disturbs disturbs = Disturbs::nothing;
    bool optional = false;     // never missed: a lone worker may leave it out
    double fails_in_100 = 10;  // how often it fails; for the order of what to read next; common practice
    std::string why;
    std::string how;
    std::string remedy;

    friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

struct Scope {
    std::string name;     // "quick look"
    double minutes = 10;  // what it takes an experienced hand
    std::vector<std::string> checkpoints;

    friend bool operator==(const Scope&, const Scope&) = default;
};

struct Section {
    std::string id;
    std::string title;

    friend bool operator==(const Section&, const Section&) = default;
};

struct Procedure {
    std::string id;
    std::string version;
    std::string title;
    std::vector<Section> sections;
    std::vector<Checkpoint> checkpoints;  // in trade order
    std::vector<Scope> scopes;

    friend bool operator==(const Procedure&, const Procedure&) = default;
};

const Checkpoint* find_checkpoint(const Procedure& procedure, std::string_view id);
const Scope* find_scope(const Procedure& procedure, std::string_view name);

// May these hands do what the checkpoint does to the instrument?
bool allowed(Disturbs disturbs, Hands hands);

// How a kind of claim is checked (data/claims.json).
struct ClaimKind {
    std::string id;                       // "scale"
    std::string name;                     // "scale length"
    std::string reads;                    // observable that decides it; "" when only a person can tell
    std::optional<Dimension> dimension;   // of the claimed value; absent: words
    double tolerance = 0;                 // SI, half width; 0 with `exact`
    double tolerance_relative = 0;        // fraction of the claimed value (10 % of ohms)
    bool exact = false;                   // counts and words
    Severity severity = Severity::minor;  // when contradicted
    Cure cure = Cure::send_back;          // when contradicted
    bool checkable = true;                // false: origin, who made it: "not established" without nagging
    std::string source;                   // of the tolerance

    friend bool operator==(const ClaimKind&, const ClaimKind&) = default;
};

}  // namespace fallaway::evidence
