// The list of visits and of instruments, and what is found in them. Every row carries its folded words in a column
// of its own, and a search goes through all of them in the order of the list: thousands of short texts take a few
// milliseconds, and a part from inside a word is found as well.
#include <algorithm>

#include <fmt/format.h>

#include "shop/store/inside.h"
#include "shop/store/text_fold.h"

namespace fallaway::store {
namespace {

Result<std::vector<std::string>> query_words(std::string_view query) {
    if (query.size() > kLongestQuery) {
        return fail("size", "query", fmt::format("{} bytes long; at most {}", query.size(), kLongestQuery));
    }
    return words_of(fold(query));
}

struct Matches {
    std::vector<std::int64_t> rows;  // of those asked for
    std::int64_t total = 0;
};

// `list` answers the number and the words of each row.
Matches matches(Query& list, const std::vector<std::string>& words, std::int64_t limit, std::int64_t offset) {
    Matches found;
    while (list.step()) {
        const std::string_view text = list.view(1);
        const bool all = std::all_of(words.begin(), words.end(), [text](const std::string& word) {
            return text.find(word) != std::string_view::npos;
        });
        if (!all) continue;
        if (found.total >= offset && found.total < offset + limit) found.rows.push_back(list.whole(0));
        ++found.total;
    }
    return found;
}

// The rows of those numbers, which `sql` answers one by one.
template <class Row>
std::vector<Row> fetch(Connection& connection, const std::string& sql, const std::vector<std::int64_t>& numbers,
                       Row (*read_row)(const Query&)) {
    std::vector<Row> rows;
    for (const std::int64_t number : numbers) {
        Query query = connection.query(sql);
        if (query.with(number).step()) rows.push_back(read_row(query));
    }
    return rows;
}

}  // namespace

std::string search_words(const Dossier& dossier) {
    return fold(fmt::format("{}\n{}\n{}", dossier.title, dossier.serial, dossier.owner));
}

std::string search_words(const VisitCard& card, std::string_view owner) {
    return fold(fmt::format("{}\n{}\n{}\n{}\n{}", card.title, card.serial, card.player, owner, card.verdict));
}

Result<Store::Found> Store::find_visits(std::string_view query, int limit, int offset) const {
    const auto words = query_words(query);
    if (!words) return tl::unexpected(words.error());
    return inside_->read([&](Connection& connection) -> Result<Found> {
        Query list = connection.query("SELECT n, words FROM visit ORDER BY shut, due, last DESC, n DESC");
        const Matches found = matches(list, *words, limit, offset);
        const std::string row = fmt::format("SELECT {} FROM visit WHERE n = ?1", kVisitColumns);
        return Found{fetch(connection, row, found.rows, visit_row), found.total};
    });
}

Result<std::vector<Dossier>> Store::find_dossiers(std::string_view query, int limit) const {
    const auto words = query_words(query);
    if (!words) return tl::unexpected(words.error());
    return inside_->read([&](Connection& connection) -> Result<std::vector<Dossier>> {
        Query list = connection.query(
            "SELECT dossier.n, dossier.words FROM dossier LEFT JOIN (SELECT dossier AS id, max(julianday(opened)) "
            "AS "
            "seen FROM visit GROUP BY dossier) AS stay ON stay.id = dossier.id ORDER BY seen DESC, dossier.n "
            "DESC");
        const Matches found = matches(list, *words, limit, 0);
        const std::string row = fmt::format("SELECT {} FROM dossier WHERE n = ?1", kDossierColumns);
        return fetch(connection, row, found.rows, dossier_row);
    });
}

}  // namespace fallaway::store
