// Tables that stay tables for a screen reader and become stacked rows on a narrow page.
#pragma once

#include <string>
#include <vector>

#include "bench/report/markup.h"

namespace fallaway::report {

struct Column {
    std::string heading;
    int share = 1;        // of the width
    std::string style{};  // class of its cells
};

struct TableRow {
    std::vector<Markup> cells;  // as many as columns; the first one names the row
};

struct Table {
    std::string caption;  // for screen readers
    std::vector<Column> columns;
    std::vector<TableRow> rows;
    bool keep_columns = false;
};

// Columns that are empty in every row are left out, unless tables one below the other are to align.
Markup render(Table table);

// A plain one for the twins of figures: no styling, every cell foreign text.
Markup twin_table(const std::string& caption, const std::vector<std::string>& headings,
                  const std::vector<std::vector<std::string>>& rows);

}  // namespace fallaway::report
