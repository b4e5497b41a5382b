// What the word "function" of a case may name, and how each turns "given" into named outputs.
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>

#include "case_fits.h"
#include "case_reader.h"
#include "science/metrology/compare.h"
#include "science/metrology/conformity.h"
#include "science/metrology/correction.h"
#include "science/metrology/inspection.h"
#include "science/metrology/kappa.h"
#include "science/metrology/risk.h"
#include "science/metrology/tool.h"
#include "science/metrology/uncertainty.h"
#include "science/metrology/variance.h"
#include "science/numeric/statistics.h"

namespace fallaway::cases {

namespace m = fallaway::metrology;
namespace n = fallaway::numeric;

inline m::Limits limits_of(Given& given) {
    return {given.optional("lower"), given.optional("upper")};
}

inline Outputs run_combine(Given& given) {
    std::vector<m::Contribution> parts;
    for (const double u : given.numbers("u")) parts.push_back({"part " + std::to_string(parts.size()), 1, u});
    const auto fill = [&](const std::string& key, double m::Contribution::*field) {
        if (!given.has(key)) return;
        const std::vector<double> values = given.numbers(key);
        if (values.size() != parts.size()) throw std::invalid_argument(key + " needs one value for every u");
        for (std::size_t i = 0; i < values.size(); ++i) parts[i].*field = values[i];
    };
    fill("dof", &m::Contribution::dof);
    fill("sensitivity", &m::Contribution::sensitivity);
    const auto r =
        m::combine(parts, given.has("correlations") ? correlations_of(given) : std::vector<m::Correlation>{});
    const m::CombinedUncertainty& c = value_of(r);
    return {{"u", c.u},
            {"dof", c.dof},
            {"dof_used", c.dof_used},
            {"first_order_valid", c.first_order_valid},
            {"k_95", m::coverage_factor(0.95, c.dof)},
            {"k_99", m::coverage_factor(0.99, c.dof)},
            {"U_99", m::coverage_factor(0.99, c.dof) * c.u}};
}

inline Outputs run_budget(Given& given) {
    m::FeatureBudget line;
    line.step = given.number("step", 0);
    line.limit = given.number("limit", 0);
    line.limit_per_value = given.number("limit_per_value", 0);
    line.handling = given.number("handling", 0);
    line.total = given.optional("total");
    std::optional<m::Certificate> certificate;
    if (given.has("expanded_u")) certificate = m::Certificate{given.number("expanded_u"), given.number("k", 2)};
    const m::ToolBudget b =
        m::budget(line, given.numbers("readings"), given.number("step_written", 0), certificate);
    return {{"value", b.result.value}, {"u", b.result.u}, {"dof", b.result.dof}, {"u_repeat", b.u_repeat}};
}

inline Outputs run_decide(Given& given) {
    const m::Uncertain y{given.number("y"), given.number("u"), given.number("dof", m::kInfiniteDof)};
    const m::Conformity c = m::decide(y, limits_of(given), given.number("u_repeat", 0));
    return {{"decision", std::string(m::name_of(c.decision))},
            {"p_conform", c.p_conform},
            {"guard_band", c.guard_band},
            {"tool_too_coarse", c.tool_too_coarse},
            {"u_needed", c.u_needed},
            {"repeats_needed", c.repeats_needed}};
}

inline Outputs run_practice(Given& given) {
    const auto r = m::against_practice({given.number("y"), given.number("u")}, limits_of(given));
    return {{"practice", std::string(m::name_of(r.practice))},
            {"beyond_lower", r.beyond_lower},
            {"beyond_upper", r.beyond_upper}};
}

inline Outputs run_bracket(Given& given) {
    const m::Uncertain b = m::bracket(given.number("go"), given.number("no_go"));
    return {{"value", b.value}, {"u", b.u}};
}

inline Outputs run_agreement(Given& given) {
    const auto x = given.numbers("x");
    const auto u = given.numbers("u");
    const m::Agreement a = m::agreement({x.at(0), u.at(0)}, {x.at(1), u.at(1)});
    return {{"en", a.en}, {"agree", a.agree}};
}

inline Outputs run_fuse(Given& given) {
    const auto x = given.numbers("x");
    const auto u = given.numbers("u");
    const m::Uncertain f = m::fuse({x.at(0), u.at(0)}, {x.at(1), u.at(1)});
    return {{"value", f.value}, {"u", f.u}};
}

inline m::Population population_of(Given& given) {
    const bool gamma = given.has("gamma");
    const auto p = given.numbers(gamma ? "gamma" : "normal");
    if (gamma) return m::GammaPopulation{p.at(0), p.at(1)};
    return m::NormalPopulation{p.at(0), p.at(1)};
}

inline Outputs run_global_risk(Given& given) {
    const m::Limits tolerance = limits_of(given);
    m::Limits acceptance = tolerance;
    if (given.has("accept_upper")) acceptance.upper = given.number("accept_upper");
    if (given.has("accept_lower")) acceptance.lower = given.number("accept_lower");
    const auto r = m::global_risk(population_of(given), tolerance, acceptance, given.number("u_measure"));
    const m::GlobalRisk& risk = value_of(r);
    return {{"out_of_tolerance", risk.out_of_tolerance},
            {"false_accept", risk.false_accept},
            {"false_reject", risk.false_reject}};
}

inline Outputs run_acceptance_limit(Given& given) {
    const auto r = m::acceptance_limit(population_of(given), given.number("upper"), given.number("u_measure"),
                                       given.number("target"));
    return {{"limit", value_of(r)}};
}

inline Outputs run_nested(Given& given) {
    const auto r = m::nested(given.numbers("means"), given.numbers("sds"), given.get<int>("repeats"));
    const m::Nested& a = value_of(r);
    return {{"mean", a.mean},
            {"between_sd", a.between_sd},
            {"within_sd", a.within_sd},
            {"f", a.f},
            {"p", a.p},
            {"between_dof", a.between_dof},
            {"within_dof", a.within_dof},
            {"component", a.component},
            {"u_mean", a.u_mean},
            {"u_mean_pooled", a.u_mean_pooled}};
}

inline Outputs run_gauge_study(Given& given) {
    m::GaugeStudyOptions options;
    options.tolerance_width = given.optional("tolerance_width");
    if (given.has("interaction")) {
        const auto word = given.get<std::string>("interaction");
        if (word != "pooled" && word != "kept")
            throw std::invalid_argument("interaction is \"pooled\" or \"kept\"");
        options.interaction = word == "kept" ? m::Interaction::kept : m::Interaction::pooled;
    }
    const auto r = m::gauge_study(given.get<m::GaugeReadings>("people"), options);
    const m::GaugeStudy& s = value_of(r);
    Outputs out{{"ss", {s.ss_part, s.ss_person, s.ss_interaction, s.ss_repeat}},
                {"f_interaction", s.f_interaction},
                {"p_interaction", s.p_interaction},
                {"pooled", s.pooled},
                {"equipment", s.equipment},
                {"appraiser", s.appraiser},
                {"interaction", s.interaction},
                {"gauge", s.gauge},
                {"part", s.part},
                {"total", s.total},
                {"percent_of_total", s.percent_of_total},
                {"distinct", s.distinct},
                {"distinct_whole", s.distinct_whole}};
    if (s.precision_to_tolerance) out["precision_to_tolerance"] = *s.precision_to_tolerance;
    return out;
}

inline Outputs run_cohen_kappa(Given& given) {
    const auto table = given.get<m::Table>("table");
    m::Table weights;
    if (given.raw("weights").is_array()) {
        weights = given.get<m::Table>("weights");
    } else {
        const auto word = given.get<std::string>("weights");
        if (word != "nominal" && word != "linear" && word != "quadratic") {
            throw std::invalid_argument("weights are nominal, linear, quadratic or a table");
        }
        weights = m::disagreement(word == "nominal"  ? m::KappaWeights::nominal
                                  : word == "linear" ? m::KappaWeights::linear
                                                     : m::KappaWeights::quadratic,
                                  table.size());
    }
    const auto r = m::cohen_kappa(table, weights);
    const m::Kappa& k = value_of(r);
    return {{"kappa", k.kappa}, {"u", k.u}, {"percent_agreement", k.percent_agreement}, {"expected", k.expected}};
}

inline Outputs run_fleiss_kappa(Given& given) {
    const auto r = m::fleiss_kappa(given.get<m::Table>("counts"));
    const m::FleissKappa& k = value_of(r);
    return {{"kappa", k.kappa}, {"observed", k.observed}, {"expected", k.expected}};
}

// One output for every point of a list in "given".
inline Outputs along(Given& given, const std::string& key, const std::string& output,
                     const std::function<Result<double>(double)>& f) {
    Json values = Json::array();
    for (const double x : given.one_or_more(key)) values.push_back(value_of(f(x)));
    if (!given.raw(key).is_array()) return {{output, values[0]}};
    return {{output, values}};
}

inline Outputs run_escape_shared(Given& given) {
    return along(given, "rho", "escape", [&](double rho) {
        return m::escape_shared(given.number("mean_detection"), rho, given.get<int>("inspectors"));
    });
}

inline Outputs run_faults_present(Given& given) {
    const auto r = m::faults_present(given.get<int>("first"), given.get<int>("second"), given.get<int>("both"));
    const m::FaultCount& c = value_of(r);
    return {{"total", c.total}, {"se", c.se}, {"unseen", c.unseen}};
}

inline Outputs run_pass_lot(Given& given) {
    const auto r =
        m::pass_lot(given.get<int>("lot"), given.get<int>("bad"), given.get<int>("n"), given.get<int>("c"));
    return {{"pass", value_of(r)}};
}

inline Outputs run_pass_large_lot(Given& given) {
    return along(given, "bad_share", "pass",
                 [&](double share) { return m::pass_large_lot(given.get<int>("n"), given.get<int>("c"), share); });
}

inline Outputs run_pass_defects(Given& given) {
    return along(given, "defects_per_unit", "pass",
                 [&](double rate) { return m::pass_defects(given.get<int>("n"), given.get<int>("c"), rate); });
}

inline Outputs run_bad_share_bound(Given& given) {
    const double confidence = given.number("confidence", 0.95);
    return {{"share", value_of(m::bad_share_bound(given.get<int>("n"), given.get<int>("bad"), confidence))}};
}

inline Outputs run_capability(Given& given) {
    const int count = given.has("n") ? given.get<int>("n") : 0;
    const auto r = m::capability(limits_of(given), given.number("mean"), given.number("sd"), count);
    const m::Capability& c = value_of(r);
    return {
        {"cp", c.cp}, {"cpk", c.cpk}, {"below", c.below}, {"above", c.above}, {"ci95", {c.cpk_low, c.cpk_high}}};
}

inline Outputs run_paired(Given& given) {
    const auto r = m::paired(given.numbers("differences"), given.number("u_single"));
    const m::PairedChange& p = value_of(r);
    return {{"mean", p.mean},
            {"sd", p.sd},
            {"t", p.t},
            {"dof", p.dof},
            {"p_two_sided", p.p_two_sided},
            {"ci95", {p.ci95_low, p.ci95_high}},
            {"signed_rank_p", p.signed_rank_p ? Json(*p.signed_rank_p) : Json()},
            {"real", p.real}};
}

inline Outputs run_rank(Given& given) {
    const auto r = m::rank(given.number("value"), given.numbers("past"));
    const m::Rank& k = value_of(r);
    return {{"n", k.n},
            {"below", k.below},
            {"percentile", k.percentile},
            {"ci95", {k.ci95_low, k.ci95_high}},
            {"median", k.median},
            {"mad", k.mad},
            {"robust_z", k.robust_z},
            {"too_few", k.too_few}};
}

inline Outputs run_robust(Given& given) {
    const auto x = given.numbers("values");
    return {{"mean", n::mean(x)},
            {"sd", n::standard_deviation(x)},
            {"median", n::median(x)},
            {"mad", n::scaled_mad(x)},
            {"huber", n::huber(x, given.number("huber_k", 1.5)).location}};
}

inline Outputs run_mean_sd(Given& given) {
    std::vector<double> x{given.number("first")};
    const auto pair = given.numbers("pair");
    for (int i = 0; i < given.get<int>("pairs"); ++i) x.insert(x.end(), pair.begin(), pair.end());
    return {{"mean", n::mean(x)}, {"sd", n::standard_deviation(x)}};
}

inline Outputs run_quantile(Given& given) {
    const auto x = given.numbers("values");
    const double p = given.number("p");
    return {{"type6", n::quantile(x, p, n::QuantileType::type6)},
            {"type7", n::quantile(x, p, n::QuantileType::type7)},
            {"type8", n::quantile(x, p, n::QuantileType::type8)}};
}

inline Outputs run_wilson(Given& given) {
    const auto hits = given.one_or_more("hits");
    const auto of = given.one_or_more("n");
    Json low = Json::array();
    Json high = Json::array();
    for (std::size_t i = 0; i < hits.size(); ++i) {
        const n::Interval interval = n::wilson(hits[i], of.at(i));
        low.push_back(interval.low);
        high.push_back(interval.high);
    }
    return {{"low", low}, {"high", high}};
}

using Function = Outputs (*)(Given&);

inline const std::map<std::string, Function>& functions() {
    static const std::map<std::string, Function> all{
        {"combine", run_combine},
        {"budget", run_budget},
        {"decide", run_decide},
        {"practice", run_practice},
        {"bracket", run_bracket},
        {"agreement", run_agreement},
        {"fuse", run_fuse},
        {"global_risk", run_global_risk},
        {"acceptance_limit", run_acceptance_limit},
        {"nested", run_nested},
        {"gauge_study", run_gauge_study},
        {"cohen_kappa", run_cohen_kappa},
        {"fleiss_kappa", run_fleiss_kappa},
        {"escape_independent",
         [](Given& given) -> Outputs {
             return {{"escape", value_of(m::escape_independent(given.numbers("detection")))}};
         }},
        {"escape_shared", run_escape_shared},
        {"faults_present", run_faults_present},
        {"pass_large_lot", run_pass_large_lot},
        {"pass_defects", run_pass_defects},
        {"pass_lot", run_pass_lot},
        {"bad_share_bound", run_bad_share_bound},
        {"capability", run_capability},
        {"paired", run_paired},
        {"rank", run_rank},
        {"robust", run_robust},
        {"mean_sd", run_mean_sd},
        {"quantile", run_quantile},
        {"wilson", run_wilson},
        {"copper_at_20c",
         [](Given& given) -> Outputs {
             return {{"ohms_20", m::copper_at_20c(given.number("ohms"), given.number("celsius"))}};
         }},
        {"calibration_line", run_calibration_line},
        {"joint", run_joint},
        {"monte_carlo", run_monte_carlo},
        {"linear_fit", run_linear_fit},
        {"polynomial_fit", run_polynomial_fit},
        {"nonlinear_fit", run_nonlinear_fit}};
    return all;
}

}  // namespace fallaway::cases
