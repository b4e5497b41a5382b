#include "shop/store/schema.h"

#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <set>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <sqlite3.h>

#include "shop/store/copy.h"
#include "shop/store/store.h"

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;

constexpr std::int64_t kApplication = 0x46414C4C;  // "FALL", tells our files from other SQLite files

// Ids of dossiers and visits are unique texts; `n` is the order in which they came. The list of visits and the
// search read visit_list alone: it has the order of the list ("~" comes after every day) and the words. An entry's
// `sum` is the first 16 digits of the SHA-256 of its fields: SQLite's own check does not see a letter that changed
// inside a text.
constexpr Step kVersion1 = R"sql(
CREATE TABLE dossier (
    n INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    kind TEXT NOT NULL,
    title TEXT NOT NULL,
    serial TEXT NOT NULL,
    owner TEXT NOT NULL,
    created TEXT NOT NULL,
    words TEXT NOT NULL
) STRICT;
CREATE TABLE procedure (
    hash TEXT PRIMARY KEY,
    body TEXT NOT NULL
) STRICT;
CREATE TABLE visit (
    n INTEGER PRIMARY KEY,
    id TEXT NOT NULL UNIQUE,
    dossier TEXT NOT NULL REFERENCES dossier (id),
    opened TEXT NOT NULL,
    closed TEXT,
    procedure TEXT REFERENCES procedure (hash),
    seq INTEGER NOT NULL,
    title TEXT NOT NULL,
    serial TEXT NOT NULL,
    player TEXT NOT NULL,
    scope TEXT NOT NULL,
    promised TEXT NOT NULL,
    verdict TEXT NOT NULL,
    next TEXT NOT NULL,
    minutes_total REAL NOT NULL,
    minutes_left REAL NOT NULL,
    readings INTEGER NOT NULL,
    demo INTEGER NOT NULL,
    words TEXT NOT NULL,
    shut INTEGER NOT NULL AS (closed IS NOT NULL) STORED,
    due TEXT NOT NULL AS (CASE WHEN closed IS NOT NULL THEN '' WHEN promised = '' THEN '~' ELSE promised END) STORED,
    last REAL AS (julianday(coalesce(closed, opened))) STORED
) STRICT;
CREATE INDEX visit_dossier ON visit (dossier);
CREATE INDEX visit_list ON visit (shut, due, last DESC, n DESC, words);
CREATE TABLE entry (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    id TEXT NOT NULL UNIQUE,
    visit TEXT NOT NULL REFERENCES visit (id),
    device TEXT NOT NULL,
    at TEXT NOT NULL,
    body TEXT NOT NULL,
    sum TEXT NOT NULL
) STRICT;
CREATE INDEX entry_visit ON entry (visit, seq);
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never changed');
END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
BEGIN
    SELECT RAISE(ABORT, 'an entry is never taken out');
END;
CREATE TRIGGER entry_is_not_replaced BEFORE INSERT ON entry
WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id OR seq = NEW.seq)
BEGIN
    SELECT RAISE(ABORT, 'an entry is never replaced');
END;
CREATE TABLE person (
    name TEXT PRIMARY KEY,
    technician INTEGER NOT NULL,
    contact TEXT NOT NULL,
    remark TEXT NOT NULL
) STRICT;
CREATE TABLE tool (
    id TEXT PRIMARY KEY,
    kind TEXT NOT NULL,
    calibrated TEXT NOT NULL,
    due TEXT NOT NULL,
    certificate_u TEXT NOT NULL,
    certificate_k REAL NOT NULL,
    remark TEXT NOT NULL,
    retired INTEGER NOT NULL
) STRICT;
CREATE TABLE rate (
    work TEXT PRIMARY KEY,
    amount TEXT NOT NULL,
    remark TEXT NOT NULL
) STRICT;
CREATE TABLE override (
    name TEXT PRIMARY KEY,
    body TEXT NOT NULL
) STRICT;
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
CREATE TABLE medium (
    hash TEXT PRIMARY KEY,
    type TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    added TEXT NOT NULL
) STRICT;
CREATE TABLE device (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    token_hash TEXT NOT NULL,
    paired TEXT NOT NULL,
    seen TEXT NOT NULL,
    revoked INTEGER NOT NULL
) STRICT;
CREATE UNIQUE INDEX device_token ON device (token_hash) WHERE token_hash <> '';
)sql";

constexpr std::array kSteps = {kVersion1};
static_assert(kSteps.size() == kStoreVersion);

// In the transaction of the caller.
void take_steps(Connection& connection, std::size_t from, std::span<const Step> steps) {
    for (const Step& step : steps.subspan(from)) connection.run(std::string(step));
    connection.run(fmt::format("PRAGMA user_version = {}", steps.size()));
}

