// Opening and closing.
#include "shop/store/store.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>

#include <fmt/format.h>

#include "shop/files/file_io.h"
#include "shop/store/inside.h"
#include "shop/store/schema.h"

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;

fs::path beside(const fs::path& file, const char* end) {
    return file.string() + end;
}

bool holds_bytes(const fs::path& file) {
    std::error_code none;
    const auto size = fs::file_size(file, none);
    return !none && size > 0;
}

Result<void> check_writable(const fs::path& folder) {
    if (::access(folder.c_str(), W_OK) == 0) return {};
    return fail("read only", folder.string(), fmt::format("cannot be written: {}", std::strerror(errno)));
}

// Makes the folder and an empty database where there is none.
Result<void> make(const fs::path& folder, const fs::path& file) {
    std::error_code error;
    if (!fs::exists(folder, error)) {
        fs::path there = fs::absolute(folder).parent_path();
        while (!fs::exists(there, error) && there.has_relative_path()) there = there.parent_path();
        if (auto writable = check_writable(there); !writable) return writable;
    }
    if (auto made = files::make_folder(folder); !made) return made;
    if (fs::exists(file, error)) return {};
    if (auto writable = check_writable(folder); !writable) return writable;
    // SQLite would play what it finds there into the new file.
    if (holds_bytes(beside(file, "-wal"))) {
        return fail("damaged", file.string(),
                    "is gone, but what was written to it last is there; restore a backup");
    }
    return create_database(file, steps());
}

// A folder that cannot be written, without leftovers of a program that was stopped, needs no locks: nobody writes.
Connection::Mode reading_mode(const fs::path& folder, const fs::path& file) {
    const bool fixed = ::access(folder.c_str(), W_OK) != 0 && !holds_bytes(beside(file, "-wal"));
    return fixed ? Connection::Mode::unchanging : Connection::Mode::read;
}

Result<void> bring_up(Connection& writer, const fs::path& file, FolderLock& lock) {
    const auto version = version_of(writer, file, kStoreVersion);
    if (!version) return tl::unexpected(version.error());
    if (*version < kStoreVersion) {
        if (auto alone = lock.alone(); !alone) return alone;
        if (auto migrated = migrate(writer, file, steps()); !migrated) return migrated;
        if (auto shared = lock.shared_again(); !shared) return shared;
    }
    if (auto sound = check_schema(writer, file, steps()); !sound) return sound;
    return guarded(writer, [&]() -> Result<void> {
        writer.run("PRAGMA journal_mode = WAL");
        return {};
    });
}

Result<void> check_readable(Connection& reader, const fs::path& file) {
    const auto version = version_of(reader, file, kStoreVersion);
    if (!version) return tl::unexpected(version.error());
    if (*version < kStoreVersion) {
        return fail("read only", file.string(),
                    fmt::format("was made by an earlier version (store version {}); open it once where it can be "
                                "written, so that it is brought to version {}",
                                *version, kStoreVersion));
    }
    return check_schema(reader, file, steps());
}

}  // namespace

Store::Store(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Store::Store(Store&&) noexcept = default;
Store& Store::operator=(Store&&) noexcept = default;
Store::~Store() = default;

Result<Store> Store::open(const fs::path& folder, Access access, bool create) {
    const fs::path file = folder / kDatabase;
    if (create && access == Access::write) {
        if (auto made = make(folder, file); !made) return tl::unexpected(made.error());
    }
    auto lock = FolderLock::shared(folder);
    if (!lock) return tl::unexpected(lock.error());
    std::error_code error;
    if (!fs::exists(file, error)) return fail("file", file.string(), "no shop in this folder");
    std::unique_ptr<Connection> writer;
    auto mode = Connection::Mode::read;
    if (access == Access::write) {
        if (auto writable = check_writable(folder); !writable) return tl::unexpected(writable.error());
        if (auto writable = check_writable(file); !writable) return tl::unexpected(writable.error());
        auto connection = Connection::open(file, Connection::Mode::write);
        if (!connection) return tl::unexpected(connection.error());
        if (auto up = bring_up(**connection, file, *lock); !up) return tl::unexpected(up.error());
        writer = std::move(*connection);
    } else {
        mode = reading_mode(folder, file);
        auto connection = Connection::open(file, mode);
        if (!connection) return tl::unexpected(connection.error());
        if (auto good = check_readable(**connection, file); !good) return tl::unexpected(good.error());
    }
    return Store(std::unique_ptr<Inside>(new Inside{folder, std::move(*lock), std::move(writer), {file, mode}}));
}

}  // namespace fallaway::store
