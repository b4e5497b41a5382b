#include "shop/app/visit_state.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include <fmt/format.h>

#include "bench/judgement/answers.h"
#include "shop/app/visit_view.h"
#include "shop/files/bench_codec.h"

namespace fallaway::app {
namespace {

using files::Entry;

// "/readings/17/at/fret" is list "/readings", item 17, rest "/at/fret".
struct ListPath {
    std::string list;
    std::size_t item = 0;
    std::string rest;
};

std::optional<ListPath> in_list(std::string_view path) {
    for (std::size_t slash = path.find('/', 1); slash != std::string_view::npos;
         slash = path.find('/', slash + 1)) {
        const std::string_view list = path.substr(0, slash);
        if (!files::is_list_path(list)) continue;
        ListPath out{std::string(list)};
        const auto [end, failed] = std::from_chars(path.data() + slash + 1, path.data() + path.size(), out.item);
        if (failed != std::errc{}) return std::nullopt;
        out.rest = std::string(end, path.data() + path.size());
        return out;
    }
    return std::nullopt;
}

// From places in the bench file back to the entries that wrote there.
class Writers {
public:
    explicit Writers(std::span<const Entry> entries) : entries_(entries) {
        const auto force = files::in_force(entries);
        const auto places = files::places_in_list(entries);
        std::map<std::pair<std::string, std::int64_t>, std::vector<std::size_t>> sorted;
        for (std::size_t i = 0; i < entries.size(); ++i) {
            if (!force[i]) continue;
            if (files::is_list_path(entries[i].path)) {
                sorted[{entries[i].path, places[i]}].push_back(i);
            } else if (!entries[i].path.empty()) {
                set_[entries[i].path] = i;
            }
        }
        for (const auto& [key, of_place] : sorted)
            std::ranges::copy(of_place, std::back_inserter(lists_[key.first]));
    }

    std::optional<std::pair<std::size_t, std::string>> of(const std::string& path) const {
        if (const auto place = in_list(path)) {
            const auto list = lists_.find(place->list);
            if (list == lists_.end() || place->item >= list->second.size()) return std::nullopt;
            return std::pair(list->second[place->item], place->rest);
        }
        for (const auto& [set, index] : set_) {
            if (path == set || path.starts_with(set + "/")) return std::pair(index, path.substr(set.size()));
        }
        return std::nullopt;
    }

private:
    std::span<const Entry> entries_;
    std::map<std::string, std::vector<std::size_t>> lists_;
    std::map<std::string, std::size_t> set_;
};

std::vector<Error> told_by_entry(std::vector<Error> errors, std::span<const Entry> entries,
                                 std::size_t first_new) {
    const Writers writers(entries);
    for (Error& error : errors) {
        const auto writer = writers.of(error.path);
        if (!writer || writer->first < first_new) continue;
        error.path = fmt::format("/entries/{}/value{}", writer->first - first_new, writer->second);
    }
    return errors;
}

}  // namespace

std::vector<Error> check_chain(std::span<const Entry> entries, std::size_t first_new) {
    std::vector<Error> errors;
    std::set<std::string_view> known;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const Entry& entry = entries[i];
        if (i >= first_new) {
            const std::string path = fmt::format("/entries/{}", i - first_new);
            if (known.contains(entry.id)) {
                errors.push_back({"conflict", path + "/id", fmt::format("\"{}\": is another entry's", entry.id)});
            }
            for (std::size_t k = 0; k < entry.replaces.size(); ++k) {
                if (known.contains(entry.replaces[k])) continue;
                errors.push_back({"unknown", fmt::format("{}/replaces/{}", path, k),
                                  fmt::format("\"{}\": no entry of this visit, expected the id of an earlier one",
                                              entry.replaces[k])});
            }
        }
        known.insert(entry.id);
    }
    return errors;
}

std::shared_ptr<const evidence::Catalogue> own_catalogue(const evidence::Bench& bench,
                                                         const std::shared_ptr<const evidence::Catalogue>& under) {
    if (!bench.procedure) return under;
    return std::make_shared<const evidence::Catalogue>(evidence::catalogue_of(bench, *under));
}

ResultAll<VisitState> make_state(std::vector<Entry> entries, std::size_t first_new,
                                 std::shared_ptr<const evidence::Catalogue> under) {
    if (auto errors = check_chain(entries, first_new); !errors.empty()) return tl::unexpected(std::move(errors));
    // Entries that are not stored yet stand behind all others in their lists.
    std::int64_t seq = entries.empty() ? 0 : entries[first_new > 0 ? first_new - 1 : 0].seq;
    for (std::size_t i = first_new; i < entries.size(); ++i) entries[i].seq = ++seq;
    auto bench = files::decode_bench(files::fold(entries), *under);
    if (!bench) return tl::unexpected(told_by_entry(std::move(bench.error()), entries, first_new));
    auto catalogue = own_catalogue(*bench, under);
    return VisitState{std::move(entries), std::move(*bench), std::move(under), std::move(catalogue)};
}

std::string title_of(const evidence::Instrument& instrument) {
    const std::string maker = instrument.maker.value_or("");
    const std::string model = instrument.model.value_or("");
    if (!maker.empty() || !model.empty()) return maker + (maker.empty() || model.empty() ? "" : " ") + model;
    return evidence::describe(instrument);
}

store::VisitCard plain_card(const evidence::Bench& bench) {
    store::VisitCard card;
    card.title = title_of(bench.instrument);
    card.serial = bench.instrument.serial.value_or("");
    if (bench.wants) {
        card.player = bench.wants->player.value_or("");
        card.promised = bench.wants->promised.value_or("");
    }
    card.scope = bench.scope.name;
    card.readings = static_cast<int>(bench.readings.size() + bench.ratings.size());
    card.demo = bench.demo;
    return card;
}

store::VisitCard judged_card(const evidence::Bench& bench, const evidence::Procedure& procedure,
                             const judgement::Assessment& assessment) {
    store::VisitCard card = plain_card(bench);
    card.verdict = card.readings == 0 ? "not begun" : judgement::name_of(assessment.verdict);
    const auto minutes = minutes_of(checkpoint_states(bench, procedure, assessment));
    card.minutes_total = minutes.total;
    card.minutes_left = minutes.left;
    if (!assessment.next.empty()) card.next = assessment.next.front().what;
    return card;
}

}  // namespace fallaway::app
