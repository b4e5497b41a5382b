// Backup, check, restore.
#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

#include <SQLiteCpp/Database.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "shop/files/digest.h"
#include "shop/files/file_io.h"
#include "shop/store/inside.h"
#include "shop/store/medium_name.h"
#include "shop/store/schema.h"

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;
using Faults = std::vector<std::string>;

constexpr int kInstructionsBetween = 200'000;  // of SQLite, between two looks whether to stop
constexpr int kEntriesBetween = 1000;

// Shares of the work of a check, about as long as each takes.
constexpr double kStructureDone = 0.3;
constexpr double kEntriesDone = 0.6;

tl::unexpected<Error> check_stopped(const fs::path& folder) {
    return fail("stopped", folder.string(), "the check was stopped");
}

// While it lives, SQLite asks `progress` now and then and gives up when it says so.
class Interruptible {
public:
    Interruptible(Connection& connection, const Progress& progress) : handle_(connection.database().getHandle()) {
        sqlite3_progress_handler(
            handle_, kInstructionsBetween,
            [](void* asked) { return (*static_cast<const Progress*>(asked))(0.0) ? 0 : 1; },
            const_cast<Progress*>(&progress));
    }
    Interruptible(const Interruptible&) = delete;
    Interruptible& operator=(const Interruptible&) = delete;
    ~Interruptible() { sqlite3_progress_handler(handle_, 0, nullptr, nullptr); }

private:
    sqlite3* handle_;
};

Result<void> check_structure(Connection& connection, const Progress& progress, Faults& faults) {
    const Interruptible interruptible(connection, progress);
    Query lines = connection.query("PRAGMA integrity_check");
    while (lines.step()) {
        if (lines.text(0) != "ok") faults.push_back("database: " + lines.text(0));
    }
    Query loose = connection.query("SELECT \"table\", rowid, parent FROM pragma_foreign_key_check");
    while (loose.step()) {
        faults.push_back(
            fmt::format("{} {}: belongs to a {} that is not there", loose.text(0), loose.whole(1), loose.text(2)));
    }
    Query behind = connection.query(
        "SELECT id FROM visit WHERE seq <> (SELECT coalesce(max(seq), 0) FROM entry WHERE visit = visit.id)");
    while (behind.step())
        faults.push_back(fmt::format("visit {}: does not know its latest entry", behind.text(0)));
    return {};
}

Result<void> check_entries(Connection& connection, const fs::path& folder, const Progress& progress,
                           Faults& faults) {
    const double total = std::max(1.0, double(connection.number("SELECT count(*) FROM entry")));
    Query rows = connection.query(fmt::format("SELECT {}, sum FROM entry ORDER BY seq", kEntryColumns));
    for (std::int64_t n = 0; rows.step(); ++n) {
        const EntryRow entry = entry_row(rows);
        if (sum_of(entry) != rows.text(6)) {
            faults.push_back(
                fmt::format("entry {} of visit {}: is not as it was written", entry.seq, entry.visit));
        }
        const double done = kStructureDone + (kEntriesDone - kStructureDone) * double(n) / total;
        if (n % kEntriesBetween == 0 && !progress(done)) return check_stopped(folder);
    }
    return {};
}

void check_medium(const fs::path& folder, const Medium& medium, Faults& faults) {
    const std::string name = medium_name(medium);
    const auto bytes = files::read_file(folder / kMedia / medium.hash.substr(0, 2) / name, kLargestMedium);
    if (!bytes) {
        faults.push_back(fmt::format("media {}: {}", name, bytes.error().message));
    } else if (files::sha256_hex(*bytes) != medium.hash) {
        faults.push_back(fmt::format("media {}: its bytes are not those that were kept", name));
    }
}

Result<void> check_media(Connection& connection, const fs::path& folder, const Progress& progress,
                         Faults& faults) {
    const double total = std::max(1.0, double(connection.number("SELECT count(*) FROM medium")));
    Query rows = connection.query("SELECT hash, type FROM medium ORDER BY hash");
    for (std::int64_t n = 0; rows.step(); ++n) {
        const Medium medium{rows.text(0), rows.text(1), 0, ""};
        if (!is_hash(medium.hash) || ending_of(medium.type).empty()) {
            faults.push_back(fmt::format("media {}: no such kind of photo or recording", medium.hash));
        } else {
            check_medium(folder, medium, faults);
        }
        if (!progress(kEntriesDone + (1 - kEntriesDone) * double(n + 1) / total)) return check_stopped(folder);
    }
    return {};
}

// A part of the check that cannot be made because of damage is a fault itself; other errors end the check.
Result<void> noting(const Result<void>& part, Faults& faults) {
    if (part || part.error().code != "damaged") return part;
    faults.push_back("database: " + part.error().message);
    return {};
}

