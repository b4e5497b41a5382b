// Dossiers, visits and the entries of their histories.
#include <fmt/format.h>

#include "shop/files/digest.h"
#include "shop/store/inside.h"

namespace fallaway::store {
namespace {

bool is_id(std::string_view text) {
    return text.size() == 16 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

Result<void> check_id(std::string_view id, std::string path) {
    if (is_id(id)) return {};
    return fail("syntax", std::move(path),
                fmt::format("\"{}\": expected an id of 16 lower-case hexadecimal digits", id));
}

tl::unexpected<Error> missing(std::string_view what, std::string_view id) {
    return fail("missing", std::string(what), fmt::format("\"{}\": no such {} in the shop", id, what));
}

template <class Row>
Result<Row> one(Query& query, Row (*read_row)(const Query&), std::string_view what, std::string_view id) {
    if (!query.step()) return missing(what, id);
    return read_row(query);
}

Result<Dossier> find_dossier(Connection& connection, std::string_view id) {
    Query query = connection.query(fmt::format("SELECT {} FROM dossier WHERE id = ?1", kDossierColumns));
    return one(query.with(id), dossier_row, "dossier", id);
}

Result<Visit> find_visit(Connection& connection, std::string_view id) {
    Query query = connection.query(fmt::format("SELECT {} FROM visit WHERE id = ?1", kVisitColumns));
    return one(query.with(id), visit_row, "visit", id);
}

// The seq of the entry when it is there already, 0 when it is not.
Result<std::int64_t> known(Connection& connection, const EntryRow& entry, std::string_view visit,
                           std::string path) {
    Query query = connection.query("SELECT seq, visit, body FROM entry WHERE id = ?1");
    if (!query.with(entry.id).step()) return 0;
    if (query.text(1) == visit && query.text(2) == entry.body) return query.whole(0);
    return fail("conflict", std::move(path),
                fmt::format("\"{}\": this id stands for another entry already", entry.id));
}

struct Stored {
    std::vector<std::int64_t> seqs;
    bool added = false;
};

Result<Stored> add_entries(Connection& connection, std::string_view visit, std::span<const EntryRow> entries,
                           std::string_view list) {
    Stored stored;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        EntryRow entry = entries[i];
        const std::string path = fmt::format("/{}/{}/id", list, i);
        if (auto good = check_id(entry.id, path); !good) return tl::unexpected(good.error());
        auto seq = known(connection, entry, visit, path);
        if (!seq) return tl::unexpected(seq.error());
        if (*seq == 0) {
            entry.visit = visit;
            connection
                .query("INSERT INTO entry (id, visit, device, at, body, sum) VALUES (?1, ?2, ?3, ?4, ?5, ?6)")
                .with(entry.id, visit, entry.device, entry.at, entry.body, sum_of(entry))
                .run();
            *seq = connection.last_row();
            stored.added = true;
        }
        stored.seqs.push_back(*seq);
    }
    if (stored.added) {
        connection.query("UPDATE visit SET seq = (SELECT max(seq) FROM entry WHERE visit = ?1) WHERE id = ?1")
            .with(visit)
            .run();
    }
    return stored;
}

void write_card(Connection& connection, std::string_view visit, const VisitCard& card, std::string_view owner) {
    connection
        .query(
            "UPDATE visit SET title = ?2, serial = ?3, player = ?4, scope = ?5, promised = ?6, verdict = ?7, "
            "next = ?8, minutes_total = ?9, minutes_left = ?10, readings = ?11, demo = ?12, words = ?13 "
            "WHERE id = ?1")
        .with(visit, card.title, card.serial, card.player, card.scope, card.promised, card.verdict, card.next,
              card.minutes_total, card.minutes_left, card.readings, card.demo, search_words(card, owner))
        .run();
}

Result<void> replace_card(Connection& connection, std::string_view id, const VisitCard& card) {
    const auto visit = find_visit(connection, id);
    if (!visit) return tl::unexpected(visit.error());
    const auto dossier = find_dossier(connection, visit->dossier);
    if (!dossier) return tl::unexpected(dossier.error());
    write_card(connection, id, card, dossier->owner);
    return {};
}

// Is the visit that is there the one that is added again?
Result<Visit> same_visit(Connection& connection, const Visit& there, const Visit& visit,
                         std::span<const EntryRow> first) {
    if (there.dossier != visit.dossier) {
        return fail("conflict", "visit", fmt::format("\"{}\": a visit of another dossier already", visit.id));
    }
    for (std::size_t i = 0; i < first.size(); ++i) {
        const auto seq = known(connection, first[i], visit.id, fmt::format("/first/{}/id", i));
        if (!seq) return tl::unexpected(seq.error());
        if (*seq == 0) {
            return fail("conflict", "visit",
                        fmt::format("\"{}\": is there already and began with other entries", visit.id));
        }
    }
    return there;
}

Result<void> check_procedure(Connection& connection, const std::string& hash) {
    if (hash.empty() || connection.query("SELECT 1 FROM procedure WHERE hash = ?1").with(hash).step()) return {};
    return missing("procedure", hash);
}

std::optional<std::string> unless_empty(const std::string& text) {
    return text.empty() ? std::nullopt : std::optional(text);
}

}  // namespace

Dossier dossier_row(const Query& row) {
    return {row.text(0), row.text(1), row.text(2), row.text(3), row.text(4), row.text(5)};
}

Visit visit_row(const Query& row) {
    Visit visit{row.text(0), row.text(1), row.text(2), std::nullopt, row.text(4), row.whole(5), {}};
    if (!row.null(3)) visit.closed = row.text(3);
    visit.card = {row.text(6),  row.text(7),  row.text(8),  row.text(9),        row.text(10),      row.text(11),
                  row.text(12), row.real(13), row.real(14), int(row.whole(15)), row.whole(16) != 0};
    return visit;
}

EntryRow entry_row(const Query& row) {
    return {row.whole(0), row.text(1), row.text(2), row.text(3), row.text(4), row.text(5)};
}

std::string sum_of(const EntryRow& entry) {
    std::string all;  // lengths between, so that no letter can move from one field to the next
    for (const std::string* field : {&entry.id, &entry.visit, &entry.device, &entry.at, &entry.body}) {
        all += fmt::format("{}:{}", field->size(), *field);
    }
    return files::sha256_hex(all).substr(0, 16);
}

Result<void> Store::add_dossier(const Dossier& dossier) {
    if (auto good = check_id(dossier.id, "dossier"); !good) return good;
    return inside_->write([&](Connection& connection) -> Result<void> {
        if (const auto there = find_dossier(connection, dossier.id)) {
            if (*there == dossier) return {};
            return fail("conflict", "dossier",
                        fmt::format("\"{}\": stands for another dossier already", dossier.id));
        }
        connection
            .query(
                "INSERT INTO dossier (id, kind, title, serial, owner, created, words) "
                "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)")
            .with(dossier.id, dossier.kind, dossier.title, dossier.serial, dossier.owner, dossier.created,
                  search_words(dossier))
            .run();
        return {};
    });
}

Result<void> Store::update_dossier(const Dossier& dossier) {
    return inside_->write([&](Connection& connection) -> Result<void> {
        const int changed = connection
                                .query(
                                    "UPDATE dossier SET kind = ?2, title = ?3, serial = ?4, owner = ?5, "
                                    "created = ?6, words = ?7 WHERE id = ?1")
                                .with(dossier.id, dossier.kind, dossier.title, dossier.serial, dossier.owner,
                                      dossier.created, search_words(dossier))
                                .run();
        if (changed == 0) return missing("dossier", dossier.id);
        // The owner is among the words of every stay.
        Query query = connection.query(fmt::format("SELECT {} FROM visit WHERE dossier = ?1", kVisitColumns));
        for (const Visit& visit : rows_of(query.with(dossier.id), visit_row)) {
            write_card(connection, visit.id, visit.card, dossier.owner);
        }
        return {};
    });
}

Result<Dossier> Store::dossier(std::string_view id) const {
    return inside_->read([&](Connection& connection) { return find_dossier(connection, id); });
}

Result<Visit> Store::add_visit(const Visit& visit, std::span<const EntryRow> first) {
    if (auto good = check_id(visit.id, "visit"); !good) return tl::unexpected(good.error());
    return inside_->write([&](Connection& connection) -> Result<Visit> {
        if (const auto there = find_visit(connection, visit.id))
            return same_visit(connection, *there, visit, first);
        const auto dossier = find_dossier(connection, visit.dossier);
        if (!dossier) return tl::unexpected(dossier.error());
        if (auto kept = check_procedure(connection, visit.procedure); !kept) return tl::unexpected(kept.error());
        connection
            .query(
                "INSERT INTO visit (id, dossier, opened, closed, procedure, seq, title, serial, player, scope, "
                "promised, verdict, next, minutes_total, minutes_left, readings, demo, words) "
                "VALUES (?1, ?2, ?3, ?4, ?5, 0, '', '', '', '', '', '', '', 0, 0, 0, 0, '')")
            .with(visit.id, visit.dossier, visit.opened, visit.closed, unless_empty(visit.procedure))
            .run();
        write_card(connection, visit.id, visit.card, dossier->owner);
        if (auto stored = add_entries(connection, visit.id, first, "first"); !stored) {
            return tl::unexpected(stored.error());
        }
        return find_visit(connection, visit.id);
    });
}

Result<Visit> Store::visit(std::string_view id) const {
    return inside_->read([&](Connection& connection) { return find_visit(connection, id); });
}

Result<std::vector<Visit>> Store::visits_of(std::string_view dossier) const {
    return inside_->read([&](Connection& connection) -> Result<std::vector<Visit>> {
        Query query = connection.query(fmt::format(
            "SELECT {} FROM visit WHERE dossier = ?1 ORDER BY julianday(opened) DESC, n DESC", kVisitColumns));
        return rows_of(query.with(dossier), visit_row);
    });
}

Result<void> Store::close_visit(std::string_view id, const std::optional<std::string>& when) {
    return inside_->write([&](Connection& connection) -> Result<void> {
        if (connection.query("UPDATE visit SET closed = ?2 WHERE id = ?1").with(id, when).run() == 0) {
            return missing("visit", id);
        }
        return {};
    });
}

Result<std::vector<std::int64_t>> Store::append(std::string_view visit, std::span<const EntryRow> entries,
                                                const VisitCard& card) {
    return inside_->write([&](Connection& connection) -> Result<std::vector<std::int64_t>> {
        if (const auto there = find_visit(connection, visit); !there) return tl::unexpected(there.error());
        auto stored = add_entries(connection, visit, entries, "entries");
        if (!stored) return tl::unexpected(stored.error());
        if (stored->added) {
            if (auto written = replace_card(connection, visit, card); !written)
                return tl::unexpected(written.error());
        }
        return std::move(stored->seqs);
    });
}

Result<std::vector<EntryRow>> Store::entries(std::string_view visit, std::int64_t after) const {
    return inside_->read([&](Connection& connection) -> Result<std::vector<EntryRow>> {
        if (const auto there = find_visit(connection, visit); !there) return tl::unexpected(there.error());
        Query query = connection.query(
            fmt::format("SELECT {} FROM entry WHERE visit = ?1 AND seq > ?2 ORDER BY seq", kEntryColumns));
        return rows_of(query.with(visit, after), entry_row);
    });
}

Result<void> Store::set_card(std::string_view visit, const VisitCard& card) {
    return inside_->write([&](Connection& connection) { return replace_card(connection, visit, card); });
}

}  // namespace fallaway::store
