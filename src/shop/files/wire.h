// Records on the wire. One table a record lists its fields once: key, meaning, member, codec, required or not.
// From the table come the decoder with every fault and its path, the encoder, the JSON schema and the pages of
// docs/. Shared by the codecs of this room only.
#pragma once

#include <algorithm>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "bench/evidence/bench.h"
#include "science/base/dimension.h"
#include "science/base/near_word.h"
#include "science/base/quantity_text.h"
#include "science/base/result.h"
#include "shop/files/json_text.h"

namespace fallaway::files::wire {

inline constexpr std::size_t kMostFaults = 50;

// What lasts while one file is read: the faults found so far. A room that needs to know more derives from it.
class Session {
public:
    virtual ~Session() = default;
    void fault(Error error);  // those after the fiftieth are dropped
    const std::vector<Error>& faults() const { return faults_; }
    std::vector<Error> take_faults() { return std::move(faults_); }

private:
    std::vector<Error> faults_;
};

// Where in the file a value stands. Built on the stack on the way down; made into a path only for a fault.
class Spot {
public:
    explicit Spot(Session& session) : session_(&session) {}
    Spot member(std::string_view key) const { return Spot(*this, key, 0); }
    Spot item(std::size_t index) const { return Spot(*this, {}, index); }
    std::string path() const;
    void fault(std::string code, std::string message) const;
    // `1.6: expected a text`: what stood there, and what was wrong with it.
    void refuse(std::string code, const Json& value, std::string_view what) const;
    Session& session() const { return *session_; }

private:
    Spot(const Spot& parent, std::string_view key, std::size_t index)
        : session_(parent.session_), parent_(&parent), key_(key), index_(index) {}

