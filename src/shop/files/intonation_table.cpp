// Wire tables of the strings on an instrument and of their intonation. Rows of many numbers are plain, their
// standard uncertainty beside them under the same name with _se.
#include <cmath>

#include "shop/files/assessment_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using metrology::Uncertain;
using model::FittedString;
using model::FittedStrings;
using model::FretHeard;
using model::FretLeft;
using model::GaugeFrom;
using model::Intonation;
using model::StringIntonation;
using model::StringLeftOut;
using strings::Estimate;
using strings::MassFrom;

// Six digits: more is dust.
double clean(double value) {
    if (value == 0 || !std::isfinite(value)) return value;
    const double scale = std::pow(10, 5 - std::floor(std::log10(std::abs(value))));
    return std::round(value * scale) / scale;
}

// A hundredth of a cent is far below what anybody hears.
double in_cents(double cents) {
    return std::round(cents * 100) / 100;
}

auto estimate(Estimate strings::Pull::*member, double Estimate::*part) {
    return [member, part](const FittedString& s) { return clean(s.pull.*member.*part); };
}

Codec<FittedString> string_codec() {
    using S = FittedString;
    const auto wrap = choice<strings::Wrap>({{"plain", strings::Wrap::plain},
                                             {"round", strings::Wrap::round},
                                             {"ground", strings::Wrap::ground},
                                             {"flat", strings::Wrap::flat},
                                             {"tape", strings::Wrap::tape}});
    const auto core = choice<strings::Core>({{"round", strings::Core::round}, {"hex", strings::Core::hex}});
    return codec_of(
        Record<S>("pull_string", "One string and what it does at pitch")
            .tells("string", "1 is the thinnest", &S::string, any_whole())
            .tells("note", "of the open string", &S::note, any_text())
            .tells(
                "gauge", "outer diameter", [](const S& s) { return model::in_mm(s.gauge); }, figure_codec())
            .tells("gauge_from", "where the gauge is from", &S::gauge_from,
                   choice<GaugeFrom>(
                       {{"stated", GaugeFrom::stated}, {"read", GaugeFrom::read}, {"usual", GaugeFrom::usual}}))
            .tells("core", "form of the core; of a plain string round", &S::core, core)
            .tells("wrap", "what is wound on it", &S::wrap, wrap)
            .tells("kind_assumed", "true: core or wrap is the usual one", &S::kind_assumed, boolean())
            .tells("mass_from", "the table's row, a way between two rows, or core and wrap", &S::mass_from,
                   choice<MassFrom>({{"row", MassFrom::row},
                                     {"between rows", MassFrom::between_rows},
                                     {"geometry", MassFrom::geometry}}))
            .tells(
                "pull", "at pitch",
                [](const S& s) {
                    return model::in_unit({s.pull.tension.value, s.pull.tension.u}, "N", Dimension::force);
                },
                figure_codec())
            .tells(
                "of_strength", "stress of the core over the least strength of its wire",
                [](const S& s) -> std::optional<judgement::Figure> {
                    const auto& share = s.pull.strength_share;
                    if (!share) return std::nullopt;
                    return model::in_unit({share->value, share->u}, "%", Dimension::ratio);
                },
                figure_codec())
            .tells("stretch", "relative rise of pull for one unit of further strain (kappa)",
                   estimate(&strings::Pull::kappa, &Estimate::value), any_number())
            .tells("stretch_se", "its uncertainty", estimate(&strings::Pull::kappa, &Estimate::u), any_number())
            .tells("stiffness", "how it resists bending, root of E I over pull and scale squared (eps)",
                   estimate(&strings::Pull::eps, &Estimate::value), any_number())
            .tells("stiffness_se", "its uncertainty", estimate(&strings::Pull::eps, &Estimate::u), any_number()));
}

Codec<StringLeftOut> left_out_codec() {
    using S = StringLeftOut;
    return codec_of(Record<S>("pull_left_out", "A string that could not be reckoned")
                        .tells("string", "1 is the thinnest", &S::string, any_whole())
                        .tells("because", "why", &S::because, any_text()));
}

Codec<FretHeard> heard_codec() {
    using H = FretHeard;
    return codec_of(Record<H>("intonation_heard", "What was read at one fret")
                        .tells("fret", "which", &H::fret, any_whole())
                        .tells(
                            "cents", "against the open string; + is sharp",
                            [](const H& h) { return model::in_cents(h.cents); }, figure_codec()));
}

