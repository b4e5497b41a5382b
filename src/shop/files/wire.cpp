#include "shop/files/wire.h"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "science/base/quote.h"
#include "shop/files/moment_text.h"

namespace fallaway::files::wire {
namespace {

constexpr std::size_t kLongestName = 200;
constexpr std::size_t kLongestProse = 10'000;
constexpr std::size_t kLongestShownNumber = 40;

std::size_t characters(std::string_view utf8) {
    return std::ranges::count_if(utf8, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; });
}

bool is_blank(std::string_view text) {
    return text.find_first_not_of(" \n\t") == std::string_view::npos;
}

bool decode_text(const Json& value, const Spot& spot, std::size_t longest, bool lines, std::string& out) {
    if (value.kind != Json::Kind::text) {
        spot.refuse("type", value, "expected a text in double quotes");
        return false;
    }
    if (is_blank(value.text)) {
        spot.refuse("missing", value, "an empty text; leave the key out when there is nothing to say");
        return false;
    }
    if (!lines && value.text.find_first_of("\n\t") != std::string::npos) {
        spot.refuse("syntax", value, "a line end or a tab where one line was expected");
        return false;
    }
    if (characters(value.text) > longest) {
        spot.refuse("size", value, fmt::format("longer than {} characters", longest));
        return false;
    }
    out = value.text;
    return true;
}

Codec<std::string> text_codec(std::size_t longest, bool lines, std::string says) {
    return {
        [longest, lines](const Json& value, const Spot& spot, std::string& out) {
            return decode_text(value, spot, longest, lines, out);
        },
        [](const std::string& value) { return Json::of(value); },
        [longest](Definitions&) {
            return Json::record({{"type", Json::of("string")},
                                 {"minLength", Json::of(1)},
                                 {"maxLength", Json::of(static_cast<int>(longest))}});
        },
        std::move(says),
    };
}

std::string article(std::string_view noun) {
    return std::string_view("aeiou").find(noun.front()) == std::string_view::npos ? "a" : "an";
}

std::string says_dimension(Dimension dimension) {
    return fmt::format("{} {} such as \"{}\"", article(name_of(dimension)), name_of(dimension),
                       example_of(dimension));
}

// `1.6` as a JSON number: only a count has no unit to miss.
bool is_count(const Json& value, Dimension dimension) {
    return value.kind == Json::Kind::number && dimension == Dimension::count &&
           value.text.find_first_of(".eE") == std::string::npos;
}

std::string with_unit(std::string number, const Unit& unit) {
    return unit.symbol.empty() ? number : fmt::format("{} {}", number, unit.symbol);
}

bool reads_back(const std::string& text, double si, Dimension dimension) {
    const auto quantity = parse_quantity(text, dimension);
    return quantity && quantity->si == si;
}

// The shortest text that reads back as exactly this value: with few decimals in the first unit that has one, as a
// person would have typed it, else with all its digits. Only a unit whose factor is not 1 can fail to have one;
// then the text is one rounding away.
std::string text_of_si(double si, Dimension dimension) {
    constexpr int kTypedDecimals = 6;
    for (int decimals = 0; decimals <= kTypedDecimals; ++decimals) {
        for (const Unit& unit : units_of(dimension)) {
            const std::string text = with_unit(fmt::format("{:.{}f}", from_si(si, unit), decimals), unit);
            if (reads_back(text, si, dimension)) return text;
        }
    }
    for (const Unit& unit : units_of(dimension)) {
        const double number = from_si(si, unit);
        for (const double near : {number, std::nextafter(number, -HUGE_VAL), std::nextafter(number, HUGE_VAL)}) {
            const std::string text = with_unit(fmt::format("{}", near), unit);
            if (reads_back(text, si, dimension)) return text;
        }
    }
    const Unit& unit = units_of(dimension).front();
    return with_unit(fmt::format("{}", from_si(si, unit)), unit);
}

Json schema_of_quantity(Dimension dimension) {
    Json out = schema_of_text("[0-9]", std::string(example_of(dimension)));
    if (dimension == Dimension::count) {
        out.items[0] = Json::list({Json::of("string"), Json::of("integer")});
    }
    return out;
}

}  // namespace

void Session::fault(Error error) {
    if (faults_.size() < kMostFaults) faults_.push_back(std::move(error));
}

std::string Spot::path() const {
    if (parent_ == nullptr) return "";
    return key_.data() == nullptr ? fmt::format("{}/{}", parent_->path(), index_)
                                  : pointer_below(parent_->path(), key_);
}

void Spot::fault(std::string code, std::string message) const {
    session_->fault({std::move(code), path(), std::move(message)});
}

void Spot::refuse(std::string code, const Json& value, std::string_view what) const {
    fault(std::move(code), fmt::format("{}: {}", show(value), what));
}