    Session* session_;
    const Spot* parent_ = nullptr;
    std::string_view key_;  // data() is null for an item of a list
    std::size_t index_ = 0;
};

// As a message shows it: a text or a number as it stands, cut to 40 characters; "a list", "a record".
std::string show(const Json& value);

// The schemas and pages of the records met on the way, each once, in order of first meeting.
class Definitions {
public:
    struct Entry {
        std::string name;
        Json schema;
        std::string page;  // Markdown
    };
    bool has(std::string_view name) const;
    std::size_t reserve(std::string name);  // keeps the place of a record whose fields come next
    void fill(std::size_t place, Json schema, std::string page);
    const std::vector<Entry>& entries() const { return entries_; }

private:
    std::vector<Entry> entries_;
};

// All schemas, by name.
Json schemas_of(const Definitions& definitions);
// All pages. Records that another manual holds are left out, and links lead there.
struct OtherManual {
    std::string file;  // beside the manual that is written
    Definitions records;
};
std::string pages_of(const Definitions& definitions, const std::vector<OtherManual>& others = {});

// How one kind of value is read, written and described. What is only ever written, answers, has no `decode`.
template <class T>
struct Codec {
    std::function<bool(const Json&, const Spot&, T&)> decode;  // false: at least one fault was told
    std::function<Json(const T&)> encode;
    std::function<Json(Definitions&)> schema;
    std::string says;  // "a length such as \"1.60 mm\"", Markdown
};

Codec<std::string> name();   // one line with something on it, 200 characters at most
Codec<std::string> prose();  // free text, lines allowed, 10 000 characters at most
Codec<std::string> day();
Codec<evidence::Moment> moment();
Codec<std::string> note();  // scientific pitch: "E4"
Codec<bool> boolean();
Codec<int> whole(int low, int high);
Codec<double> number(double low, double high);
Codec<std::int64_t> count();  // 0 to 2^53 - 1, the largest that every reader of JSON holds
Codec<QuantityText> quantity(Dimension dimension);
Codec<double> si_quantity(Dimension dimension);  // text on the wire, SI in memory
// A plain text out of a closed list.
Codec<std::string> word(std::vector<std::string_view> words);

// Only ever written.
Codec<std::string> any_text();  // "" too
Codec<int> any_whole();
Codec<double> any_number();  // null should it be infinite, or not a number

bool decode_quantity(const Json& value, const Spot& spot, Dimension dimension, QuantityText& out);
bool decode_word(const Json& value, const Spot& spot, std::span<const std::string_view> words, std::string& out);
Json schema_of_words(std::span<const std::string_view> words);
std::string says_words(std::span<const std::string_view> words);
Json schema_of_text(std::string pattern, std::string example);

// A closed list of words, each standing for a value.
template <class T>
Codec<T> choice(std::vector<std::pair<std::string_view, T>> pairs) {
    std::vector<std::string_view> words;
    for (const auto& pair : pairs) words.push_back(pair.first);
    return {
        [pairs, words](const Json& value, const Spot& spot, T& out) {
            std::string text;
            if (!decode_word(value, spot, words, text)) return false;
            for (const auto& pair : pairs) {
                if (pair.first == text) out = pair.second;
            }
            return true;
        },
        [pairs](const T& value) {
            const auto found = std::ranges::find(pairs, value, &std::pair<std::string_view, T>::second);
            return Json::of(found == pairs.end() ? "" : found->first);
        },
        [words](Definitions&) { return schema_of_words(words); },
        says_words(words),
    };
}

template <class T>
Codec<std::vector<T>> list_of(Codec<T> codec, std::size_t least = 0) {
    return {
        [codec, least](const Json& value, const Spot& spot, std::vector<T>& out) {
            if (value.kind != Json::Kind::list) {
                spot.refuse("type", value, "expected a list");
                return false;
            }
            if (value.items.size() < least) {
                spot.fault("missing", "an empty list, expected at least one entry");
                return false;
            }
            bool good = true;
            out.reserve(value.items.size());
            for (std::size_t i = 0; i < value.items.size(); ++i) {
                good = codec.decode(value.items[i], spot.item(i), out.emplace_back()) && good;
            }
            return good;
        },
        [codec](const std::vector<T>& values) {
            Json out = Json::list();
            for (const T& value : values) out.items.push_back(codec.encode(value));
            return out;
        },
        [codec, least](Definitions& definitions) {
            Json out = Json::record({{"type", Json::of("array")}, {"items", codec.schema(definitions)}});
            if (least > 0) out.add("minItems", Json::of(static_cast<int>(least)));
            return out;
        },
        "list: " + codec.says,
    };
}

// A single value may be written without the list around it, and is.
template <class T>
Codec<std::vector<T>> one_or_many(Codec<T> codec) {
    const auto many = list_of(codec, 1);
    return {
        [codec, many](const Json& value, const Spot& spot, std::vector<T>& out) {
            if (value.kind == Json::Kind::list) return many.decode(value, spot, out);
            return codec.decode(value, spot, out.emplace_back());
        },
        [codec, many](const std::vector<T>& values) {
            return values.size() == 1 ? codec.encode(values.front()) : many.encode(values);
        },
        [codec, many](Definitions& definitions) {
            return Json::record({{"anyOf", Json::list({codec.schema(definitions), many.schema(definitions)})}});
        },
        codec.says + ", or a list of them",
    };
}

// Stands in the schema under a name of its own.
template <class T>
Codec<T> named(std::string name, Codec<T> codec) {
    codec.schema = [name = std::move(name), inside = codec.schema](Definitions& definitions) {
        if (!definitions.has(name)) {
            const std::size_t place = definitions.reserve(name);
            definitions.fill(place, inside(definitions), "");
        }
        return Json::record({{"$ref", Json::of("#/$defs/" + name)}});
    };
    return codec;
}

// Only ever written: nothing is null.
template <class T>
Codec<std::optional<T>> or_null(Codec<T> codec) {
    return {
        nullptr,
        [codec](const std::optional<T>& value) { return value ? codec.encode(*value) : Json{}; },
        [codec](Definitions& definitions) {
            return Json::record(
                {{"anyOf", Json::list({codec.schema(definitions), Json::record({{"type", Json::of("null")}})})}});
        },
        codec.says + ", or null",
    };
}

// One row of a record's table.
template <class T>
struct Field {
    std::string key;
    std::string says;  // one sentence, without its full stop
    bool required = false;
    std::string value_says;
    std::string default_says;  // "" when absence means "not stated"
    std::function<bool(const Json&, const Spot&, T&)>
        decode;  // called in table order, so it may look at fields above; none: only ever written
    std::function<std::optional<Json>(const T&)> encode;  // nothing: left out
    std::function<Json(Definitions&)> schema;
};

// What of a record does not depend on its type.
void refuse_unknown_keys(const Json& value, const Spot& spot, std::span<const std::string_view> known);
struct FieldPage {
    std::string key;
    std::string says;
    std::string value_says;
    std::string default_says;
    bool required;
};
std::string page_of(std::string_view name, std::string_view says, std::span<const FieldPage> fields);
std::string says_default(const Json& value);
std::string without_links(std::string_view markdown);

template <class T>
class Record {
public:
    Record(std::string name, std::string says) : name_(std::move(name)), says_(std::move(says)) {}

