#include "shop/files/catalogue_codec.h"

#include <stdexcept>

#include <fmt/format.h>

#include "bench/evidence/observable.h"
#include "shop/files/catalogue_tables.h"
#include "shop/files/embedded.h"
#include "shop/files/strings_table.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::ClaimKind;
using evidence::Procedure;
using metrology::FeatureBudget;
using metrology::ToolKind;

// --- kinds of claim ---

std::vector<std::pair<std::string_view, Dimension>> dimensions() {
    std::vector<std::pair<std::string_view, Dimension>> out;
    for (int i = 0; i <= static_cast<int>(Dimension::money); ++i) {
        const auto dimension = static_cast<Dimension>(i);
        out.emplace_back(name_of(dimension), dimension);
    }
    return out;
}

std::vector<std::string_view> observable_names_and_none() {
    std::vector<std::string_view> names{""};
    for (const auto& observable : evidence::observables()) names.push_back(observable.name);
    return names;
}

Field<ClaimKind> tolerance_field() {
    return {"tolerance",
            "half width of what still fits",
            false,
            "a quantity with its unit",
            "",
            [](const Json& value, const Spot& spot, ClaimKind& kind) {
                if (kind.dimension) return si_quantity(*kind.dimension).decode(value, spot, kind.tolerance);
                spot.fault("unknown", "a tolerance for a claim in words; leave it out");
                return false;
            },
            [](const ClaimKind& kind) -> std::optional<Json> {
                if (!kind.dimension || kind.tolerance == 0) return std::nullopt;
                return si_quantity(*kind.dimension).encode(kind.tolerance);
            },
            [](Definitions&) {
                return Json::record({{"type", Json::of("string")}});
            }};
}

Codec<ClaimKind> claim_kind_codec() {
    using C = ClaimKind;
    return codec_of(
        Record<C>("claim_kind", "How a kind of claim is checked")
            .required("id", "as bench files name it", &C::id, name())
            .required("name", "for a person", &C::name, name())
            .defaulted("reads", "observable that decides it; empty when only a person can tell", &C::reads,
                       word(observable_names_and_none()))
            .optional("dimension", "of the claimed value; words when left out", &C::dimension,
                      choice<Dimension>(dimensions()))
            .add(tolerance_field())
            .defaulted("tolerance_relative", "as a fraction of the claimed value", &C::tolerance_relative,
                       number(0, 1))
            .defaulted("exact", "counts and words", &C::exact, boolean())
            .defaulted("severity", "when contradicted", &C::severity, severity_codec())
            .defaulted("cure", "when contradicted", &C::cure, cure_codec())
            .defaulted("checkable", "false: not established, without nagging", &C::checkable, boolean())
            .required("source", "of the tolerance", &C::source, prose()));
}

// --- kinds of tool ---

Codec<FeatureBudget> budget_codec(Dimension dimension) {
    using F = FeatureBudget;
    const auto length = si_quantity(dimension);
    return codec_of(
        Record<F>("budget", "How a tool errs on one feature")
            .defaulted("feature", "an observable; any other when empty", &F::feature,
                       word(observable_names_and_none()))
            .defaulted("step", "of its scale or display", &F::step, length)
            .defaulted("limit", "largest error, fixed part", &F::limit, length)
            .defaulted("limit_per_value", "part that grows with the value", &F::limit_per_value, number(0, 1))
            .defaulted("handling", "standard deviation of feel, parallax, placement", &F::handling, length)
            .optional("total", "standard uncertainty as a whole", &F::total, length)
            .required("source", "where it is from", &F::source, prose()));
}

// Temperatures err by differences: 0.5 K, not 0.5 K above absolute zero.
Dimension error_dimension(Dimension dimension) {
    return dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
}

Field<ToolKind> budgets_field() {
    return {"budgets",
            "one for each feature",
            true,
            "list of budgets",
            "",
            [](const Json& value, const Spot& spot, ToolKind& tool) {
                return list_of(budget_codec(error_dimension(tool.dimension)), 1).decode(value, spot, tool.budgets);
            },
            [](const ToolKind& tool) {
                return std::optional(list_of(budget_codec(error_dimension(tool.dimension))).encode(tool.budgets));
            },
            [](Definitions&) {
                return Json::record({{"type", Json::of("array")}});
            }};
}

