// Wire tables of a procedure.
#include <fmt/format.h>

#include "bench/evidence/observable.h"
#include "science/base/quote.h"
#include "shop/files/catalogue_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::BassToTreble;
using evidence::Checkpoint;
using evidence::Condition;
using evidence::Limit;
using evidence::Observable;

constexpr int kMostStrings = 18;

Codec<Condition> condition_codec() {
    using C = Condition;
    using evidence::Hand;
    using evidence::Kind;
    return codec_of(
        Record<C>("condition", "When something applies; a fact that an instrument does not state excludes nothing")
            .defaulted("kinds", "kinds of instrument", &C::kinds,
                       list_of(choice<Kind>(
                           {{"electric guitar", Kind::electric_guitar}, {"electric bass", Kind::electric_bass}})))
            .optional("fretted", "with or without frets", &C::fretted, boolean())
            .optional("hand", "the hand that plucks", &C::hand,
                      choice<Hand>({{"right", Hand::right}, {"left", Hand::left}}))
            .optional("fanned", "strings of different scales", &C::fanned, boolean())
            .optional("headless", "without a head", &C::headless, boolean())
            .optional("battery", "with a battery", &C::battery, boolean())
            .optional("zero_fret", "with a zero fret", &C::zero_fret, boolean())
            .optional("pickups", "with any pickup", &C::pickups, boolean())
            .optional("switched", "with a pickup switch", &C::switched, boolean())
            .defaulted("bridges", "types of bridge", &C::bridges, list_of(name()))
            .defaulted("rods", "types of truss rod", &C::rods, list_of(name()))
            .defaulted("joints", "neck joints", &C::joints, list_of(name()))
            .defaulted("board_finishes", "finishes of the fingerboard", &C::board_finishes, list_of(name()))
            .optional("strings_min", "fewest strings", &C::strings_min, whole(1, kMostStrings))
            .optional("strings_max", "most strings", &C::strings_max, whole(1, kMostStrings)));
}

// What a limit has two members for: its value, and the text that it was written as.
struct Written {
    double si = 0;
    std::string typed;
};

// A quantity of the dimension that the checkpoint reads; schema and documentation know no dimension.
Codec<Written> limit_value(Dimension dimension) {
    return {
        [quantity = quantity(dimension)](const Json& value, const Spot& spot, Written& out) {
            QuantityText text;
            if (!quantity.decode(value, spot, text)) return false;
            out = {text.si, std::move(text.typed)};
            return true;
        },
        [si = si_quantity(dimension)](const Written& value) {
            return value.typed.empty() ? si.encode(value.si) : Json::of(value.typed);
        },
        name().schema,
        "a quantity with its unit",
    };
}

// One row of a limit's two members.
template <class T, class Si>
Field<T> written_field(std::string key, std::string says, bool required, Si T::*si, std::string T::*typed,
                       const Codec<Written>& codec) {
    return {std::move(key),
            std::move(says),
            required,
            codec.says,
            "",
            [=](const Json& value, const Spot& spot, T& record) {
                Written written;
                if (!codec.decode(value, spot, written)) return false;
                record.*si = written.si;
                record.*typed = std::move(written.typed);
                return true;
            },
            [=](const T& record) -> std::optional<Json> {
                const std::optional<double> value = record.*si;
                if (!value) return std::nullopt;
                return codec.encode({*value, record.*typed});
            },
            codec.schema};
}

// One quantity, or one for each end.
Codec<BassToTreble> bass_to_treble_codec(Dimension dimension) {
    using B = BassToTreble;
    const auto one = limit_value(dimension);
    const auto both =
        codec_of(Record<B>("bass_to_treble", "A limit that runs from string to string")
                     .add(written_field<B>("bass", "at the thickest string", true, &B::bass, &B::bass_typed, one))
                     .add(written_field<B>("treble", "at string 1", true, &B::treble, &B::treble_typed, one)));
    return {
        [one, both](const Json& value, const Spot& spot, B& out) {
            if (value.kind == Json::Kind::record) return both.decode(value, spot, out);
            Written written;
            if (!one.decode(value, spot, written)) return false;
            out = {written.si, written.si, written.typed, written.typed};
            return true;
        },
        [one, both](const B& value) {
            const bool single = value.bass == value.treble && value.bass_typed == value.treble_typed;
            return single ? one.encode({value.bass, value.bass_typed}) : both.encode(value);
        },
        [one, both](Definitions& definitions) {
            return Json::record({{"anyOf", Json::list({one.schema(definitions), both.schema(definitions)})}});
        },
        one.says + ", or " + both.says,
    };
}

