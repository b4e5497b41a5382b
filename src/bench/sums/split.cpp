#include "bench/sums/split.h"

#include <algorithm>

#include <fmt/format.h>

#include "science/base/quote.h"

namespace fallaway::sums {
namespace {

constexpr std::size_t kMostValues = 10000;
constexpr std::string_view kBlanks = " \t\r\n";

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

std::string_view trimmed(std::string_view text) {
    const std::size_t begin = text.find_first_not_of(kBlanks);
    if (begin == text.npos) return {};
    return text.substr(begin, text.find_last_not_of(kBlanks) - begin + 1);
}

std::vector<std::string> split_at(std::string_view text, std::string_view marks) {
    std::vector<std::string> pieces;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(marks, begin), text.size());
        pieces.emplace_back(trimmed(text.substr(begin, end - begin)));
        begin = end + 1;
    }
    return pieces;
}

bool has_comma_between_digits(std::string_view text) {
    for (std::size_t i = 1; i + 1 < text.size(); ++i) {
        if (text[i] == ',' && is_digit(text[i - 1]) && is_digit(text[i + 1])) return true;
    }
    return false;
}

bool begins_a_value(std::string_view token) {
    return is_digit(token.front()) || token.front() == '-' || token.front() == '+' || token.front() == '.' ||
           token.starts_with("\u2212");
}

bool is_whole_number(std::string_view token) {
    return std::ranges::all_of(token, is_digit);
}

bool carries_uncertainty(std::string_view text) {
    return text.find("\u00B1") != text.npos || text.find("+/-") != text.npos || text.find("+-") != text.npos;
}

Result<std::vector<std::string>> split_at_spaces(std::string_view text) {
    std::vector<std::string> values;
    std::string_view before;
    for (const std::string& token : split_at(text, kBlanks)) {
        if (token.empty()) continue;
        if (values.empty() || begins_a_value(token)) {
            if (!values.empty() && is_whole_number(before) && token.find('/') != token.npos) {
                return fail("syntax", "",
                            fmt::format("{}: one value or two? Put commas between the values", quote(text)));
            }
            values.push_back(token);
        } else {
            values.back() += " " + token;
        }
        before = std::string_view(values.back());
    }
    return values;
}

}  // namespace

Result<std::vector<std::string>> split_list(std::string_view text) {
    if (has_comma_between_digits(text)) {
        return fail("syntax", "",
                    fmt::format("{}: put a space after each comma; a decimal comma is not taken", quote(text)));
    }
    Result<std::vector<std::string>> values = std::vector<std::string>{};
    if (text.find(',') != text.npos) {
        values = split_at(text, ",");
    } else if (carries_uncertainty(text)) {
        values = std::vector<std::string>{std::string(trimmed(text))};
    } else {
        values = split_at_spaces(text);
    }
    if (!values) return values;
    if (values->empty() || std::ranges::any_of(*values, &std::string::empty)) {
        return fail("syntax", "", fmt::format("{}: a value is empty", quote(text)));
    }
    if (values->size() > kMostValues) {
        return fail("range", "", fmt::format("{} values, at most {} are taken", values->size(), kMostValues));
    }
    return values;
}

std::vector<std::string> split_rows(std::string_view text) {
    std::vector<std::string> rows = split_at(text, ";\n");
    if (rows.size() > 1 && rows.back().empty()) rows.pop_back();
    return rows;
}

bool lacks_unit(std::string_view value) {
    return std::ranges::none_of(value,
                                [](char c) {
                                    return (c >= 'a' && c <= 'z' && c != 'e') ||
                                           (c >= 'A' && c <= 'Z' && c != 'E') || c == '%' || c == '"';
                                }) &&
           value.find("\u03A9") == value.npos && value.find("\u2126") == value.npos &&
           value.find("\u00B0") == value.npos && value.find("\u2033") == value.npos;
}

}  // namespace fallaway::sums
