#include <cmath>

#include <fmt/format.h>

#include "bench/sums/themes.h"
#include "science/metrology/calibration_line.h"
#include "science/metrology/compare.h"
#include "science/metrology/conformity.h"
#include "science/metrology/tool.h"
#include "science/metrology/uncertainty.h"
#include "science/numeric/statistics.h"

namespace fallaway::sums {
namespace {

using metrology::Uncertain;

constexpr const char* kGum = "JCGM 100:2008";

Input dof_input() {
    return number("dof", "degrees of freedom of its uncertainty; left out: well known")
        .at_least(1)
        .optional()
        .with_u(UseOfU::refused);
}

Uncertain uncertain(const Inputs& in, std::string_view name) {
    return {in.si(name), in.u(name), in.si_or("dof", metrology::kInfiniteDof)};
}

// The second and later fault of a list beside another list.
tl::unexpected<Error> not_as_many(std::string key, std::string_view other, std::size_t expected,
                                  std::size_t found) {
    return fail("range", std::move(key), fmt::format("{} values, expected {} as in {}", found, expected, other));
}

Result<std::vector<metrology::Correlation>> correlations_of(const Inputs& in) {
    std::vector<metrology::Correlation> pairs;
    if (!in.has("correlations")) return pairs;
    const auto is_place = [&](double v) { return v >= 1 && v == std::trunc(v) && v <= 10000; };
    for (const auto& row : in.table("correlations")) {
        if (row.size() != 3 || !is_place(row[0]) || !is_place(row[1])) {
            return fail("syntax", "correlations",
                        "expected rows of two places and a coefficient, such as \"1 3 0.5\"");
        }
        pairs.push_back({static_cast<std::size_t>(row[0]) - 1, static_cast<std::size_t>(row[1]) - 1, row[2]});
    }
    return pairs;
}

Result<Outcome> combine_parts(const Inputs& in) {
    const auto& parts = in.list("parts");
    std::vector<metrology::Contribution> contributions;
    for (const double u : parts) contributions.push_back({.name = "", .u = std::abs(u)});
    if (in.has("dof")) {
        const auto& dof = in.list("dof");
        if (dof.size() != parts.size()) return not_as_many("dof", "parts", parts.size(), dof.size());
        for (std::size_t i = 0; i < dof.size(); ++i) {
            if (dof[i] > 0) contributions[i].dof = dof[i];
        }
    }
    const auto pairs = correlations_of(in);
    if (!pairs) return tl::unexpected(pairs.error());
    auto combined = metrology::combine(contributions, *pairs);
    if (!combined) {
        combined.error().path = "correlations";
        return tl::unexpected(combined.error());
    }
    const double k = metrology::coverage_factor(in.si("p"), combined->dof);
    Outcome out;
    out.put("u", combined->u);
    if (std::isfinite(combined->dof)) out.put("dof", combined->dof);
    return out.put("k", k).put("expanded", k * combined->u);
}

Sum combined_uncertainty() {
    Input parts = readings("parts", "standard uncertainties, one a source").at_least(0);
    parts.is_difference = true;
    return {
        .name = "combined-uncertainty",
        .title = "Several errors make one",
        .says =
            "Combined standard uncertainty of a result from the parts of its sources, each already in the unit of "
            "the "
            "result.",
        .inputs = {parts,
                   numbers("dof", "degrees of freedom, as many as parts; 0 for a part that is well known")
                       .at_least(0)
                       .optional()
                       .with_u(UseOfU::refused),
                   table("correlations", "rows of two places in the list and their coefficient").optional(),
                   probability("p", "probability of the expanded interval").usually("0.95")},
        .outputs = {spread_of_readings("u", "combined standard uncertainty"),
                    plain("dof", "effective degrees of freedom", 1), plain("k", "coverage factor", 3),
                    spread_of_readings("expanded", "expanded uncertainty, k times u")},
        .formula =
            "u^2 = sum u_i^2 + 2 sum r_ij u_i u_j; dof = u^4 / sum(u_i^4 / dof_i), cut to a whole number for k",
        .source = std::string(kGum) + ", 5.1.2, 5.2.2, G.2b, G.4.1",
        .cautions = {},
        .example = {{"parts", "0.016 0.029 0.010 mm"}, {"dof", "4 0 0"}},
        .function = combine_parts,
    };
}

Result<Outcome> tool_mean(const Inputs& in) {
    metrology::FeatureBudget line;
    line.step = in.si_or("step", 0);
    line.limit = in.si_or("limit", 0);
    line.handling = in.si_or("handling", 0);
    const metrology::ToolBudget budget = metrology::budget(line, in.list("readings"));
    Outcome out;
    out.put("mean", budget.result.value, budget.result.u)
        .put("u", budget.result.u)
        .put("u-repeat", budget.u_repeat);
    if (in.list("readings").size() == 1) {
        out.note(
            "One reading shows no scatter of its own: repeat it, or bring the scatter of an earlier study as "
            "handling.");
    }
    return out;
}

Sum tool_reading() {
    return {
        .name = "tool-reading",
        .title = "Repeated readings with a tool",
        .says =
            "Mean of repeats and how well it is known, from their scatter, the step of the tool and the error its "
            "maker allows. The larger of scatter and step counts, never both.",
        .inputs = {readings("readings", "the repeats"), difference("step", "smallest step of the tool").optional(),
                   difference("limit", "largest error its maker allows, either way").optional(),
                   difference("handling", "standard deviation of feel and placement").optional()},
        .outputs = {like_readings("mean", "of the repeats"), spread_of_readings("u", "standard uncertainty"),
                    spread_of_readings("u-repeat", "part that more repeats would shrink")},
        .formula = "u^2 = max(s/sqrt(n), step/sqrt(12))^2 + (limit/sqrt(3))^2 + handling^2",
        .source = std::string(kGum) + ", 4.2.3 and 4.3.7; not adding the step to the scatter is our own rule",
        .cautions = {},
        .example = {{"readings", "1.60 1.65 1.60 1.55 1.60 mm"}, {"step", "0.05 mm"}, {"limit", "0.05 mm"}},
        .function = tool_mean,
    };
}

Result<Outcome> decision(const Inputs& in) {
    metrology::Limits limits;
    if (in.has("low")) limits.lower = in.si("low");
    if (in.has("high")) limits.upper = in.si("high");
    if (!limits.lower && !limits.upper) return fail("missing", "high", "give low, high or both");
    if (limits.lower && limits.upper && *limits.lower > *limits.upper) {
        return fail("range", "high", "below low");
    }
    const auto result = metrology::decide(uncertain(in, "reading"), limits, in.si_or("u-repeat", 0));
    Outcome out;
    out.word("decision", metrology::name_of(result.decision))
        .put("p-within", result.p_conform)
        .put("guard-band", result.guard_band);
    if (result.u_needed > 0) out.put("u-needed", result.u_needed);
    if (result.repeats_needed > 0) out.put("repeats-needed", result.repeats_needed);
    if (result.tool_too_coarse) {
        out.note("The tool is too coarse for limits so close: it can reject but never accept. Take a finer one.");
    }
    return out;
}

Sum decide() {
    return {
        .name = "decide",
        .title = "Decision against limits",
        .says =
            "Accept, reject or cannot tell, at 95 %. When it cannot tell, it says how well one would have to "
            "read.",
        .inputs = {reading("reading", "value with its standard uncertainty").with_u(UseOfU::required),
                   reading("low", "lower limit").optional(), reading("high", "upper limit").optional(),
                   dof_input(),
                   difference("u-repeat", "part of the uncertainty that repeats would shrink").optional()},
        .outputs = {word_of("decision", "accept, reject or cannot tell"),
                    percent("p-within", "probability that the true value is within", 2),
                    spread_of_readings("guard-band", "distance from one limit at which 95 % is reached"),
                    spread_of_readings("u-needed", "standard uncertainty that would decide it"),
                    count_of("repeats-needed", "readings of the same scatter that would decide it")},
        .formula =
            "p = F((high - y)/u) - F((low - y)/u); accept at p >= 0.95, reject at p <= 0.05; F normal, or "
            "Student's t with dof",
        .source = "JCGM 106:2012; ISO 14253-1:2017, default rule",
        .cautions = {},
        .example = {{"reading", "1.60 mm \u00B1 0.036"}, {"high", "1.65 mm"}},
        .function = decision,
    };
}

Sum go_no_go() {
    return {
        .name = "go-no-go",
        .title = "Between two leaves",
        .says = "What a feeler stack knows: one leaf goes, the next does not.",
        .inputs = {reading("go", "thickest that goes"), reading("no-go", "thinnest that does not")},
        .outputs = {like_readings("value", "best value")},
        .formula = "value = (go + no-go)/2, u = (no-go - go)/sqrt(12)",
        .source = std::string(kGum) + ", 4.3.7",
        .cautions = {"Leaves wear and stick together: measure a stack, do not add its marks. Never force a leaf."},
        .example = {{"go", "0.20 mm"}, {"no-go", "0.25 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            if (in.si("no-go") <= in.si("go"))
                return fail("range", "no-go", "must be thicker than the leaf that goes");
            const Uncertain value = metrology::bracket(in.si("go"), in.si("no-go"));
            return Outcome().put("value", value.value, value.u);
        },
    };
}

Sum coverage() {
    return {
        .name = "coverage-factor",
        .title = "Coverage factor",
        .says = "How many standard uncertainties make an interval of that probability.",
        .inputs = {probability("p", "probability of the interval").usually("0.95"), dof_input()},
        .outputs = {plain("k", "coverage factor", 3)},
        .formula =
            "Student's t for (1 + p)/2, degrees of freedom cut to a whole number; normal when they are left out",
        .source = std::string(kGum) + ", G.4.1",
        .cautions = {},
        .example = {{"p", "0.95"}, {"dof", "16.7"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            return Outcome().put("k",
                                 metrology::coverage_factor(in.si("p"), in.si_or("dof", metrology::kInfiniteDof)));
        },
    };
}

Sum agree() {
    return {
        .name = "agree",
        .title = "Do two readings agree?",
        .says = "Two people or two tools read the same thing: is the difference more than both can explain?",
        .inputs = {reading("first", "value with its uncertainty").with_u(UseOfU::required),
                   reading("second", "value with its uncertainty").with_u(UseOfU::required)},
        .outputs = {plain("en", "difference over both expanded uncertainties together", 3),
                    word_of("agree", "do they agree?")},
        .formula = "en = |first - second| / sqrt(U1^2 + U2^2), U = 2u; they agree up to 1",
        .source = "ISO 13528; ISO/IEC 17043",
        .cautions = {},
        .example = {{"first", "1.62 mm \u00B1 0.07 (k=2)"}, {"second", "1.70 mm \u00B1 0.05 (k=2)"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto result =
                metrology::agreement({in.si("first"), in.u("first")}, {in.si("second"), in.u("second")});
            return Outcome().put("en", result.en).word("agree", result.agree ? "yes" : "no");
        },
    };
}

Sum fuse() {
    return {
        .name = "fuse",
        .title = "An older reading and a new one",
        .says = "One value from two readings of the same thing, the better known one weighing more.",
        .inputs = {reading("older", "value with its standard uncertainty").with_u(UseOfU::required),
                   reading("newer", "value with its standard uncertainty").with_u(UseOfU::required)},
        .outputs = {like_readings("value", "value of both")},
        .formula = "weights 1/u^2; u^2 = 1 / (1/u1^2 + 1/u2^2)",
        .source = "least squares of two independent values",
        .cautions = {"Only when nothing was adjusted between the two readings."},
        .example = {{"older", "1.62 mm \u00B1 0.04"}, {"newer", "1.58 mm \u00B1 0.03"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const Uncertain both =
                metrology::fuse({in.si("older"), in.u("older")}, {in.si("newer"), in.u("newer")});
            return Outcome().put("value", both.value, both.u);
        },
    };
}

Result<Outcome> change(const Inputs& in) {
    const auto& before = in.list("before");
    const auto& after = in.list("after");
    if (before.size() != after.size()) return not_as_many("after", "before", before.size(), after.size());
    std::vector<double> differences;
    for (std::size_t i = 0; i < before.size(); ++i) differences.push_back(after[i] - before[i]);
    auto paired = metrology::paired(differences, in.si_or("repeat", 0));
    if (!paired) {
        paired.error().path = "before";
        return tl::unexpected(paired.error());
    }
    Outcome out;
    out.put("change", paired->mean).put("sd", paired->sd);
    if (paired->sd > 0) {
        out.put("t", paired->t).put("p", paired->p_two_sided);
        out.put("low", paired->ci95_low).put("high", paired->ci95_high);
    }
    if (paired->signed_rank_p) out.put("p-signed-rank", *paired->signed_rank_p);
    if (in.has("repeat")) out.word("real", paired->real ? "yes" : "no");
    out.note("It says that this instrument changed, not that the method works on others.");
    return out;
}

Sum before_after() {
    return {
        .name = "before-after",
        .title = "Before and after the work",
        .says = "Did it change? The same places, read with the same tool before and after.",
        .inputs =
            {readings("before", "readings before"),
             readings("after", "readings after, at the same places in the same order"),
             difference("repeat", "standard uncertainty of repeating one reading with this tool").optional()},
        .outputs = {spread_of_readings("change", "mean change"), spread_of_readings("sd", "its scatter"),
                    plain("t", "Student's t", 2), plain("p", "chance of as much without any change", 4),
                    spread_of_readings("low", "95 % interval of the mean change, from"),
                    spread_of_readings("high", "to"), plain("p-signed-rank", "the same chance by ranks, exact", 4),
                    word_of("real", "more than 1.96 u of repeating?")},
        .formula = "t = mean / (sd / sqrt(n)); ranks: Wilcoxon, zeros dropped, exact up to 20 pairs",
        .source = "Student 1908; Wilcoxon 1945",
        .cautions = {},
        .example = {{"before", "1.9 1.9 1.8 1.8 1.7 1.7 mm"},
                    {"after", "1.7 1.7 1.6 1.6 1.5 1.6 mm"},
                    {"repeat", "0.03 mm"}},
        .function = change,
    };
}

Result<Outcome> ranked(const Inputs& in) {
    auto rank = metrology::rank(in.si("value"), in.list("past"));
    if (!rank) {
        rank.error().path = "past";
        return tl::unexpected(rank.error());
    }
    Outcome out;
    out.put("below", rank->below);
    if (rank->too_few) return out.note("Fewer than five: look at the values themselves.");
    return out.put("place", rank->percentile)
        .put("low", rank->ci95_low)
        .put("high", rank->ci95_high)
        .put("median", rank->median)
        .put("spread", rank->mad)
        .put("distance", rank->robust_z);
}

Sum rank_among() {
    return {
        .name = "rank-among",
        .title = "One instrument among those seen before",
        .says = "Where a value stands among past instruments of the same class.",
        .inputs = {reading("value", "this instrument"), readings("past", "earlier ones, like with like")},
        .outputs = {plain("below", "how many lie below; a tie counts half", 1),
                    percent("place", "place from the bottom", 0),
                    percent("low", "95 % interval of the place, from", 0), percent("high", "to", 0),
                    like_readings("median", "middle of the earlier ones"),
                    spread_of_readings("spread", "their robust spread"),
                    plain("distance", "distance from the middle, in spreads; beyond 3.5 unusual", 2)},
        .formula =
            "place = (below + 0.5)/(n + 1); interval: beta(below + 0.5, n - below + 0.5); spread = 1.4826 MAD",
        .source = "Jeffreys' interval; the bound of 3.5 is common practice, no source",
        .cautions = {},
        .example = {{"value", "1.52 mm"}, {"past", "1.42 1.48 1.50 1.55 1.58 1.60 1.66 1.75 2.10 mm"}},
        .function = ranked,
    };
}

Sum robust_centre() {
    return {
        .name = "robust-centre",
        .title = "Centre of values with a wild one among them",
        .says = "Mean and scatter beside figures that one slip of the pen cannot move far.",
        .inputs = {readings("values", "the values")},
        .outputs = {like_readings("mean", "of the repeats"), spread_of_readings("sd", "standard deviation"),
                    like_readings("median", "median"),
                    spread_of_readings("spread", "1.4826 times the median distance from it"),
                    like_readings("huber", "Huber's mean, k = 1.5")},
        .formula = "Huber: values farther than 1.5 spreads from the centre count as if they lay there",
        .source = "Huber 1981; Venables & Ripley 2002, 5.5",
        .cautions = {"Look for the cause of a wild value before leaving it behind."},
        .example = {{"values", "1.60 1.62 1.58 1.61 6.1 1.59 mm"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto& values = in.list("values");
            return Outcome()
                .put("mean", numeric::mean(values))
                .put("sd", numeric::standard_deviation(values))
                .put("median", numeric::median(values))
                .put("spread", numeric::scaled_mad(values))
                .put("huber", numeric::huber(values).location);
        },
    };
}

Sum quantile() {
    return {
        .name = "quantile",
        .title = "Value below which a share lies",
        .says =
            "Sample quantile by one of the three rules in use; small samples differ visibly, so the rule is "
            "named.",
        .inputs = {readings("values", "the values"),
                   number("share", "share below").within(0, 1).with_u(UseOfU::refused),
                   one_of("rule", "type 6, 7 or 8; 8 suits small samples", {"6", "7", "8"}).usually("8")},
        .outputs = {like_readings("value", "quantile")},
        .formula = "types 6, 7 and 8 of the source",
        .source = "Hyndman & Fan 1996",
        .cautions = {},
        .example = {{"values", "1.42 1.48 1.50 1.55 1.58 1.60 1.66 1.75 2.10 mm"}, {"share", "25 %"}},
        .function = [](const Inputs& in) -> Result<Outcome> {
            const auto rule = static_cast<numeric::QuantileType>(in.word("rule").front() - '0');
            return Outcome().put("value", numeric::quantile(in.list("values"), in.si("share"), rule));
        },
    };
}

Result<Outcome> line(const Inputs& in) {
    const auto& x = in.list("x");
    const auto& y = in.list("y");
    if (x.size() != y.size()) return not_as_many("y", "x", x.size(), y.size());
    auto fit = metrology::calibration_line(x, y, in.si("origin"));
    if (!fit) {
        fit.error().path = "x";
        return tl::unexpected(fit.error());
    }
    Outcome out;
    out.put("start", fit->intercept, fit->u_intercept)
        .put("slope", fit->slope, fit->u_slope)
        .put("correlation", fit->correlation)
        .put("scatter", fit->residual_sd);
    if (in.has("at")) {
        const Uncertain at = fit->at(in.si("at"));
        out.put("predicted", at.value, at.u);
    }
    return out;
}

Sum line_through_points() {
    return {
        .name = "line-through-points",
        .title = "Straight line through points",
        .says = "Calibration of a tool, or the slope of anything against anything, with what the line predicts.",
        .inputs = {numbers("x", "where, plain numbers").with_u(UseOfU::refused),
                   readings("y", "what was read there"),
                   number("origin", "the x at which the line starts").usually("0").with_u(UseOfU::refused),
                   number("at", "an x to predict at").optional().with_u(UseOfU::refused)},
        .outputs = {spread_of_readings("start", "value of the line at the origin", 5),
                    spread_of_readings("slope", "change for one more x", 5),
                    plain("correlation", "of start and slope", 3),
                    spread_of_readings("scatter", "standard deviation of the points about the line"),
                    spread_of_readings("predicted", "value of the line there", 5)},
        .formula = "least squares, all points equally good; u from the scatter about the line",
        .source = std::string(kGum) + ", H.3",
        .cautions = {"A line says nothing beyond its points."},
        .example = {{"x", "0 1 2 3 4"}, {"y", "0.01 0.52 0.99 1.51 2.02 mm"}, {"at", "2.5"}},
        .function = line,
    };
}

}  // namespace

std::vector<Sum> reading_sums() {
    return {tool_reading(),  go_no_go(),     combined_uncertainty(),
            coverage(),      decide(),       agree(),
            fuse(),          before_after(), rank_among(),
            robust_centre(), quantile(),     line_through_points()};
}

}  // namespace fallaway::sums
