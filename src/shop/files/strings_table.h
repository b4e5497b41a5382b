// The tables of strings under data/: masses by gauge, and the usual sets by their gauges alone.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "bench/evidence/catalogue.h"
#include "science/base/result.h"
#include "science/strings/choice.h"

namespace fallaway::files {

struct NamedString {
    std::string id;
    strings::StringRow row;
    std::string source;
};

using evidence::SetString;
using evidence::StringSet;

struct StringTables {
    std::vector<NamedString> strings;
    std::vector<StringSet> sets;

    std::vector<strings::StringRow> rows() const;  // in the order of `strings`, as science takes them
    const StringSet* set(std::string_view id) const;
};

// Every fault is told, up to 50, each with its JSON pointer. Beyond the form: ids are unique; no two rows are of
// one gauge, wrap and material; every row makes a string (its core leaves room for its wrap); a plain string has a
// round core and no core of its own; a set gets thicker from string to string.
ResultAll<StringTables> decode_string_tables(std::string_view text);

// data/strings.json inside the binary, read once. Throws std::logic_error when it is faulty or missing, which no
// tested build is.
const StringTables& built_in_strings();

}  // namespace fallaway::files