std::string show(const Json& value) {
    switch (value.kind) {
        case Json::Kind::null:
            return "null";
        case Json::Kind::boolean:
            return value.truth ? "true" : "false";
        case Json::Kind::number:
            return value.text.size() <= kLongestShownNumber ? value.text
                                                            : value.text.substr(0, kLongestShownNumber) + "...";
        case Json::Kind::text:
            return quote(value.text);
        case Json::Kind::list:
            return "a list";
        case Json::Kind::record:
            return "a record";
    }
    return "";
}

Codec<std::string> name() {
    return text_codec(kLongestName, false, "text");
}
Codec<std::string> prose() {
    return text_codec(kLongestProse, true, "text, several lines if need be");
}

Codec<std::string> day() {
    return {
        [](const Json& value, const Spot& spot, std::string& out) {
            if (!decode_text(value, spot, kLongestName, false, out)) return false;
            const auto day = parse_day(out);
            if (!day) spot.fault(day.error().code, day.error().message);
            return day.has_value();
        },
        [](const std::string& value) { return Json::of(value); },
        [](Definitions&) { return schema_of_text("^[0-9]{4}-[0-9]{2}-[0-9]{2}$", "2026-11-28"); },
        "a day such as \"2026-11-28\"",
    };
}

Codec<evidence::Moment> moment() {
    constexpr std::string_view kExample = "2026-11-24T09:10:00+01:00";
    return {
        [](const Json& value, const Spot& spot, evidence::Moment& out) {
            std::string text;
            if (!decode_text(value, spot, kLongestName, false, text)) return false;
            auto moment = parse_moment(text);
            if (!moment) {
                spot.fault(moment.error().code, moment.error().message);
                return false;
            }
            out = std::move(*moment);
            return true;
        },
        [](const evidence::Moment& value) { return Json::of(value.typed); },
        [kExample](Definitions&) {
            return schema_of_text(
                "^[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt][0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]+)?"
                "([Zz]|[+-][0-9]{2}:[0-9]{2})$",
                std::string(kExample));
        },
        fmt::format("a moment such as \"{}\"", kExample),
    };
}

Codec<std::string> note() {
    return {
        [](const Json& value, const Spot& spot, std::string& out) {
            if (!decode_text(value, spot, kLongestName, false, out)) return false;
            if (evidence::note_number(out)) return true;
            spot.refuse("syntax", value,
                        "not the name of a note, expected one such as \"E4\", \"F#2\" or \"Bb1\"");
            return false;
        },
        [](const std::string& value) { return Json::of(value); },
        [](Definitions&) { return schema_of_text("^[A-G][#b]?(-1|[0-9])$", "E4"); },
        "a note such as \"E4\", \"F#2\" or \"Bb1\"",
    };
}

Codec<bool> boolean() {
    return {
        [](const Json& value, const Spot& spot, bool& out) {
            out = value.truth;
            if (value.kind != Json::Kind::boolean) spot.refuse("type", value, "expected true or false");
            return value.kind == Json::Kind::boolean;
        },
        [](const bool& value) { return Json::of(value); },
        [](Definitions&) {
            return Json::record({{"type", Json::of("boolean")}});
        },
        "true or false",
    };
}

Codec<int> whole(int low, int high) {
    const std::string says = fmt::format("a whole number from {} to {}", low, high);
    return {
        [low, high, says](const Json& value, const Spot& spot, int& out) {
            int read = 0;
            const char* end = value.text.data() + value.text.size();
            const auto [stop, error] = std::from_chars(value.text.data(), end, read);
            const bool is_number = value.kind == Json::Kind::number;
            const bool is_whole = is_number && value.text.find_first_of(".eE") == std::string::npos;
            if (!is_whole || stop != end || error != std::errc() || read < low || read > high) {
                spot.refuse(is_whole ? "range" : "type", value, "expected " + says);
                return false;
            }
            out = read;
            return true;
        },
        [](const int& value) { return Json::of(value); },
        [low, high](Definitions&) {
            return Json::record(
                {{"type", Json::of("integer")}, {"minimum", Json::of(low)}, {"maximum", Json::of(high)}});
        },
        says,
    };
}

Codec<std::int64_t> count() {
    constexpr std::int64_t kMost = (std::int64_t{1} << 53) - 1;
    return {
        [](const Json& value, const Spot& spot, std::int64_t& out) {
            const char* end = value.text.data() + value.text.size();
            const auto [stop, error] = std::from_chars(value.text.data(), end, out);
            const bool good = value.kind == Json::Kind::number && error == std::errc() && stop == end &&
                              out >= 0 && out <= kMost;
            if (!good) {
                spot.refuse(value.kind == Json::Kind::number ? "range" : "type", value,
                            "expected a whole number from 0");
            }
            return good;
        },
        [](const std::int64_t& value) { return Json::of(value); },
        [](Definitions&) {
            return Json::record({{"type", Json::of("integer")}, {"minimum", Json::of(0)}});
        },
        "a whole number from 0",
    };
}

