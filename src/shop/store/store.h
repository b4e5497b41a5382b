// The shop's memory: one SQLite file, and media by content hash in a folder beside it. SQL, transactions and
// migrations stay in this room; what an entry's body means is not its business.
//
// Layout of a shop folder: shop.sqlite (+ -wal, -shm), media/<first two digits>/<hash>.<ending of its type>,
// copies made before a migration: shop.before-<new version>.sqlite.
//
// Every function that writes has its bytes on the disk (WAL, synchronous FULL) when it returns; what fails leaves
// the store as it was. Calls may come from any thread; one writes at a time, and nobody who reads waits for it.
// Error codes: "file" (no such folder, not readable), "read only", "full" (no room on the disk), "busy" (another
// program holds the store), "newer" (made by a later version), "damaged", "missing" (no such id), "conflict" (an
// id that stands for something else), "syntax" (no id), "type" (no kind of medium that is kept), "size",
// "stopped". Error paths are names of arguments, "/entries/2/id" in a list of entries, or a file.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace fallaway::store {

using Id = std::string;  // 16 lower-case hexadecimal digits

// One instrument with all its stays.
struct Dossier {
    Id id;
    std::string kind;     // "electric guitar", "electric bass"
    std::string title;    // "Ostrel Heron", "" while nobody named it
    std::string serial;   // "" unknown
    std::string owner;    // a person's name, "" unknown
    std::string created;  // RFC 3339

    friend bool operator==(const Dossier&, const Dossier&) = default;
};

// What the list shows of a visit. Derived from its entries by whoever appends them, and kept in the same
// transaction, so that ten thousand visits are searched without opening one.
struct VisitCard {
    std::string title;  // instrument
    std::string serial;
    std::string player;  // "" unknown
    std::string scope;
    std::string promised;  // a day, "" none
    std::string verdict;
    std::string next;  // what comes next, in a few words
    double minutes_total = 0;
    double minutes_left = 0;
    int readings = 0;
    bool demo = false;

    friend bool operator==(const VisitCard&, const VisitCard&) = default;
};

struct Visit {
    Id id;
    Id dossier;
    std::string opened;                 // RFC 3339
    std::optional<std::string> closed;  // handed over
    std::string procedure;              // hash of the procedure it is judged by; "" the built-in one of its day
    std::int64_t seq = 0;               // of its latest entry
    VisitCard card;

    friend bool operator==(const Visit&, const Visit&) = default;
};

// One entry of a visit's history. `body` is the entry as JSON, without what stands here.
struct EntryRow {
    std::int64_t seq = 0;  // given by the store
    Id id;
    Id visit;
    Id device;
    std::string at;  // RFC 3339
    std::string body;

    friend bool operator==(const EntryRow&, const EntryRow&) = default;
};

struct Person {
    std::string name;  // unique
    bool technician = false;
    std::string contact;  // telephone, letter, as typed
    std::string remark;

    friend bool operator==(const Person&, const Person&) = default;
};

// A tool on the shop's wall.
struct ShopTool {
    std::string id;             // as readings name it, unique: "blue caliper"
    std::string kind;           // of data/tools.json
    std::string calibrated;     // a day, "" never
    std::string due;            // a day, "" no rule
    std::string certificate_u;  // expanded uncertainty as typed, "" none
    double certificate_k = 2;
    std::string remark;
    bool retired = false;

    friend bool operator==(const ShopTool&, const ShopTool&) = default;
};

// What the shop asks for a kind of work.
struct Rate {
    std::string work;    // unique: "hour at the bench", "set-up", "fret dress"
    std::string amount;  // as typed: "60 EUR"
    std::string remark;

    friend bool operator==(const Rate&, const Rate&) = default;
};

// The shop's own procedure, or a limit of its own, as JSON.
struct Override {
    std::string name;  // unique: "procedure", "limit action-12"
    std::string body;

    friend bool operator==(const Override&, const Override&) = default;
};

struct Medium {
    std::string hash;  // SHA-256, 64 lower-case hexadecimal digits
    std::string type;  // "image/jpeg"
    std::int64_t bytes = 0;
    std::string added;  // RFC 3339

    friend bool operator==(const Medium&, const Medium&) = default;
};

// The media types that are taken: ".jpg", ".png", ".webp", ".wav", ".flac", ".ogg"; "" for any other type.
std::string_view ending_of(std::string_view media_type);

// A tablet that was let in. The token itself is never stored, only its SHA-256.
struct Device {
    Id id;
    std::string name;        // "bench tablet"
    std::string token_hash;  // "" for the machine of the shop itself
    std::string paired;      // RFC 3339
    std::string seen;        // RFC 3339, to the day
    bool revoked = false;

    friend bool operator==(const Device&, const Device&) = default;
};

enum class Access { read, write };

class Store {
public:
    // Opens the shop in `folder`; `create` makes an empty one where none is. An older store is migrated after a
    // copy of it was made beside it; a newer one is refused. A folder that cannot be written opens for reading
    // alone when that is asked for; with Access::write it is an error of code "read only".
    static Result<Store> open(const std::filesystem::path& folder, Access access, bool create = false);
    Store(Store&&) noexcept;
    Store& operator=(Store&&) noexcept;
    ~Store();

