#include "bench/report/table.h"

#include <algorithm>

#include <fmt/format.h>

namespace fallaway::report {
namespace {

void drop_empty_columns(Table& table) {
    for (std::size_t c = table.columns.size(); c-- > 1;) {
        const bool used =
            std::ranges::any_of(table.rows, [&](const TableRow& row) { return !row.cells[c].empty(); });
        if (used) continue;
        table.columns.erase(table.columns.begin() + static_cast<std::ptrdiff_t>(c));
        for (TableRow& row : table.rows) row.cells.erase(row.cells.begin() + static_cast<std::ptrdiff_t>(c));
    }
}

Markup head_of(const Table& table) {
    Markup cells;
    for (const Column& column : table.columns) {
        cells +=
            tag("th", {{"scope", "col"}, {"role", "columnheader"}, {"class", column.style}}, text(column.heading));
    }
    return tag("thead", {{"role", "rowgroup"}}, tag("tr", {{"role", "row"}}, cells));
}

Markup widths_of(const Table& table) {
    int total = 0;
    for (const Column& column : table.columns) total += column.share;
    Markup cols;
    for (const Column& column : table.columns) {
        cols += void_tag("col", {{"style", fmt::format("width:{:.2f}%", 100.0 * column.share / total)}});
    }
    return tag("colgroup", cols);
}

}  // namespace

Markup render(Table table) {
    for (TableRow& row : table.rows) row.cells.resize(table.columns.size());
    if (!table.keep_columns) drop_empty_columns(table);
    Markup body;
    for (const TableRow& row : table.rows) {
        Markup cells;
        for (std::size_t c = 0; c < row.cells.size(); ++c) {
            const bool names = c == 0;
            Attributes attributes{{"role", names ? "rowheader" : "cell"},
                                  {"scope", names ? "row" : ""},
                                  {"class", row.cells[c].empty() ? "none" : table.columns[c].style},
                                  {"data-label", table.columns[c].heading}};
            cells += tag(names ? "th" : "td", attributes, row.cells[c]);
        }
        body += tag("tr", {{"role", "row"}}, cells);
    }
    const Markup caption = tag("caption", text(table.caption));
    return tag("table", {{"role", "table"}},
               caption + widths_of(table) + head_of(table) + tag("tbody", {{"role", "rowgroup"}}, body));
}

Markup twin_table(const std::string& caption, const std::vector<std::string>& headings,
                  const std::vector<std::vector<std::string>>& rows) {
    Markup head;
    for (const std::string& heading : headings) head += tag("th", {{"scope", "col"}}, text(heading));
    Markup body;
    for (const auto& row : rows) {
        Markup cells;
        for (std::size_t c = 0; c < row.size(); ++c) {
            cells += c == 0 ? tag("th", {{"scope", "row"}}, text(row[c])) : tag("td", text(row[c]));
        }
        body += tag("tr", cells);
    }
    return tag("table", tag("caption", text(caption)) + tag("thead", tag("tr", head)) + tag("tbody", body));
}

}  // namespace fallaway::report
