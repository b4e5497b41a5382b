#include "shop/files/json_text.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "science/base/quote.h"

namespace fallaway::files {
namespace {

using Reader = nlohmann::json;

Json plain(Json::Kind kind, std::string text = "") {
    Json json;
    json.kind = kind;
    json.text = std::move(text);
    return json;
}

// The text holds well-formed UTF-8 only. C1 controls are U+0080 to U+009F.
bool has_control_character(std::string_view text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<std::uint8_t>(text[i]);
        if ((byte < 0x20 && byte != '\n' && byte != '\t') || byte == 0x7F) return true;
        if (byte == 0xC2 && i + 1 < text.size() && static_cast<std::uint8_t>(text[i + 1]) < 0xA0) return true;
    }
    return false;
}

// What the parser's words come to in plain ones; the first that is found counts. They look like "[...] parse error
// at line 1, column 3: syntax error while parsing value - invalid literal; last read: '...'; expected ...".
constexpr std::pair<std::string_view, std::string_view> kPlain[] = {
    {"number overflow", "a number too large to be kept"},
    {"missing closing quote", "a text without its closing quote"},
    {"ill-formed UTF-8", "bytes that are not UTF-8"},
    {"(LF)", "a control character inside a text: the line end, which is written \\n"},
    {"control character", "a control character inside a text"},
    {"surrogate", "half a character: a surrogate without the other one"},
    {"after backslash", "no letter that may follow a backslash"},
    {"4 hex digits", "expected four digits 0 to 9, a to f after \\u"},
    {"invalid number", "a number that breaks off"},
    {"object separator", "expected a colon after the key"},
    {"object key", "expected a key in double quotes"},
    {"parsing object", "expected a comma or the end of the record"},
    {"parsing array", "expected a comma or the end of the list"},
    {"parsing value", "expected a value"},
};

std::string reason_of(std::string_view what) {
    if (what.ends_with("; expected end of input")) return "expected nothing more";
    what = what.substr(0, what.find("; last read: "));  // foreign text follows
    const auto plain =
        std::ranges::find_if(kPlain, [&](const auto& pair) { return what.find(pair.first) != what.npos; });
    if (plain == std::end(kPlain)) return "no JSON";
    const bool ends = what.find("unexpected end of input") != what.npos;
    return fmt::format("{}{}", ends ? "the text ends here, " : "", plain->second);
}

std::string line_and_column(std::string_view text, std::size_t position) {
    const std::string_view before = text.substr(0, std::min(position == 0 ? 0 : position - 1, text.size()));
    const auto line = 1 + std::ranges::count(before, '\n');
    const auto line_start = before.rfind('\n');
    const auto column = line_start == std::string_view::npos ? before.size() + 1 : before.size() - line_start;
    return fmt::format("line {}, column {}", line, column);
}

// Builds the value while nlohmann's parser, which does not recurse, walks the text.
class Builder : public nlohmann::json_sax<Reader> {
public:
    explicit Builder(std::string_view text) : text_(text) {}

    bool null() override { return put({}); }
    bool boolean(bool value) override { return put(Json::of(value)); }
    bool number_integer(std::int64_t value) override { return put_number(fmt::format("{}", value)); }
    bool number_unsigned(std::uint64_t value) override { return put_number(fmt::format("{}", value)); }
    bool number_float(double, const std::string& written) override { return put_number(written); }
    bool string(std::string& value) override {
        if (has_control_character(value)) return refuse_control(value);
        return put(Json::of(value));
    }
    bool binary(Reader::binary_t&) override { return false; }  // not in text

    bool start_object(std::size_t) override { return open(Json::record()); }
    bool start_array(std::size_t) override { return open(Json::list()); }
    bool end_array() override { return close(); }
    bool key(std::string& key) override {
        if (has_control_character(key)) return refuse_control(key);
        open_.back().keys.push_back(key);
        return true;
    }
    bool end_object() override {
        std::vector<std::string_view> keys(open_.back().keys.begin(), open_.back().keys.end());
        std::ranges::sort(keys);
        const auto twice = std::ranges::adjacent_find(keys);
        if (twice == keys.end()) return close();
        const std::string key(*twice);
        open_.back().keys.pop_back();  // the path is that of the record
        Json record = std::move(open_.back());
        open_.pop_back();
        return refuse("duplicate", pointer_below(path(), key),
                      fmt::format("{}: this key stands twice", quote(key)));
    }
    bool parse_error(std::size_t position, const std::string& last, const nlohmann::json::exception& e) override {
        std::string reason = reason_of(e.what());
        if (last.ends_with('/')) reason = "a comment, which JSON does not have";
        const std::string near = last.empty() ? "" : fmt::format(" near {}", quote(last));
        return refuse("syntax", "", fmt::format("{}{}: {}", line_and_column(text_, position), near, reason));
    }

