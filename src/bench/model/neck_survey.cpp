#include "bench/model/neck_survey.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/model/neck_layout.h"
#include "science/neck/next_reading.h"

namespace fallaway::model {
namespace {

using evidence::Kind;
using neck::NeckModel;
using neck::What;

constexpr double kMm = 1e-3;
constexpr std::size_t kNext = 5;

// What is believed of an instrument before anyone reads it: wider than a population of good ones, for this one may
// be bad. Strings of one instrument go together: `level` and `slope` are common to them, `own` is each string's.
// Common practice, no source.
struct Together {
    double mean;
    double level;
    double slope;  // from the middle to either outer string
    double own;
};
constexpr Together kGuitarActions{1.8 * kMm, 0.6 * kMm, 0.25 * kMm, 0.12 * kMm};
constexpr Together kBassActions{2.3 * kMm, 0.7 * kMm, 0.3 * kMm, 0.15 * kMm};
constexpr Together kSlots{0.06 * kMm, 0.06 * kMm, 0.03 * kMm, 0.06 * kMm};
constexpr double kTilt = 0.01 * kMm;

neck::Prior prior_for(const Together& actions) {
    neck::Prior prior;
    prior.relief = {0.20 * kMm, 0.20 * kMm};
    prior.skew = {0, 0.03 * kMm};
    prior.hump = {0, 0.02 * kMm};
    prior.tilt = {0, kTilt};
    // The sd that one string has by itself; what it shares with the others is added to the covariance below.
    prior.slot = {kSlots.mean, kSlots.own};
    prior.action = {actions.mean, actions.own};
    return prior;
}

void add_common(numeric::Gaussian& start, const NeckModel& model, What what, const Together& together) {
    const auto& unknowns = model.unknowns();
    const double half = (double(model.layout().strings.size()) - 1) / 2;
    const auto across = [&](int string) { return half > 0 ? (half - string) / half : 0; };
    for (std::size_t i = 0; i < unknowns.size(); ++i) {
        for (std::size_t j = 0; j < unknowns.size(); ++j) {
            if (unknowns[i].what != what || unknowns[j].what != what) continue;
            start.covariance[i * unknowns.size() + j] +=
                together.level * together.level +
                together.slope * together.slope * across(unknowns[i].at) * across(unknowns[j].at);
        }
    }
}

bool counts(const CurrentReadings& readings, std::string_view what) {
    return std::ranges::any_of(readings.of(what),
                               [](const Current& current) { return current.taken.stale_because.empty(); });
}

Uncertain at(const numeric::Gaussian& state, const neck::Form& form) {
    return neck::read(state, form);
}

// How far the last crowns lie below the board's own line past the joint.
Uncertain fallaway_of(const NeckModel& model, const numeric::Gaussian& state) {
    const neck::Layout& layout = model.layout();
    const double length =
        model.place(neck::kCentre, layout.frets) - model.place(neck::kCentre, int(layout.joint_fret));
    const Uncertain kink = at(state, model.unknown({What::kink, 0}));
    return {-kink.value * std::max(0.0, length), kink.u * std::max(0.0, length)};
}

// The straight line through the first and the last crown under a string, at x along it.
neck::Form first_to_last(const NeckModel& model, int string, double x) {
    const int last = model.layout().frets;
    const double first_x = model.place(string, 1);
    const double share = (x - first_x) / (model.place(string, last) - first_x);
    return (1 - share) * model.crown(string, 1) + share * model.crown(string, last);
}

StringSurvey survey_string(const NeckModel& model, const numeric::Gaussian& state,
                           std::span<const neck::Clearance> clearances, int string) {
    const int frets = model.layout().frets;
    StringSurvey survey;
    survey.string = string + 1;
    survey.nut_over_line = at(state, model.nut(string) - first_to_last(model, string, 0));
    const double end = neck::speaking_length(model.layout(), string);
    survey.saddle_over_line = at(state, model.saddle(string) - first_to_last(model, string, end));
    if (!model.layout().zero_fret) survey.slot = at(state, model.unknown({What::slot, string}));
    survey.over_first = at(state, model.open_height(string, 1));
    survey.over_twelfth = at(state, model.open_height(string, std::min(12, frets)));
    survey.over_last = at(state, model.open_height(string, frets));
    survey.saddle = at(state, model.saddle(string));
    const neck::Clearance* least = nullptr;
    for (const neck::Clearance& c : clearances) {
        if (c.string != string) continue;
        if (c.next_fret()) survey.next_fret.push_back({c.value, c.u});
        if (c.held == 0) survey.open.push_back({c.value, c.u});
        if (least == nullptr || c.value < least->value) least = &c;
    }
    if (least != nullptr) {
        survey.least_held = least->held;
        survey.least_over = least->over;
        survey.least = {least->value, least->u};
    }
    return survey;
}

// How far a crown stands off the shape that is wanted: a plain bow, falling away past the joint as it does.
neck::Form off_form(const NeckModel& model, const neck::ProfileShapes& all, int string, int fret) {
    const double x = model.place(string, fret);
    const double nut = string == neck::kCentre ? 0 : model.layout().strings[std::size_t(string)].x_nut;
    const neck::Shapes shapes = all.at(nut + x);
    return model.crown(string, fret) - model.smooth_crown(string, x) +
           shapes.hump * model.unknown({What::hump, 0}) + shapes.skew * model.unknown({What::skew, 0});
}

CrownSurvey survey_crown(const NeckModel& model, const neck::ProfileShapes& all, const numeric::Gaussian& state,
                         int fret) {
    const int last = model.layout().frets;
    CrownSurvey survey;
    survey.fret = fret;
    survey.off = at(state, off_form(model, all, neck::kCentre, fret));
    for (int string = 0; string < int(model.layout().strings.size()); ++string) {
        const bool end = fret == 1 || fret == last;
        survey.off_under.push_back(at(state, off_form(model, all, string, fret)));
        survey.heights.push_back(end ? Uncertain{} : at(state, -1.0 * model.gap(string, 1, last, fret)));
    }
    return survey;
}

// Less than half of what is known of it was read: its variance is over half of what it was before any reading.
bool rests_on_usual(const Uncertain& known, const Uncertain& usual) {
    return known.u * known.u > 0.5 * usual.u * usual.u;
}

// Beside the same survey of a neck that nobody read.
void mark_assumed(NeckSurvey& survey, const NeckModel& model, const neck::ProfileShapes& all,
                  const numeric::Gaussian& usual) {
    for (StringSurvey& string : survey.strings) {
        const StringSurvey before = survey_string(model, usual, {}, string.string - 1);
        const auto mark = [&](const char* name, Uncertain StringSurvey::*figure) {
            if (rests_on_usual(string.*figure, before.*figure)) string.assumed.push_back(name);
        };
        if (!survey.layout.zero_fret) mark("slot", &StringSurvey::slot);
        mark("over_first", &StringSurvey::over_first);
        mark("over_twelfth", &StringSurvey::over_twelfth);
        mark("over_last", &StringSurvey::over_last);
    }
    for (CrownSurvey& crown : survey.crowns) {
        crown.assumed = rests_on_usual(crown.off, survey_crown(model, all, usual, crown.fret).off);
    }
    const int last = survey.layout.frets;
    const auto gap = model.gap(neck::kCentre, 1, last, survey.relief_at);
    if (rests_on_usual(survey.relief, at(usual, gap))) survey.assumed.push_back("relief");
    if (rests_on_usual(survey.fallaway, fallaway_of(model, usual))) survey.assumed.push_back("fallaway");
}

// A line every 0.02 mm where most crowns are known to half as much again, else every 0.05 mm.
void draw_contours(NeckSurvey& survey) {
    std::vector<std::vector<Uncertain>> rows;
    std::vector<double> u;
    for (const CrownSurvey& crown : survey.crowns) {
        rows.push_back(crown.off_under);
        u.push_back(crown.off.u);
    }
    std::ranges::nth_element(u, u.begin() + u.size() / 2);
    survey.contour_step = (u[u.size() / 2] <= 0.03 * kMm ? 0.02 : 0.05) * kMm;
    survey.contours = contours(rows, survey.contour_step);
}

std::string typed(const NeckReading& read) {
    const evidence::Reading& from = *read.from;
    if (!from.value) return from.repeats.empty() ? "" : from.repeats.front().typed;
    if (const auto* text = std::get_if<QuantityText>(&*from.value)) return text->typed;
    return std::get<std::string>(*from.value);
}

std::string tell(const NeckReading& read, const Asked& asked, const neck::Beside& beside) {
    const double sd = std::hypot(beside.u, read.reading.sd);
    return fmt::format("{}: {}, expected {}", describe(asked), typed(read), in_mm({beside.expected, sd}).text);
}

Disagreement disagreement(const neck::Suspicion& suspicion, const std::vector<NeckReading>& read,
                          const neck::NeckFit& fit, const neck::Layout& layout) {
    Disagreement told;
    for (const neck::Suspect& suspect : suspicion.named) {
        const Asked asked{read[suspect.reading].from->what, read[suspect.reading].from->at};
        told.suspects.push_back(asked);
        told.probability.push_back(suspect.probability);
        told.texts.push_back(tell(read[suspect.reading], asked, fit.beside[suspect.reading]));
    }
    told.again = suspicion.repeats.has_value();
    if (told.again) {
        const evidence::Reading& from = *read[*suspicion.repeats].from;
        told.decider = {from.what, from.at};
    } else {
        told.decider = asked_for(suspicion.decider, layout);
    }
    return told;
}

std::vector<NextOnTheNeck> next_on(const NeckModel& model, const numeric::Gaussian& state,
                                   std::span<const neck::Reading> taken) {
    std::vector<NextOnTheNeck> list;
    const auto proposals = neck::next_readings(model, state, taken, kNext);
    if (!proposals) return list;
    for (const neck::Proposal& p : *proposals) {
        list.push_back({asked_for(p.reading, model.layout()), p.reading.minutes, p.u_before, p.u_after});
    }
    return list;
}

}  // namespace

std::optional<NeckSurvey> survey_neck(const evidence::Bench& bench, const CurrentReadings& readings) {
    NeckSurvey survey;
    survey.layout = neck_layout(bench, readings);
    if (!neck::check(survey.layout) || survey.layout.frets < 3) return std::nullopt;

    const auto& wire = bench.instrument.fretwire;
    survey.radius_known = bench.instrument.radius.has_value() || counts(readings, "board radius");
    survey.fret_height_known = (wire && wire->height) || counts(readings, "fret height");

    const std::vector<NeckReading> read = neck_readings(readings, survey.layout);
    std::vector<neck::Reading> taken;
    for (const NeckReading& one : read) taken.push_back(one.reading);

    const Together& actions = bench.instrument.kind == Kind::electric_bass ? kBassActions : kGuitarActions;
    const NeckModel model(survey.layout, neck::fitting(prior_for(actions), taken));
    numeric::Gaussian start = model.prior();
    add_common(start, model, What::action, actions);
    add_common(start, model, What::slot, kSlots);
    const auto verdict = neck::examine(model, taken, start);
    if (!verdict) return std::nullopt;

    const numeric::Gaussian& state = verdict->without.state;
    survey.readings = int(verdict->without.beside.size());
    survey.left_out = int(taken.size()) - survey.readings;
    survey.relief_at = model.deepest_fret(1, survey.layout.frets);
    survey.relief = at(state, model.gap(neck::kCentre, 1, survey.layout.frets, survey.relief_at));
    survey.fallaway = fallaway_of(model, state);
    survey.clearances = neck::clearances(model, state);
    for (int string = 0; string < int(survey.layout.strings.size()); ++string) {
        survey.strings.push_back(survey_string(model, state, survey.clearances, string));
    }
    const neck::ProfileShapes all(survey.layout);
    for (int fret = 1; fret <= survey.layout.frets; ++fret) {
        survey.crowns.push_back(survey_crown(model, all, state, fret));
    }
    mark_assumed(survey, model, all, start);
    draw_contours(survey);
    for (const neck::Suspicion& suspicion : verdict->suspicions) {
        survey.disagreements.push_back(disagreement(suspicion, read, verdict->fit, survey.layout));
    }
    survey.next = next_on(model, state, taken);
    return survey;
}

}  // namespace fallaway::model
