// The records of an assessment as wire tables, which are only ever written. Shared by the codecs of this room
// only.
#pragma once

#include <string>

#include "bench/judgement/assessment.h"
#include "shop/files/wire.h"

namespace fallaway::files {

// What an assessment on the wire is made of; the record ends with its schema's name in front.
struct Assessed {
    std::string version;  // of the program
    bool demo = false;
    std::string instrument;  // describe(instrument)
    const judgement::Assessment& assessment;
};
wire::Codec<Assessed> assessed_codec();
wire::Definitions assessment_definitions();

wire::Codec<judgement::Verdict> verdict_codec();
wire::Codec<judgement::Answer> answer_codec();

// Of assessed_codec() alone.
wire::Codec<judgement::Figure> figure_codec();
wire::Codec<evidence::Severity> told_severity_codec();
wire::Codec<judgement::Standing> standing_codec();
wire::Codec<judgement::Finding> finding_codec();
wire::Codec<judgement::Change> change_codec();
wire::Codec<model::NeckSurvey> survey_codec();
wire::Codec<model::FittedStrings> pull_codec();
wire::Codec<model::Intonation> intonation_codec();

// A row that always says the same: `schema` in front of what is sent by itself, `type` of a message.
template <class T>
wire::Field<T> constant_field(std::string key, std::string says, std::string_view text) {
    const Json value = Json::of(text);
    return {std::move(key),
            std::move(says),
            true,
            wire::show(value),
            "",
            nullptr,
            [value](const T&) { return std::optional(value); },
            [value](wire::Definitions&) {
                return Json::record({{"const", value}});
            }};
}
template <class T>
wire::Field<T> schema_field(std::string_view schema) {
    return constant_field<T>("schema", "what this is", schema);
}

// A closed list of words that the judgement has names for.
template <class T>
wire::Codec<T> told_choice(std::string name, const std::vector<T>& values) {
    std::vector<std::pair<std::string_view, T>> pairs;
    for (const T value : values) pairs.emplace_back(judgement::name_of(value), value);
    return wire::named(std::move(name), wire::choice<T>(std::move(pairs)));
}

// A figure that says anything.
template <class T>
auto told(judgement::Figure T::*member) {
    return [member](const T& record) -> std::optional<judgement::Figure> {
        const judgement::Figure& figure = record.*member;
        return figure.text.empty() && !figure.si ? std::nullopt : std::optional(figure);
    };
}

}  // namespace fallaway::files