Codec<Limit> limit_codec(Dimension dimension) {
    using L = Limit;
    return codec_of(
        Record<L>("procedure_limit", "A limit of a measured checkpoint; the first whose condition applies counts")
            .defaulted("when", "when it applies", &L::when, condition_codec())
            .optional("low", "lowest value that passes", &L::low, bass_to_treble_codec(dimension))
            .optional("high", "highest value that passes", &L::high, bass_to_treble_codec(dimension))
            .add(written_field<L>("high_major", "beyond this the finding is one class worse", false,
                                  &L::high_major, &L::high_major_typed, limit_value(dimension)))
            .defaulted("low_severity", "of a value below the low limit", &L::low_severity, severity_codec())
            .defaulted("strict", "decided at 95 %; else usual, at the edge, outside", &L::strict, boolean())
            .required("source", "where it is from", &L::source, prose()));
}

void check_limit(const Limit& limit, const Spot& spot) {
    if (!limit.low && !limit.high) spot.fault("missing", "a limit without a low and a high side");
    if (!limit.low || !limit.high) return;
    if (limit.low->bass > limit.high->bass || limit.low->treble > limit.high->treble) {
        spot.member("low").fault("range", "above the high limit");
    }
}

// What a checkpoint's limits are held against; null after a fault.
const Observable* first_observable(const Checkpoint& checkpoint, const Spot& spot) {
    const Observable* observable =
        checkpoint.reads.empty() ? nullptr : evidence::find_observable(checkpoint.reads.front());
    if (observable == nullptr) spot.fault("missing", "needs an observable in \"reads\" to be held against");
    return observable;
}

bool decode_limits(const Json& value, const Spot& spot, Checkpoint& checkpoint) {
    const Observable* observable = first_observable(checkpoint, spot);
    if (observable == nullptr) return false;
    if (!observable->words.empty()) {
        spot.fault("unknown", fmt::format("limits for {}, which is told in words", quote(observable->name)));
        return false;
    }
    if (!list_of(limit_codec(observable->dimension)).decode(value, spot, checkpoint.limits)) return false;
    for (std::size_t i = 0; i < checkpoint.limits.size(); ++i) check_limit(checkpoint.limits[i], spot.item(i));
    return true;
}

std::vector<std::string_view> words_read_by(const Checkpoint& checkpoint) {
    std::vector<std::string_view> words;
    for (const std::string& read : checkpoint.reads) {
        const Observable* observable = evidence::find_observable(read);
        if (observable != nullptr) words.insert(words.end(), observable->words.begin(), observable->words.end());
    }
    return words;
}

Codec<std::vector<evidence::WordLimit>> word_limits_codec(const std::vector<std::string_view>& words) {
    using W = evidence::WordLimit;
    auto one_of = word(words);
    one_of.says = "a word of the observable";
    one_of.schema = name().schema;
    return list_of(
        codec_of(Record<W>("word_limit", "What a word amounts to")
                     .required("word", "a word of an observable that the checkpoint reads", &W::word, one_of)
                     .required("severity", "of a finding", &W::severity, severity_codec())));
}

std::optional<Json> encode_limits(const Checkpoint& checkpoint) {
    if (checkpoint.limits.empty() || checkpoint.reads.empty()) return std::nullopt;
    const Observable* observable = evidence::find_observable(checkpoint.reads.front());
    if (observable == nullptr) return std::nullopt;
    return list_of(limit_codec(observable->dimension)).encode(checkpoint.limits);
}

Field<Checkpoint> limits_field() {
    const auto any = list_of(limit_codec(Dimension::length));
    return {"limits",  "limits of what it reads first", false, any.says, "", decode_limits, encode_limits,
            any.schema};
}

Field<Checkpoint> words_field() {
    const auto any = word_limits_codec({});
    return {"words",
            "what words amount to; a word that is left out is fine",
            false,
            any.says,
            "",
            [](const Json& value, const Spot& spot, Checkpoint& checkpoint) {
                return word_limits_codec(words_read_by(checkpoint)).decode(value, spot, checkpoint.words);
            },
            [any](const Checkpoint& checkpoint) {
                return checkpoint.words.empty() ? std::nullopt : std::optional(any.encode(checkpoint.words));
            },
            any.schema};
}

std::vector<std::string_view> observable_names() {
    std::vector<std::string_view> names;
    for (const Observable& observable : evidence::observables()) names.push_back(observable.name);
    return names;
}

