#include "bench/sums/page.h"

#include <algorithm>

#include <fmt/format.h>

#include "bench/sums/arguments.h"

namespace fallaway::sums {
namespace {

// Characters as a terminal shows them: bytes that continue a UTF-8 character take no column.
std::size_t columns(std::string_view text) {
    return static_cast<std::size_t>(std::ranges::count_if(text, [](char c) { return (c & 0xC0) != 0x80; }));
}

std::string padded(std::string_view text, std::size_t width) {
    return std::string(text) + std::string(width - std::min(width, columns(text)), ' ');
}

std::string right_aligned(std::string_view text, std::size_t width) {
    return std::string(width - std::min(width, columns(text)), ' ') + std::string(text);
}

// Words of `text` in lines no wider than the page; the first begins with `first`, the others with as many blanks.
std::string wrapped(std::string_view first, std::string_view text) {
    const std::string indent(columns(first), ' ');
    std::string out;
    std::string line(first);
    bool is_empty = true;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const std::string_view word = text.substr(begin, end - begin);
        if (!is_empty && columns(line) + 1 + columns(word) > kPageWidth) {
            out += line + "\n";
            line = indent;
            is_empty = true;
        }
        if (!is_empty) line += " ";
        line += word;
        is_empty = false;
        begin = end + 1;
    }
    return out + line + "\n";
}

template <class Items, class Text>
std::size_t widest(const Items& items, Text text) {
    std::size_t width = 0;
    for (const auto& item : items) width = std::max(width, columns(text(item)));
    return width;
}

const std::string& value_text(const AnswerValue& value) {
    return value.unit == nullptr ? value.word : value.texts.front();
}

std::string single_values(const std::vector<AnswerValue>& outputs) {
    std::vector<const AnswerValue*> singles;
    for (const AnswerValue& value : outputs) {
        if (!value.is_column) singles.push_back(&value);
    }
    const std::size_t names = widest(singles, [](const AnswerValue* v) { return std::string_view(v->name); });
    const std::size_t values =
        widest(singles, [](const AnswerValue* v) { return std::string_view(value_text(*v)); });
    std::string out;
    for (const AnswerValue* value : singles) {
        const std::string head =
            fmt::format("  {}  {}  ", padded(value->name, names), padded(value_text(*value), values));
        out += wrapped(head, value->says);
    }
    return out;
}

std::string column_values(const std::vector<AnswerValue>& outputs) {
    std::vector<const AnswerValue*> table;
    std::vector<std::size_t> widths;
    std::size_t rows = 0;
    for (const AnswerValue& value : outputs) {
        if (!value.is_column) continue;
        table.push_back(&value);
        widths.push_back(std::max(columns(value.name),
                                  widest(value.texts, [](const std::string& t) { return std::string_view(t); })));
        rows = std::max(rows, value.texts.size());
    }
    std::string out;
    for (std::size_t c = 0; c < table.size(); ++c) out += "  " + right_aligned(table[c]->name, widths[c]);
    if (!table.empty()) out += "\n";
    for (std::size_t row = 0; row < rows; ++row) {
        for (std::size_t c = 0; c < table.size(); ++c) {
            out += "  " + right_aligned(row < table[c]->texts.size() ? table[c]->texts[row] : "", widths[c]);
        }
        out += "\n";
    }
    return out;
}

std::string input_line(const Input& input) {
    std::string line = input.says;
    if (input.kind != Kind::text) line += fmt::format("; {}", expectation(input));
    if (input.kind == Kind::list) line += " (a list)";
    if (input.kind == Kind::table) line += " (rows parted by semicolons)";
    if (!input.usual.empty()) line += fmt::format("; {} when left out", input.usual);
    if (input.may_be_left_out) line += "; may be left out";
    return line;
}

std::string command_line(const Sum& sum) {
    std::string line = "fallaway sums " + sum.name;
    for (const Argument& argument : sum.example) {
        const bool bare = argument.text.find_first_of(" ;/#\"") == std::string::npos;
        line += bare ? fmt::format(" {}={}", argument.key, argument.text)
                     : fmt::format(" {}='{}'", argument.key, argument.text);
    }
    return line;
}

// A bar would end a cell of a Markdown table.
std::string cell(std::string_view text) {
    std::string out;
    for (const char c : text) out += c == '|' ? std::string("\\|") : std::string(1, c);
    return out;
}

std::string unit_name(const Output& output) {
    if (output.is_word) return "word";
    if (!output.dimension) return "as the readings";
    if (!output.unit_as_given_for.empty()) return fmt::format("as `{}`", output.unit_as_given_for);
    return output.unit.empty() ? "number" : output.unit;
}

std::string chapter(const Sum& sum) {
    std::string out =
        fmt::format("### {}\n\n**{}.** {}\n\n| input | says |\n|---|---|\n", sum.name, sum.title, sum.says);
    for (const Input& input : sum.inputs)
        out += fmt::format("| `{}` | {} |\n", input.name, cell(input_line(input)));
    out += "\n| output | says | unit |\n|---|---|---|\n";
    for (const Output& output : sum.outputs) {
        out += fmt::format("| `{}` | {} | {} |\n", output.name, cell(output.says), cell(unit_name(output)));
    }
    out += fmt::format("\nFormula: {}.\n\nSource: {}.\n", sum.formula, sum.source);
    for (const std::string& caution : sum.cautions) out += fmt::format("\n> Caution: {}\n", caution);
    out += fmt::format("\n```\n$ {}\n", command_line(sum));
    if (const auto answer = run(sum, sum.example)) out += answer_text(sum, *answer);
    return out + "```\n";
}

}  // namespace

