// Wire tables of the instrument and of places on it.
#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "science/base/quote.h"
#include "shop/files/bench_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::Instrument;
using evidence::Place;

constexpr int kMostStrings = 18;
constexpr int kMostFrets = 40;

Codec<evidence::StringSpec> string_codec() {
    using S = evidence::StringSpec;
    return codec_of(Record<S>("string", "One string; the list begins with the thinnest, string 1")
                        .optional("note", "what it is tuned to", &S::note, note())
                        .optional("gauge", "outer diameter", &S::gauge, quantity(Dimension::length))
                        .optional("core", "what the core is", &S::core, word({"plain", "round", "hex"}))
                        .optional("wrap", "what is wound round it", &S::wrap,
                                  word({"plain", "round", "ground", "flat", "tape"}))
                        .optional("scale", "of this string alone, where frets are fanned", &S::scale,
                                  quantity(Dimension::length)));
}

Codec<evidence::Fretwire> fretwire_codec() {
    using F = evidence::Fretwire;
    return codec_of(Record<F>("fretwire", "The fret wire as it was new")
                        .optional("height", "crown over the fingerboard", &F::height, quantity(Dimension::length))
                        .optional("width", "of the crown", &F::width, quantity(Dimension::length))
                        .optional("material", "such as \"nickel silver\" or \"steel\"", &F::material, name()));
}

Codec<evidence::Bridge> bridge_codec() {
    using B = evidence::Bridge;
    return codec_of(Record<B>("bridge", "The bridge and its screws")
                        .optional("type", "how it is held", &B::type,
                                  word({"fixed", "two-post", "pivot", "floating tailpiece"}))
                        .optional("height_screw",
                                  "thread of the saddle height screw, such as \"M3\" or \"4-40\"; "
                                  "learned from one turn when left out",
                                  &B::height_screw, name())
                        .optional("length_screw", "thread of the saddle length screw", &B::length_screw, name()));
}

Codec<evidence::TrussRod> truss_rod_codec() {
    using T = evidence::TrussRod;
    return codec_of(Record<T>("truss_rod", "The truss rod")
                        .optional("type", "single or double acting", &T::type, word({"single", "double", "none"}))
                        .optional("access", "where its nut is", &T::access, word({"head", "heel"}))
                        .optional("key", "what turns it, such as \"5 mm hex\"", &T::key, name()));
}

Codec<evidence::Pickup> pickup_codec() {
    using P = evidence::Pickup;
    return codec_of(Record<P>("pickup", "One pickup")
                        .required("name", "as readings name it, such as \"bridge\"", &P::name, name())
                        .optional("type", "such as \"single coil\" or \"humbucker\"", &P::type, name()));
}

// One length for all strings, or a list with one for each, which goes to the strings themselves.
bool decode_scale(const Json& value, const Spot& spot, Instrument& instrument) {
    const auto length = quantity(Dimension::length);
    if (value.kind != Json::Kind::list) return length.decode(value, spot, instrument.scale.emplace());
    std::vector<QuantityText> scales;
    if (!list_of(length, 1).decode(value, spot, scales)) return false;
    if (scales.size() > kMostStrings ||
        (!instrument.strings.empty() && scales.size() != instrument.strings.size())) {
        spot.fault("range", fmt::format("{} lengths, expected one for each string: {}", scales.size(),
                                        evidence::string_count(instrument)));
        return false;
    }
    instrument.strings.resize(scales.size());
    for (std::size_t i = 0; i < scales.size(); ++i) {
        if (instrument.strings[i].scale) {
            spot.item(i).fault("duplicate", "this string has a scale of its own already");
            return false;
        }
        instrument.strings[i].scale = std::move(scales[i]);
    }
    return true;
}

Field<Instrument> scale_field() {
    const auto length = quantity(Dimension::length);
    return {
        "scale",
        "scale length; a list with one for each string is kept with the strings",
        false,
        length.says + ", or a list of them",
        "",
        decode_scale,
        [length](const Instrument& i) { return i.scale ? std::optional(length.encode(*i.scale)) : std::nullopt; },
        one_or_many(length).schema};
}

struct Compound {
    QuantityText nut;
    std::optional<QuantityText> end;
};

Codec<Compound> compound_codec() {
    return codec_of(
        Record<Compound>("compound_radius", "A fingerboard that is flatter at its end")
            .required("nut", "radius at the nut", &Compound::nut, quantity(Dimension::length))
            .optional("end", "radius at the end of the fingerboard", &Compound::end, quantity(Dimension::length)));
}

Field<Instrument> radius_field() {
    const auto length = quantity(Dimension::length);
    const auto compound = compound_codec();
    return {"radius",
            "radius of the fingerboard",
            false,
            length.says + ", or " + compound.says,
            "",
            [length, compound](const Json& value, const Spot& spot, Instrument& instrument) {
                if (value.kind != Json::Kind::record)
                    return length.decode(value, spot, instrument.radius.emplace());
                Compound both;
                if (!compound.decode(value, spot, both)) return false;
                instrument.radius = both.nut;
                instrument.radius_end = both.end;
                return true;
            },
            [length, compound](const Instrument& i) -> std::optional<Json> {
                if (!i.radius) return std::nullopt;
                return i.radius_end ? compound.encode({*i.radius, i.radius_end}) : length.encode(*i.radius);
            },
            [length, compound](Definitions& definitions) {
                return Json::record(
                    {{"anyOf", Json::list({length.schema(definitions), compound.schema(definitions)})}});
            }};
}

