// What judgement says of one bench file: answers to checkpoints, findings, claims, complaints and one verdict.
// Plain values with their texts already in a person's words; report and JSON only lay them out.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/evidence/assumptions.h"
#include "bench/evidence/bench.h"
#include "bench/evidence/procedure.h"
#include "bench/model/intonation.h"
#include "bench/model/neck_survey.h"
#include "bench/model/strings_fitted.h"
#include "science/metrology/compare.h"
#include "science/metrology/conformity.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::judgement {

enum class Verdict { ready, set_up_first, repair_first, send_back, cannot_tell_yet };
std::string_view name_of(Verdict verdict);  // "ready", "set up first", ...
std::string_view name_of(evidence::Severity severity);

using model::Figure;

// How a value stands against its limit, in one of three vocabularies.
enum class Standing {
    usual,
    at_the_edge,
    outside,  // limits of common practice
    kept,
    broken,
    undecided,  // strict limits: accept, reject, cannot tell
    passes,
    passes_barely,
    fails,      // ratings 3, 2 and 1 or 0; words
    not_judged  // read, and no limit to hold it against
};
std::string_view name_of(Standing standing);

// One place of one checkpoint.
struct Line {
    evidence::Place at;
    std::string observable;  // "" for ratings
    Figure found;
    std::string limit;  // "1.3 to 2.2 mm", "" without one
    std::string limit_source;
    std::optional<metrology::Limits> limit_si;
    Standing standing = Standing::not_judged;
    bool too_high = false;                       // outside, over the upper limit
    std::optional<evidence::Severity> severity;  // set when this line is a fault
    std::optional<double> p_conform;             // strict limits
    evidence::Stage stage = evidence::Stage::arrival;
    std::string by;             // who, "" unknown
    std::string tool;           // name for a person; "" none
    bool tool_assumed = false;  // the shop's default tool was taken
    bool stale = false;         // work done since makes it worthless
    std::string stale_because;
    bool disputed = false;  // read twice, and the two do not agree: both texts in `found`
    std::string advice;     // what would decide it: "a caliper", "four readings instead of one"
    std::string remark;

    friend bool operator==(const Line&, const Line&) = default;
};

enum class AnswerState {
    fine,         // answered, nothing wrong
    faulty,       // answered, at least one finding
    cannot_tell,  // read, and not decided
    incomplete,   // some places not read
    stale,        // read before work that makes it worthless
    not_looked_at,
    forbidden,  // the hands rule does not allow it
    not_applicable
};
std::string_view name_of(AnswerState state);

struct Answer {
    std::string checkpoint;
    std::string section;
    std::string question;
    bool in_scope = true;
    bool surely_applies = true;  // false: a fact that decides it is not stated (type of bridge, ...)
    AnswerState state = AnswerState::not_looked_at;
    std::vector<Line> lines;
    std::string because;  // "strings 3 and 4 not read", "look only: opens a cavity"

    friend bool operator==(const Answer&, const Answer&) = default;
};

// A result that a person acts on.
struct Finding {
    std::string id;          // "action-12@s6.f12": the same on every run of the same evidence
    std::string checkpoint;  // "" for claims, card lines and prices
    evidence::Severity severity = evidence::Severity::minor;
    evidence::Cure cure = evidence::Cure::none;
    evidence::Place at;
    std::string title;       // "String height over fret 12, string 6"
    std::string observable;  // "" for ratings and whatever is no reading
    bool too_high = false;   // over the upper limit
    Figure found;
    std::string limit;
    std::string limit_source;
    Standing standing = Standing::not_judged;
    std::optional<double> p_conform;
    std::string why;
    std::string remedy;
    std::optional<evidence::Acceptance> accepted;
    bool acceptance_lapsed = false;  // accepted once, at another value
    std::string remark;
};

enum class ClaimOutcome { confirmed, contradicted, not_established };
std::string_view name_of(ClaimOutcome outcome);

struct ClaimLine {
    std::string id;
    std::string name;  // "scale length"
    evidence::Place at;
    std::string promised;  // as typed
    std::string source;
    Figure found;           // "634.8 ± 0.5 mm", "" when nothing was
    std::string tolerance;  // "± 1 mm"
    std::string how;        // "read with a steel rule", "judged by Ruta"
    ClaimOutcome outcome = ClaimOutcome::not_established;
    std::optional<double> p_conform;
    std::string advice;  // what would settle it; "" when nothing can
    bool checkable = true;
};

struct ComplaintLine {
    std::string text;
    evidence::Place at;
    std::optional<evidence::Ending> ending;
    bool shown = false;                 // readings bear the ending out
    std::vector<std::string> evidence;  // one sentence a reading; while open, the faults found at its place
    std::vector<std::string> findings;  // ids of findings at the same place or behind it
    std::string remark;                 // "said to be cured, no reading after the work shows it"
    std::string ended_by;
};
std::string_view name_of(evidence::Ending ending);

enum class CardOutcome { agrees, differs, not_checked };
std::string_view name_of(CardOutcome outcome);

struct CardResult {
    std::string title;
    std::string theirs;
    std::string ours;
    CardOutcome outcome = CardOutcome::not_checked;
    std::optional<double> en;  // normalised error of two readings
};

// Before against after, the same places read twice.
struct Change {
    std::string title;  // "String height over fret 12"
    const Unit* unit = nullptr;
    metrology::PairedChange paired;                                            // SI
    std::vector<std::pair<evidence::Place, std::pair<double, double>>> pairs;  // place, before, after (SI)
    std::string text;  // "lower by 0.31 ± 0.03 mm on six strings: a real change"
};

struct PriceResult {
    std::string asked;
    std::string range;         // "780 to 1050 EUR, seven sales"
    std::string with_repairs;  // asked plus repairs, "" without
    std::string words;         // "in range", "above", ...; "" when too few
    std::vector<std::string> sources;
};

struct NextReading {
    std::string checkpoint;
    std::string what;  // the question or the better reading
    double minutes = 0;
    double value_per_minute = 0;  // for the order only
    std::string why;              // "would decide claim ‘scale’", "major, never looked at"
    std::vector<std::string> needs;
};

struct Assessment {
    Verdict verdict = Verdict::cannot_tell_yet;
    std::string scope;
    std::string hands;
    std::vector<std::string> reasons;  // what decided the verdict, the weightiest first
    std::vector<Finding> findings;     // by severity, then trade order; accepted ones at the end of their class
    std::vector<ClaimLine> claims;
    std::vector<ComplaintLine> complaints;
    std::vector<CardResult> card;
    std::vector<Change> changes;
    std::optional<PriceResult> price;
    std::optional<model::NeckSurvey> neck;
    model::FittedStrings strings;
    std::optional<model::Intonation> intonation;
    std::vector<Answer> answers;  // every checkpoint of the procedure that applies or was answered
    std::vector<std::string>
        not_looked_at;                    // questions of the procedure outside what was answered, plain sentences
    std::vector<std::string> not_judged;  // what is never judged here, and why
    std::vector<evidence::Assumption> assumed;  // still assumed after the readings
    std::vector<NextReading> next;              // best first
    std::vector<std::string> cautions;
    std::string procedure;  // id and version
};

}  // namespace fallaway::judgement
