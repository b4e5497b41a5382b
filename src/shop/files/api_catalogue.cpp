// What may be read, claimed and done, on the wire.
#include "bench/evidence/observable.h"
#include "shop/files/api_tables.h"
#include "shop/files/catalogue_tables.h"

namespace fallaway::files::api {
namespace {

using namespace wire;
using evidence::Observable;

std::string text(std::string_view view) {
    return std::string(view);
}

Codec<metrology::ToolKind> tool_kind_codec() {
    using T = metrology::ToolKind;
    return codec_of(Record<T>("tool_kind", "A kind of tool (data/tools.json)")
                        .tells("id", "as readings name it", &T::id, any_text())
                        .tells("name", "for people", &T::name, any_text())
                        .tells(
                            "dimension", "of what it reads",
                            [](const T& tool) { return text(name_of(tool.dimension)); }, any_text()));
}

Codec<evidence::ClaimKind> claim_kind_codec() {
    using C = evidence::ClaimKind;
    return codec_of(
        Record<C>("claim_kind", "A kind of claim (data/claims.json)")
            .tells("id", "as claims name it", &C::id, any_text())
            .tells("name", "for people", &C::name, any_text())
            .tells(
                "dimension", "of what is claimed; left out where it is claimed in words",
                [](const C& claim) {
                    return claim.dimension ? std::optional(text(name_of(*claim.dimension))) : std::nullopt;
                },
                any_text())
            .tells(
                "words", "true: claimed in words", [](const C& claim) { return !claim.dimension; }, boolean())
            .tells("checkable", "can any reading settle it?", &C::checkable, boolean()));
}

Codec<Observable> observable_codec() {
    using O = Observable;
    const auto texts = list_of(any_text());
    return codec_of(
        Record<O>("observable", "What a reading can be about")
            .tells(
                "name", "as readings name it", [](const O& o) { return text(o.name); }, any_text())
            .tells(
                "says", "what it is", [](const O& o) { return text(o.says); }, any_text())
            .tells(
                "dimension", "left out for what is told in words",
                [](const O& o) {
                    return o.words.empty() ? std::optional(text(name_of(o.dimension))) : std::nullopt;
                },
                any_text())
            .tells(
                "words", "the words that may be told; left out for quantities",
                [](const O& o) {
                    using Words = std::vector<std::string>;
                    return o.words.empty() ? std::nullopt : std::optional(Words(o.words.begin(), o.words.end()));
                },
                texts)
            .tells(
                "needs", "keys of its place that a reading must give",
                [](const O& o) { return place_words(o.needs); }, texts)
            .tells(
                "allows", "keys that it may give besides", [](const O& o) { return place_words(o.allows); }, texts)
            .tells(
                "default_tool", "kind of tool that is assumed when a reading names none",
                [](const O& o) {
                    return o.default_tool.empty() ? std::nullopt : std::optional(text(o.default_tool));
                },
                any_text())
            .tells(
                "example", "a value as it is typed",
                [](const O& o) { return text(o.words.empty() ? example_of(o.dimension) : o.words.front()); },
                any_text()));
}

Codec<evidence::WorkKind> work_kind_codec() {
    using W = evidence::WorkKind;
    return codec_of(
        Record<W>("work_kind", "A kind of work")
            .tells(
                "name", "as work names it", [](const W& work) { return text(work.name); }, any_text()));
}

std::vector<Observable> all_observables(const evidence::Catalogue&) {
    const auto all = evidence::observables();
    return {all.begin(), all.end()};
}

const std::vector<evidence::WorkKind>& all_work(const evidence::Catalogue&) {
    return evidence::work_kinds();
}

}  // namespace

Codec<evidence::Catalogue> catalogue_codec() {
    using C = evidence::Catalogue;
    return codec_of(Record<C>("catalogue", "What may be read, claimed and done; it changes with the program alone")
                        .add(schema_field<C>("fallaway/catalogue/1"))
                        .tells("procedure", "what an inspector asks", &C::procedure, procedure_codec())
                        .tells("tools", "kinds of tool", &C::tools, list_of(tool_kind_codec()))
                        .tells("claims", "kinds of claim", &C::claims, list_of(claim_kind_codec()))
                        .tells("observables", "the closed list", all_observables, list_of(observable_codec()))
                        .tells("work", "kinds of work", all_work, list_of(work_kind_codec())));
}

std::string encode_catalogue(const evidence::Catalogue& catalogue) {
    return write_json_line(catalogue_codec().encode(catalogue));
}

}  // namespace fallaway::files::api