std::string answer_text(const Sum& sum, const Answer& answer) {
    std::string out = sum.title + "\n" + single_values(answer.outputs) + column_values(answer.outputs);
    for (const std::string& note : answer.notes) out += wrapped("  ", note);
    for (const std::string& caution : answer.cautions) out += wrapped("  Caution: ", caution);
    return out;
}

std::string list_text() {
    const std::size_t width = widest(registry(), [](const Sum& sum) { return std::string_view(sum.name); });
    std::string out;
    for (const Theme& theme : themes()) {
        out += fmt::format("{}{}\n", out.empty() ? "" : "\n", theme.title);
        for (const Sum& sum : theme.sums)
            out += wrapped(fmt::format("  {}  ", padded(sum.name, width)), sum.title);
    }
    return out;
}

std::string usage_text(const Sum& sum) {
    const std::size_t width = widest(sum.inputs, [](const Input& input) { return std::string_view(input.name); });
    std::string out;
    for (const Input& input : sum.inputs)
        out += wrapped(fmt::format("  {}  ", padded(input.name, width)), input_line(input));
    return out + wrapped("  Example: ", command_line(sum));
}

std::string manual_markdown() {
    std::string out =
        "# Sums\n\n"
        "<!-- Written from src/bench/sums; a test compares it. FALLAWAY_UPDATE=1 writes it anew. -->\n\n"
        "`fallaway sums NAME key=value ...` does a small calculation, `fallaway sums --list` names them all, "
        "`--json` "
        "answers\nfor programs. Values carry their unit: `scale='635 mm'`. An uncertainty may stand beside a "
        "value "
        "(`'635 mm \u00B1 0.3'`)\nand is carried to the result. A list is parted by commas or spaces and may have "
        "its "
        "unit once, at the end\n(`'1.6 1.65 1.6 mm'`); rows of a table are parted by semicolons. Where an input "
        "says "
        "\"quantity\", any kind will do,\nthe same for all such inputs of the sum.\n";
    for (const Theme& theme : themes()) {
        out += fmt::format("\n## {}\n", theme.title);
        for (const Sum& sum : theme.sums) out += "\n" + chapter(sum);
    }
    return out;
}

}  // namespace fallaway::sums
