#include "shop/files/history.h"

#include <algorithm>
#include <array>
#include <map>
#include <unordered_map>

#include <fmt/format.h>

namespace fallaway::files {
namespace {

constexpr std::array<std::string_view, 13> kLists = {
    "/wants/complaints", "/claims", "/tools",    "/room",   "/readings", "/ratings",   "/recordings",
    "/photos",           "/work",   "/accepted", "/limits", "/remarks",  "/card/lines"};

// Records whose members are set one by one; every other member of the file is set as a whole.
constexpr std::array<std::string_view, 5> kRecords = {"/job", "/instrument", "/wants", "/price", "/card"};

// What is set as a whole. Format and demo mark belong to the making of the file.
constexpr std::array<std::string_view, 4> kWholes = {"/hands", "/scope", "/procedure", "/demo"};

template <std::size_t N>
bool is_in(const std::array<std::string_view, N>& list, std::string_view path) {
    return std::ranges::find(list, path) != list.end();
}

// "/instrument/scale" is "/instrument" and "scale"; "/hands" is "/hands" and "".
std::pair<std::string_view, std::string_view> split_path(std::string_view path) {
    const std::size_t slash = path.find('/', 1);
    if (slash == std::string_view::npos) return {path, {}};
    return {path.substr(0, slash), path.substr(slash + 1)};
}

bool is_key(std::string_view key) {
    return !key.empty() && key.size() <= 40 &&
           std::ranges::all_of(key, [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; });
}

// The record's member, made when it is not there; null when something else stands there.
Json* member(Json& record, std::string_view key) {
    if (record.kind != Json::Kind::record) return nullptr;
    if (Json* there = record.find(key)) return there;
    record.add(std::string(key), Json{});
    return &record.items.back();
}

// Where a path leads in the file, its records made on the way.
Json* at_path(Json& file, std::string_view path) {
    const auto [head, key] = split_path(path);
    Json* first = member(file, head.substr(1));
    if (first == nullptr || key.empty()) return first;
    if (first->kind == Json::Kind::null) *first = Json::record();
    return member(*first, key);
}

void drop_nulls(Json& record) {
    for (std::size_t i = record.items.size(); i-- > 0;) {
        if (record.items[i].kind == Json::Kind::record && is_in(kRecords, "/" + record.keys[i])) {
            drop_nulls(record.items[i]);
        }
        if (record.items[i].kind != Json::Kind::null) continue;
        record.items.erase(record.items.begin() + static_cast<std::ptrdiff_t>(i));
        record.keys.erase(record.keys.begin() + static_cast<std::ptrdiff_t>(i));
    }
}

// The parts of a place in one order, whatever the order they were written in.
std::string place_key(const Json& item) {
    const Json* at = item.find("at");
    if (at == nullptr || at->kind != Json::Kind::record) return {};
    std::map<std::string_view, std::string_view> parts;
    for (std::size_t i = 0; i < at->keys.size(); ++i) parts[at->keys[i]] = at->items[i].text;
    std::string out;
    for (const auto& [key, value] : parts) out += fmt::format("{}{} {}", out.empty() ? "" : ", ", key, value);
    return out;
}

std::string stage_of(const Json& item) {
    const std::string stage = item.text_of("stage");
    return stage.empty() ? "arrival" : stage;
}

std::unordered_map<std::string_view, std::size_t> index_by_id(std::span<const Entry> entries) {
    std::unordered_map<std::string_view, std::size_t> index;
    for (std::size_t i = 0; i < entries.size(); ++i) index.emplace(entries[i].id, i);
    return index;
}

// Entries of lists in the order in which their list shows them.
std::vector<std::size_t> in_list_order(std::span<const Entry> entries) {
    const auto places = places_in_list(entries);
    std::vector<std::size_t> order(entries.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) { return places[a] < places[b]; });
    return order;
}

}  // namespace

bool is_list_path(std::string_view path) {
    return is_in(kLists, path);
}

bool is_entry_path(std::string_view path) {
    if (is_list_path(path) || is_in(kWholes, path)) return true;
    const auto [head, key] = split_path(path);
    return is_in(kRecords, head) && is_key(key);
}

std::string slot_of(const Entry& entry) {
    const Json& value = entry.value;
    if (entry.path == "/readings") {
        return fmt::format("/readings|{}|{}|{}", value.text_of("what"), place_key(value), stage_of(value));
    }
    if (entry.path == "/ratings") {
        return fmt::format("/ratings|{}|{}|{}", value.text_of("checkpoint"), place_key(value), stage_of(value));
    }
    if (entry.path == "/accepted") return fmt::format("/accepted|{}", value.text_of("finding"));
    if (entry.path == "/tools") return fmt::format("/tools|{}", value.text_of("id"));
    return is_list_path(entry.path) ? "" : entry.path;
}

