#include "shop/files/sums_json.h"

#include <cmath>
#include <cstdlib>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "bench/sums/arguments.h"

namespace fallaway::files {
namespace {

using json = nlohmann::ordered_json;
using sums::AnswerValue;
using sums::Input;
using sums::Kind;

constexpr const char* kSchema = "fallaway/sums/1";
constexpr int kIndent = 2;

std::string dumped(const json& value) {
    // A note may repeat what was typed, bytes that are not UTF-8 included; they must not end the program.
    return value.dump(kIndent, ' ', false, json::error_handler_t::replace) + "\n";
}

// What a conversion of units leaves exact, without its noise (323.84999999999997).
constexpr int kValueDigits = 12;
// An uncertainty deserves two (JCGM 100:2008, 7.2.6); two more keep it fit for further sums.
constexpr int kUncertaintyDigits = 4;

json rounded(double number, int digits) {
    if (!std::isfinite(number)) return nullptr;
    return std::strtod(fmt::format("{:.{}g}", number, digits).c_str(), nullptr);
}

json quantity(const AnswerValue& value, std::size_t i) {
    const double number =
        value.is_difference ? difference_from_si(value.si[i], *value.unit) : from_si(value.si[i], *value.unit);
    json out{{"value", rounded(number, kValueDigits)}};
    if (!value.unit->symbol.empty()) out["unit"] = value.unit->symbol;
    if (value.u[i] > 0) out["u"] = rounded(difference_from_si(value.u[i], *value.unit), kUncertaintyDigits);
    return out;
}

json output(const AnswerValue& value) {
    if (value.unit == nullptr) return value.word;
    if (!value.is_column) return quantity(value, 0);
    json rows = json::array();
    for (std::size_t i = 0; i < value.si.size(); ++i) rows.push_back(quantity(value, i));
    return rows;
}

std::string_view kind_name(Kind kind) {
    switch (kind) {
        case Kind::quantity:
            return "quantity";
        case Kind::list:
            return "list";
        case Kind::table:
            return "table";
        case Kind::word:
            return "word";
        case Kind::text:
            return "text";
    }
    return "";
}

json described(const Input& input) {
    json out{{"name", input.name}, {"says", input.says}, {"kind", kind_name(input.kind)}};
    if (input.dimension) out["dimension"] = name_of(*input.dimension);
    out["expects"] = sums::expectation(input);
    if (!input.words.empty()) out["words"] = input.words;
    if (!input.usual.empty()) out["usual"] = input.usual;
    out["required"] = input.usual.empty() && !input.may_be_left_out;
    return out;
}

json described(const sums::Output& output) {
    json out{{"name", output.name}, {"says", output.says}};
    if (output.dimension) out["dimension"] = name_of(*output.dimension);
    if (!output.unit.empty()) out["unit"] = output.unit;
    return out;
}

json described(const sums::Sum& sum, const std::string& theme) {
    json out{{"name", sum.name}, {"title", sum.title}, {"theme", theme}, {"says", sum.says}};
    out["inputs"] = json::array();
    for (const Input& input : sum.inputs) out["inputs"].push_back(described(input));
    out["outputs"] = json::array();
    for (const sums::Output& each : sum.outputs) out["outputs"].push_back(described(each));
    out["formula"] = sum.formula;
    out["source"] = sum.source;
    out["cautions"] = sum.cautions;
    out["example"] = json::object();
    for (const sums::Argument& argument : sum.example) out["example"][argument.key] = argument.text;
    return out;
}

}  // namespace

std::string sums_answer_json(const sums::Sum& sum, const sums::Answer& answer) {
    json out{{"schema", kSchema}, {"sum", sum.name}, {"outputs", json::object()}};
    for (const AnswerValue& value : answer.outputs) out["outputs"][value.name] = output(value);
    out["notes"] = answer.notes;
    out["cautions"] = answer.cautions;
    return dumped(out);
}

std::string sums_list_json() {
    json out{{"schema", kSchema}, {"sums", json::array()}};
    for (const sums::Theme& theme : sums::themes()) {
        for (const sums::Sum& sum : theme.sums) out["sums"].push_back(described(sum, theme.title));
    }
    return dumped(out);
}

}  // namespace fallaway::files
