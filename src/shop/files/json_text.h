// JSON as text and in memory (RFC 8259), read more strictly than most readers do.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "science/base/result.h"

namespace fallaway::files {

// One JSON value. Members keep the order in which they were written.
struct Json {
    enum class Kind { null, boolean, number, text, list, record };

    Kind kind = Kind::null;
    bool truth = false;             // of a boolean
    std::string text;               // a text, or a number exactly as written
    std::vector<std::string> keys;  // of a record, as many as `items`
    std::vector<Json> items;        // values of a list or of a record

    static Json of(bool value);
    static Json of(int value);
    static Json of(std::int64_t value);
    static Json of(double value);  // the shortest digits that read back the same; finite
    static Json of(std::string_view value);
    static Json of(const char* value) { return of(std::string_view(value)); }
    static Json list(std::vector<Json> items = {});
    static Json record(std::vector<std::pair<std::string, Json>> members = {});

    void add(std::string key, Json value);         // to a record
    const Json* find(std::string_view key) const;  // in a record; null when there is none
    Json* find(std::string_view key);
    std::string text_of(std::string_view key) const;  // text of a member, number as written; "" when there is none

    friend bool operator==(const Json&, const Json&) = default;
};

inline constexpr std::size_t kLargestJsonBytes = 32u << 20;
inline constexpr int kDeepestJson = 32;

// Refused, each with code and place: more than 32 MiB ("size"); more than 32 levels ("depth"); a key twice in one
// record ("duplicate"); control characters in a text but for line end and tab ("syntax"); numbers that no double
// holds, comments, trailing text, bytes that are not UTF-8 ("syntax", with line and column). A byte order mark in
// front, which some editors write, is skipped.
Result<Json> read_json(std::string_view text);

// Indented by 2; what fits into 100 columns stands on one line. Ends with a line end. Equal values give equal
// bytes. Bytes that are not UTF-8 become U+FFFD.
std::string write_json(const Json& value);

// The same on one line, without a line end: for messages and for rows of a store.
std::string write_json_line(const Json& value);

// `/readings/3` and "a/b" make "/readings/3/a~1b" (RFC 6901).
std::string pointer_below(std::string_view pointer, std::string_view key);

}  // namespace fallaway::files
