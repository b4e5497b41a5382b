// Visits in memory: read once, judged once a change, let go when others are worked on.
#include "shop/app/shop_inside.h"

#include <algorithm>

#include <fmt/format.h>

#include "bench/judgement/judge.h"
#include "shop/app/visit_view.h"
#include "shop/files/catalogue_codec.h"

namespace fallaway::app {
namespace {

constexpr std::size_t kMostOpen = 64;  // a shop works on a handful; each holds some 100 kB

Result<std::vector<files::Entry>> entries_from(const std::vector<store::EntryRow>& rows) {
    std::vector<files::Entry> entries;
    entries.reserve(rows.size());
    for (const store::EntryRow& row : rows) {
        auto entry = files::api::decode_entry(row.body);
        if (!entry)
            return fail("damaged", entry.error().path,
                        fmt::format("entry {}: {}", row.seq, entry.error().message));
        entry->seq = row.seq;
        entry->device = row.device;
        entry->at = row.at;
        entries.push_back(std::move(*entry));
    }
    return entries;
}

Error damaged(const std::vector<Error>& errors) {
    const Error& first = errors.front();
    return {"damaged", first.path,
            fmt::format("the history of this visit makes no bench file: {}", first.message)};
}

}  // namespace

Shop::Inside::Inside(store::Store opened, store::Access how, std::string of_program, World of, std::string hash)
    : store(std::move(opened)),
      access(how),
      version(std::move(of_program)),
      world(std::move(of)),
      catalogue(std::make_shared<const evidence::Catalogue>(files::built_in_catalogue())),
      procedure_hash(std::move(hash)) {}

std::shared_ptr<OpenVisit> Shop::Inside::open_visit(std::string_view id) {
    const std::lock_guard lock(open_visits_mutex);
    std::erase(by_use, id);
    by_use.emplace_front(id);
    auto& open = open_visits[std::string(id)];
    if (!open) open = std::make_shared<OpenVisit>();
    auto kept = open;
    // Whoever holds one of those let go keeps it until done; the store remains the truth.
    while (by_use.size() > kMostOpen) {
        open_visits.erase(by_use.back());
        by_use.pop_back();
    }
    return kept;
}

Result<std::shared_ptr<const evidence::Catalogue>> Shop::Inside::catalogue_under(
    const std::string& procedure) const {
    if (procedure.empty() || procedure == procedure_hash) return catalogue;
    const auto body = store.procedure(procedure);
    if (!body) return tl::unexpected(body.error());
    auto decoded = files::decode_procedure(*body);
    if (!decoded) return tl::unexpected(damaged(decoded.error()));
    auto out = std::make_shared<evidence::Catalogue>(*catalogue);
    out->procedure = std::move(*decoded);
    return out;
}

Result<std::shared_ptr<const VisitState>> Shop::Inside::state_of(OpenVisit& open, std::string_view id) {
    const auto row = store.visit(id);
    if (!row) return tl::unexpected(row.error());
    {
        const std::lock_guard lock(open.pointers);
        if (open.state && (open.state->entries.empty() ? 0 : open.state->entries.back().seq) == row->seq) {
            return open.state;
        }
    }
    const auto rows = store.entries(id);
    if (!rows) return tl::unexpected(rows.error());
    auto entries = entries_from(*rows);
    if (!entries) return tl::unexpected(entries.error());
    const auto under = catalogue_under(row->procedure);
    if (!under) return tl::unexpected(under.error());
    const std::size_t stored = entries->size();
    auto state = make_state(std::move(*entries), stored, *under);
    if (!state) return tl::unexpected(damaged(state.error()));
    const std::lock_guard lock(open.pointers);
    open.state = std::make_shared<const VisitState>(std::move(*state));
    return open.state;
}

Result<std::shared_ptr<const Judged>> Shop::Inside::judged_of(OpenVisit& open, std::string_view id) {
    const auto state = state_of(open, id);
    if (!state) return tl::unexpected(state.error());
    {
        const std::lock_guard lock(open.pointers);
        if (open.judged && open.judged->of == *state) return open.judged;
    }
    auto judged =
        std::make_shared<const Judged>(Judged{*state, judgement::assess((*state)->bench, *(*state)->catalogue)});
    if (access == store::Access::write) {
        const auto card = judged_card((*state)->bench, (*state)->catalogue->procedure, judged->assessment);
        const auto row = store.visit(id);
        // Only while nobody has written on: their own judging sets the line.
        const bool latest = row && !(*state)->entries.empty() && row->seq == (*state)->entries.back().seq;
        // A full disk leaves the old line in the list; the visit itself can be looked at all the same.
        if (latest && !(row->card == card)) static_cast<void>(store.set_card(id, card));
    }
    const std::lock_guard lock(open.pointers);
    open.judged = judged;
    return judged;
}

Result<void> Shop::Inside::remember_names(std::string_view visit, const evidence::Bench& bench) {
    const auto row = store.visit(visit);
    if (!row) return tl::unexpected(row.error());
    const auto visits = store.visits_of(row->dossier);
    if (!visits) return tl::unexpected(visits.error());
    if (!visits->empty() && visits->front().id != visit) return {};
    const auto there = store.dossier(row->dossier);
    if (!there) return tl::unexpected(there.error());
    store::Dossier latest = dossier_from(bench, there->id, there->created);
    if (latest.owner.empty()) latest.owner = there->owner;
    if (latest == *there) return {};
    return store.update_dossier(latest);
}

Result<void> Shop::Inside::meet_technician(const std::string& name) {
    if (name.empty()) return {};
    const auto people = store.people();
    if (!people) return tl::unexpected(people.error());
    if (std::ranges::count(*people, name, &store::Person::name) > 0) return {};
    return store.put_person({name, true, "", ""});
}

std::optional<evidence::Wants> Shop::Inside::wants_of(const std::string& player) {
    constexpr int kLookThrough = 200;
    const auto found = store.find_visits(player, kLookThrough);
    if (!found) return std::nullopt;
    const store::Visit* latest = nullptr;
    for (const store::Visit& visit : found->visits) {
        if (visit.card.player == player && (latest == nullptr || visit.opened > latest->opened)) latest = &visit;
    }
    if (latest == nullptr) return std::nullopt;
    const auto state = state_of(*open_visit(latest->id), latest->id);
    return state ? (*state)->bench.wants : std::nullopt;
}

}  // namespace fallaway::app
