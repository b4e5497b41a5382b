#include "shop/files/strings_table.h"

#include <stdexcept>

#include <fmt/format.h>

#include "shop/files/catalogue_tables.h"
#include "shop/files/embedded.h"

namespace fallaway::files {
namespace {

using namespace wire;
using strings::Core;
using strings::Estimate;
using strings::Material;
using strings::StringRow;
using strings::Wrap;

// A row as it is written; quantities keep their own u.
struct WrittenRow {
    std::string id;
    double gauge = 0;
    Core core = Core::round;
    Wrap wrap = Wrap::plain;
    Material material = Material::steel;
    double mass = 0;
    double u_relative = 0;
    std::optional<QuantityText> core_diameter;
    std::optional<QuantityText> core_modulus;
    std::string source;
};

struct WrittenFile {
    std::vector<WrittenRow> strings;
    std::vector<StringSet> sets;
};

Codec<Wrap> wrap_codec() {
    return choice<Wrap>({{"plain", Wrap::plain},
                         {"round", Wrap::round},
                         {"ground", Wrap::ground},
                         {"flat", Wrap::flat},
                         {"tape", Wrap::tape}});
}

Codec<WrittenRow> row_codec() {
    using R = WrittenRow;
    return codec_of(Record<R>("string_row", "One gauge of one kind of string")
                        .required("id", "unique", &R::id, name())
                        .required("gauge", "outer diameter as sold", &R::gauge, si_quantity(Dimension::length))
                        .required("core", "form of the core", &R::core,
                                  choice<Core>({{"round", Core::round}, {"hex", Core::hex}}))
                        .required("wrap", "what is wound on it", &R::wrap, wrap_codec())
                        .required("material", "of the core", &R::material,
                                  choice<Material>({{"steel", Material::steel}, {"nylon", Material::nylon}}))
                        .required("mass", "per length", &R::mass, si_quantity(Dimension::linear_density))
                        .required("u_relative", "standard uncertainty of the mass, as a fraction of it",
                                  &R::u_relative, number(0.001, 0.5))
                        .optional("core_diameter", "hex: across flats, with its u", &R::core_diameter,
                                  quantity(Dimension::length))
                        .optional("core_modulus", "modulus of elasticity, with its u", &R::core_modulus,
                                  quantity(Dimension::pressure))
                        .required("source", "where the mass is from", &R::source, prose()));
}

Codec<StringSet> set_codec() {
    const auto string = codec_of(
        Record<SetString>("set_string", "One string of a set")
            .required("gauge", "outer diameter as sold", &SetString::gauge, si_quantity(Dimension::length))
            .required("wrap", "what is wound on it", &SetString::wrap, wrap_codec()));
    using S = StringSet;
    return codec_of(Record<S>("string_set", "A usual set by its gauges")
                        .required("id", "unique", &S::id, name())
                        .required("name", "for a person", &S::name, name())
                        .required("for", "kind of instrument", &S::for_kind, word({"guitar", "bass"}))
                        .required("strings", "thinnest first", &S::strings, list_of(string, 1))
                        .required("source", "where the gauges are from", &S::source, prose()));
}

Codec<WrittenFile> file_codec() {
    using F = WrittenFile;
    return codec_of(Record<F>("string_tables", "Strings and sets")
                        .required("strings", "masses by gauge", &F::strings, list_of(row_codec(), 1))
                        .required("sets", "usual sets", &F::sets, list_of(set_codec(), 1)));
}

std::optional<Estimate> with_u(const std::optional<QuantityText>& written, const Spot& spot) {
    if (!written) return std::nullopt;
    if (!written->u_si || !(*written->u_si > 0)) {
        spot.fault("uncertainty",
                   fmt::format("{}: standard uncertainty missing, expected such as \"0.40 mm ± 0.04\"",
                               quote(written->typed)));
    }
    return Estimate{written->si, written->u_si.value_or(0)};
}

StringRow row_of(const WrittenRow& written, const Spot& spot) {
    StringRow row;
    row.core = written.core;
    row.wrap = written.wrap;
    row.material = written.material;
    row.gauge = written.gauge;
    row.mass = {written.mass, written.u_relative * written.mass};
    row.core_diameter = with_u(written.core_diameter, spot.member("core_diameter"));
    row.core_modulus = with_u(written.core_modulus, spot.member("core_modulus"));
    return row;
}

// What the form cannot tell: would this row make a string?
void check_row(const StringRow& row, const Spot& spot) {
    if (row.wrap == Wrap::plain && row.core != Core::round) {
        spot.member("core").fault("range", "\"hex\": a plain string is round");
        return;
    }
    if (row.wrap == Wrap::plain && row.core_diameter) {
        spot.member("core_diameter")
            .fault("unknown", "a core of a plain string; leave it out, the string is its core");
        return;
    }
    const auto body = strings::body_of(strings::make_of(row));
    if (body) return;
    const std::string& field = body.error().path;
    const std::string key = field == "outer_diameter" ? "gauge" : field;
    spot.member(key).fault(body.error().code, body.error().message);
}

void check_kinds(const std::vector<NamedString>& rows, const Spot& list) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            const StringRow& a = rows[i].row;
            const StringRow& b = rows[j].row;
            if (a.gauge == b.gauge && a.wrap == b.wrap && a.material == b.material) {
                list.item(i).member("gauge").fault(
                    "duplicate", fmt::format("the same gauge, wrap and material as {}", quote(rows[j].id)));
            }
        }
    }
}

void check_set(const StringSet& set, const Spot& spot) {
    for (std::size_t i = 1; i < set.strings.size(); ++i) {
        if (set.strings[i].gauge > set.strings[i - 1].gauge) continue;
        spot.member("strings").item(i).member("gauge").fault("range", "not thicker than the string before it");
    }
}

}  // namespace

std::vector<StringRow> StringTables::rows() const {
    std::vector<StringRow> out;
    for (const NamedString& string : strings) out.push_back(string.row);
    return out;
}

const StringSet* StringTables::set(std::string_view id) const {
    const auto found = std::ranges::find(sets, id, &StringSet::id);
    return found == sets.end() ? nullptr : &*found;
}

ResultAll<StringTables> decode_string_tables(std::string_view text) {
    const auto json = read_json(text);
    if (!json) return tl::unexpected(std::vector<Error>{json.error()});
    Session session;
    const Spot top(session);
    WrittenFile file;
    StringTables out;
    if (file_codec().decode(*json, top, file)) {
        const Spot rows = top.member("strings");
        for (std::size_t i = 0; i < file.strings.size(); ++i) {
            const Spot spot = rows.item(i);
            out.strings.push_back({file.strings[i].id, row_of(file.strings[i], spot), file.strings[i].source});
            check_row(out.strings.back().row, spot);
        }
        check_ids(out.strings, &NamedString::id, "id", rows);
        check_kinds(out.strings, rows);
        out.sets = std::move(file.sets);
        const Spot sets = top.member("sets");
        check_ids(out.sets, &StringSet::id, "id", sets);
        for (std::size_t i = 0; i < out.sets.size(); ++i) check_set(out.sets[i], sets.item(i));
    }
    if (!session.faults().empty()) return tl::unexpected(session.take_faults());
    return out;
}

const StringTables& built_in_strings() {
    static const StringTables kTables = [] {
        auto tables = decode_string_tables(embedded("data/strings.json").value_or(""));
        if (tables) return *std::move(tables);
        const Error& first = tables.error().front();
        throw std::logic_error(fmt::format("data/strings.json: {}: {}", first.path, first.message));
    }();
    return kTables;
}

}  // namespace fallaway::files