Codec<FretLeft> fret_codec() {
    using F = FretLeft;
    const auto cents = [](Uncertain F::*when, double Uncertain::*part) {
        return [when, part](const F& f) { return in_cents(f.*when.*part); };
    };
    return codec_of(
        Record<F>("intonation_fret", "One fret as the string should sound there")
            .tells("fret", "which", &F::fret, any_whole())
            .tells("now_cents", "as it stands", cents(&F::now, &Uncertain::value), any_number())
            .tells("now_cents_se", "its uncertainty", cents(&F::now, &Uncertain::u), any_number())
            .tells("after_cents", "the saddle moved", cents(&F::after, &Uncertain::value), any_number())
            .tells("after_cents_se", "its uncertainty", cents(&F::after, &Uncertain::u), any_number()));
}

// Length or cents of a string whose saddle is set; left out for the others.
template <class Of>
auto when_set(Of of) {
    return [of](const StringIntonation& s) { return s.move ? std::optional(of(s)) : std::nullopt; };
}

Codec<StringIntonation> intonation_string_codec() {
    using S = StringIntonation;
    const auto length = [](std::optional<Uncertain> S::*member) {
        return
            [member](const S& s) { return s.*member ? std::optional(model::in_mm(*(s.*member))) : std::nullopt; };
    };
    const auto cents = [](double S::*member) {
        return when_set([member](const S& s) { return in_cents(s.*member); });
    };
    return codec_of(
        Record<S>("intonation_string", "One string: what was read, and where its saddle should go")
            .tells("string", "1 is the thinnest", &S::string, any_whole())
            .tells("heard", "what was read; empty: nothing", &S::heard, list_of(heard_codec()))
            .defaulted("refused", "why these cents set no saddle", &S::refused, any_text())
            .tells("setback", "nothing read: how far behind the bare scale the saddle will want to stand",
                   length(&S::setback), figure_codec())
            .tells("move", "of the saddle; + is back, away from the nut", length(&S::move), figure_codec())
            .tells("turns", "the same in turns of its screw, in eighths; left out while its thread is not told",
                   &S::turns, any_number())
            .tells("frets", "those that count, all alike", &S::frets, list_of(fret_codec()))
            .tells("twelfth_now", "over fret 12, or the last one",
                   when_set([](const S& s) { return model::in_cents(s.twelfth_now); }), figure_codec())
            .tells("twelfth_after", "the saddle moved",
                   when_set([](const S& s) { return model::in_cents(s.twelfth_after); }), figure_codec())
            .tells("reading_cents_se", "how far from it a tuner may then read, one standard uncertainty",
                   cents(&S::u_reading), any_number())
            .tells("rms_now_cents", "over these frets", cents(&S::rms_now), any_number())
            .tells("rms_after_cents", "the saddle moved", cents(&S::rms_after), any_number())
            .tells("worst_fret", "after the move", when_set([](const S& s) { return s.worst_fret; }), any_whole())
            .tells("worst", "what is left there", when_set([](const S& s) { return model::in_cents(s.worst); }),
                   figure_codec())
            .tells("heard_gain", "false: the move wins less than 2 cents, which nobody should promise to be heard",
                   &S::heard_gain, boolean())
            .tells("remarks", "sentences", &S::remarks, list_of(any_text())));
}

}  // namespace

Codec<FittedStrings> pull_codec() {
    using F = FittedStrings;
    static const auto kCodec = codec_of(
        Record<F>("pull", "The strings on the instrument")
            .tells(
                "total", "what all of those below pull together",
                [](const F& f) { return model::in_unit(f.pull, "N", Dimension::force); }, figure_codec())
            .tells("strings", "string 1 first", &F::strings, list_of(string_codec()))
            .tells("left_out", "those that could not be reckoned", &F::left_out, list_of(left_out_codec())));
    return kCodec;
}

Codec<Intonation> intonation_codec() {
    using I = Intonation;
    static const auto kCodec = codec_of(
        Record<I>("intonation", "Where the saddles should go")
            .tells(
                "screw", "thread of the saddles' length screws; left out: learn it from one turn",
                [](const I& i) { return i.screw ? std::optional(i.screw->name) : std::nullopt; }, any_text())
            .tells(
                "screw_mm", "what one turn moves",
                [](const I& i) { return i.screw ? std::optional(clean(i.screw->pitch.mm())) : std::nullopt; },
                any_number())
            .tells("strings", "string 1 first", &I::strings, list_of(intonation_string_codec())));
    return kCodec;
}

}  // namespace fallaway::files
