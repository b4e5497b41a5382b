#include "science/metrology/risk.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "science/numeric/distributions.h"
#include "science/numeric/roots.h"

namespace fallaway::metrology {
namespace {

double density(const Population& population, double x) {
    if (const auto* normal = std::get_if<NormalPopulation>(&population)) {
        return numeric::normal_pdf((x - normal->mean) / normal->sd) / normal->sd;
    }
    const auto& gamma = std::get<GammaPopulation>(population);
    return numeric::gamma_pdf(x, gamma.shape, gamma.scale);
}

double quantile(const Population& population, double p) {
    if (const auto* normal = std::get_if<NormalPopulation>(&population)) {
        return normal->mean + normal->sd * numeric::normal_quantile(p);
    }
    const auto& gamma = std::get<GammaPopulation>(population);
    return numeric::gamma_quantile(p, gamma.shape, gamma.scale);
}

double accepted(double x, const Limits& acceptance, double u) {
    double p = 1;
    if (acceptance.upper) p -= numeric::normal_sf((*acceptance.upper - x) / u);
    if (acceptance.lower) p -= numeric::normal_sf((x - *acceptance.lower) / u);
    return std::max(0.0, p);
}

template <class F>
double simpson(const F& f, double low, double high) {
    constexpr int panels = 2000;
    const double h = (high - low) / panels;
    double sum = f(low) + f(high);
    for (int i = 1; i < panels; ++i) sum += (i % 2 == 1 ? 4 : 2) * f(low + i * h);
    return sum * h / 3;
}

Result<void> check(const Population& population, const Limits& tolerance, double u_measure) {
    if (!(u_measure > 0)) return fail("range", "u_measure", "expected a u above 0");
    const auto* normal = std::get_if<NormalPopulation>(&population);
    const auto* gamma = std::get_if<GammaPopulation>(&population);
    const bool positive = normal ? normal->sd > 0 : gamma->shape >= 1 && gamma->scale > 0;
    if (!positive)
        return fail("range", "population", "expected sd above 0, or shape of 1 or more and scale above 0");
    if (!tolerance.lower && !tolerance.upper) return fail("missing", "tolerance", "expected a limit");
    return {};
}

}  // namespace

Result<GlobalRisk> global_risk(const Population& population, const Limits& tolerance, const Limits& acceptance,
                               double u_measure) {
    if (const auto ok = check(population, tolerance, u_measure); !ok) return tl::unexpected(ok.error());
    // The population beyond 1e-13 on either side moves no risk that anyone prints.
    const double first = quantile(population, 1e-13);
    const double last = quantile(population, 1 - 1e-13);
    std::vector<double> cuts{first, last};
    // Cut at the limits, where the integrand jumps, and around the acceptance limits, where it bends.
    const auto cut = [&](double x) {
        if (x > first && x < last) cuts.push_back(x);
    };
    for (const auto& limit : {tolerance.lower, tolerance.upper})
        if (limit) cut(*limit);
    for (const auto& limit : {acceptance.lower, acceptance.upper}) {
        for (const double away : {-8.0, 0.0, 8.0})
            if (limit) cut(*limit + away * u_measure);
    }
    std::sort(cuts.begin(), cuts.end());
    GlobalRisk risk;
    for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
        const double middle = 0.5 * (cuts[i] + cuts[i + 1]);
        const bool bad =
            (tolerance.lower && middle < *tolerance.lower) || (tolerance.upper && middle > *tolerance.upper);
        const double all = simpson([&](double x) { return density(population, x); }, cuts[i], cuts[i + 1]);
        const double taken =
            simpson([&](double x) { return density(population, x) * accepted(x, acceptance, u_measure); }, cuts[i],
                    cuts[i + 1]);
        if (bad) {
            risk.out_of_tolerance += all;
            risk.false_accept += taken;
        } else {
            risk.false_reject += std::max(0.0, all - taken);
        }
    }
    return risk;
}

Result<double> acceptance_limit(const Population& population, double upper, double u_measure, double target) {
    const Limits tolerance{std::nullopt, upper};
    if (const auto ok = check(population, tolerance, u_measure); !ok) return tl::unexpected(ok.error());
    if (!(target > 0 && target < 1)) return fail("range", "target", "expected a share between 0 and 1");
    const auto miss = [&](double limit) {
        return global_risk(population, tolerance, {std::nullopt, limit}, u_measure)->false_accept - target;
    };
    const numeric::Root root = numeric::find_root(miss, upper - 10 * u_measure, upper + 10 * u_measure, 1e-10);
    if (!root.ok()) return fail("range", "target", "no acceptance limit gives this share of false accepts");
    return root.x;
}

}  // namespace fallaway::metrology