Field<ToolKind> largest_field() {
    return {"largest",
            "the largest value it can read",
            false,
            "a quantity with its unit",
            "",
            [](const Json& value, const Spot& spot, ToolKind& tool) {
                return si_quantity(tool.dimension).decode(value, spot, tool.largest.emplace());
            },
            [](const ToolKind& tool) -> std::optional<Json> {
                if (!tool.largest) return std::nullopt;
                return si_quantity(tool.dimension).encode(*tool.largest);
            },
            [](Definitions&) {
                return Json::record({{"type", Json::of("string")}});
            }};
}

Codec<ToolKind> tool_kind_codec() {
    using T = ToolKind;
    return codec_of(Record<T>("tool_kind", "What a kind of tool can know")
                        .required("id", "as bench files name it", &T::id, name())
                        .required("name", "for a person", &T::name, name())
                        .required("dimension", "of what it reads", &T::dimension, choice<Dimension>(dimensions()))
                        .add(largest_field())
                        .add(budgets_field()));
}

// --- whole files ---

template <class T>
struct Wrapped {
    std::vector<T> list;
};

template <class T>
ResultAll<T> decode_file(std::string_view text, const Codec<T>& codec,
                         void (*check)(const T&, const Spot&) = nullptr) {
    const auto json = read_json(text);
    if (!json) return tl::unexpected(std::vector<Error>{json.error()});
    Session session;
    const Spot top(session);
    T out;
    if (codec.decode(*json, top, out) && check != nullptr) check(out, top);
    if (!session.faults().empty()) return tl::unexpected(session.take_faults());
    return out;
}

template <class T>
T must(ResultAll<T> result, std::string_view path) {
    if (result) return std::move(*result);
    const Error& first = result.error().front();
    throw std::logic_error(fmt::format("{}: {}: {}", path, first.path, first.message));
}

evidence::Catalogue load() {
    evidence::Catalogue catalogue;
    const auto procedures = embedded_paths("data/procedures/");
    if (!procedures.empty()) {
        catalogue.procedure = must(decode_procedure(*embedded(procedures.front())), procedures.front());
    }
    if (const auto text = embedded("data/claims.json"))
        catalogue.claims = must(decode_claim_kinds(*text), "data/claims.json");
    if (const auto text = embedded("data/tools.json"))
        catalogue.tools = must(decode_tool_kinds(*text), "data/tools.json");
    catalogue.string_rows = built_in_strings().rows();
    catalogue.string_sets = built_in_strings().sets;
    return catalogue;
}

}  // namespace

ResultAll<Procedure> decode_procedure(std::string_view text) {
    return decode_file<Procedure>(text, procedure_codec());
}

ResultAll<std::vector<ClaimKind>> decode_claim_kinds(std::string_view text) {
    using W = Wrapped<ClaimKind>;
    const auto codec =
        codec_of(Record<W>("claims", "Kinds of claim")
                     .required("claims", "in the order of the report", &W::list, list_of(claim_kind_codec(), 1)));
    auto file = decode_file<W>(text, codec, [](const W& w, const Spot& top) {
        const Spot list = top.member("claims");
        check_ids(w.list, &ClaimKind::id, "id", list);
    });
    if (!file) return tl::unexpected(file.error());
    return std::move(file->list);
}

ResultAll<std::vector<ToolKind>> decode_tool_kinds(std::string_view text) {
    using W = Wrapped<ToolKind>;
    const auto codec =
        codec_of(Record<W>("tools", "Kinds of tool")
                     .required("tools", "in the order of a list", &W::list, list_of(tool_kind_codec(), 1)));
    auto file = decode_file<W>(text, codec, [](const W& w, const Spot& top) {
        const Spot list = top.member("tools");
        check_ids(w.list, &ToolKind::id, "id", list);
    });
    if (!file) return tl::unexpected(file.error());
    return std::move(file->list);
}

const evidence::Catalogue& built_in_catalogue() {
    static const evidence::Catalogue kCatalogue = load();
    return kCatalogue;
}

}  // namespace fallaway::files
