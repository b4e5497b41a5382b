// HTML and SVG as values. Only text() turns foreign text into Markup, and it escapes; so nothing that a person
// typed can ever be read as a tag.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace fallaway::report {

// Well-formed HTML: every tag in it is closed.
struct Markup {
    std::string bytes{};

    bool empty() const { return bytes.empty(); }
    Markup& operator+=(const Markup& other) {
        bytes += other.bytes;
        return *this;
    }
    friend Markup operator+(Markup a, const Markup& b) { return a += b; }
};

using Attributes = std::vector<std::pair<std::string_view, std::string>>;

// & < > " ' as references; control characters and marks that turn the direction of writing dropped; bytes that are
// not UTF-8 as U+FFFD.
std::string escape(std::string_view text);

// The true minus sign before a number, "±" for "+/-" and no space after it.
std::string typeset(std::string_view text);

// Foreign text, typeset and escaped.
Markup text(std::string_view foreign);

// <name attributes>inside</name>. Attribute values are escaped; an attribute with an empty value is left out
// unless it is "alt".
Markup tag(std::string_view name, const Attributes& attributes, const Markup& inside);
Markup tag(std::string_view name, const Markup& inside);

// <name attributes>, for the few that have no end: br, meta, col.
Markup void_tag(std::string_view name, const Attributes& attributes);

// Text with characters that would disturb a terminal or a page taken out; line ends become spaces.
std::string plain(std::string_view text);

// Inside a CSS string: everything but letters, digits and spaces as a CSS escape.
std::string css_string(std::string_view text);

}  // namespace fallaway::report