    // Dossiers and visits. `first` are its entries to begin with (of an import, for instance); visit.seq is not
    // read. Adding a dossier again as it is, or a visit with the same id, dossier and first entries, is no error
    // and changes nothing. A visit's dossier, and its procedure unless "", must be there before: "missing".
    Result<void> add_dossier(const Dossier& dossier);
    Result<void> update_dossier(const Dossier& dossier);
    Result<Dossier> dossier(std::string_view id) const;
    Result<Visit> add_visit(const Visit& visit, std::span<const EntryRow> first);
    Result<Visit> visit(std::string_view id) const;
    Result<std::vector<Visit>> visits_of(std::string_view dossier) const;  // the latest first
    Result<void> close_visit(std::string_view id, const std::optional<std::string>& when);

    // Appends to the history, all or nothing, with the visit's new card. An entry that is there already (same id,
    // same body) is passed over: the answer has the seq of each, as stored, and when all were there the card stays
    // too. An id that stands for another body, or stands in another visit, is a "conflict".
    Result<std::vector<std::int64_t>> append(std::string_view visit, std::span<const EntryRow> entries,
                                             const VisitCard& card);
    Result<std::vector<EntryRow>> entries(std::string_view visit, std::int64_t after = 0) const;  // by seq
    Result<void> set_card(std::string_view visit, const VisitCard& card);

    // Every word of `query` must begin a word, or stand inside one, of title, serial, player, owner or verdict,
    // upper or lower case (of Latin, Greek and Cyrillic letters), accents as typed. Open visits by promised day
    // (none last; on one day the one opened last comes first), then closed ones, latest first. A query longer than
    // kLongestQuery is a "size" error.
    struct Found {
        std::vector<Visit> visits;
        std::int64_t total = 0;  // that match
    };
    Result<Found> find_visits(std::string_view query, int limit, int offset = 0) const;
    // The same for title, serial and owner; the one that was in the shop last comes first.
    Result<std::vector<Dossier>> find_dossiers(std::string_view query, int limit) const;

    // Names and lists of the shop. put_* adds or replaces by its unique name.
    Result<std::vector<Person>> people() const;
    Result<void> put_person(const Person& person);
    Result<std::vector<ShopTool>> tools() const;
    Result<void> put_tool(const ShopTool& tool);
    Result<std::vector<Rate>> rates() const;
    Result<void> put_rate(const Rate& rate);
    Result<void> drop_rate(std::string_view work);
    Result<std::vector<Override>> overrides() const;
    Result<void> put_override(const Override& item);
    Result<void> drop_override(std::string_view name);
    // Procedures by hash, kept for as long as a visit was taken under them.
    Result<std::string> procedure(std::string_view hash) const;
    Result<void> keep_procedure(std::string_view hash, std::string_view body);
    Result<std::optional<std::string>> setting(std::string_view name) const;
    Result<void> put_setting(std::string_view name, std::string_view value);

    // Media. Written aside, synced, renamed; the same bytes twice are one file, and one type: another is a
    // "conflict". Types: image/jpeg, image/png, image/webp, audio/wav, audio/flac, audio/ogg; at most
    // kLargestMedium.
    Result<Medium> add_medium(std::string_view bytes, std::string_view type, std::string_view when);
    Result<Medium> medium(std::string_view hash) const;
    Result<std::string> medium_bytes(std::string_view hash) const;

    // Devices.
    Result<std::vector<Device>> devices() const;
    Result<void> put_device(const Device& device);
    Result<std::optional<Device>> device_of_token(std::string_view token_hash) const;  // not a revoked one

    // A complete copy of the shop as it stands now, media included, made while others go on writing. `folder` must
    // not be there, or be empty, and not lie in the shop. `progress` gets a fraction 0..1 and may stop the copy by
    // returning false (error code "stopped"). Made aside and renamed: after a failure nothing of it is left.
    Result<void> backup(const std::filesystem::path& folder, const std::function<bool(double)>& progress) const;

    // Every fault found: SQLite's own checks, foreign keys, entries that changed or have no visit, media missing
    // or with another hash. Empty when all is well. `progress` as for backup.
    Result<std::vector<std::string>> check(const std::function<bool(double)>& progress) const;

private:
    struct Inside;
    explicit Store(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> inside_;
};

// Puts a copy of a backup in the place of a shop, which is kept beside it as "<folder>.before-restore"; where
// there is none, just there. The copy is brought to this version and checked first; a damaged or newer one is
// refused, so is a shop that some program (this one too) has open, and nothing changes.
Result<void> restore(const std::filesystem::path& backup, const std::filesystem::path& folder);

inline constexpr int kStoreVersion = 1;                   // user_version of the database
inline constexpr std::size_t kLargestMedium = 64u << 20;  // bytes
inline constexpr std::size_t kLongestQuery = 200;         // bytes

}  // namespace fallaway::store
