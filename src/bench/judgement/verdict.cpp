#include "bench/judgement/verdict.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <map>

#include <fmt/format.h>

#include "bench/judgement/answers.h"

namespace fallaway::judgement {
namespace {

using evidence::Cure;
using evidence::Severity;

constexpr std::size_t kMostReasons = 5;

bool counts(const Finding& finding) {
    return finding.severity <= Severity::major && (!finding.accepted || finding.acceptance_lapsed);
}

// A critical fault with no cure named still needs hands on it.
Verdict calls_for(const Finding& finding) {
    switch (finding.cure) {
        case Cure::send_back:
            return Verdict::send_back;
        case Cure::repair:
            return Verdict::repair_first;
        case Cure::set_up:
            return Verdict::set_up_first;
        case Cure::none:
            break;
    }
    return finding.severity == Severity::critical ? Verdict::repair_first : Verdict::ready;
}

int weight(Verdict verdict) {
    constexpr std::array kOrder = {Verdict::ready, Verdict::cannot_tell_yet, Verdict::set_up_first,
                                   Verdict::repair_first, Verdict::send_back};
    return int(std::ranges::find(kOrder, verdict) - kOrder.begin());
}

std::string place_first(const evidence::Place& at) {
    std::string text = evidence::describe(at);
    if (!text.empty()) text[0] = char(std::toupper(static_cast<unsigned char>(text[0])));
    return text;
}

// "String 3: 4.6 ± 0.4 cents, usual -3 to 3 cents (intonation at fret 12; 2 more)".
std::string reason_of(const std::vector<const Finding*>& group, const evidence::Procedure& procedure) {
    const Finding& first = *group.front();
    const auto* checkpoint = evidence::find_checkpoint(procedure, first.checkpoint);
    const bool placed = checkpoint && !evidence::key_of(first.at).empty();
    std::string reason = fmt::format("{}: {}", placed ? place_first(first.at) : first.title, first.found.text);
    if (!first.limit.empty())
        reason += fmt::format("{}{}", first.standing == Standing::outside ? ", usual " : ", ", first.limit);
    std::vector<std::string> aside;
    if (placed) {
        aside.push_back(title_of(*checkpoint));
        aside.front()[0] = char(std::tolower(static_cast<unsigned char>(aside.front()[0])));
    }
    if (group.size() > 1) aside.push_back(fmt::format("{} more", group.size() - 1));
    if (!aside.empty()) reason += fmt::format(" ({})", fmt::join(aside, "; "));
    return reason;
}

// Findings of one checkpoint make one reason.
std::vector<std::string> grouped(const std::vector<const Finding*>& findings,
                                 const evidence::Procedure& procedure) {
    std::vector<std::pair<std::string, std::vector<const Finding*>>> groups;
    for (const Finding* finding : findings) {
        const std::string key = finding->checkpoint.empty() ? finding->id : finding->checkpoint;
        const auto found = std::ranges::find(groups, key, &decltype(groups)::value_type::first);
        if (found == groups.end()) {
            groups.push_back({key, {finding}});
        } else {
            found->second.push_back(finding);
        }
    }
    std::vector<std::string> reasons;
    for (const auto& [key, group] : groups) reasons.push_back(reason_of(group, procedure));
    return reasons;
}

// A checkpoint that only may apply (the bridge's type is not stated) is told under "not looked at" and blocks
// nothing.
bool blocks(const Answer& answer, const evidence::Procedure& procedure) {
    const bool open = answer.state == AnswerState::not_looked_at || answer.state == AnswerState::incomplete ||
                      answer.state == AnswerState::stale || answer.state == AnswerState::cannot_tell;
    if (!answer.in_scope || !open || !answer.surely_applies) return false;
    const auto* checkpoint = evidence::find_checkpoint(procedure, answer.checkpoint);
    return checkpoint && !checkpoint->optional && checkpoint->severity <= Severity::major;
}

std::vector<std::string> open_reasons(const Assessment& assessment, const evidence::Procedure& procedure) {
    std::vector<std::string> reasons;
    for (const ComplaintLine& complaint : assessment.complaints) {
        if (complaint.ending && complaint.shown) continue;
        reasons.push_back(
            fmt::format("The complaint \"{}\" {}", complaint.text,
                        complaint.ending ? "is not shown to be over: " + complaint.remark : "has no ending yet"));
    }
    std::vector<std::string> unread;
    for (const Answer& answer : assessment.answers) {
        if (!blocks(answer, procedure)) continue;
        const std::string title = title_of(*evidence::find_checkpoint(procedure, answer.checkpoint));
        if (answer.state == AnswerState::not_looked_at) {
            unread.push_back(title);
        } else {
            reasons.push_back(title + ": " + answer.because);
        }
    }
    if (!unread.empty()) {
        const std::size_t shown = std::min<std::size_t>(unread.size(), 4);
        std::string text = fmt::format("Not looked at yet: {}",
                                       fmt::join(unread.begin(), unread.begin() + std::ptrdiff_t(shown), "; "));
        if (shown < unread.size()) text += fmt::format(", and {} more", unread.size() - shown);
        reasons.push_back(std::move(text));
    }
    return reasons;
}

std::ptrdiff_t answered_in_scope(const Assessment& assessment) {
    return std::ranges::count_if(assessment.answers, [](const Answer& answer) {
        return answer.in_scope && (answer.state == AnswerState::fine || answer.state == AnswerState::faulty);
    });
}

std::vector<std::string> ready_reasons(const Assessment& assessment) {
    const auto answered = answered_in_scope(assessment);
    std::vector<std::string> reasons = {
        fmt::format("{} checkpoints of the {} answered, none stands in the way", answered, assessment.scope)};
    const auto small = std::ranges::count_if(assessment.findings, [](const Finding& f) {
        return !counts(f) && !f.accepted && f.severity != Severity::note;
    });
    const auto accepted = std::ranges::count_if(
        assessment.findings, [](const Finding& f) { return f.accepted && !f.acceptance_lapsed; });
    if (small > 0)
        reasons.push_back(fmt::format("{} small {} told below", small, small == 1 ? "thing" : "things"));
    if (accepted > 0)
        reasons.push_back(fmt::format("{} accepted as {}", accepted, accepted == 1 ? "it is" : "they are"));
    return reasons;
}

}  // namespace

VerdictWithReasons reach_verdict(const Assessment& assessment, const evidence::Procedure& procedure) {
    Verdict verdict = Verdict::ready;
    for (const Finding& finding : assessment.findings) {
        if (counts(finding) && weight(calls_for(finding)) > weight(verdict)) verdict = calls_for(finding);
    }
    std::vector<const Finding*> deciding;
    for (const Finding& finding : assessment.findings) {
        if (counts(finding) && calls_for(finding) != Verdict::ready) deciding.push_back(&finding);
    }
    std::ranges::stable_sort(deciding, [](const Finding* a, const Finding* b) {
        return std::pair(-weight(calls_for(*a)), a->severity) < std::pair(-weight(calls_for(*b)), b->severity);
    });
    if (verdict != Verdict::ready) {
        auto reasons = grouped(deciding, procedure);
        const std::size_t all = reasons.size();
        if (all > kMostReasons) {
            reasons.resize(kMostReasons);
            reasons.push_back(fmt::format("and {} more, told below", all - kMostReasons));
        }
        return {verdict, std::move(reasons)};
    }
    auto open = open_reasons(assessment, procedure);
    if (open.empty() && answered_in_scope(assessment) == 0) open.push_back("Nothing of the scope was answered");
    if (!open.empty()) return {Verdict::cannot_tell_yet, std::move(open)};
    return {Verdict::ready, ready_reasons(assessment)};
}

}  // namespace fallaway::judgement
