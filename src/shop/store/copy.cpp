#include "shop/store/copy.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <limits>

#include <SQLiteCpp/Backup.h>
#include <SQLiteCpp/Database.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "shop/files/file_io.h"
#include "shop/store/medium_name.h"

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;

constexpr int kPagesAStep = 256;  // 1 MB at 4 kB a page

tl::unexpected<Error> file_error(const fs::path& path, std::string_view what, int system) {
    const bool full = system == ENOSPC || system == EDQUOT;
    const bool fixed = system == EROFS || system == EACCES || system == EPERM;
    return fail(full    ? "full"
                : fixed ? "read only"
                        : "file",
                path.string(), fmt::format("{}: {}", what, std::strerror(system)));
}

tl::unexpected<Error> stopped(const fs::path& target) {
    return fail("stopped", target.string(), "the copy was stopped; nothing of it is left");
}

// Where a path leads when its links are followed, without a slash at its end.
fs::path resolved(const fs::path& path) {
    std::error_code ignored;
    fs::path whole = fs::weakly_canonical(fs::absolute(path), ignored);
    return whole.has_filename() ? whole : whole.parent_path();
}

bool lies_in(const fs::path& inner, const fs::path& outer) {
    return std::mismatch(outer.begin(), outer.end(), inner.begin(), inner.end()).first == outer.end();
}

Result<void> check_target(const fs::path& target, const fs::path& folder) {
    if (lies_in(target, resolved(folder))) {
        return fail("file", target.string(), "lies in the shop itself; name a folder outside it");
    }
    std::error_code error;
    const fs::file_status status = fs::status(target, error);
    if (!fs::exists(status)) return {};
    if (!fs::is_directory(status) || !fs::is_empty(target, error) || error) {
        return fail("file", target.string(), "is there already and not an empty folder; nothing is written over");
    }
    return {};
}

Result<void> copy_media(const std::vector<fs::path>& files, const fs::path& from, const fs::path& to,
                        const std::function<bool(std::size_t bytes)>& done) {
    for (const fs::path& file : files) {
        const fs::path target = to / fs::relative(file, from);
        if (auto made = files::make_folder(target.parent_path()); !made) return made;
        const auto bytes = files::read_file(file, std::numeric_limits<std::size_t>::max());
        if (!bytes) return tl::unexpected(bytes.error());
        if (auto written = files::write_file(target, *bytes); !written) return written;
        if (!done(bytes->size())) return stopped(to);
    }
    for (const auto& item : fs::directory_iterator(to / kMedia)) {
        if (auto synced = sync_folder(item.path()); !synced) return synced;
    }
    return sync_folder(to / kMedia);
}

// Database first, then the media: a medium is on the disk before the database knows of it.
Result<void> fill(Connection& from, const fs::path& folder, const fs::path& to, const Progress& progress) {
    if (auto made = files::make_folder(to / kMedia); !made) return made;
    const double pages = double(from.number("PRAGMA page_count")) * double(from.number("PRAGMA page_size"));
    double media = 0;
    for (const fs::path& file : media_files(folder)) media += double(fs::file_size(file));
    double done = pages;
    const double share = pages / (pages + media);
    if (auto copied = copy_database(from, to / kDatabase, [&](double part) { return progress(part * share); });
        !copied) {
        return copied;
    }
    const auto more = [&](std::size_t bytes) {
        done += double(bytes);
        return progress(std::min(1.0, done / (pages + media)));
    };
    if (auto copied = copy_media(media_files(folder), folder, to, more); !copied) return copied;
    return sync_folder(to);
}

}  // namespace

Result<void> sync_folder(const fs::path& folder) {
    const int fd = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return file_error(folder, "cannot be put on the disk", errno);
    const int failed = ::fsync(fd) == 0 || errno == EINVAL || errno == EROFS ? 0 : errno;
    ::close(fd);
    if (failed != 0) return file_error(folder, "cannot be put on the disk", failed);
    return {};
}

Result<FolderLock> FolderLock::shared(const fs::path& folder) {
    const int fd = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0) return fail("file", folder.string(), fmt::format("no shop here: {}", std::strerror(errno)));
    FolderLock lock(fd, folder);
    if (::flock(fd, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return fail("busy", folder.string(),
                    "the shop is being restored or brought to a newer version; try again");
    }
    return lock;
}

