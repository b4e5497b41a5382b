// Any bytes as entries that devices send: refused with a reason, or a history that can be folded, listed, taken
// back and stored, whatever its entries say.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include <fmt/format.h>

#include "shop/files/api.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"

namespace {

using namespace fallaway;
using files::Entry;

void require(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "broken: %s\n", what);
    std::abort();
}

void check_entry(const Entry& entry) {
    require(entry.path.empty() || files::is_entry_path(entry.path), "it writes where entries may");
    const auto again = files::api::decode_entry(files::api::encode_entry(entry));
    require(again.has_value() && again->value == entry.value && again->path == entry.path &&
                again->replaces == entry.replaces && again->saw == entry.saw,
            "stored and read again, it says the same");
}

void check_fold(const std::vector<Entry>& entries) {
    const auto force = files::in_force(entries);
    const auto places = files::places_in_list(entries);
    require(force.size() == entries.size() && places.size() == entries.size(), "one for each entry");
    require(entries.empty() || force.back(), "the latest is in force");
    const files::Json file = files::fold(entries);
    require(file.kind == files::Json::Kind::record && file.find("fallaway") != nullptr, "it makes a file");
    require(files::fold(entries) == file, "always the same one");
    for (const auto& pair : files::conflicts(entries)) {
        require(pair.earlier < pair.later && pair.later < entries.size(), "the earlier first");
        require(force[pair.earlier] && force[pair.later], "both in force");
        require(entries[pair.earlier].device != entries[pair.later].device, "of two devices");
    }
    int number = 0;
    auto parts = files::split(file, [&] { return fmt::format("{:016x}", ++number); });
    for (std::size_t i = 0; i < parts.size(); ++i) parts[i].seq = std::int64_t(i) + 1;
    const auto bench = files::decode_bench(file, files::built_in_catalogue());
    if (!bench) {
        require(!bench.error().empty(), "what makes no bench file is told");
        return;
    }
    const auto again = files::decode_bench(files::fold(parts), files::built_in_catalogue());
    require(again.has_value() && *again == *bench, "taken apart and put together, the same bench");
}

// What taking back the latest leaves is what was there before it.
void check_undo(std::vector<Entry> entries) {
    const auto last = files::last_of(entries, "a");
    if (!last || *last + 1 != entries.size()) return;
    const auto before = files::fold(std::span(entries).first(*last));
    Entry back;
    back.id = "back";
    back.replaces = {entries[*last].id};
    back.seq = entries.back().seq + 1;
    entries.push_back(std::move(back));
    const bool alone = entries[*last].replaces.empty();
    require(!alone || files::fold(entries) == before, "taken back, it is as it was");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    auto asked = files::api::decode_new_entries(text);
    if (!asked) {
        require(!asked.error().empty() && !asked.error().front().message.empty(), "a refusal says why");
        return 0;
    }
    auto& entries = asked->entries;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        entries[i].seq = std::int64_t(i) + 1;
        entries[i].device = i % 3 == 0 ? "b" : "a";
        check_entry(entries[i]);
    }
    check_fold(entries);
    check_undo(entries);
    return 0;
}
