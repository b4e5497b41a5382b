#include "bench/judgement/assessment.h"

namespace fallaway::judgement {

std::string_view name_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::ready:
            return "ready";
        case Verdict::set_up_first:
            return "set up first";
        case Verdict::repair_first:
            return "repair first";
        case Verdict::send_back:
            return "send back";
        case Verdict::cannot_tell_yet:
            return "cannot tell yet";
    }
    return "";
}

std::string_view name_of(evidence::Severity severity) {
    switch (severity) {
        case evidence::Severity::critical:
            return "critical";
        case evidence::Severity::major:
            return "major";
        case evidence::Severity::minor:
            return "minor";
        case evidence::Severity::note:
            return "note";
    }
    return "";
}

std::string_view name_of(Standing standing) {
    switch (standing) {
        case Standing::usual:
            return "usual";
        case Standing::at_the_edge:
            return "at the edge";
        case Standing::outside:
            return "outside";
        case Standing::kept:
            return "accept";
        case Standing::broken:
            return "reject";
        case Standing::undecided:
            return "cannot tell";
        case Standing::passes:
            return "good";
        case Standing::passes_barely:
            return "will do";
        case Standing::fails:
            return "fault";
        case Standing::not_judged:
            return "read";
    }
    return "";
}

std::string_view name_of(AnswerState state) {
    switch (state) {
        case AnswerState::fine:
            return "fine";
        case AnswerState::faulty:
            return "fault found";
        case AnswerState::cannot_tell:
            return "cannot tell";
        case AnswerState::incomplete:
            return "partly read";
        case AnswerState::stale:
            return "stale";
        case AnswerState::not_looked_at:
            return "not looked at";
        case AnswerState::forbidden:
            return "not allowed";
        case AnswerState::not_applicable:
            return "does not apply";
    }
    return "";
}

std::string_view name_of(ClaimOutcome outcome) {
    switch (outcome) {
        case ClaimOutcome::confirmed:
            return "confirmed";
        case ClaimOutcome::contradicted:
            return "contradicted";
        case ClaimOutcome::not_established:
            return "not established";
    }
    return "";
}

std::string_view name_of(evidence::Ending ending) {
    switch (ending) {
        case evidence::Ending::cured:
            return "cured";
        case evidence::Ending::explained_not_cured:
            return "explained, not cured";
        case evidence::Ending::not_found:
            return "not found";
        case evidence::Ending::left_by_agreement:
            return "left by agreement";
    }
    return "";
}

std::string_view name_of(CardOutcome outcome) {
    switch (outcome) {
        case CardOutcome::agrees:
            return "agrees";
        case CardOutcome::differs:
            return "differs";
        case CardOutcome::not_checked:
            return "not checked";
    }
    return "";
}

}  // namespace fallaway::judgement