FolderLock::FolderLock(FolderLock&& other) noexcept
    : fd_(std::exchange(other.fd_, -1)), folder_(std::move(other.folder_)) {}

FolderLock& FolderLock::operator=(FolderLock&& other) noexcept {
    std::swap(fd_, other.fd_);
    std::swap(folder_, other.folder_);
    return *this;
}

FolderLock::~FolderLock() {
    if (fd_ >= 0) ::close(fd_);
}

Result<void> FolderLock::alone() {
    if (::flock(fd_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return fail("busy", folder_.string(), "another program has the shop open; close it first");
    }
    return {};
}

Result<void> FolderLock::shared_again() {
    if (::flock(fd_, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return fail("busy", folder_.string(), "another program took the shop; try again");
    }
    return {};
}

Result<void> copy_database(Connection& from, const fs::path& to, const Progress& progress) {
    auto copy = Connection::open(to, Connection::Mode::create);
    if (!copy) return tl::unexpected(copy.error());
    return guarded(from, [&]() -> Result<void> {
        return guarded(**copy, [&]() -> Result<void> {
            // One view of the source from the first page to the last: otherwise every foreign write would make
            // SQLite begin again, and a busy shop would never be copied.
            const bool outside = sqlite3_get_autocommit(from.database().getHandle()) != 0;
            std::optional<Transaction> view;
            if (outside) view.emplace(from, Transaction::Kind::view);
            from.number("SELECT count(*) FROM sqlite_schema");
            SQLite::Backup steps((*copy)->database(), from.database());
            for (int answer = SQLITE_OK; answer != SQLITE_DONE;) {
                answer = steps.executeStep(kPagesAStep);
                if (answer == SQLITE_BUSY || answer == SQLITE_LOCKED) {
                    return fail("busy", to.string(), "another program kept the database busy");
                }
                const double total = std::max(1, steps.getTotalPageCount());
                if (!progress(1 - steps.getRemainingPageCount() / total)) return stopped(to);
            }
            return {};
        });
    });
}

Result<void> copy_database_into_place(Connection& from, const fs::path& to) {
    const fs::path aside = to.string() + fmt::format(".{}.part", ::getpid());
    ::unlink(aside.c_str());
    auto copied = copy_database(from, aside, [](double) { return true; });
    if (copied && ::rename(aside.c_str(), to.c_str()) != 0) {
        copied = file_error(to, "cannot be written", errno);
    }
    for (const char* end : {"", "-journal", "-wal", "-shm"}) ::unlink((aside.string() + end).c_str());
    if (!copied) return copied;
    return sync_folder(to.parent_path());
}

Result<void> copy_shop(Connection& from, const fs::path& folder, const fs::path& target,
                       const Progress& progress) {
    const fs::path place = resolved(target);
    if (auto free = check_target(place, folder); !free) return free;
    if (auto made = files::make_folder(place.parent_path()); !made) return made;
    std::string aside = place.string() + ".part-XXXXXX";
    if (::mkdtemp(aside.data()) == nullptr) return file_error(place, "cannot be made", errno);
    auto filled = [&]() -> Result<void> {
        try {
            return fill(from, folder, aside, progress);
        } catch (const fs::filesystem_error& error) {
            return file_error(error.path1(), "cannot be copied", error.code().value());
        }
    }();
    std::error_code ignored;
    fs::permissions(aside, fs::status(folder, ignored).permissions(), ignored);
    if (filled && ::rename(aside.c_str(), place.c_str()) != 0) {
        filled = file_error(place, "cannot be put in place", errno);
    }
    if (!filled) {
        fs::remove_all(aside, ignored);
        return filled;
    }
    return sync_folder(place.parent_path());
}

std::vector<fs::path> media_files(const fs::path& folder) {
    std::vector<fs::path> found;
    std::error_code error;
    for (auto item = fs::recursive_directory_iterator(folder / kMedia, error);
         !error && item != fs::recursive_directory_iterator(); item.increment(error)) {
        if (item->is_regular_file() && is_medium_name(item->path().filename().string()))
            found.push_back(item->path());
    }
    return found;
}

}  // namespace fallaway::store
