#include "shop/files/sums_json.h"

#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "bench/sums/arguments.h"
#include "shop/files/api_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using sums::AnswerValue;
using sums::Input;
using sums::Kind;
using sums::Sum;

constexpr std::string_view kSchema = "fallaway/sums/1";

// What a conversion of units leaves exact, without its noise (323.84999999999997).
constexpr int kValueDigits = 12;
// An uncertainty deserves two (JCGM 100:2008, 7.2.6); two more keep it fit for further sums.
constexpr int kUncertaintyDigits = 4;

double rounded(double number, int digits) {
    if (!std::isfinite(number)) return number;
    return std::strtod(fmt::format("{:.{}g}", number, digits).c_str(), nullptr);
}

struct SumValue {
    std::optional<double> value;
    std::optional<std::string> unit;
    std::optional<double> u;
};

SumValue value_of(const AnswerValue& value, std::size_t i) {
    const double number =
        value.is_difference ? difference_from_si(value.si[i], *value.unit) : from_si(value.si[i], *value.unit);
    SumValue out;
    if (std::isfinite(number)) out.value = rounded(number, kValueDigits);
    if (!value.unit->symbol.empty()) out.unit = value.unit->symbol;
    if (value.u[i] > 0) out.u = rounded(difference_from_si(value.u[i], *value.unit), kUncertaintyDigits);
    return out;
}

Codec<SumValue> sum_value_codec() {
    using V = SumValue;
    return codec_of(
        Record<V>("sum_value", "A number that a sum gives")
            .tells("value", "the number; null where it has no bounds", &V::value, or_null(any_number()))
            .tells("unit", "its unit; left out for plain numbers", &V::unit, any_text())
            .tells("u", "standard uncertainty in that unit, where one is known", &V::u, any_number()));
}

// A number, a column of them, or a word.
Codec<AnswerValue> output_codec() {
    const auto one = sum_value_codec();
    const auto many = list_of(one);
    return {nullptr,
            [one, many](const AnswerValue& value) {
                if (value.unit == nullptr) return Json::of(value.word);
                if (!value.is_column) return one.encode(value_of(value, 0));
                std::vector<SumValue> column;
                for (std::size_t i = 0; i < value.si.size(); ++i) column.push_back(value_of(value, i));
                return many.encode(column);
            },
            [one, many](Definitions& definitions) {
                return Json::record({{"anyOf", Json::list({one.schema(definitions), many.schema(definitions),
                                                           any_text().schema(definitions)})}});
            },
            one.says + ", a list of them, or a word"};
}

// A record whose keys are names that the registry gives.
template <class T, class Name>
Codec<std::vector<T>> by_name(Codec<T> codec, Name name) {
    return {nullptr,
            [codec, name](const std::vector<T>& all) {
                Json out = Json::record();
                for (const T& item : all) out.add(std::invoke(name, item), codec.encode(item));
                return out;
            },
            [codec](Definitions& definitions) {
                return Json::record(
                    {{"type", Json::of("object")}, {"additionalProperties", codec.schema(definitions)}});
            },
            "a record, by name: " + codec.says};
}

struct Answered {
    const Sum& sum;
    const sums::Answer& answer;
};

Codec<Answered> sum_answer_codec() {
    using A = Answered;
    return codec_of(
        Record<A>("sum_answer", "What a sum gives")
            .add(schema_field<A>(kSchema))
            .tells(
                "sum", "its name", [](const A& a) { return a.sum.name; }, any_text())
            .tells(
                "outputs", "as the list of sums names them", [](const A& a) { return a.answer.outputs; },
                by_name(output_codec(), &AnswerValue::name))
            .tells(
                "notes", "on this answer", [](const A& a) { return a.answer.notes; }, list_of(any_text()))
            .tells(
                "cautions", "where the sum must not be trusted", [](const A& a) { return a.answer.cautions; },
                list_of(any_text())));
}

Codec<std::string> dimension_codec() {
    auto codec = any_text();
    codec.says = "a kind of quantity";
    return codec;
}

std::optional<std::string> dimension_name(const std::optional<Dimension>& dimension) {
    return dimension ? std::optional(std::string(name_of(*dimension))) : std::nullopt;
}

