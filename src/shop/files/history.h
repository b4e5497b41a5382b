// The history of a visit: a list of entries in which nothing is ever changed. An entry writes one part of the
// bench file, or takes earlier entries out of force; the bench file of the visit is what the entries in force
// make.
//
// Lists of the bench file ("/readings", "/wants/complaints") grow by entries; everything else ("/hands",
// "/instrument/scale") is set by them, and the latest one in force counts. An entry that replaces one of its own
// list stands in its place.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"
#include "shop/files/json_text.h"

namespace fallaway::files {

struct Entry {
    std::string id;    // 16 lower-case hexadecimal digits, made by whoever wrote it
    std::string path;  // "/readings", "/instrument/scale"; "" when it only takes others out of force
    Json value;        // as in a bench file; null under a path that sets: not stated any more
    std::vector<std::string> replaces;  // ids of earlier entries that it takes out of force
    std::int64_t saw = 0;               // the latest seq that its writer's device knew

    // Given by the store, not by the writer.
    std::int64_t seq = 0;  // position in the history of the whole shop, from 1
    std::string device;    // id of the device
    std::string at;        // RFC 3339: when it was stored

    friend bool operator==(const Entry&, const Entry&) = default;
};

// Is it one of the lists that grow?
bool is_list_path(std::string_view path);

// May an entry write here at all? ("/readings/3" may not.)
bool is_entry_path(std::string_view path);

// What two entries must share to be about the same thing: "/readings|string height|s6.f12|arrival",
// "/instrument/scale". "" for entries that never collide (remarks, complaints, work, ...).
std::string slot_of(const Entry& entry);

// Flags, in the order of `entries` (by seq): is it in force? An entry is out of force when a later one replaces it
// that was not itself taken back. So taking back a correction brings back what it corrected, taking back what took
// something back brings that back, and a correction of a correction leaves the first figure where it was: out.
std::vector<bool> in_force(std::span<const Entry> entries);

// The place of each entry in its list: its own seq, or the place of the first that it replaces in the same list.
std::vector<std::int64_t> places_in_list(std::span<const Entry> entries);

// The bench file that the entries in force make, not checked yet: hand it to decode_bench().
Json fold(std::span<const Entry> entries);

// The entries from which fold() makes the same bench file again, in the order of the file. Ids from `next_id`.
std::vector<Entry> split(const Json& bench, const std::function<std::string()>& next_id);

// Entries in force about the same thing, from different devices, of which the later was written without having
// seen the earlier, and which differ. Indexes into `entries`, the earlier first.
struct Conflict {
    std::string slot;
    std::size_t earlier = 0;
    std::size_t later = 0;
};
std::vector<Conflict> conflicts(std::span<const Entry> entries);

// The entry that undo on this device would take back: its latest in force that is not itself a taking back.
std::optional<std::size_t> last_of(std::span<const Entry> entries, std::string_view device);

}  // namespace fallaway::files
