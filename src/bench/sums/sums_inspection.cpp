#include <cmath>

#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/metrology/inspection.h"
#include "science/metrology/kappa.h"
#include "science/metrology/risk.h"
#include "science/metrology/variance.h"
#include "science/numeric/statistics.h"

namespace fallaway::sums {
namespace {

constexpr const char* kHandbook = "NIST/SEMATECH e-Handbook of Statistical Methods";

// An error from below, told at the input that one would mend.
template <class T>
tl::unexpected<Error> told_at(std::string key, const Result<T>& result) {
    return fail(result.error().code, std::move(key), result.error().message);
}

metrology::Limits limits_of(const Inputs& in) {
    metrology::Limits limits;
    if (in.has("low")) limits.lower = in.si("low");
    if (in.has("high")) limits.upper = in.si("high");
    return limits;
}

Sum pass_rate() {
    return {
        .name = "pass-rate",
        .title = "How sure is a pass rate?",
        .says =
            "Interval for the true rate behind so many passes of so many tries. With small counts, quote the "
            "interval and leave the percentage out.",
        .inputs = {whole("passed", "how many passed"), whole("tried", "how many were tried").within(1, 1e6),
                   probability("p", "probability of the interval").usually("0.95")},
        .outputs = {percent("low", "rate, from", 2), percent("high", "to", 2)},
        .formula = "score interval of the binomial share",
        .source = "Wilson 1927",
        .cautions = {},
        .example = {{"passed", "7"}, {"tried", "8"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            if (in.si("passed") > in.si("tried")) return fail("range", "passed", "more than were tried");
            const auto interval = numeric::wilson(in.si("passed"), in.si("tried"), in.si("p"));
            return Outcome().put("low", interval.low).put("high", interval.high);
        },
    };
}

Result<Outcome> gauge(const Inputs& in) {
    const auto rows = in.table("readings");
    const auto repeats = static_cast<std::size_t>(in.whole("repeats"));
    metrology::GaugeReadings people;
    for (const auto& row : rows) {
        if (row.size() % repeats != 0) {
            return fail("range", "readings",
                        fmt::format("row {} has {} readings, expected a multiple of {}", people.size() + 1,
                                    row.size(), repeats));
        }
        auto& parts = people.emplace_back();
        for (std::size_t i = 0; i < row.size(); i += repeats) {
            const auto begin = row.begin() + static_cast<std::ptrdiff_t>(i);
            parts.emplace_back(begin, begin + static_cast<std::ptrdiff_t>(repeats));
        }
    }
    metrology::GaugeStudyOptions options;
    if (in.word("interaction") == "pooled") options.interaction = metrology::Interaction::pooled;
    if (in.word("interaction") == "kept") options.interaction = metrology::Interaction::kept;
    if (in.has("tolerance")) options.tolerance_width = in.si("tolerance");
    const auto study = metrology::gauge_study(people, options);
    if (!study) return told_at("readings", study);
    Outcome out;
    out.put("same-person", study->equipment).put("other-person", study->appraiser);
    if (!study->pooled) out.put("interaction", study->interaction);
    out.put("gauge", study->gauge).put("parts", study->part).put("all", study->total);
    out.put("gauge-share", study->percent_of_total / 100);
    if (std::isfinite(study->distinct)) out.put("steps-told-apart", study->distinct_whole);
    if (study->precision_to_tolerance) out.put("of-tolerance", *study->precision_to_tolerance);
    out.put("p-interaction", study->p_interaction);
    out.note(study->pooled ? "Interaction of person and part counted as repeating error."
                           : "Interaction of person and part kept apart.");
    return out;
}

Sum gauge_study() {
    Input tolerance = difference("tolerance", "width of the limits it must serve").above(0).optional();
    return {
        .name = "gauge-study",
        .title = "Can this tool tell these parts apart?",
        .says =
            "Several people read the same parts several times. How much of the scatter is the tool and the hand, "
            "how "
            "much the parts? Under 10 % of the whole is good, over 30 % not fit.",
        .inputs = {reading_table("readings",
                                 "one row a person, the parts in the same order, repeats side by side"),
                   whole("repeats", "readings of each part by each person").within(2, 100),
                   one_of("interaction", "how to treat person and part together", {"automatic", "pooled", "kept"})
                       .usually("automatic"),
                   tolerance},
        .outputs = {spread_of_readings("same-person", "one person again, standard deviation"),
                    spread_of_readings("other-person", "another person, added to that"),
                    spread_of_readings("interaction", "person and part together"),
                    spread_of_readings("gauge", "tool and hand together"),
                    spread_of_readings("parts", "the parts"), spread_of_readings("all", "everything"),
                    percent("gauge-share", "tool and hand of everything"),
                    count_of("steps-told-apart", "classes of parts it can tell apart"),
                    plain("of-tolerance", "six times tool and hand, of the tolerance", 2),
                    plain("p-interaction", "chance of so much interaction by accident", 3)},
        .formula =
            "two-way analysis of variance; automatic: interaction joins the repeating error when its p is above "
            "0.25",
        .source = "AIAG, Measurement Systems Analysis, 4th edition",
        .cautions = {"The treatment of the interaction changes the answer: name it with the result."},
        .example =
            {{"readings",
              "1.52 1.55 1.78 1.75 1.31 1.34 1.66 1.61 1.45 1.48 mm; 1.60 1.58 1.80 1.86 1.38 1.41 1.67 1.73 1.55 "
              "1.52 mm"},
             {"repeats", "2"},
             {"tolerance", "0.40 mm"}},
        .function = gauge,
    };
}

Result<Outcome> wrong_accept(const Inputs& in) {
    const double mean = in.si("mean");
    const double sd = in.si("sd");
    metrology::Population population = metrology::NormalPopulation{mean, sd};
    if (in.word("shape") == "gamma") {
        if (mean <= 0) return fail("range", "mean", "a gamma population has a mean above 0");
        population = metrology::GammaPopulation{(mean / sd) * (mean / sd), sd * sd / mean};
    }
    const metrology::Limits tolerance = limits_of(in);
    metrology::Limits acceptance = tolerance;
    const double guard = in.si_or("guard", 0);
    if (acceptance.lower) *acceptance.lower += guard;
    if (acceptance.upper) *acceptance.upper -= guard;
    const auto risk = metrology::global_risk(population, tolerance, acceptance, in.si("u"));
    if (!risk) return told_at("high", risk);
    Outcome out;
    out.put("bad", risk->out_of_tolerance)
        .put("wrong-accept", risk->false_accept)
        .put("wrong-refuse", risk->false_reject);
    if (!in.has("target")) return out;
    if (!tolerance.upper || tolerance.lower)
        return fail("range", "target", "an acceptance limit is found for an upper limit alone");
    const auto limit = metrology::acceptance_limit(population, *tolerance.upper, in.si("u"), in.si("target"));
    if (!limit) return told_at("target", limit);
    return out.put("accept-up-to", *limit);
}

Sum wrong_accept_risk() {
    return {
        .name = "wrong-accept-risk",
        .title = "How often a bad one is accepted",
        .says =
            "Over many like instruments, read once each: how many are bad, how many of those slip through, how "
            "many "
            "good ones are refused.",
        .inputs = {reading("mean", "mean of the population"), difference("sd", "its standard deviation").above(0),
                   one_of("shape", "shape of the population", {"normal", "gamma"}).usually("normal"),
                   difference("u", "standard uncertainty of one reading").above(0),
                   reading("low", "lower limit").optional(), reading("high", "upper limit").optional(),
                   difference("guard", "accept only this far inside the limits").optional(),
                   probability("target", "share of wrong accepts wanted").optional()},
        .outputs = {percent("bad", "beyond the limits", 3), percent("wrong-accept", "bad and accepted", 3),
                    percent("wrong-refuse", "good and refused", 3),
                    like_readings("accept-up-to", "acceptance limit that reaches the target")},
        .formula = "population times chance of acceptance, integrated beyond and within the limits",
        .source = "JCGM 106:2012, clause 9",
        .cautions = {},
        .example =
            {{"mean", "1.60 mm"}, {"sd", "0.10 mm"}, {"u", "0.04 mm"}, {"high", "1.75 mm"}, {"guard", "0.05 mm"}},
        .function = wrong_accept,
    };
}

Result<Outcome> plan_chance(const Inputs& in) {
    const int n = in.whole("inspected");
    const int c = in.whole("allowed");
    if (in.has("lot") != in.has("bad"))
        return fail("missing", in.has("lot") ? "bad" : "lot", "lot and bad go together");
    const int given = (in.has("lot") ? 1 : 0) + (in.has("bad-share") ? 1 : 0) + (in.has("faults-each") ? 1 : 0);
    if (given != 1)
        return fail("missing", "bad-share", "give bad-share, or lot and bad, or faults-each: one of the three");
    const auto chance = in.has("lot")         ? metrology::pass_lot(in.whole("lot"), in.whole("bad"), n, c)
                        : in.has("bad-share") ? metrology::pass_large_lot(n, c, in.si("bad-share"))
                                              : metrology::pass_defects(n, c, in.si("faults-each"));
    if (!chance) return told_at("inspected", chance);
    return Outcome().put("passes", *chance);
}

Sum plan_pass_chance() {
    return {
        .name = "plan-pass-chance",
        .title = "Chance that a delivery passes",
        .says = "So many inspected, at most so many bad allowed: how likely is a lot of that quality to pass?",
        .inputs = {whole("inspected", "how many are drawn").within(1, 1e6),
                   whole("allowed", "most bad ones allowed"),
                   number("bad-share", "share of bad ones in a large lot").within(0, 1).optional(),
                   whole("lot", "size of a small lot").within(1, 1e6).optional(),
                   whole("bad", "bad ones in that lot").optional(),
                   number("faults-each", "mean faults on one instrument, when faults are counted")
                       .at_least(0)
                       .optional()},
        .outputs = {percent("passes", "chance to pass", 2)},
        .formula = "binomial for a share, hypergeometric for a small lot, Poisson for counted faults",
        .source = std::string(kHandbook) + ", 6.2",
        .cautions = {"A sample never replaces the critical checkpoints: those are done on every instrument."},
        .example = {{"inspected", "5"}, {"allowed", "0"}, {"lot", "20"}, {"bad", "2"}},
        .function = plan_chance,
    };
}

Sum bad_share_bound() {
    return {
        .name = "bad-share-bound",
        .title = "How bad may a lot be?",
        .says = "Upper bound of the bad share when so many were inspected and so few were bad, none included.",
        .inputs = {whole("inspected", "how many were inspected").within(1, 1e6),
                   whole("bad", "how many were bad").usually("0"),
                   probability("confidence", "confidence of the bound").usually("0.95")},
        .outputs = {percent("bound", "bad share is below", 2)},
        .formula = "1 - (1 - confidence)^(1/inspected) with none bad; else the exact binomial bound",
        .source = "Clopper & Pearson 1934, one-sided",
        .cautions = {"It holds for a random sample, not for the ones on top of the crate."},
        .example = {{"inspected", "20"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto bound =
                metrology::bad_share_bound(in.whole("inspected"), in.whole("bad"), in.si("confidence"));
            if (!bound) return told_at("bad", bound);
            return Outcome().put("bound", *bound);
        },
    };
}

Result<Outcome> capable(const Inputs& in) {
    const auto result =
        metrology::capability(limits_of(in), in.si("mean"), in.si("sd"), in.has("n") ? in.whole("n") : 0);
    if (!result) return told_at("high", result);
    Outcome out;
    if (in.has("low") && in.has("high")) out.put("cp", result->cp);
    out.put("cpk", result->cpk);
    if (in.has("n") && in.whole("n") >= 2) out.put("cpk-low", result->cpk_low).put("cpk-high", result->cpk_high);
    return out.put("below", result->below).put("above", result->above);
}

Sum capability() {
    return {
        .name = "capability",
        .title = "Does a shop hold its limits?",
        .says =
            "Room between the scatter of a series and its limits. Cpk 1 means that three standard deviations just "
            "fit "
            "on the nearer side.",
        .inputs = {reading("mean", "mean of the series"), difference("sd", "its standard deviation").above(0),
                   reading("low", "lower limit").optional(), reading("high", "upper limit").optional(),
                   whole("n", "how many values stand behind it").within(1, 1e6).optional()},
        .outputs = {plain("cp", "limits over six standard deviations", 2),
                    plain("cpk", "nearer limit over three standard deviations", 2),
                    plain("cpk-low", "95 % interval, from", 2), plain("cpk-high", "to", 2),
                    percent("below", "share below the lower limit", 3),
                    percent("above", "share above the upper limit", 3)},
        .formula = "cp = (high - low)/(6 sd); cpk = min(high - mean, mean - low)/(3 sd)",
        .source = std::string(kHandbook) + ", 6.1.6; interval: Bissell 1990",
        .cautions = {"It means nothing while the series still drifts."},
        .example = {{"mean", "1.62 mm"}, {"sd", "0.04 mm"}, {"low", "1.50 mm"}, {"high", "1.75 mm"}, {"n", "25"}},
        .function = capable,
    };
}

Result<Outcome> two_people(const Inputs& in) {
    const auto counts = in.table("counts");
    const auto& word = in.word("weights");
    const auto weights = word == "linear"      ? metrology::KappaWeights::linear
                         : word == "quadratic" ? metrology::KappaWeights::quadratic
                                               : metrology::KappaWeights::nominal;
    const auto kappa = metrology::cohen_kappa(counts, metrology::disagreement(weights, counts.size()));
    if (!kappa) return told_at("counts", kappa);
    Outcome out;
    out.put("agreement", kappa->percent_agreement).put("kappa", kappa->kappa, kappa->u);
    return out.note("When nearly everything falls in one class, kappa says little: read it beside the agreement.");
}

Sum two_people_agree() {
    return {
        .name = "two-people-agree",
        .title = "Do two people judge alike?",
        .says = "Two people sort the same things into the same classes. How much do they agree beyond chance?",
        .inputs = {table("counts", "row: class by the first person; column: class by the second"),
                   one_of("weights", "linear and quadratic: a miss by one class counts less",
                          {"nominal", "linear", "quadratic"})
                       .usually("linear")},
        .outputs = {percent("agreement", "judged alike"),
                    plain("kappa", "agreement beyond chance, 1 is complete", 3)},
        .formula = "kappa = 1 - sum w o / sum w e, disagreement weights w",
        .source = "Cohen 1960, 1968; standard error: Fleiss, Cohen & Everitt 1969",
        .cautions = {},
        .example = {{"counts", "20 3 0; 2 9 1; 0 2 5"}},
        .function = two_people,
    };
}

Sum many_people_agree() {
    return {
        .name = "many-people-agree",
        .title = "Do several people judge alike?",
        .says = "Several people sort the same things. One row a thing: how many people put it in each class.",
        .inputs = {table("counts", "row: a thing; column: how many chose that class")},
        .outputs = {percent("agreement", "pairs of people judging alike"),
                    percent("by-chance", "the same by chance"), plain("kappa", "agreement beyond chance", 3)},
        .formula = "kappa = (P - Pe)/(1 - Pe)",
        .source = "Fleiss 1971",
        .cautions = {},
        .example = {{"counts", "3 0; 2 1; 0 3; 3 0; 1 2"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto kappa = metrology::fleiss_kappa(in.table("counts"));
            if (!kappa) return told_at("counts", kappa);
            return Outcome()
                .put("agreement", kappa->observed)
                .put("by-chance", kappa->expected)
                .put("kappa", kappa->kappa);
        },
    };
}

Result<Outcome> chain(const Inputs& in) {
    const auto& found = in.list("found");
    const auto independent = metrology::escape_independent(found);
    if (!independent) return told_at("found", independent);
    const double mean = numeric::mean(found);
    const auto shared = metrology::escape_shared(mean, in.si("alike"), static_cast<int>(found.size()));
    if (!shared) return told_at("alike", shared);
    return Outcome()
        .put("independent", *independent)
        .put("shared", *shared)
        .note(fmt::format("The second figure takes everyone's mean, {:.3g}.", mean));
}

Sum escape_chain() {
    return {
        .name = "escape-chain",
        .title = "Faults that pass everyone",
        .says =
            "Several people look one after the other. How likely does a fault pass them all? Hard faults are hard "
            "for "
            "everyone, so the plain product is too good.",
        .inputs = {numbers("found", "share of faults that each finds").within(0, 1).with_u(UseOfU::refused),
                   number("alike", "how alike they miss, 0 independent to below 1")
                       .within(0, 0.999)
                       .usually("0.2")
                       .with_u(UseOfU::refused)},
        .outputs = {percent("independent", "passes all, were they independent", 3),
                    percent("shared", "passes all, when they miss alike", 3)},
        .formula =
            "product of (1 - found); beta-binomial: product over i of (b + i)/(a + b + i), a + b = 1/alike - 1",
        .source = "moments of the beta distribution; 0.2 is our own default, no source",
        .cautions = {},
        .example = {{"found", "0.8 0.8 0.8"}},
        .function = chain,
    };
}

Sum faults_unseen() {
    return {
        .name = "faults-unseen",
        .title = "Faults that both missed",
        .says =
            "Two people looked on their own. From what each found and what both found follows how many there are.",
        .inputs = {whole("first", "found by the first"), whole("second", "found by the second"),
                   whole("both", "found by both")},
        .outputs = {plain("total", "faults there are, at least", 1), plain("unseen", "found by neither", 1)},
        .formula = "total = (first + 1)(second + 1)/(both + 1) - 1",
        .source = "Chapman 1951",
        .cautions = {"A lower bound: people find the easy ones together."},
        .example = {{"first", "20"}, {"second", "15"}, {"both", "10"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto count = metrology::faults_present(in.whole("first"), in.whole("second"), in.whole("both"));
            if (!count) return told_at("both", count);
            return Outcome().put("total", count->total, count->se).put("unseen", count->unseen);
        },
    };
}

}  // namespace

std::vector<Sum> inspection_sums() {
    return {pass_rate(),  gauge_study(),      wrong_accept_risk(), plan_pass_chance(), bad_share_bound(),
            capability(), two_people_agree(), many_people_agree(), escape_chain(),     faults_unseen()};
}

}  // namespace fallaway::sums
