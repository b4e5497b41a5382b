// One connection to the shop's database, and what its failures mean to a person.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/result.h"

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace fallaway::store {

inline constexpr int kPatience = 5000;  // ms to wait for another program that writes

// A prepared statement while it is in use. Must not outlive its connection, and not be asked for twice at once.
class Query {
public:
    explicit Query(SQLite::Statement& statement) : statement_(&statement) {}
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;
    // A statement that was not read to its end would hold on to an old view of the database.
    ~Query();

    // Binds ?1, ?2, ... in order.
    template <class... Values>
    Query& with(const Values&... values) {
        int index = 0;
        (bind(++index, values), ...);
        return *this;
    }
    bool step();  // to the next row; false after the last
    int run();    // rows changed

    std::string text(int column) const;
    std::string_view view(int column) const;  // of a text, until the next step
    std::int64_t whole(int column) const;
    double real(int column) const;
    bool null(int column) const;

private:
    void bind(int index, std::string_view value);
    void bind(int index, const std::string& value);
    void bind(int index, const std::optional<std::string>& value);
    void bind(int index, std::int64_t value);
    void bind(int index, int value) { bind(index, std::int64_t(value)); }
    void bind(int index, bool value) { bind(index, std::int64_t(value)); }
    void bind(int index, double value);

    SQLite::Statement* statement_;
};

class Connection {
public:
    enum class Mode {
        create,     // a new file
        write,      // a file that is there
        read,       // the same, for reading
        unchanging  // a file that nobody can write at all, so that SQLite may do without its own files beside it
    };
    static Result<std::unique_ptr<Connection>> open(const std::filesystem::path& file, Mode mode);

    ~Connection();

    Query query(std::string_view sql);  // prepared once
    void run(const std::string& sql);
    std::int64_t number(std::string_view sql);  // the one number it answers
    std::int64_t last_row() const;              // the number of the row inserted last
    SQLite::Database& database() { return *database_; }

    // What the exception that is being handled means; throws it on when it is a fault of ours.
    Error explain() const;

private:
    Connection(std::filesystem::path file, std::unique_ptr<SQLite::Database> database);

    std::filesystem::path file_;
    std::unique_ptr<SQLite::Database> database_;
    std::map<std::string, std::unique_ptr<SQLite::Statement>, std::less<>> prepared_;
};

// Undone when it goes, unless it was committed.
class Transaction {
public:
    enum class Kind {
        view,   // one view of the database from beginning to end
        change  // the same, and nobody else writes
    };
    Transaction(Connection& connection, Kind kind);
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    ~Transaction();
    void commit();

private:
    Connection* connection_;
    bool open_ = true;
};

// Runs `action`, which answers a Result; what SQLite throws meanwhile becomes its error.
template <class Action>
auto guarded(const Connection& connection, Action&& action) -> decltype(action()) {
    try {
        return action();
    } catch (...) {
        return tl::unexpected<Error>(connection.explain());
    }
}

// Connections for reading, as many as threads read at once; they are kept for the next.
class Readers {
public:
    Readers(std::filesystem::path file, Connection::Mode mode) : file_(std::move(file)), mode_(mode) {}

    // Runs `action` on a connection of its own, on one view of the database from beginning to end.
    template <class Action>
    auto read(Action&& action) -> decltype(action(std::declval<Connection&>())) {
        auto connection = take();
        if (!connection) return tl::unexpected<Error>(connection.error());
        auto result = guarded(**connection, [&] {
            const Transaction view(**connection, Transaction::Kind::view);
            return action(**connection);
        });
        give_back(std::move(*connection));
        return result;
    }

private:
    Result<std::unique_ptr<Connection>> take();
    void give_back(std::unique_ptr<Connection> connection);

    std::filesystem::path file_;
    Connection::Mode mode_;
    std::mutex mutex_;
    std::vector<std::unique_ptr<Connection>> idle_;
};

}  // namespace fallaway::store
