// What can be looked at: a visit as the page shows it, its history, its files, and the instrument's own past.
#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "bench/evidence/place.h"
#include "bench/judgement/judge.h"
#include "bench/report/report.h"
#include "shop/app/medium_kind.h"
#include "shop/app/shop_inside.h"
#include "shop/app/visit_view.h"
#include "shop/files/assessment_json.h"
#include "shop/files/bench_codec.h"

namespace fallaway::app {
namespace {

using files::Entry;

std::string day_of(std::string_view moment) {
    return std::string(moment.substr(0, 10));
}

std::string_view stage_name(evidence::Stage stage) {
    constexpr std::array<std::string_view, 4> kNames = {"arrival", "before", "after", "handover"};
    return kNames[std::size_t(stage)];
}

std::vector<files::api::ConflictPair> conflict_pairs(const std::vector<Entry>& entries) {
    std::vector<files::api::ConflictPair> pairs;
    for (const auto& conflict : files::conflicts(entries)) {
        pairs.push_back({conflict.slot, entries[conflict.earlier].id, entries[conflict.later].id});
    }
    return pairs;
}

std::optional<files::api::UndoOffer> undo_offer(const VisitState& state, std::string_view device) {
    const auto last = files::last_of(state.entries, device);
    if (!last) return std::nullopt;
    return files::api::UndoOffer{state.entries[*last].id, says(state.entries[*last], state.catalogue->procedure)};
}

// The bench file as others should judge it: with its procedure where that is not this program's own.
evidence::Bench to_export(const VisitState& state, const evidence::Procedure& built_in) {
    evidence::Bench bench = state.bench;
    if (!bench.procedure && !(state.catalogue->procedure == built_in))
        bench.procedure = state.catalogue->procedure;
    return bench;
}

}  // namespace

files::api::VisitLine line_of(const store::Visit& visit) {
    const store::VisitCard& card = visit.card;
    return {visit.id,          visit.dossier,
            card.title,        card.serial,
            card.player,       card.scope,
            card.promised,     card.verdict,
            card.next,         card.minutes_total,
            card.minutes_left, card.readings,
            visit.opened,      visit.closed.value_or(""),
            card.demo};
}

files::api::StoredEntry stored(const Entry& entry, std::int64_t place) {
    return {entry, place};
}

Result<files::api::VisitView> Shop::view(std::string_view visit, std::string_view device) const {
    Inside& in = *inside_;
    const auto row = in.store.visit(visit);
    if (!row) return tl::unexpected(row.error());
    const auto open = in.open_visit(visit);
    const auto judged = in.judged_of(*open, visit);
    if (!judged) return tl::unexpected(judged.error());
    const VisitState& state = *(*judged)->of;
    const judgement::Assessment& assessment = (*judged)->assessment;

    files::api::VisitView view;
    view.id = row->id;
    view.dossier = row->dossier;
    view.title = title_of(state.bench.instrument);
    view.opened = row->opened;
    view.closed = row->closed.value_or("");
    view.seq = state.entries.empty() ? 0 : state.entries.back().seq;
    const auto force = files::in_force(state.entries);
    const auto places = files::places_in_list(state.entries);
    for (std::size_t i = 0; i < state.entries.size(); ++i) {
        if (force[i] && !state.entries[i].path.empty())
            view.entries.push_back(stored(state.entries[i], places[i]));
    }
    view.conflicts = conflict_pairs(state.entries);
    view.instrument = facts_of(state.bench.instrument);
    view.neck = neck_of(state.bench.instrument, assessment);
    view.checkpoints = checkpoint_states(state.bench, state.catalogue->procedure, assessment);
    view.minutes = minutes_of(view.checkpoints);
    if (!assessment.next.empty()) {
        const auto& next = assessment.next.front();
        view.next = files::api::Next{next.checkpoint, next.what, next.minutes, next.why};
    }
    view.assessment = assessment;
    view.assessed_as = evidence::describe(state.bench.instrument);
    view.demo = state.bench.demo;
    view.version = in.version;
    view.undo = undo_offer(state, device);
    view.last = in.last_stay_before(*row);
    return view;
}

std::optional<files::api::LastStay> Shop::Inside::last_stay_before(const store::Visit& visit) {
    const auto visits = store.visits_of(visit.dossier);
    if (!visits) return std::nullopt;
    const store::Visit* before = nullptr;
    for (const store::Visit& other : *visits) {
        if (other.id == visit.id || other.opened > visit.opened) continue;
        if (before == nullptr || other.opened > before->opened) before = &other;
    }
    if (before == nullptr) return std::nullopt;
    const auto state = state_of(*open_visit(before->id), before->id);
    if (!state) return std::nullopt;
    return last_stay((*state)->bench, before->id, day_of(before->opened));
}

Result<files::api::History> Shop::history(std::string_view visit) const {
    Inside& in = *inside_;
    const auto state = in.state_of(*in.open_visit(visit), visit);
    if (!state) return tl::unexpected(state.error());
    std::map<std::string, std::string> names;
    if (const auto devices = in.store.devices()) {
        for (const auto& device : *devices) names[device.id] = device.name;
    }
    const auto& entries = (*state)->entries;
    const auto force = files::in_force(entries);
    const auto places = files::places_in_list(entries);
    files::api::History history;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        std::string words = says(entries[i], (*state)->catalogue->procedure);
        if (entries[i].path.empty() && !entries[i].replaces.empty()) {
            const auto taken = std::ranges::find(entries, entries[i].replaces.front(), &Entry::id);
            if (taken != entries.end()) words += ": " + says(*taken, (*state)->catalogue->procedure);
        }
        const auto name = names.find(entries[i].device);
        history.entries.push_back(
            {stored(entries[i], places[i]), force[i], std::move(words), name == names.end() ? "" : name->second});
    }
    return history;
}

