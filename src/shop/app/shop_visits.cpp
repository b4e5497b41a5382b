// Visits: opening, writing, taking back.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "bench/judgement/judge.h"
#include "shop/app/shop_inside.h"
#include "shop/app/visit_view.h"
#include "shop/files/bench_codec.h"

namespace fallaway::app {
namespace {

using files::Entry;
using files::Json;

constexpr std::string_view kShopItself = "0000000000000000";  // device of what the shop adds by itself

void put(std::vector<Entry>& entries, std::string path, Json value) {
    entries.push_back({"", std::move(path), std::move(value), {}});
}

// Facts of the instrument and wishes as set entries, from a bench file's JSON.
void lay_on(std::vector<Entry>& entries, const Json& file, std::string_view record,
            const std::set<std::string_view>& but) {
    const Json* found = file.find(record);
    if (found == nullptr) return;
    for (std::size_t i = 0; i < found->keys.size(); ++i) {
        const std::string path = fmt::format("/{}/{}", record, found->keys[i]);
        if (but.contains(found->keys[i]) || files::is_list_path(path)) continue;
        put(entries, path, found->items[i]);
    }
}

}  // namespace

store::Dossier dossier_from(const evidence::Bench& bench, std::string id, std::string now) {
    store::Dossier dossier;
    dossier.id = std::move(id);
    dossier.kind = bench.instrument.kind == evidence::Kind::electric_bass ? "electric bass" : "electric guitar";
    if (bench.instrument.maker || bench.instrument.model) dossier.title = title_of(bench.instrument);
    dossier.serial = bench.instrument.serial.value_or("");
    if (bench.job) dossier.owner = bench.job->owner.value_or("");
    dossier.created = std::move(now);
    return dossier;
}

namespace {

// Can these entries change what the dossier is called or whose it is? Taking back may as well.
bool names_it(std::span<const Entry> entries) {
    return std::ranges::any_of(entries, [](const Entry& entry) {
        return entry.path.empty() || entry.path.starts_with("/instrument/") || entry.path == "/job/owner";
    });
}

// Tools of the shop's wall that readings name and the visit does not have yet.
Result<std::vector<Entry>> tools_to_bring(std::span<const Entry> fresh, const evidence::Bench& bench,
                                          const store::Store& store, std::string_view visit) {
    std::set<std::string> there;
    for (const auto& tool : bench.tools) there.insert(tool.id);
    std::vector<std::string> wanted;
    for (const Entry& entry : fresh) {
        const Json* named = entry.path == "/readings" ? entry.value.find("tool") : nullptr;
        if (named != nullptr && there.insert(named->text).second) wanted.push_back(named->text);
    }
    if (wanted.empty()) return std::vector<Entry>{};
    const auto wall = store.tools();
    if (!wall) return tl::unexpected(wall.error());
    std::vector<Entry> out;
    for (const std::string& name : wanted) {
        const auto tool = std::ranges::find(*wall, name, &store::ShopTool::id);
        if (tool == wall->end()) continue;  // a kind of tool, or a slip that the decoder will name
        Json value = Json::record({{"id", Json::of(tool->id)}, {"kind", Json::of(tool->kind)}});
        if (!tool->calibrated.empty()) value.add("calibrated", Json::of(tool->calibrated));
        if (!tool->certificate_u.empty()) {
            value.add("certificate_u", Json::of(tool->certificate_u));
            value.add("certificate_k", Json::of(tool->certificate_k));
        }
        out.push_back({id_from(fmt::format("{} tool {}", visit, tool->id)), "/tools", std::move(value), {}});
    }
    return out;
}

// Judged at once: nobody may be looking yet who would have it judged.
store::VisitCard first_card(const VisitState& state) {
    return judged_card(state.bench, state.catalogue->procedure, judgement::assess(state.bench, *state.catalogue));
}

// Those not stored yet, with their number in the request; one whose id stands for something else is an error.
struct Fresh {
    std::vector<Entry> entries;
    std::vector<std::size_t> numbers;
};
ResultAll<Fresh> not_yet_stored(std::vector<Entry> asked, std::span<const Entry> there) {
    Fresh fresh;
    std::vector<Error> errors;
    for (std::size_t i = 0; i < asked.size(); ++i) {
        const auto same = std::ranges::find(there, asked[i].id, &Entry::id);
        if (same == there.end()) {
            fresh.numbers.push_back(i);
            fresh.entries.push_back(std::move(asked[i]));
        } else if (files::api::encode_entry(*same) != files::api::encode_entry(asked[i])) {
            errors.push_back({"conflict", fmt::format("/entries/{}/id", i),
                              fmt::format("\"{}\": stands for another entry already", asked[i].id)});
        }
    }
    if (!errors.empty()) return tl::unexpected(std::move(errors));
    return fresh;
}

std::vector<Entry> chained(const std::vector<Entry>& there, const std::vector<Entry>& fresh) {
    std::vector<Entry> chain;
    chain.reserve(there.size() + fresh.size());
    std::ranges::copy(there, std::back_inserter(chain));
    std::ranges::copy(fresh, std::back_inserter(chain));
    return chain;
}

std::vector<Error> renumbered(std::vector<Error> errors, const std::vector<std::size_t>& numbers) {
    constexpr std::string_view kHead = "/entries/";
    for (Error& error : errors) {
        if (!error.path.starts_with(kHead)) continue;
        const std::size_t end = error.path.find('/', kHead.size());
        const std::size_t number = std::stoul(error.path.substr(kHead.size(), end - kHead.size()));
        if (number >= numbers.size()) continue;
        error.path =
            fmt::format("{}{}{}", kHead, numbers[number], end == std::string::npos ? "" : error.path.substr(end));
    }
    return errors;
}

}  // namespace

std::vector<store::EntryRow> rows_of(std::span<const Entry> entries, std::string_view visit) {
    std::vector<store::EntryRow> rows;
    for (const Entry& entry : entries) {
        rows.push_back({0, entry.id, std::string(visit), entry.device, entry.at, files::api::encode_entry(entry)});
    }
    return rows;
}

Result<std::vector<Entry>> Shop::Inside::first_entries(const files::api::NewVisit& asked) {
    std::vector<Entry> entries;
    put(entries, "/instrument/kind", Json::of(asked.kind));
    std::string player = asked.player;
    if (!asked.dossier.empty()) {
        const auto visits = store.visits_of(asked.dossier);
        if (!visits) return tl::unexpected(visits.error());
        if (!visits->empty()) {
            const auto state = state_of(*open_visit(visits->front().id), visits->front().id);
            if (!state) return tl::unexpected(state.error());
            entries.clear();
            const evidence::Bench& earlier = (*state)->bench;
            const Json file = files::bench_json(earlier);
            lay_on(entries, file, "instrument", {});
            if (earlier.job && earlier.job->owner) put(entries, "/job/owner", Json::of(*earlier.job->owner));
            if (player.empty() && earlier.wants) player = earlier.wants->player.value_or("");
        }
    }
    if (asked.hand == evidence::Hand::left) put(entries, "/instrument/hand", Json::of("left"));
    if (asked.fretted == false) put(entries, "/instrument/fretted", Json::of(false));
    if (!player.empty()) {
        put(entries, "/wants/player", Json::of(player));
        if (const auto wants = wants_of(player)) {
            evidence::Bench probe;
            probe.wants = wants;
            lay_on(entries, files::bench_json(probe), "wants", {"player", "promised"});
        }
    }
    if (asked.hands) {
        constexpr std::array kHands = {"look only", "adjust", "work"};
        put(entries, "/hands", Json::of(kHands[std::size_t(*asked.hands)]));
    }
    if (!asked.scope.empty()) put(entries, "/scope", Json::of(asked.scope));
    if (!asked.by.empty()) put(entries, "/job/technicians", Json::list({Json::of(asked.by)}));
    put(entries, "/job/received", Json::of(world.today()));
    const auto overrides = store.overrides();
    if (!overrides) return tl::unexpected(overrides.error());
    for (const auto& item : *overrides) {
        const auto body = files::read_json(item.body);
        if (!body) continue;
        if (item.name == "procedure") put(entries, "/procedure", *body);
        if (item.name.starts_with("limit ")) put(entries, "/limits", *body);
    }
    return entries;
}

ResultAll<files::api::VisitOpened> Shop::open_visit(const files::api::NewVisit& asked) {
    Inside& in = *inside_;
    if (const auto there = in.store.visit(asked.id)) return files::api::VisitOpened{asked.id, there->dossier};
    auto entries = in.first_entries(asked);
    if (!entries) return tl::unexpected(one(entries.error()));
    const std::string now = in.world.now();
    for (std::size_t i = 0; i < entries->size(); ++i) {
        (*entries)[i].id = id_from(fmt::format("{} first {}", asked.id, i));
        (*entries)[i].device = kShopItself;
        (*entries)[i].at = now;
    }
    const auto state = make_state(*entries, 0, in.catalogue);
    if (!state) return tl::unexpected(state.error());
    const std::string dossier = asked.dossier.empty() ? id_from("dossier " + asked.id) : asked.dossier;
    if (asked.dossier.empty()) {
        const auto made = in.store.add_dossier(dossier_from(state->bench, dossier, now));
        if (!made) return tl::unexpected(one(made.error()));
    }
    store::Visit visit{asked.id, dossier, now, std::nullopt, in.procedure_hash, 0, first_card(*state)};
    const auto added = in.store.add_visit(visit, rows_of(*entries, asked.id));
    if (!added) return tl::unexpected(one(added.error()));
    if (const auto met = in.meet_technician(asked.by); !met) return tl::unexpected(one(met.error()));
    in.tell(asked.id);
    return files::api::VisitOpened{asked.id, dossier};
}

ResultAll<files::api::VisitOpened> Shop::import_bench(std::string_view text, std::string_view id) {
    Inside& in = *inside_;
    const auto bench = files::decode_bench(text, *in.catalogue);
    if (!bench) return tl::unexpected(bench.error());
    const std::string visit_id = id.empty() ? in.world.new_id() : std::string(id);
    if (const auto there = in.store.visit(visit_id)) return files::api::VisitOpened{visit_id, there->dossier};
    int number = 0;
    auto entries = files::split(files::bench_json(*bench),
                                [&] { return id_from(fmt::format("{} import {}", visit_id, number++)); });
    const std::string now = in.world.now();
    for (Entry& entry : entries) {
        entry.device = kShopItself;
        entry.at = now;
    }

    store::Dossier dossier = dossier_from(*bench, id_from("dossier " + visit_id), now);
    bool known = false;
    if (!dossier.serial.empty()) {
        const auto like = in.store.find_dossiers(dossier.serial, 50);
        if (!like) return tl::unexpected(one(like.error()));
        for (const auto& other : *like) {
            if (other.serial != dossier.serial || other.title != dossier.title || other.kind != dossier.kind)
                continue;
            dossier.id = other.id;
            known = true;
        }
    }
    if (!known) {
        const auto made = in.store.add_dossier(dossier);
        if (!made) return tl::unexpected(one(made.error()));
    }
    const VisitState state{{}, *bench, in.catalogue, own_catalogue(*bench, in.catalogue)};
    store::Visit visit{visit_id, dossier.id, now, std::nullopt, in.procedure_hash, 0, first_card(state)};
    const auto added = in.store.add_visit(visit, rows_of(entries, visit_id));
    if (!added) return tl::unexpected(one(added.error()));
    in.tell(visit_id);
    return files::api::VisitOpened{visit_id, dossier.id};
}

// The state with these entries in it, stored for good; the same one when there are none.
ResultAll<std::shared_ptr<const VisitState>> Shop::Inside::grown(const std::shared_ptr<const VisitState>& state,
                                                                 std::vector<Entry> asked, std::string_view visit,
                                                                 std::string_view device) {
    auto fresh = not_yet_stored(std::move(asked), state->entries);
    if (!fresh) return tl::unexpected(fresh.error());
    if (fresh->entries.empty()) return state;
    auto tools = tools_to_bring(fresh->entries, state->bench, store, visit);
    if (!tools) return tl::unexpected(one(tools.error()));
    for (Entry& entry : fresh->entries) entry.device = device;
    for (Entry& tool : *tools) {
        tool.device = kShopItself;
        fresh->entries.push_back(std::move(tool));
    }
    const std::string now = world.now();
    for (Entry& entry : fresh->entries) entry.at = now;
    const std::size_t first_new = state->entries.size();
    auto next = make_state(chained(state->entries, fresh->entries), first_new, state->under);
    if (!next) return tl::unexpected(renumbered(std::move(next.error()), fresh->numbers));
    const auto seqs = store.append(visit, rows_of(fresh->entries, visit), plain_card(next->bench));
    if (!seqs) return tl::unexpected(one(seqs.error()));
    for (std::size_t i = 0; i < seqs->size(); ++i) next->entries[first_new + i].seq = (*seqs)[i];
    if (names_it(fresh->entries)) {
        const auto named = remember_names(visit, next->bench);
        if (!named) return tl::unexpected(one(named.error()));
    }
    return std::make_shared<const VisitState>(std::move(*next));
}

ResultAll<files::api::EntriesStored> Shop::add(std::string_view visit, std::vector<Entry> asked,
                                               std::string_view device) {
    Inside& in = *inside_;
    const auto open = in.open_visit(visit);
    std::vector<std::string> ids;
    for (const Entry& entry : asked) ids.push_back(entry.id);
    std::shared_ptr<const VisitState> now;
    {
        const std::lock_guard lock(open->writing);
        const auto before = in.state_of(*open, visit);
        if (!before) return tl::unexpected(one(before.error()));
        auto grown = in.grown(*before, std::move(asked), visit, device);
        if (!grown) return tl::unexpected(std::move(grown.error()));
        now = std::move(*grown);
        const std::lock_guard pointers(open->pointers);
        open->state = now;
    }
    files::api::EntriesStored stored;
    for (const std::string& id : ids) {
        const auto found = std::ranges::find(now->entries, id, &Entry::id);
        if (found != now->entries.end()) stored.stored.push_back({id, found->seq});
    }
    stored.seq = now->entries.empty() ? 0 : now->entries.back().seq;
    in.tell(std::string(visit));
    return stored;
}

ResultAll<files::api::EntriesStored> Shop::undo(std::string_view visit, std::string_view id,
                                                std::string_view device) {
    Inside& in = *inside_;
    const auto state = in.state_of(*in.open_visit(visit), visit);
    if (!state) return tl::unexpected(one(state.error()));
    const auto& entries = (*state)->entries;
    const auto says_of = [&](const std::string& taken) -> std::optional<files::api::UndoOffer> {
        const auto found = std::ranges::find(entries, taken, &Entry::id);
        if (found == entries.end()) return std::nullopt;
        return files::api::UndoOffer{found->id, says(*found, (*state)->catalogue->procedure)};
    };
    // The same request again: it was done.
    if (const auto done = std::ranges::find(entries, id, &Entry::id); done != entries.end()) {
        files::api::EntriesStored stored{entries.back().seq, {{done->id, done->seq}}, std::nullopt};
        if (!done->replaces.empty()) stored.took_back = says_of(done->replaces.front());
        return stored;
    }
    const auto last = files::last_of(entries, device);
    if (!last) return files::api::EntriesStored{entries.empty() ? 0 : entries.back().seq, {}, std::nullopt};
    Entry back{std::string(id), "", {}, {entries[*last].id}, entries.back().seq};
    auto stored = add(visit, {std::move(back)}, device);
    if (stored) stored->took_back = says_of(entries[*last].id);
    return stored;
}

ResultAll<files::api::Tried> Shop::try_out(std::string_view visit, std::vector<Entry> asked,
                                           std::string_view device) const {
    Inside& in = *inside_;
    const auto open = in.open_visit(visit);
    const auto judged = in.judged_of(*open, visit);
    if (!judged) return tl::unexpected(one(judged.error()));
    const VisitState& state = *(*judged)->of;
    auto fresh = not_yet_stored(std::move(asked), state.entries);
    if (!fresh) return tl::unexpected(fresh.error());
    auto tools = tools_to_bring(fresh->entries, state.bench, in.store, visit);
    if (!tools) return tl::unexpected(one(tools.error()));
    std::ranges::move(*tools, std::back_inserter(fresh->entries));
    for (Entry& entry : fresh->entries) entry.device = device;
    const auto tried = make_state(chained(state.entries, fresh->entries), state.entries.size(), state.under);
    if (!tried) return tl::unexpected(renumbered(tried.error(), fresh->numbers));
    auto assessment = judgement::assess(tried->bench, *tried->catalogue);
    files::api::Tried out{assessment.verdict, assessment.reasons, {}};
    for (auto& answer : assessment.answers) {
        const auto& before = (*judged)->assessment.answers;
        const auto same = std::ranges::find(before, answer.checkpoint, &judgement::Answer::checkpoint);
        if (same == before.end() || !(*same == answer)) out.answers.push_back(std::move(answer));
    }
    return out;
}

Result<files::api::VisitLine> Shop::close(std::string_view visit, bool closed) {
    Inside& in = *inside_;
    const auto done = in.store.close_visit(visit, closed ? std::optional(in.world.now()) : std::nullopt);
    if (!done) return tl::unexpected(done.error());
    const auto row = in.store.visit(visit);
    if (!row) return tl::unexpected(row.error());
    in.tell(std::string(visit));
    return line_of(*row);
}

}  // namespace fallaway::app
