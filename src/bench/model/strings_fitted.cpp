#include "bench/model/strings_fitted.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "bench/model/neck_layout.h"

namespace fallaway::model {
namespace {

using evidence::Bench;
using evidence::Catalogue;
using evidence::Instrument;
using evidence::Kind;
using strings::Core;
using strings::Wrap;

constexpr double kGaugeU = 5e-6;           // m, of a gauge as sold; common practice, no source
constexpr double kThickestPlain = 5.6e-4;  // m, 0.022 in
constexpr double kStatedScaleU = 5e-4;     // m, of a scale in a maker's list
constexpr double kUsualScaleU = 7e-3;      // of one that nobody told

const evidence::StringSpec& spec_of(const Instrument& instrument, std::size_t index) {
    static const evidence::StringSpec kNothing;
    return index < instrument.strings.size() ? instrument.strings[index] : kNothing;
}

// The set that is taken for an instrument of which nothing was told (evidence/assumptions.h names the same).
const evidence::StringSet* usual_set(const Instrument& instrument, const Catalogue& catalogue) {
    const bool guitar = instrument.kind == Kind::electric_guitar;
    const auto found =
        std::ranges::find(catalogue.string_sets, guitar ? "10-46" : "bass 45-105", &evidence::StringSet::id);
    if (found == catalogue.string_sets.end()) return nullptr;
    return static_cast<int>(found->strings.size()) == evidence::string_count(instrument) ? &*found : nullptr;
}

std::optional<Uncertain> counted(const CurrentReadings& readings, std::string_view what, int string) {
    const Current* current = readings.at(what, {.string = string});
    if (current == nullptr || !current->taken.word.empty() || !current->taken.stale_because.empty()) {
        return std::nullopt;
    }
    return current->taken.y;
}

struct Gauge {
    Uncertain size;  // m
    GaugeFrom from = GaugeFrom::stated;
};

std::optional<Gauge> gauge_of(const Bench& bench, const CurrentReadings& readings,
                              const evidence::StringSet* usual, std::size_t index) {
    std::optional<Gauge> named;
    if (const auto& stated = spec_of(bench.instrument, index).gauge) {
        named = {{stated->si, stated->u_si.value_or(kGaugeU)}, GaugeFrom::stated};
    } else if (usual != nullptr) {
        named = {{usual->strings[index].gauge, kGaugeU}, GaugeFrom::usual};
    }
    const auto read = counted(readings, "string gauge", static_cast<int>(index) + 1);
    if (!read) return named;
    if (named && std::abs(read->value - named->size.value) <= 2 * std::hypot(read->u, named->size.u)) {
        if (named->from == GaugeFrom::usual) named->from = GaugeFrom::read;
        return named;
    }
    return Gauge{*read, GaugeFrom::read};
}

void tell_kind(FittedString& string, const evidence::StringSpec& spec) {
    const auto is = [](const std::optional<std::string>& word, std::string_view named) { return word == named; };
    const bool plain_told = is(spec.wrap, "plain") || is(spec.core, "plain");
    string.kind_assumed = !plain_told && !(spec.core && spec.wrap);
    string.wrap = is(spec.wrap, "ground") ? Wrap::ground
                  : is(spec.wrap, "flat") ? Wrap::flat
                  : is(spec.wrap, "tape") ? Wrap::tape
                                          : Wrap::round;
    const bool thin = !spec.wrap && !spec.core && string.gauge.value < kThickestPlain;
    if (plain_told || thin) string.wrap = Wrap::plain;
    string.core = string.wrap == Wrap::plain || is(spec.core, "round") ? Core::round : Core::hex;
}

Result<strings::Body> body_of(FittedString& string, const Catalogue& catalogue) {
    auto gauged = strings::string_of_gauge(catalogue.string_rows, string.gauge.value, string.wrap, string.core);
    if (!gauged) return tl::unexpected(gauged.error());
    strings::Make& make = gauged->make;
    if (make.core != string.core) {
        make.core = string.core;
        make.core_diameter.reset();  // it was told of the other form
    }
    make.outer_diameter.u = string.gauge.u;
    // A mass out of the table is that of exactly this gauge.
    if (make.mass && string.gauge.u > kGaugeU) {
        make.mass->u = std::hypot(make.mass->u, 2 * make.mass->value * string.gauge.u / string.gauge.value);
    }
    string.mass_from = gauged->from;
    return strings::body_of(make);
}

Uncertain scale_of(const Bench& bench, const CurrentReadings& readings, const neck::Layout& layout,
                   std::size_t index) {
    const Instrument& instrument = bench.instrument;
    const int string = static_cast<int>(index) + 1;
    const bool told =
        instrument.scale || spec_of(instrument, index).scale || counted(readings, "nut to last fret", string);
    const auto read = counted(readings, "scale length", string);
    return {layout.strings[index].scale, read ? read->u : told ? kStatedScaleU : kUsualScaleU};
}

Result<void> reckon(FittedString& string, const Catalogue& catalogue) {
    const auto body = body_of(string, catalogue);
    if (!body) return tl::unexpected(body.error());
    const auto pull = strings::pull_of(*body, {string.scale.value, string.scale.u}, {string.pitch, 0});
    if (!pull) return tl::unexpected(pull.error());
    string.pull = *pull;
    return {};
}

}  // namespace

FittedStrings strings_of(const Bench& bench, const CurrentReadings& readings, const Catalogue& catalogue) {
    const neck::Layout layout = neck_layout(bench, readings);
    const auto notes = evidence::tuning_of(bench.instrument);
    const evidence::StringSet* usual = usual_set(bench.instrument, catalogue);
    FittedStrings out;
    std::vector<strings::Estimate> pulls;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        FittedString string;
        string.string = static_cast<int>(i) + 1;
        string.note = notes[i];
        const auto leave_out = [&](std::string because) {
            out.left_out.push_back({string.string, std::move(because)});
        };
        const auto number = evidence::note_number(notes[i]);
        const auto gauge = gauge_of(bench, readings, usual, i);
        if (!number) {
            leave_out("its note is not known");
            continue;
        }
        if (!gauge) {
            leave_out("its gauge is not known: read it");
            continue;
        }
        string.pitch = 440 * std::exp2((*number - 69) / 12.0);
        string.gauge = gauge->size;
        string.gauge_from = gauge->from;
        string.scale = scale_of(bench, readings, layout, i);
        tell_kind(string, spec_of(bench.instrument, i));
        if (const auto good = reckon(string, catalogue); !good) {
            leave_out(fmt::format("{} {}", good.error().path, good.error().message));
            continue;
        }
        pulls.push_back(string.pull.tension);
        out.strings.push_back(std::move(string));
    }
    const strings::Estimate whole = strings::total(pulls);
    out.pull = {whole.value, whole.u};
    return out;
}

}  // namespace fallaway::model