Codec<evidence::CheckpointKind> kind_codec() {
    using enum evidence::CheckpointKind;
    return choice<evidence::CheckpointKind>({{"measured", measured},
                                             {"judged", judged},
                                             {"heard", heard},
                                             {"photographed", photographed},
                                             {"claim", claim}});
}

Codec<evidence::Each> each_codec() {
    using enum evidence::Each;
    return choice<evidence::Each>({{"once", once},
                                   {"string", string},
                                   {"outer strings", outer_strings},
                                   {"fret", fret},
                                   {"switch position", switch_position},
                                   {"pickup", pickup},
                                   {"edge", edge}});
}

Codec<evidence::Disturbs> disturbs_codec() {
    using enum evidence::Disturbs;
    return choice<evidence::Disturbs>({{"nothing", nothing},
                                       {"slackens strings", slackens_strings},
                                       {"turns a screw", turns_a_screw},
                                       {"opens a cavity", opens_a_cavity}});
}

Codec<Checkpoint> checkpoint_codec() {
    using C = Checkpoint;
    return codec_of(
        Record<C>("checkpoint", "One question")
            .required("id", "once in the procedure", &C::id, name())
            .required("section", "id of its section", &C::section, name())
            .required("title", "a few words for lists", &C::title, name())
            .required("question", "what is asked", &C::question, prose())
            .required("kind", "how it is answered", &C::kind, kind_codec())
            .required("severity", "of a failure", &C::severity, severity_codec())
            .defaulted("cure", "what a failure calls for", &C::cure, cure_codec())
            .defaulted("reads", "observables that answer it, the preferred one first", &C::reads,
                       list_of(word(observable_names())))
            .defaulted("each", "at which places", &C::each, each_codec())
            .optional("fret", "where it is read", &C::fret, whole(0, 40))
            .optional("claims", "kind of claim that it checks", &C::claims, name())
            .add(limits_field())
            .add(words_field())
            .defaulted("anchors", "the four steps in words, worst first", &C::anchors, list_of(prose()))
            .defaulted("minutes", "what it takes", &C::minutes, number(0, 1000))
            .defaulted("needs", "tools", &C::needs, list_of(name()))
            .defaulted("when", "when it applies", &C::when, condition_codec())
            .defaulted("disturbs", "what it does to the instrument", &C::disturbs, disturbs_codec())
            .defaulted("optional", "never missed", &C::optional, boolean())
            .defaulted("fails_in_100", "how often it fails", &C::fails_in_100, number(0, 100))
            .defaulted("why", "why it matters", &C::why, prose())
            .defaulted("how", "how it is done", &C::how, prose())
            .defaulted("remedy", "what mends it", &C::remedy, prose()));
}

}  // namespace

Codec<evidence::Severity> severity_codec() {
    using enum evidence::Severity;
    return choice<evidence::Severity>(
        {{"critical", critical}, {"major", major}, {"minor", minor}, {"note", note}});
}

Codec<evidence::Cure> cure_codec() {
    using enum evidence::Cure;
    return choice<evidence::Cure>(
        {{"none", none}, {"set-up", set_up}, {"repair", repair}, {"send back", send_back}});
}

Codec<evidence::Procedure> procedure_codec() {
    using P = evidence::Procedure;
    using S = evidence::Section;
    using O = evidence::Scope;
    const auto section = codec_of(Record<S>("section", "Checkpoints that belong together")
                                      .required("id", "as checkpoints name it", &S::id, name())
                                      .required("title", "for a person", &S::title, name()));
    const auto scope =
        codec_of(Record<O>("scope", "What one visit looks at")
                     .required("name", "as bench files name it", &O::name, name())
                     .required("minutes", "what it takes an experienced hand", &O::minutes, number(0, 10000))
                     .required("checkpoints", "ids", &O::checkpoints, list_of(name(), 1)));
    auto codec =
        codec_of(Record<P>("procedure", "An ordered set of checkpoints")
                     .required("id", "as visits name it", &P::id, name())
                     .required("version", "of its text", &P::version, name())
                     .required("title", "for a person", &P::title, name())
                     .required("sections", "in order", &P::sections, list_of(section, 1))
                     .required("checkpoints", "in trade order", &P::checkpoints, list_of(checkpoint_codec(), 1))
                     .required("scopes", "by name", &P::scopes, list_of(scope, 1)));
    codec.decode = [form = codec.decode](const Json& value, const Spot& spot, P& out) {
        if (!form(value, spot, out)) return false;
        const std::size_t before = spot.session().faults().size();
        check_procedure(out, spot);
        return spot.session().faults().size() == before;
    };
    return codec;
}

}  // namespace fallaway::files
