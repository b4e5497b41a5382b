// Views of visits made from bench files, without a store.
#pragma once

#include <fmt/format.h>

#include "bench/judgement/judge.h"
#include "bench_fixture.h"
#include "shop/files/api.h"

namespace fallaway::files::api {

inline std::string id_of(std::size_t number) {
    return fmt::format("{:016x}", number);
}

inline std::vector<Entry> entries_of(const evidence::Bench& bench) {
    std::size_t next = 0;
    auto entries = split(bench_json(bench), [&] { return id_of(++next); });
    for (std::size_t i = 0; i < entries.size(); ++i) {
        entries[i].seq = static_cast<std::int64_t>(i + 1);
        entries[i].device = id_of(0);
        entries[i].at = "2026-11-24T09:10:00+01:00";
    }
    return entries;
}

// The view of a visit in which these entries are in force; nothing when they make no good bench file.
inline std::optional<VisitView> view_of(const std::vector<Entry>& entries, const evidence::Catalogue& built_in) {
    const auto bench = decode_bench(fold(entries), built_in);
    if (!bench) return std::nullopt;
    const auto catalogue = evidence::catalogue_of(*bench, built_in);
    VisitView view;
    view.id = id_of(1000);
    view.dossier = id_of(1001);
    view.title = "Ostrel Heron";
    view.opened = "2026-11-24T09:00:00+01:00";
    view.seq = entries.empty() ? 0 : entries.back().seq;
    for (const Entry& entry : entries) view.entries.push_back({entry, entry.seq});
    view.assessment = judgement::assess(*bench, catalogue);
    view.assessed_as = evidence::describe(bench->instrument);
    view.version = "0.1.0";
    view.demo = bench->demo;
    for (const auto& answer : view.assessment.answers) {
        const bool done = answer.state == judgement::AnswerState::fine;
        view.checkpoints.push_back({answer.checkpoint, answer.in_scope, done, 1, {{{}, ""}}});
        view.minutes.total += 1;
        view.minutes.left += done ? 0 : 1;
    }
    if (!view.assessment.next.empty()) {
        const auto& next = view.assessment.next.front();
        view.next = Next{next.checkpoint, next.what, next.minutes, next.why};
    }
    if (entries.size() % 2 == 0) view.undo = UndoOffer{id_of(1), "the latest"};
    return view;
}

}  // namespace fallaway::files::api