std::set<std::string> schema_of(SQLite::Database& database) {
    std::set<std::string> parts;
    SQLite::Statement rows(database,
                           "SELECT type || ' ' || name || ': ' || coalesce(sql, '') FROM sqlite_schema "
                           "WHERE name NOT LIKE 'sqlite_stat%'");
    while (rows.executeStep()) parts.insert(rows.getColumn(0).getString());
    return parts;
}

// SQLite itself takes a last page that is not all there for one that ends in nothing. With a log of writes beside
// it the page may be in there, so that the file is whole.
bool cut_off(Connection& connection, const fs::path& file) {
    std::error_code no_file;
    const auto log = fs::file_size(file.string() + "-wal", no_file);
    if (!no_file && log > 0) return false;
    const auto size = fs::file_size(file, no_file);
    return !no_file && size % std::uintmax_t(connection.number("PRAGMA page_size")) != 0;
}

tl::unexpected<Error> not_migrated(const fs::path& file, int from, std::size_t to, std::string_view why) {
    return fail("damaged", file.string(),
                fmt::format("could not be brought from version {} to {} ({}); it is as it was", from, to, why));
}

}  // namespace

std::span<const Step> steps() {
    return kSteps;
}

Result<int> version_of(Connection& connection, const fs::path& file, int known) {
    return guarded(connection, [&]() -> Result<int> {
        const std::int64_t version = connection.number("PRAGMA user_version");
        if (connection.number("PRAGMA application_id") != kApplication) {
            return fail("damaged", file.string(), "is no shop: another program's file, or an emptied one");
        }
        if (version > known) {
            return fail(
                "newer", file.string(),
                fmt::format("was made by a later version of this program (store version {}; this one knows "
                            "{}); use that version",
                            version, known));
        }
        if (version < 0) return fail("damaged", file.string(), fmt::format("has no store version {}", version));
        if (cut_off(connection, file)) return fail("damaged", file.string(), "is cut off; restore a backup");
        return int(version);
    });
}

Result<void> check_schema(Connection& connection, const fs::path& file, std::span<const Step> steps) {
    return guarded(connection, [&]() -> Result<void> {
        SQLite::Database model(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        for (const Step& step : steps) model.exec(std::string(step));
        if (schema_of(model) != schema_of(connection.database())) {
            return fail("damaged", file.string(), "its tables are not as they were made; restore a backup");
        }
        return {};
    });
}

Result<void> create_database(const fs::path& file, std::span<const Step> steps) {
    const fs::path aside = file.string() + fmt::format(".{}.part", ::getpid());
    const auto leave = [&aside](Result<void> result) {
        for (const char* end : {"", "-journal", "-wal", "-shm"}) ::unlink((aside.string() + end).c_str());
        return result;
    };
    leave({});  // what a program with our number left when it was stopped
    {
        auto connection = Connection::open(aside, Connection::Mode::create);
        if (!connection) return leave(tl::unexpected(connection.error()));
        const auto made = guarded(**connection, [&]() -> Result<void> {
            Transaction transaction(**connection, Transaction::Kind::change);
            (*connection)->run(fmt::format("PRAGMA application_id = {}", kApplication));
            take_steps(**connection, 0, steps);
            transaction.commit();
            (*connection)->run("PRAGMA journal_mode = WAL");
            return {};
        });
        if (!made) return leave(made);
    }
    // A link, not a rename: it never takes the place of a shop that another program made meanwhile.
    if (::link(aside.c_str(), file.c_str()) != 0 && errno != EEXIST) {
        return leave(fail("file", file.string(), fmt::format("cannot be made: {}", std::strerror(errno))));
    }
    return leave(sync_folder(file.parent_path()));
}

Result<void> migrate(Connection& connection, const fs::path& file, std::span<const Step> steps) {
    const auto from = version_of(connection, file, int(steps.size()));
    if (!from) return tl::unexpected(from.error());
    if (std::size_t(*from) == steps.size()) return {};
    const fs::path copy = file.parent_path() / fmt::format("shop.before-{}.sqlite", steps.size());
    if (auto copied = copy_database_into_place(connection, copy); !copied) return copied;
    try {
        // Tables are made anew in the course of a step; what they refer to is checked before the commit.
        connection.run("PRAGMA foreign_keys = OFF");
        Transaction transaction(connection, Transaction::Kind::change);
        take_steps(connection, std::size_t(*from), steps);
        if (connection.number("SELECT count(*) FROM pragma_foreign_key_check") > 0) {
            return not_migrated(file, *from, steps.size(), "an entry would refer to nothing");
        }
        transaction.commit();
        connection.run("PRAGMA foreign_keys = ON");
    } catch (const SQLite::Exception& exception) {
        const int code = exception.getErrorCode() & 0xFF;
        if (code != SQLITE_ERROR && code != SQLITE_CONSTRAINT) return tl::unexpected(connection.explain());
        return not_migrated(file, *from, steps.size(), exception.what());
    }
    return {};
}

}  // namespace fallaway::store