    Result<Json> take() {
        if (error_) return tl::unexpected(*error_);
        return std::move(root_);
    }

private:
    bool put_number(std::string written) { return put(plain(Json::Kind::number, std::move(written))); }
    bool put(Json value) {
        (open_.empty() ? root_ : open_.back().items.emplace_back()) = std::move(value);
        return true;
    }
    bool open(Json value) {
        if (open_.size() == kDeepestJson) {
            return refuse("depth", path(), fmt::format("more than {} levels, one inside the other", kDeepestJson));
        }
        open_.push_back(std::move(value));
        return true;
    }
    bool close() {
        Json value = std::move(open_.back());
        open_.pop_back();
        return put(std::move(value));
    }
    bool refuse(std::string code, std::string path, std::string message) {
        error_ = Error{std::move(code), std::move(path), std::move(message)};
        return false;
    }
    bool refuse_control(std::string_view text) {
        return refuse("syntax", path(), fmt::format("{}: a control character inside a text", quote(text)));
    }
    // Of the value that would be put next.
    std::string path() const {
        std::string out;
        for (const Json& level : open_) {
            const bool in_record = level.kind == Json::Kind::record;
            if (in_record && level.keys.size() == level.items.size()) break;  // a key itself is at fault
            out = pointer_below(out, in_record ? level.keys.back() : fmt::format("{}", level.items.size()));
        }
        return out;
    }

    std::string_view text_;
    Json root_;
    std::vector<Json> open_;
    std::optional<Error> error_;
};

std::string quoted_json(std::string_view text) {
    return Reader(text).dump(-1, ' ', false, Reader::error_handler_t::replace);
}

constexpr std::size_t kWidth = 100;

std::string scalar(const Json& value) {
    switch (value.kind) {
        case Json::Kind::null:
            return "null";
        case Json::Kind::boolean:
            return value.truth ? "true" : "false";
        case Json::Kind::number:
            return value.text;
        default:
            return quoted_json(value.text);
    }
}

bool is_scalar(const Json& value) {
    return value.kind != Json::Kind::list && value.kind != Json::Kind::record;
}

// The value on one line, appended to `out`; false as soon as it does not fit into `room` bytes.
bool write_line(const Json& value, std::size_t room, std::string& out) {
    const std::size_t start = out.size();
    if (is_scalar(value)) {
        out += scalar(value);
        return out.size() - start <= room;
    }
    const bool record = value.kind == Json::Kind::record;
    out += record ? '{' : '[';
    for (std::size_t i = 0; i < value.items.size(); ++i) {
        if (i > 0) out += ", ";
        if (record) out += quoted_json(value.keys[i]) + ": ";
        const std::size_t used = out.size() - start;
        if (used >= room || !write_line(value.items[i], room - used, out)) return false;
    }
    out += record ? '}' : ']';
    return out.size() - start <= room;
}

// `used` is what already stands on the line, the indent included.
void write_value(const Json& value, std::size_t indent, std::size_t used, std::string& out) {
    std::string line;
    const std::size_t room = used + 1 < kWidth ? kWidth - used - 1 : 0;  // a comma may follow
    if (is_scalar(value) || value.items.empty() || (indent > 0 && write_line(value, room, line))) {
        if (line.empty()) write_line(value, std::string::npos, line);
        out += line;
        return;
    }
    const bool record = value.kind == Json::Kind::record;
    const std::string margin(indent + 2, ' ');
    out += record ? "{\n" : "[\n";
    for (std::size_t i = 0; i < value.items.size(); ++i) {
        const std::string head = margin + (record ? quoted_json(value.keys[i]) + ": " : "");
        out += head;
        write_value(value.items[i], indent + 2, head.size(), out);
        out += i + 1 < value.items.size() ? ",\n" : "\n";
    }
    out += std::string(indent, ' ') + (record ? '}' : ']');
}

}  // namespace

Json Json::of(bool value) {
    Json json = plain(Kind::boolean);
    json.truth = value;
    return json;
}
Json Json::of(int value) {
    return plain(Kind::number, fmt::format("{}", value));
}
Json Json::of(std::int64_t value) {
    return plain(Kind::number, fmt::format("{}", value));
}
Json Json::of(double value) {
    return plain(Kind::number, fmt::format("{}", value));
}
Json Json::of(std::string_view value) {
    return plain(Kind::text, std::string(value));
}
Json Json::list(std::vector<Json> items) {
    Json json = plain(Kind::list);
    json.items = std::move(items);
    return json;
}
Json Json::record(std::vector<std::pair<std::string, Json>> members) {
    Json json = plain(Kind::record);
    for (auto& [key, value] : members) json.add(std::move(key), std::move(value));
    return json;
}

void Json::add(std::string key, Json value) {
    keys.push_back(std::move(key));
    items.push_back(std::move(value));
}

const Json* Json::find(std::string_view key) const {
    const auto found = std::ranges::find(keys, key);
    return found == keys.end() ? nullptr : &items[found - keys.begin()];
}

Json* Json::find(std::string_view key) {
    return const_cast<Json*>(std::as_const(*this).find(key));
}

std::string Json::text_of(std::string_view key) const {
    const Json* value = find(key);
    return value == nullptr ? "" : value->text;
}

Result<Json> read_json(std::string_view text) {
    if (text.size() > kLargestJsonBytes) {
        return fail("size", "",
                    fmt::format("{} bytes: too large, at most {} are read", text.size(), kLargestJsonBytes));
    }
    Builder builder(text);
    Reader::sax_parse(text.begin(), text.end(), &builder);
    return builder.take();
}

std::string write_json(const Json& value) {
    std::string out;
    write_value(value, 0, 0, out);
    return out + "\n";
}

std::string write_json_line(const Json& value) {
    std::string out;
    write_line(value, std::string::npos, out);
    return out;
}

std::string pointer_below(std::string_view pointer, std::string_view key) {
    std::string out(pointer);
    out += '/';
    for (const char c : key) {
        if (c == '~') {
            out += "~0";
        } else if (c == '/') {
            out += "~1";
        } else {
            out += c;
        }
    }
    return out;
}

}  // namespace fallaway::files
