#include "bench/evidence/assumptions.h"

#include <algorithm>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"

namespace fallaway::evidence {
namespace {

using metrology::Shape;
using metrology::Uncertain;

constexpr double kMm = 1e-3;

// A length in mm that lies somewhere within +/- half_width, no place likelier than another.
struct UsualLength {
    double mm;
    double half_width_mm;
};

// Common practice, no source: the middle of the range in use and its reach.
struct Usual {
    UsualLength scale;
    UsualLength radius;
    UsualLength fret_height;
};
constexpr Usual kGuitar{{648, 12}, {305, 100}, {1.2, 0.25}};
constexpr Usual kBass{{864, 20}, {305, 120}, {1.2, 0.25}};

class Notebook {
public:
    explicit Notebook(const Instrument& instrument)
        : because_(fmt::format("usual for {}; common practice, no source", class_of(instrument))) {}

    void words(std::string what, std::string text, std::string observable = "") {
        list_.push_back({std::move(what), std::move(text), because_, std::move(observable), {}});
    }
    void count(std::string what, int value, std::string observable = "") {
        list_.push_back({std::move(what),
                         fmt::format("{}", value),
                         because_,
                         std::move(observable),
                         {static_cast<double>(value), 0}});
    }
    void length(std::string what, UsualLength usual, std::string observable) {
        const double u = metrology::standard_from_limit(usual.half_width_mm * kMm, Shape::rectangular);
        list_.push_back({std::move(what), fmt::format("{} ± {} mm", usual.mm, usual.half_width_mm), because_,
                         std::move(observable), Uncertain{usual.mm * kMm, u}});
    }
    // What nobody can guess is not guessed.
    void unknown(std::string what, std::string because) {
        list_.push_back({std::move(what), "not known", std::move(because), "", {}});
    }
    std::vector<Assumption> take() { return std::move(list_); }

private:
    static std::string class_of(const Instrument& instrument) {
        Instrument plain;
        plain.kind = instrument.kind;
        plain.fretted = instrument.fretted;
        plain.strings.resize(string_count(instrument));
        const std::string text = describe(plain);
        return (text.starts_with("e") ? "an " : "a ") + text;
    }

    std::string because_;
    std::vector<Assumption> list_;
};

bool every_string(const Instrument& instrument, bool (*has)(const StringSpec&)) {
    return !instrument.strings.empty() && std::ranges::all_of(instrument.strings, has);
}

void assume_strings(const Instrument& instrument, Notebook& notebook) {
    const int strings = string_count(instrument);
    const bool guitar = instrument.kind == Kind::electric_guitar;
    if (instrument.strings.empty()) notebook.count("strings", strings);
    if (!every_string(instrument, [](const StringSpec& s) { return s.note.has_value(); })) {
        const auto tuning = tuning_of(instrument);
        const bool known = std::ranges::none_of(tuning, &std::string::empty);
        if (known) notebook.words("tuning", fmt::format("{}", fmt::join(tuning, " ")));
        if (!known) notebook.unknown("tuning", "no tuning is usual for this number of strings");
    }
    if (!every_string(instrument, [](const StringSpec& s) { return s.gauge.has_value(); })) {
        const bool usual = strings == (guitar ? 6 : 4);
        if (usual) notebook.words("gauges", guitar ? "10-46" : "45-105", "string gauge");
        if (!usual) notebook.unknown("gauges", "no set is usual for this number of strings");
    }
    if (!every_string(instrument, [](const StringSpec& s) { return s.core && s.wrap; })) {
        notebook.words("core and wrap",
                       guitar ? "hex core, round wrap, the thinnest three plain" : "hex core, round wrap");
    }
}

void assume_neck(const Instrument& instrument, const Usual& usual, Notebook& notebook) {
    const bool has_scale =
        instrument.scale || every_string(instrument, [](const StringSpec& s) { return s.scale.has_value(); });
    if (!has_scale) notebook.length("scale length", usual.scale, "scale length");
    if (!instrument.frets) notebook.count("frets", fret_count(instrument), "fret count");
    if (!instrument.radius) notebook.length("fingerboard radius", usual.radius, "board radius");
    if (instrument.fretted && !(instrument.fretwire && instrument.fretwire->height)) {
        notebook.length("fret height", usual.fret_height, "fret height");
    }
    if (instrument.fretted && !instrument.zero_fret) notebook.words("zero fret", "none");
}

void assume_hardware(const Instrument& instrument, Notebook& notebook) {
    const std::string differs = "every type is in common use";
    if (!instrument.bridge || !instrument.bridge->type) notebook.unknown("bridge type", differs);
    if (!instrument.bridge || !instrument.bridge->height_screw) {
        notebook.unknown("saddle screw", "never guessed: learn its pitch from one turn");
    }
    if (!instrument.truss_rod || !instrument.truss_rod->type) notebook.unknown("truss rod type", differs);
    if (!instrument.truss_rod || !instrument.truss_rod->access) notebook.unknown("truss rod access", differs);
    if (!instrument.neck_joint) notebook.unknown("neck joint", differs);
    if (!instrument.board_finish) notebook.unknown("fingerboard finish", differs);
    if (instrument.pickups.empty()) notebook.unknown("pickups", differs);
    if (!instrument.battery) notebook.words("battery", "none");
    if (!instrument.headless) notebook.words("head", "with a head");
}

}  // namespace

std::vector<Assumption> assumptions(const Instrument& instrument) {
    Notebook notebook(instrument);
    assume_strings(instrument, notebook);
    assume_neck(instrument, instrument.kind == Kind::electric_guitar ? kGuitar : kBass, notebook);
    assume_hardware(instrument, notebook);
    return notebook.take();
}

}  // namespace fallaway::evidence