fs::path without_slash(const fs::path& path) {
    std::error_code ignored;
    const fs::path whole = fs::weakly_canonical(fs::absolute(path), ignored);
    return whole.has_filename() ? whole : whole.parent_path();
}

// May `folder` be set aside for a backup to take its place?
Result<void> check_place(const fs::path& folder, const fs::path& kept) {
    std::error_code error;
    if (!fs::exists(folder, error)) return {};
    if (!fs::is_directory(folder, error)) return fail("file", folder.string(), "is not a folder");
    if (!fs::exists(folder / kDatabase, error) && !fs::is_empty(folder, error)) {
        return fail("file", folder.string(), "holds other things than a shop; nothing is put in its place");
    }
    if (fs::exists(kept, error)) {
        return fail("file", kept.string(), "is there from an earlier restore; look at it and move it away first");
    }
    return {};
}

// Exchanges the two folders in one stroke where the file system can, so that there is a shop at every moment.
Result<void> swap_in(const fs::path& fresh, const fs::path& folder, const fs::path& kept) {
    std::error_code error;
    const bool there = fs::exists(folder, error);
    if (there && ::renameat2(AT_FDCWD, fresh.c_str(), AT_FDCWD, folder.c_str(), RENAME_EXCHANGE) == 0) {
        fs::rename(fresh, kept, error);  // what failed here leaves the old shop under its name aside, whole
    } else {
        if (there) fs::rename(folder, kept, error);
        if (!error) fs::rename(fresh, folder, error);
        std::error_code ignored;
        if (error && there && !fs::exists(folder, ignored)) fs::rename(kept, folder, ignored);
    }
    if (error) return fail("file", folder.string(), "the backup cannot be put in place: " + error.message());
    return sync_folder(folder.parent_path());
}

// Copies the backup, whatever its version, brings the copy up and checks it.
Result<void> prepare(const fs::path& backup, const fs::path& fresh) {
    auto lock = FolderLock::shared(backup);
    if (!lock) return tl::unexpected(lock.error());
    const fs::path file = backup / kDatabase;
    std::error_code error;
    if (!fs::exists(file, error)) return fail("file", file.string(), "no backup of a shop in this folder");
    const bool fixed = ::access(backup.c_str(), W_OK) != 0;
    auto source = Connection::open(file, fixed ? Connection::Mode::unchanging : Connection::Mode::read);
    if (!source) return tl::unexpected(source.error());
    if (auto version = version_of(**source, file, kStoreVersion); !version) return tl::unexpected(version.error());
    const auto go_on = [](double) { return true; };
    if (auto copied = copy_shop(**source, backup, fresh, go_on); !copied) return copied;
    auto store = Store::open(fresh, Access::write);
    if (!store) return tl::unexpected(store.error());
    const auto faults = store->check(go_on);
    if (!faults) return tl::unexpected(faults.error());
    if (faults->empty()) return {};
    return fail("damaged", backup.string(),
                fmt::format("the backup has {} {}, the first: {}", faults->size(),
                            faults->size() == 1 ? "fault" : "faults", faults->front()));
}

}  // namespace

Result<void> Store::backup(const fs::path& folder, const Progress& progress) const {
    return inside_->read(
        [&](Connection& connection) { return copy_shop(connection, inside_->folder, folder, progress); });
}

Result<Faults> Store::check(const Progress& progress) const {
    return inside_->read([&](Connection& connection) -> Result<Faults> {
        Faults faults;
        const auto part = [&](auto&& check) { return noting(guarded(connection, check), faults); };
        const fs::path& folder = inside_->folder;
        if (auto done = part([&] { return check_structure(connection, progress, faults); }); !done) {
            return tl::unexpected(done.error());
        }
        if (auto done = part([&] { return check_entries(connection, folder, progress, faults); }); !done) {
            return tl::unexpected(done.error());
        }
        if (auto done = part([&] { return check_media(connection, folder, progress, faults); }); !done) {
            return tl::unexpected(done.error());
        }
        return faults;
    });
}

Result<void> restore(const fs::path& backup, const fs::path& folder) {
    const fs::path place = without_slash(folder);
    const fs::path kept = place.string() + ".before-restore";
    const fs::path fresh = place.string() + fmt::format(".restoring-{}", ::getpid());
    if (without_slash(backup) == place)
        return fail("file", backup.string(), "is the shop itself, no backup of it");
    if (auto free = check_place(place, kept); !free) return free;
    std::optional<FolderLock> lock;
    std::error_code ignored;
    if (fs::exists(place, ignored)) {
        auto held = FolderLock::shared(place);
        if (!held) return tl::unexpected(held.error());
        if (auto alone = held->alone(); !alone) return alone;
        lock.emplace(std::move(*held));
    }
    auto done = prepare(backup, fresh);
    if (done)
        done = swap_in(fresh, place, kept);
    else
        fs::remove_all(fresh, ignored);
    return done;
}

}  // namespace fallaway::store