    template <class M>
    Record& required(std::string key, std::string says, M T::*member, Codec<M> codec) {
        return row<M>(std::move(key), std::move(says), true, "", codec, member,
                      [member, codec](const T& record) { return std::optional(codec.encode(record.*member)); });
    }
    // Left out when it is what T{} has.
    template <class M>
    Record& defaulted(std::string key, std::string says, M T::*member, Codec<M> codec) {
        const M standard = T{}.*member;
        return row<M>(std::move(key), std::move(says), false, says_default(codec.encode(standard)), codec, member,
                      [member, codec, standard](const T& record) {
                          return record.*member == standard ? std::nullopt
                                                            : std::optional(codec.encode(record.*member));
                      });
    }
    template <class M>
    Record& optional(std::string key, std::string says, std::optional<M> T::*member, Codec<M> codec) {
        return add({std::move(key), std::move(says), false, codec.says, "",
                    [member, codec](const Json& value, const Spot& spot, T& record) {
                        return codec.decode(value, spot, (record.*member).emplace());
                    },
                    [member, codec](const T& record) {
                        return record.*member ? std::optional(codec.encode(*(record.*member))) : std::nullopt;
                    },
                    codec.schema});
    }
    // Of an answer, which is only ever written: a member, or what a function makes of the record. Where that is an
    // optional of what the codec writes, it may be left out.
    template <class Of, class M>
    Record& tells(std::string key, std::string says, Of of, Codec<M> codec) {
        constexpr bool always = std::is_same_v<std::remove_cvref_t<std::invoke_result_t<const Of&, const T&>>, M>;
        return add({std::move(key), std::move(says), always, codec.says, "", nullptr,
                    [of, codec](const T& record) -> std::optional<Json> {
                        const auto& value = std::invoke(of, record);
                        if constexpr (always) {
                            return codec.encode(value);
                        } else {
                            return value ? std::optional(codec.encode(*value)) : std::nullopt;
                        }
                    },
                    codec.schema});
    }
    // For what one member and one codec cannot say.
    Record& add(Field<T> field) {
        fields_.push_back(std::move(field));
        return *this;
    }
    // Merged into the schema of the record: what its table cannot say.
    Record& also(std::string key, Json schema) {
        also_.emplace_back(std::move(key), std::move(schema));
        return *this;
    }

    bool decode(const Json& value, const Spot& spot, T& out) const;
    Json encode(const T& record) const;
    Json schema(Definitions& definitions) const;  // a reference; the record itself goes to the definitions
    const std::string& name() const { return name_; }

private:
    template <class M, class Encode>
    Record& row(std::string key, std::string says, bool required, std::string default_says, const Codec<M>& codec,
                M T::*member, Encode encode) {
        return add({std::move(key), std::move(says), required, codec.says, std::move(default_says),
                    [member, codec](const Json& value, const Spot& spot, T& record) {
                        return codec.decode(value, spot, record.*member);
                    },
                    encode, codec.schema});
    }

    std::string name_;
    std::string says_;
    std::vector<Field<T>> fields_;
    std::vector<std::pair<std::string, Json>> also_;
};

template <class T>
bool Record<T>::decode(const Json& value, const Spot& spot, T& out) const {
    if (value.kind != Json::Kind::record) {
        spot.refuse("type", value, "expected a record { ... }");
        return false;
    }
    bool good = true;
    std::size_t met = 0;
    for (const Field<T>& field : fields_) {
        const Json* member = value.find(field.key);
        if (member != nullptr) {
            ++met;
            good = field.decode(*member, spot.member(field.key), out) && good;
        } else if (field.required) {
            spot.member(field.key).fault("missing", "missing, expected " + without_links(field.value_says));
            good = false;
        }
    }
    if (met == value.items.size()) return good;
    std::vector<std::string_view> known;
    for (const Field<T>& field : fields_) known.push_back(field.key);
    refuse_unknown_keys(value, spot, known);
    return false;
}

template <class T>
Json Record<T>::encode(const T& record) const {
    Json out = Json::record();
    for (const Field<T>& field : fields_) {
        if (auto value = field.encode(record)) out.add(field.key, std::move(*value));
    }
    return out;
}

template <class T>
Json Record<T>::schema(Definitions& definitions) const {
    if (!definitions.has(name_)) {
        const std::size_t place = definitions.reserve(name_);
        Json properties = Json::record();
        Json required = Json::list();
        std::vector<FieldPage> rows;
        for (const Field<T>& field : fields_) {
            Json property = field.schema(definitions);
            property.add("description", Json::of(field.says + "."));
            properties.add(field.key, std::move(property));
            if (field.required) required.items.push_back(Json::of(field.key));
            rows.push_back({field.key, field.says, field.value_says, field.default_says, field.required});
        }
        Json out = Json::record({{"description", Json::of(says_ + ".")}, {"type", Json::of("object")}});
        out.add("properties", std::move(properties));
        if (!required.items.empty()) out.add("required", std::move(required));
        for (const auto& [key, value] : also_) out.add(key, value);
        out.add("additionalProperties", Json::of(false));
        definitions.fill(place, std::move(out), page_of(name_, says_, rows));
    }
    return Json::record({{"$ref", Json::of("#/$defs/" + name_)}});
}

template <class T>
Codec<T> codec_of(Record<T> record) {
    const auto shared = std::make_shared<const Record<T>>(std::move(record));
    return {
        [shared](const Json& value, const Spot& spot, T& out) { return shared->decode(value, spot, out); },
        [shared](const T& value) { return shared->encode(value); },
        [shared](Definitions& definitions) { return shared->schema(definitions); },
        "[" + shared->name() + "](#" + shared->name() + ")",
    };
}

}  // namespace fallaway::files::wire