// A string by number, or by the name of its note.
bool decode_string(const Json& value, const Spot& spot, Place& place) {
    if (value.kind != Json::Kind::text) return whole(1, kMostStrings).decode(value, spot, place.string.emplace());
    const BenchSession& session = BenchSession::of(spot);
    if (session.instrument == nullptr || !session.instrument_is_good) return true;
    const auto found = evidence::strings_named(*session.instrument, value.text);
    if (found.size() == 1) {
        place.string = found.front();
        return true;
    }
    const auto tuning = fmt::format("{}", fmt::join(evidence::tuning_of(*session.instrument), " "));
    if (found.empty()) {
        spot.refuse("unknown", value,
                    fmt::format("no string of that name, the strings are {}; a number will do", tuning));
    } else {
        spot.refuse("ambiguous", value,
                    fmt::format("may be string {}; write the number", fmt::join(found, " or ")));
    }
    return false;
}

Field<Place> string_field() {
    return {"string",
            "string, 1 is the thinnest; a name is kept as its number",
            false,
            "a number, or a name such as \"E2\"",
            "",
            decode_string,
            [](const Place& p) { return p.string ? std::optional(Json::of(*p.string)) : std::nullopt; },
            [](Definitions&) {
                Json number = Json::record({{"type", Json::of("integer")}, {"minimum", Json::of(1)}});
                number.add("maximum", Json::of(kMostStrings));
                Json named = schema_of_text("^[A-G][#b]?(-1|[0-9])?$", "E2");
                return Json::record({{"anyOf", Json::list({std::move(number), std::move(named)})}});
            }};
}

}  // namespace

Codec<std::string> side_codec() {
    return word({"bass", "treble"});
}

Codec<Place> place_codec() {
    static const Codec<Place> kCodec = codec_of(
        Record<Place>("place", "Where on the instrument; without a string the whole instrument is meant")
            .add(string_field())
            .optional("fret", "fret; 0 is the open string or the nut", &Place::fret, whole(0, kMostFrets))
            .optional("side", "edge of the fingerboard", &Place::side, side_codec())
            .optional("switch", "switch position, by its name", &Place::switch_position, name())
            .optional("pickup", "pickup, by its name", &Place::pickup, name())
            .optional("control", "knob, by its name", &Place::control, name())
            .optional("pressed", "fret at which the string was held down while reading", &Place::pressed,
                      whole(0, kMostFrets))
            .optional("capo", "lower fret of the line that a relief or a straightedge is read from; else 1",
                      &Place::capo, whole(0, kMostFrets))
            .optional("spot", "anything else, such as \"back of head\"", &Place::spot, name()));
    return kCodec;
}

Codec<Instrument> instrument_codec() {
    using I = Instrument;
    using evidence::Hand;
    using evidence::Kind;
    const auto strings = list_of(string_codec());
    return codec_of(
        Record<I>("instrument",
                  "The instrument; what is left out is assumed, listed as such, and yields to the first "
                  "reading that knows better")
            .required(
                "kind", "what it is", &I::kind,
                choice<Kind>({{"electric guitar", Kind::electric_guitar}, {"electric bass", Kind::electric_bass}}))
            .defaulted("hand", "the hand that plucks", &I::hand,
                       choice<Hand>({{"right", Hand::right}, {"left", Hand::left}}))
            .defaulted("fretted", "false for a fretless board, whose positions are numbered like frets",
                       &I::fretted, boolean())
            .optional("maker", "who made it", &I::maker, name())
            .optional("model", "what they call it", &I::model, name())
            .optional("serial", "serial number", &I::serial, name())
            .optional("year", "as claimed", &I::year, name())
            .defaulted("strings", "its strings, the thinnest first; all of them or none", &I::strings, strings)
            .add(scale_field())
            .optional("frets", "number of frets", &I::frets, whole(0, kMostFrets))
            .optional("zero_fret", "a fret in place of the nut's height", &I::zero_fret, boolean())
            .add(radius_field())
            .optional("fretwire", "the fret wire as it was new", &I::fretwire, fretwire_codec())
            .optional("bridge", "the bridge", &I::bridge, bridge_codec())
            .optional("truss_rod", "the truss rod", &I::truss_rod, truss_rod_codec())
            .optional("neck_joint", "how the neck is joined", &I::neck_joint, word({"bolt-on", "set", "through"}))
            .optional("board_finish", "of the fingerboard", &I::board_finish, word({"bare", "lacquered"}))
            .optional("board_wood", "of the fingerboard", &I::board_wood, name())
            .defaulted("pickups", "its pickups", &I::pickups, list_of(pickup_codec()))
            .defaulted("switch_positions", "by name, in order", &I::switch_positions, list_of(name()))
            .defaulted("controls", "knobs, such as \"volume\"", &I::controls, list_of(name()))
            .optional("battery", "has one", &I::battery, boolean())
            .optional("headless", "has no head", &I::headless, boolean()));
}

}  // namespace fallaway::files
