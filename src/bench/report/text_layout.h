// Laying out plain text: display widths, wrapping, columns, and the few escape codes of a terminal.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fallaway::report {

// Columns that a text takes in a terminal.
int columns(std::string_view text);

// Lines of at most `width` columns (at least 1), broken between words; a word that is longer is cut. Never empty.
std::vector<std::string> wrap(std::string_view text, int width);

// Wrapped lines with their line ends: `first` before the first, as many blanks before the others.
std::string hanging(std::string_view first, std::string_view text, int width);

enum class Ink { normal, bold, red };

struct Cell {
    std::string text;
    Ink ink = Ink::normal;
};
using Row = std::vector<Cell>;

struct Layout {
    int width = 100;
    bool colour = false;
};

// `text` between the SGR codes of `ink`, or as it is without colour.
std::string inked(std::string_view text, Ink ink, bool colour);

// Rows in aligned columns, two blanks apart, `indent` before the first. A column is as wide as its widest cell,
// but at most its share of `most`; the last one takes what is left and wraps. A column that is empty throughout is
// left out. With `fixed` every column has its full share, so that calls one after another align.
std::string aligned(std::vector<Row> rows, int indent, const std::vector<int>& most, const Layout& layout,
                    bool fixed = false);

}  // namespace fallaway::report