std::vector<bool> in_force(std::span<const Entry> entries) {
    const auto index = index_by_id(entries);
    std::vector<bool> force(entries.size(), true);
    std::vector<bool> holds(entries.size(), true);  // what it replaces stays replaced
    for (std::size_t i = entries.size(); i-- > 0;) {
        if (!holds[i]) continue;
        for (const std::string& id : entries[i].replaces) {
            const auto found = index.find(id);
            if (found == index.end() || found->second >= i) continue;
            force[found->second] = false;
            if (entries[i].path.empty()) holds[found->second] = false;
        }
    }
    return force;
}

std::vector<std::int64_t> places_in_list(std::span<const Entry> entries) {
    const auto index = index_by_id(entries);
    std::vector<std::int64_t> places(entries.size());
    for (std::size_t i = 0; i < entries.size(); ++i) {
        places[i] = entries[i].seq;
        for (const std::string& id : entries[i].replaces) {
            const auto found = index.find(id);
            if (found == index.end() || found->second >= i) continue;
            if (entries[found->second].path == entries[i].path) {
                places[i] = places[found->second];
                break;
            }
        }
    }
    return places;
}

Json fold(std::span<const Entry> entries) {
    const auto force = in_force(entries);
    Json file = Json::record({{"fallaway", Json::of(1)}});
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (!force[i] || entries[i].path.empty() || is_list_path(entries[i].path)) continue;
        if (Json* place = at_path(file, entries[i].path)) *place = entries[i].value;
    }
    for (const std::size_t i : in_list_order(entries)) {
        if (!force[i] || !is_list_path(entries[i].path)) continue;
        Json* list = at_path(file, entries[i].path);
        if (list == nullptr) continue;
        if (list->kind != Json::Kind::list) *list = Json::list();
        list->items.push_back(entries[i].value);
    }
    drop_nulls(file);
    return file;
}

namespace {

void split_list(const std::string& path, const Json& list, const std::function<std::string()>& next_id,
                std::vector<Entry>& out) {
    const auto one = [&](const Json& item) { out.push_back({next_id(), path, item, {}}); };
    if (list.kind != Json::Kind::list) return one(list);  // a single value may stand without its list
    for (const Json& item : list.items) one(item);
}

}  // namespace

std::vector<Entry> split(const Json& bench, const std::function<std::string()>& next_id) {
    std::vector<Entry> out;
    for (std::size_t i = 0; i < bench.keys.size(); ++i) {
        const std::string path = "/" + bench.keys[i];
        const Json& value = bench.items[i];
        if (path == "/fallaway") continue;
        if (is_list_path(path)) {
            split_list(path, value, next_id, out);
        } else if (is_in(kRecords, path) && value.kind == Json::Kind::record) {
            for (std::size_t j = 0; j < value.keys.size(); ++j) {
                const std::string below = fmt::format("{}/{}", path, value.keys[j]);
                if (is_list_path(below)) {
                    split_list(below, value.items[j], next_id, out);
                } else {
                    out.push_back({next_id(), below, value.items[j], {}});
                }
            }
        } else {
            out.push_back({next_id(), path, value, {}});
        }
    }
    return out;
}

std::vector<Conflict> conflicts(std::span<const Entry> entries) {
    const auto force = in_force(entries);
    std::map<std::string, std::vector<std::size_t>> by_slot;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (!force[i] || entries[i].path.empty()) continue;
        if (std::string slot = slot_of(entries[i]); !slot.empty()) by_slot[std::move(slot)].push_back(i);
    }
    std::vector<Conflict> out;
    for (const auto& [slot, of_slot] : by_slot) {
        // What is set counts by its latest entry alone; in a list every entry counts.
        const bool set = !is_list_path(entries[of_slot.front()].path);
        for (std::size_t k = set ? of_slot.size() - 1 : 1; k < of_slot.size(); ++k) {
            const Entry& later = entries[of_slot[k]];
            for (std::size_t j = 0; j < k; ++j) {
                const Entry& earlier = entries[of_slot[j]];
                if (earlier.device == later.device || later.saw >= earlier.seq) continue;
                if (earlier.value == later.value) continue;
                out.push_back({slot, of_slot[j], of_slot[k]});
            }
        }
    }
    return out;
}

std::optional<std::size_t> last_of(std::span<const Entry> entries, std::string_view device) {
    const auto force = in_force(entries);
    for (std::size_t i = entries.size(); i-- > 0;) {
        if (force[i] && entries[i].device == device && !entries[i].path.empty()) return i;
    }
    return std::nullopt;
}

}  // namespace fallaway::files
