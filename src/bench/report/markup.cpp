#include "bench/report/markup.h"

#include <fmt/format.h>

#include "bench/report/utf8.h"

namespace fallaway::report {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_alphanumeric(char c) {
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// The code points of a text, those that disturb a page left out; each is handed over with its bytes.
template <class Each>
void for_each_harmless(std::string_view rest, const Each& each) {
    while (!rest.empty()) {
        const CodePoint point = first_code_point(rest);
        const bool broken = point.value == 0xFFFD && point.bytes == 1;
        if (!is_disturbing(point.value)) each(point.value, broken ? "\uFFFD" : rest.substr(0, point.bytes));
        rest.remove_prefix(point.bytes);
    }
}

void append_attributes(std::string& bytes, const Attributes& attributes) {
    for (const auto& [name, value] : attributes) {
        if (!value.empty() || name == "alt") bytes += fmt::format(" {}=\"{}\"", name, escape(value));
    }
}

}  // namespace

std::string plain(std::string_view text) {
    std::string spaced(text);
    for (char& c : spaced) {
        if (c == '\n' || c == '\r' || c == '\t') c = ' ';
    }
    std::string out;
    for_each_harmless(spaced, [&](char32_t, std::string_view bytes) { out += bytes; });
    return out;
}

std::string escape(std::string_view text) {
    std::string out;
    for (const char c : plain(text)) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += c;
        }
    }
    return out;
}

std::string typeset(std::string_view text) {
    constexpr std::string_view kPlusMinus = "±";
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char before = out.empty() ? ' ' : out.back();
        const char after = i + 1 < text.size() ? text[i + 1] : ' ';
        const bool signs = before == ' ' || before == '(' || before == '[' || out.ends_with(kPlusMinus);
        if (text[i] == '-' && is_digit(after) && signs) {
            out += "−";
        } else if (text.substr(i).starts_with("+/-")) {
            out += kPlusMinus;
            i += 2;
        } else if (text[i] == ' ' && out.ends_with(kPlusMinus)) {
            continue;
        } else {
            out += text[i];
        }
    }
    return out;
}

Markup text(std::string_view foreign) {
    return {escape(typeset(foreign))};
}

Markup tag(std::string_view name, const Attributes& attributes, const Markup& inside) {
    Markup out{fmt::format("<{}", name)};
    append_attributes(out.bytes, attributes);
    out.bytes += fmt::format(">{}</{}>", inside.bytes, name);
    return out;
}

Markup tag(std::string_view name, const Markup& inside) {
    return tag(name, {}, inside);
}

Markup void_tag(std::string_view name, const Attributes& attributes) {
    Markup out{fmt::format("<{}", name)};
    append_attributes(out.bytes, attributes);
    out.bytes += '>';
    return out;
}

std::string css_string(std::string_view text) {
    std::string out;
    for_each_harmless(plain(text), [&](char32_t c, std::string_view bytes) {
        const bool harmless = c >= 0x80 || c == ' ' || is_alphanumeric(static_cast<char>(c));
        out += harmless ? std::string(bytes) : fmt::format("\\{:x} ", static_cast<std::uint32_t>(c));
    });
    return out;
}

}  // namespace fallaway::report
