#include "shop/store/connection.h"

#include <cerrno>
#include <cstring>

#include <SQLiteCpp/Column.h>
#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <fmt/format.h>
#include <sqlite3.h>

namespace fallaway::store {
namespace {

namespace fs = std::filesystem;

int flags_of(Connection::Mode mode) {
    switch (mode) {
        case Connection::Mode::create:
            return SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE;
        case Connection::Mode::write:
            return SQLite::OPEN_READWRITE;
        case Connection::Mode::read:
            return SQLite::OPEN_READONLY;
        case Connection::Mode::unchanging:
            return SQLite::OPEN_READONLY | SQLite::OPEN_URI;
    }
    return SQLite::OPEN_READONLY;
}

// The file as a URI that says it cannot change. Only letters that mean nothing in a URI stand as they are.
std::string unchanging_uri(const fs::path& file) {
    std::string uri = "file:";
    for (const char letter : fs::absolute(file).string()) {
        const bool plain = (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
                           (letter >= '0' && letter <= '9') || letter == '/' || letter == '.' || letter == '_';
        uri += plain ? std::string(1, letter) : fmt::format("%{:02X}", static_cast<unsigned char>(letter));
    }
    return uri + "?immutable=1";
}

// Which of our codes SQLite's code and the system's stand for; "" for a fault of ours.
std::string_view code_of(int primary, int system) {
    if (primary == SQLITE_IOERR || primary == SQLITE_CANTOPEN || primary == SQLITE_FULL) {
        if (system == ENOSPC || system == EDQUOT || system == EFBIG) return "full";
        if (system == EROFS || system == EACCES || system == EPERM) return "read only";
    }
    switch (primary) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "busy";
        case SQLITE_FULL:
            return "full";
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return "read only";
        case SQLITE_CORRUPT:
        case SQLITE_NOTADB:
            return "damaged";
        case SQLITE_IOERR:
        case SQLITE_CANTOPEN:
        case SQLITE_NOLFS:
            return "file";
        case SQLITE_INTERRUPT:
            return "stopped";
        case SQLITE_TOOBIG:
            return "size";
        default:
            return "";
    }
}

std::string message_of(std::string_view code, const SQLite::Exception& exception, int system) {
    if (code == "busy") return fmt::format("another program kept the shop busy for {} s", kPatience / 1000);
    if (code == "full") return "no room left on the disk; nothing of this was stored";
    if (code == "read only") return "cannot be written";
    if (code == "damaged")
        return fmt::format("is damaged or no shop at all ({}); restore a backup", exception.what());
    if (code == "stopped") return "stopped";
    if (code == "size") return "larger than the store takes";
    return fmt::format("cannot be read or written: {}{}{}", exception.what(), system == 0 ? "" : ", ",
                       system == 0 ? "" : std::strerror(system));
}

}  // namespace

Query::~Query() {
    statement_->tryReset();
}
bool Query::step() {
    return statement_->executeStep();
}
int Query::run() {
    return statement_->exec();
}
std::string Query::text(int column) const {
    return statement_->getColumn(column).getString();
}
std::string_view Query::view(int column) const {
    const SQLite::Column value = statement_->getColumn(column);
    const char* text = value.getText();
    return {text, std::size_t(value.getBytes())};
}
std::int64_t Query::whole(int column) const {
    return statement_->getColumn(column).getInt64();
}
double Query::real(int column) const {
    return statement_->getColumn(column).getDouble();
}
bool Query::null(int column) const {
    return statement_->getColumn(column).isNull();
}

void Query::bind(int index, std::string_view value) {
    statement_->bind(index, std::string(value));
}
void Query::bind(int index, const std::string& value) {
    statement_->bind(index, value);
}
void Query::bind(int index, std::int64_t value) {
    statement_->bind(index, value);
}
void Query::bind(int index, double value) {
    statement_->bind(index, value);
}
void Query::bind(int index, const std::optional<std::string>& value) {
    value ? statement_->bind(index, *value) : statement_->bind(index);
}

Connection::Connection(fs::path file, std::unique_ptr<SQLite::Database> database)
    : file_(std::move(file)), database_(std::move(database)) {}
Connection::~Connection() = default;

Result<std::unique_ptr<Connection>> Connection::open(const fs::path& file, Mode mode) {
    const std::string name = mode == Mode::unchanging ? unchanging_uri(file) : file.string();
    try {
        auto database = std::make_unique<SQLite::Database>(name, flags_of(mode) | SQLite::OPEN_NOMUTEX, kPatience);
        std::unique_ptr<Connection> connection(new Connection(file, std::move(database)));
        connection->run(
            "PRAGMA foreign_keys = ON; PRAGMA recursive_triggers = ON; PRAGMA synchronous = FULL;"
            "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON;");
        return connection;
    } catch (const SQLite::Exception& exception) {
        const int system = errno;
        const std::string_view code = code_of(exception.getErrorCode() & 0xFF, system);
        return fail(std::string(code.empty() ? "file" : code), file.string(), message_of(code, exception, system));
    }
}

Query Connection::query(std::string_view sql) {
    auto found = prepared_.find(sql);
    if (found == prepared_.end()) {
        std::string text(sql);
        auto statement = std::make_unique<SQLite::Statement>(*database_, text);
        found = prepared_.emplace(std::move(text), std::move(statement)).first;
    }
    return Query(*found->second);
}

void Connection::run(const std::string& sql) {
    database_->exec(sql);
}

std::int64_t Connection::number(std::string_view sql) {
    Query answer = query(sql);
    return answer.step() ? answer.whole(0) : 0;
}

std::int64_t Connection::last_row() const {
    return database_->getLastInsertRowid();
}

Error Connection::explain() const {
    try {
        throw;
    } catch (const SQLite::Exception& exception) {
        const int system = sqlite3_system_errno(database_->getHandle());
        const std::string_view code = code_of(exception.getErrorCode() & 0xFF, system);
        if (code.empty()) throw;
        return {std::string(code), file_.string(), message_of(code, exception, system)};
    }
}

Transaction::Transaction(Connection& connection, Kind kind) : connection_(&connection) {
    connection.run(kind == Kind::view ? "BEGIN" : "BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
    if (!open_) return;
    try {
        connection_->run("ROLLBACK");
    } catch (const SQLite::Exception&) {
        // After some failures, a full disk for one, SQLite has undone it itself.
    }
}

void Transaction::commit() {
    connection_->run("COMMIT");
    open_ = false;
}

Result<std::unique_ptr<Connection>> Readers::take() {
    {
        const std::lock_guard lock(mutex_);
        if (!idle_.empty()) {
            auto connection = std::move(idle_.back());
            idle_.pop_back();
            return connection;
        }
    }
    return Connection::open(file_, mode_);
}

void Readers::give_back(std::unique_ptr<Connection> connection) {
    const std::lock_guard lock(mutex_);
    idle_.push_back(std::move(connection));
}

}  // namespace fallaway::store