Codec<Input> sum_input_codec() {
    using I = Input;
    return codec_of(Record<I>("sum_input", "One thing to be given")
                        .tells("name", "its key", &I::name, any_text())
                        .tells("says", "what it is", &I::says, any_text())
                        .tells("kind", "how it is written", &I::kind,
                               choice<Kind>({{"quantity", Kind::quantity},
                                             {"list", Kind::list},
                                             {"table", Kind::table},
                                             {"word", Kind::word},
                                             {"text", Kind::text}}))
                        .tells(
                            "dimension", "left out for words, texts and values of any kind",
                            [](const I& i) { return dimension_name(i.dimension); }, dimension_codec())
                        .tells(
                            "expects", "for people: what may be written",
                            [](const I& i) { return sums::expectation(i); }, any_text())
                        .tells(
                            "words", "of a word",
                            [](const I& i) { return i.words.empty() ? std::nullopt : std::optional(i.words); },
                            list_of(any_text()))
                        .tells(
                            "usual", "taken when nothing is given",
                            [](const I& i) { return i.usual.empty() ? std::nullopt : std::optional(i.usual); },
                            any_text())
                        .tells(
                            "required", "must it be given?",
                            [](const I& i) { return i.usual.empty() && !i.may_be_left_out; }, boolean()));
}

Codec<sums::Output> sum_output_codec() {
    using O = sums::Output;
    return codec_of(Record<O>("sum_output", "One thing that comes out")
                        .tells("name", "its key", &O::name, any_text())
                        .tells("says", "what it is", &O::says, any_text())
                        .tells(
                            "dimension", "left out for words and for the kind of the readings given",
                            [](const O& o) { return dimension_name(o.dimension); }, dimension_codec())
                        .tells(
                            "unit", "left out for plain numbers and words",
                            [](const O& o) { return o.unit.empty() ? std::nullopt : std::optional(o.unit); },
                            any_text()));
}

struct Listed {
    const Sum* sum = nullptr;
    std::string theme;
};

Codec<Listed> sum_codec() {
    using L = Listed;
    const auto of = [](auto member) { return [member](const L& listed) { return listed.sum->*member; }; };
    auto text = any_text();
    return codec_of(
        Record<L>("sum", "A small calculation of the bench")
            .tells("name", "as it is asked for", of(&Sum::name), text)
            .tells("title", "a few words for lists", of(&Sum::title), text)
            .tells("theme", "sums that belong together", &L::theme, text)
            .tells("says", "what it is for", of(&Sum::says), text)
            .tells("inputs", "what is to be given", of(&Sum::inputs), list_of(sum_input_codec()))
            .tells("outputs", "what comes out", of(&Sum::outputs), list_of(sum_output_codec()))
            .tells("formula", "how it is worked out", of(&Sum::formula), text)
            .tells("source", "where that is from", of(&Sum::source), text)
            .tells("cautions", "where it must not be trusted", of(&Sum::cautions), list_of(text))
            .tells(
                "example", "inputs to begin with", [](const L& l) { return l.sum->example; },
                by_name(Codec<sums::Argument>{nullptr, [](const sums::Argument& a) { return Json::of(a.text); },
                                              text.schema, text.says},
                        &sums::Argument::key)));
}

Codec<std::vector<Listed>> sum_list_codec() {
    using L = std::vector<Listed>;
    return codec_of(Record<L>("sum_list", "All sums, in the order of the manual")
                        .add(schema_field<L>(kSchema))
                        .tells(
                            "sums", "one by one", [](const L& all) { return all; }, list_of(sum_codec())));
}

}  // namespace

std::string sums_answer_json(const Sum& sum, const sums::Answer& answer) {
    return write_json(sum_answer_codec().encode({sum, answer}));
}

std::string sums_list_json() {
    std::vector<Listed> all;
    for (const sums::Theme& theme : sums::themes()) {
        for (const Sum& sum : theme.sums) all.push_back({&sum, theme.title});
    }
    return write_json(sum_list_codec().encode(all));
}

void api::add_sums(Definitions& definitions) {
    sum_list_codec().schema(definitions);
    sum_answer_codec().schema(definitions);
}

}  // namespace fallaway::files
