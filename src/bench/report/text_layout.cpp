#include "bench/report/text_layout.h"

#include <algorithm>

#include <fmt/format.h>

#include "bench/report/markup.h"
#include "bench/report/utf8.h"

namespace fallaway::report {
namespace {

constexpr int kGap = 2;

// As many code points as fit into `width`, at least one.
std::string_view fitting(std::string_view word, int width) {
    std::size_t bytes = 0;
    int used = 0;
    while (bytes < word.size()) {
        const CodePoint point = first_code_point(word.substr(bytes));
        const int wide = columns_of(point.value);
        if (bytes > 0 && used + wide > width) break;
        used += wide;
        bytes += point.bytes;
    }
    return word.substr(0, bytes);
}

void add_word(std::vector<std::string>& lines, std::string_view word, int width) {
    const int before = columns(lines.back());
    if (before > 0 && before + 1 + columns(word) <= width) {
        lines.back() += fmt::format(" {}", word);
        return;
    }
    if (before > 0) lines.emplace_back();
    while (columns(word) > width) {
        const std::string_view part = fitting(word, width);
        lines.back() += part;
        lines.emplace_back();
        word.remove_prefix(part.size());
    }
    lines.back() += word;
}

std::string blanks(int n) {
    return std::string(static_cast<std::size_t>(std::max(n, 0)), ' ');
}

void drop_empty_columns(std::vector<Row>& rows, std::vector<int>& most) {
    for (std::size_t c = most.size(); c-- > 0;) {
        const bool used = std::ranges::any_of(rows, [&](const Row& row) { return !row[c].text.empty(); });
        if (used || most.size() == 1) continue;
        for (Row& row : rows) row.erase(row.begin() + static_cast<std::ptrdiff_t>(c));
        most.erase(most.begin() + static_cast<std::ptrdiff_t>(c));
    }
}

std::vector<int> widths_for(const std::vector<Row>& rows, int room, const std::vector<int>& most, bool fixed) {
    std::vector<int> widths;
    for (std::size_t c = 0; c + 1 < most.size(); ++c) {
        int widest = 1;
        for (const Row& row : rows) widest = std::max(widest, columns(row[c].text));
        widths.push_back(fixed ? most[c] : std::min(widest, most[c]));
        room -= widths.back() + kGap;
    }
    widths.push_back(std::max(room, 8));
    return widths;
}

std::string lines_of(const Row& row, const std::vector<int>& widths, int indent, bool colour) {
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t c = 0; c < row.size(); ++c) {
        cells.push_back(wrap(row[c].text, widths[c]));
        height = std::max(height, cells.back().size());
    }
    std::string out;
    for (std::size_t i = 0; i < height; ++i) {
        std::string line = blanks(indent);
        int owed = 0;  // blanks before the next cell that has something to say
        for (std::size_t c = 0; c < row.size(); ++c) {
            const std::string part = i < cells[c].size() ? cells[c][i] : "";
            if (!part.empty()) {
                line += blanks(owed) + inked(part, row[c].ink, colour);
                owed = 0;
            }
            owed += widths[c] - columns(part) + kGap;
        }
        out += line + '\n';
    }
    return out;
}

}  // namespace

int columns(std::string_view text) {
    int total = 0;
    while (!text.empty()) {
        const CodePoint point = first_code_point(text);
        total += columns_of(point.value);
        text.remove_prefix(point.bytes);
    }
    return total;
}

std::vector<std::string> wrap(std::string_view text, int width) {
    const std::string clean = plain(text);
    std::vector<std::string> lines(1);
    std::string_view rest = clean;
    while (!rest.empty()) {
        const auto end = std::min(rest.find(' '), rest.size());
        if (end > 0) add_word(lines, rest.substr(0, end), std::max(width, 1));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return lines;
}

std::string hanging(std::string_view first, std::string_view text, int width) {
    const int indent = columns(first);
    std::string out;
    for (const std::string& line : wrap(text, width - indent)) {
        out += (out.empty() ? std::string(first) : blanks(indent)) + line + '\n';
    }
    return out;
}

std::string inked(std::string_view text, Ink ink, bool colour) {
    if (!colour || ink == Ink::normal || text.empty()) return std::string(text);
    return fmt::format("\x1b[{}m{}\x1b[0m", ink == Ink::bold ? "1" : "31", text);
}

std::string aligned(std::vector<Row> rows, int indent, const std::vector<int>& most, const Layout& layout,
                    bool fixed) {
    std::vector<int> shares = most;
    for (Row& row : rows) row.resize(shares.size());
    if (!fixed) drop_empty_columns(rows, shares);
    const std::vector<int> widths = widths_for(rows, layout.width - indent, shares, fixed);
    std::string out;
    for (const Row& row : rows) out += lines_of(row, widths, indent, layout.colour);
    return out;
}

}  // namespace fallaway::report