Codec<double> number(double low, double high) {
    const std::string says = fmt::format("a number from {} to {}", low, high);
    return {
        [low, high, says](const Json& value, const Spot& spot, double& out) {
            double read = 0;
            const bool is_number = value.kind == Json::Kind::number;
            if (is_number) std::from_chars(value.text.data(), value.text.data() + value.text.size(), read);
            if (!is_number || read < low || read > high) {
                spot.refuse(is_number ? "range" : "type", value, "expected " + says);
                return false;
            }
            out = read;
            return true;
        },
        [](const double& value) { return Json::of(value); },
        [low, high](Definitions&) {
            return Json::record(
                {{"type", Json::of("number")}, {"minimum", Json::of(low)}, {"maximum", Json::of(high)}});
        },
        says,
    };
}

namespace {

Json schema_of_type(std::string_view type) {
    return Json::record({{"type", Json::of(type)}});
}

}  // namespace

Codec<std::string> any_text() {
    return {nullptr, [](const std::string& value) { return Json::of(value); },
            [](Definitions&) { return schema_of_type("string"); }, "text"};
}
Codec<int> any_whole() {
    return {nullptr, [](const int& value) { return Json::of(value); },
            [](Definitions&) { return schema_of_type("integer"); }, "a whole number"};
}
Codec<double> any_number() {
    return {nullptr, [](const double& value) { return std::isfinite(value) ? Json::of(value) : Json{}; },
            [](Definitions&) { return schema_of_type("number"); }, "a number"};
}

bool decode_quantity(const Json& value, const Spot& spot, Dimension dimension, QuantityText& out) {
    if (value.kind == Json::Kind::number && !is_count(value, dimension)) {
        const bool count = dimension == Dimension::count;
        spot.refuse("unit", value,
                    fmt::format("{}, expected {}", count ? "not a whole number" : "a number without a unit",
                                says_dimension(dimension)));
        return false;
    }
    if (value.kind != Json::Kind::number && value.kind != Json::Kind::text) {
        spot.refuse("type", value, fmt::format("expected {}", says_dimension(dimension)));
        return false;
    }
    auto quantity = parse_quantity(value.text, dimension);
    if (!quantity) {
        spot.fault(quantity.error().code, quantity.error().message);
        return false;
    }
    out = std::move(*quantity);
    return true;
}

Codec<QuantityText> quantity(Dimension dimension) {
    return {
        [dimension](const Json& value, const Spot& spot, QuantityText& out) {
            return decode_quantity(value, spot, dimension, out);
        },
        [](const QuantityText& value) { return Json::of(value.typed); },
        [dimension](Definitions&) { return schema_of_quantity(dimension); },
        says_dimension(dimension),
    };
}

Codec<double> si_quantity(Dimension dimension) {
    return {
        [dimension](const Json& value, const Spot& spot, double& out) {
            QuantityText text;
            if (!decode_quantity(value, spot, dimension, text)) return false;
            out = text.si;
            return true;
        },
        [dimension](const double& si) { return Json::of(text_of_si(si, dimension)); },
        [dimension](Definitions&) { return schema_of_quantity(dimension); },
        says_dimension(dimension),
    };
}

bool decode_word(const Json& value, const Spot& spot, std::span<const std::string_view> words, std::string& out) {
    if (value.kind != Json::Kind::text) {
        spot.refuse("type", value, "expected " + without_links(says_words(words)));
        return false;
    }
    if (std::ranges::find(words, value.text) == words.end()) {
        spot.refuse("unknown", value, "not known here, " + hint(value.text, words));
        return false;
    }
    out = value.text;
    return true;
}

Codec<std::string> word(std::vector<std::string_view> words) {
    return {
        [words](const Json& value, const Spot& spot, std::string& out) {
            return decode_word(value, spot, words, out);
        },
        [](const std::string& value) { return Json::of(value); },
        [words](Definitions&) { return schema_of_words(words); },
        says_words(words),
    };
}

Json schema_of_words(std::span<const std::string_view> words) {
    Json list = Json::list();
    for (const std::string_view word : words) list.items.push_back(Json::of(word));
    return Json::record({{"enum", std::move(list)}});
}

std::string says_words(std::span<const std::string_view> words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
        out += fmt::format("\"{}\"", words[i]);
    }
    return out;
}

Json schema_of_text(std::string pattern, std::string example) {
    return Json::record({{"type", Json::of("string")},
                         {"pattern", Json::of(pattern)},
                         {"examples", Json::list({Json::of(example)})}});
}

void refuse_unknown_keys(const Json& value, const Spot& spot, std::span<const std::string_view> known) {
    for (const std::string& key : value.keys) {
        if (std::ranges::find(known, key) != known.end()) continue;
        spot.member(key).fault("unknown", fmt::format("{}: unknown key, {}", quote(key), hint(key, known)));
    }
}

}  // namespace fallaway::files::wire
