// What an open store holds, and how its parts read and write.
#pragma once

#include <filesystem>
#include <memory>
#include <mutex>

#include "shop/store/connection.h"
#include "shop/store/copy.h"
#include "shop/store/store.h"

namespace fallaway::store {

struct Store::Inside {
    std::filesystem::path folder;
    FolderLock lock;
    std::unique_ptr<Connection> writer;  // none in a store that is open for reading
    mutable Readers readers;             // closed before the writer, which leaves the folder tidy
    std::mutex writing{};
    std::mutex adding_media{};

    // Runs `action` on one view of the database.
    template <class Action>
    auto read(Action&& action) const -> decltype(action(std::declval<Connection&>())) {
        return readers.read(action);
    }

    // Runs `action` in a transaction that is kept when it answers a value, and undone when it answers an error.
    template <class Action>
    auto write(Action&& action) -> decltype(action(std::declval<Connection&>())) {
        if (!writer) return fail("read only", folder.string(), "the shop is open for reading alone");
        const std::lock_guard alone(writing);
        return guarded(*writer, [&] {
            Transaction transaction(*writer, Transaction::Kind::change);
            auto result = action(*writer);
            if (result) transaction.commit();
            return result;
        });
    }
};

// Every row of `query`, through `read_row`.
template <class Row>
std::vector<Row> rows_of(Query& query, Row (*read_row)(const Query&)) {
    std::vector<Row> rows;
    while (query.step()) rows.push_back(read_row(query));
    return rows;
}

// Dossiers and visits as their rows hold them; the columns in the order that the readers expect.
inline constexpr std::string_view kDossierColumns = "id, kind, title, serial, owner, created";
Dossier dossier_row(const Query& row);
inline constexpr std::string_view kVisitColumns =
    "id, dossier, opened, closed, procedure, seq, title, serial, player, scope, promised, verdict, next, "
    "minutes_total, minutes_left, readings, demo";
Visit visit_row(const Query& row);

// The first 16 digits of the SHA-256 of what an entry holds.
std::string sum_of(const EntryRow& entry);
EntryRow entry_row(const Query& row);
inline constexpr std::string_view kEntryColumns = "seq, id, visit, device, at, body";

// What the search looks through.
std::string search_words(const Dossier& dossier);
std::string search_words(const VisitCard& card, std::string_view owner);

}  // namespace fallaway::store
