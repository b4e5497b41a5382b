#include "science/neck/fit.h"

#include <algorithm>
#include <cmath>

#include "science/numeric/distributions.h"

namespace fallaway::neck {
namespace {

constexpr double kFalseAlarms = 0.01;

Beside beside(const numeric::Prediction& others, const numeric::Observation& o) {
    const double sd = std::sqrt(others.variance + o.u * o.u);
    const double above = std::max(0.0, others.mean - o.high);
    const double below = std::max(0.0, o.low - others.mean);
    return {others.mean, std::sqrt(others.variance), (below - above) / sd};
}

}  // namespace

Result<NeckFit> fit(const NeckModel& model, std::span<const Reading> readings, const numeric::Gaussian& start) {
    if (auto fine = check(model.layout(), readings); !fine) return tl::unexpected(fine.error());
    std::vector<numeric::Observation> observations;
    observations.reserve(readings.size());
    for (const Reading& reading : readings) observations.push_back(observation_of(model, reading));
    auto conditioned = numeric::condition(start, observations);
    if (conditioned.status == numeric::ConditionStatus::bad_input) {
        return fail("range", "/layout",
                    "no heights follow from layout and start: expected finite places, radii "
                    "wider than the strings, and a start that fits the model");
    }
    NeckFit result{.converged = conditioned.ok(),
                   .chi_squared = conditioned.chi_squared,
                   .numbers = conditioned.numbers,
                   .log_evidence = conditioned.log_evidence};
    if (result.numbers > 0) result.p = numeric::chi_squared_sf(result.chi_squared, result.numbers);
    const double critical = critical_w(readings.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
        result.beside.push_back(
            beside(numeric::prediction_without(conditioned, observations, i), observations[i]));
        result.consistent = result.consistent && std::abs(result.beside.back().w) <= critical;
    }
    result.state = std::move(conditioned.state);
    return result;
}

Result<NeckFit> fit(const NeckModel& model, std::span<const Reading> readings) {
    return fit(model, readings, model.prior());
}

double critical_w(std::size_t readings) {
    return numeric::normal_quantile(1 - kFalseAlarms / (2 * double(std::max<std::size_t>(readings, 1))));
}

metrology::Uncertain read(const numeric::Gaussian& state, const Form& form) {
    return {numeric::mean_of(state, form), std::sqrt(numeric::variance_of(state, form))};
}

}  // namespace fallaway::neck