Result<Shop::Missed> Shop::missed(std::string_view visit, std::int64_t since) const {
    Inside& in = *inside_;
    const auto state = in.state_of(*in.open_visit(visit), visit);
    if (!state) return tl::unexpected(state.error());
    const auto& entries = (*state)->entries;
    const std::size_t then_size = std::ranges::upper_bound(entries, since, {}, &Entry::seq) - entries.begin();
    const auto then = files::in_force(std::span(entries).first(then_size));
    const auto now = files::in_force(entries);
    const auto places = files::places_in_list(entries);
    Missed missed;
    missed.seq = entries.empty() ? 0 : entries.back().seq;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (entries[i].path.empty()) continue;
        const bool was = i < then_size && then[i];
        if (now[i] && !was) missed.put.push_back(stored(entries[i], places[i]));
        if (was && !now[i]) missed.drop.push_back(entries[i].id);
    }
    return missed;
}

Result<std::string> Shop::bench_file(std::string_view visit) const {
    Inside& in = *inside_;
    const auto state = in.state_of(*in.open_visit(visit), visit);
    if (!state) return tl::unexpected(state.error());
    return files::encode_bench(to_export(**state, in.catalogue->procedure));
}

Result<std::string> Shop::report(std::string_view visit) const {
    Inside& in = *inside_;
    const auto judged = in.judged_of(*in.open_visit(visit), visit);
    if (!judged) return tl::unexpected(judged.error());
    const VisitState& state = *(*judged)->of;
    return report::html_report({state.bench, *state.catalogue, (*judged)->assessment, in.version});
}

Result<void> Shop::judge(std::string_view visit) const {
    const auto judged = inside_->judged_of(*inside_->open_visit(visit), visit);
    if (!judged) return tl::unexpected(judged.error());
    return {};
}

Result<std::string> Shop::assessment(std::string_view visit) const {
    Inside& in = *inside_;
    const auto judged = in.judged_of(*in.open_visit(visit), visit);
    if (!judged) return tl::unexpected(judged.error());
    return files::assessment_json((*judged)->of->bench, (*judged)->assessment, in.version);
}

Result<files::api::Dossier> Shop::dossier(std::string_view id) const {
    Inside& in = *inside_;
    const auto row = in.store.dossier(id);
    if (!row) return tl::unexpected(row.error());
    const auto visits = in.store.visits_of(id);
    if (!visits) return tl::unexpected(visits.error());
    files::api::Dossier out{row->id, row->kind, row->title, row->serial, row->owner, {}, {}};
    using Key = std::pair<std::string, evidence::Place>;
    std::vector<Key> order;
    std::map<Key, std::vector<files::api::Dossier::Value>> rows;
    for (const store::Visit& visit : *visits) {
        out.visits.push_back(line_of(visit));
        const auto state = in.state_of(*in.open_visit(visit.id), visit.id);
        if (!state) return tl::unexpected(state.error());
        for (const evidence::Reading& reading : (*state)->bench.readings) {
            const Key key{reading.what, reading.at};
            if (!rows.contains(key)) order.push_back(key);
            rows[key].push_back(
                {visit.id, day_of(visit.opened), std::string(stage_name(reading.stage)), typed_value(reading)});
        }
    }
    for (const Key& key : order) {
        const bool whole = key.second == evidence::Place{};
        out.rows.push_back({key.first, whole ? "" : evidence::describe(key.second), std::move(rows[key])});
    }
    return out;
}

Result<void> Shop::set_owner(std::string_view dossier, std::string_view owner) {
    Inside& in = *inside_;
    auto row = in.store.dossier(dossier);
    if (!row) return tl::unexpected(row.error());
    row->owner = owner;
    auto done = in.store.update_dossier(*row);
    if (done) in.tell("");
    return done;
}

Result<files::api::Medium> Shop::add_medium(std::string_view bytes, std::string_view type) {
    if (const auto fits = check_begins_as(bytes, type); !fits) return tl::unexpected(fits.error());
    const auto medium = inside_->store.add_medium(bytes, type, inside_->world.now());
    if (!medium) return tl::unexpected(medium.error());
    return files::api::Medium{medium->hash, "media/" + medium->hash + std::string(store::ending_of(medium->type)),
                              medium->type, medium->bytes};
}

Result<std::pair<std::string, std::string>> Shop::medium(std::string_view name) const {
    const std::string_view hash = name.substr(0, name.find('.'));
    const auto medium = inside_->store.medium(hash);
    if (!medium) return tl::unexpected(medium.error());
    if (std::string(hash) + std::string(store::ending_of(medium->type)) != name) {
        return fail("missing", "", fmt::format("\"{}\": no such file", name));
    }
    auto bytes = inside_->store.medium_bytes(hash);
    if (!bytes) return tl::unexpected(bytes.error());
    return std::pair(std::move(*bytes), medium->type);
}

}  // namespace fallaway::app
