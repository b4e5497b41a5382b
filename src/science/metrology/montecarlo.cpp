#include "science/metrology/montecarlo.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "science/numeric/random.h"
#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

constexpr std::size_t kBlock = 10'000;
constexpr std::size_t kFewestDraws = 1000;

using Factor = std::vector<std::vector<double>>;  // lower triangle of the correlation matrix's square root

std::string quoted(const DrawnInput& input) {
    return "\"" + input.name + "\"";
}

Result<void> check(std::span<const DrawnInput> inputs, const MonteCarloOptions& options) {
    if (inputs.empty()) return fail("missing", "inputs", "no inputs to draw");
    if (options.draws < kFewestDraws) return fail("range", "draws", "expected at least 1000 draws");
    if (!(options.probability > 0 && options.probability < 1)) {
        return fail("range", "probability", "expected a probability between 0 and 1");
    }
    for (const DrawnInput& input : inputs) {
        if (!std::isfinite(input.centre) || !(input.spread >= 0) || !std::isfinite(input.spread)) {
            return fail("range", "spread", quoted(input) + ": centre must be finite and spread 0 or more");
        }
        const bool bad_dof = input.shape == Draw::student_t && !(input.detail > 0);
        const bool bad_top = input.shape == Draw::trapezoidal && !(input.detail >= 0 && input.detail <= 1);
        const bool bad_slack =
            input.shape == Draw::curvilinear_trapezoidal && !(input.detail >= 0 && input.detail <= input.spread);
        if (bad_dof) return fail("range", "detail", quoted(input) + ": degrees of freedom must be above 0");
        if (bad_top) return fail("range", "detail", quoted(input) + ": the flat share must lie in 0..1");
        if (bad_slack) return fail("range", "detail", quoted(input) + ": the slack must lie in 0..spread");
    }
    return {};
}

// Cholesky factor of the correlation matrix; a zero pivot is kept, so that r = +/-1 is allowed.
Result<Factor> factor_of(std::span<const DrawnInput> inputs, std::span<const Correlation> correlations) {
    const std::size_t n = inputs.size();
    Factor r(n, std::vector<double>(n, 0.0));
    for (std::size_t i = 0; i < n; ++i) r[i][i] = 1;
    for (const Correlation& c : correlations) {
        if (c.i >= n || c.j >= n || c.i == c.j || !(std::abs(c.r) <= 1)) {
            return fail("range", "correlations", "expected two different inputs and r between -1 and 1");
        }
        if (inputs[c.i].shape != Draw::normal || inputs[c.j].shape != Draw::normal) {
            return fail("unsupported", "correlations", "only normal inputs may be correlated");
        }
        r[c.i][c.j] = r[c.j][c.i] = c.r;
    }
    Factor l(n, std::vector<double>(n, 0.0));
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j <= i; ++j) {
            double rest = r[i][j];
            for (std::size_t k = 0; k < j; ++k) rest -= l[i][k] * l[j][k];
            if (i == j) {
                if (rest < -1e-12)
                    return fail("range", "correlations", "these correlations contradict each other");
                l[i][i] = std::sqrt(std::max(0.0, rest));
            } else if (l[j][j] > 1e-8) {
                l[i][j] = rest / l[j][j];
            } else if (std::abs(rest) > 1e-6) {
                return fail("range", "correlations", "these correlations contradict each other");
            }
        }
    }
    return l;
}

double draw(const DrawnInput& input, numeric::Random& random) {
    const double low = input.centre - input.spread;
    const double high = input.centre + input.spread;
    switch (input.shape) {
        case Draw::normal:
            return random.normal();  // unit; scaled after correlating
        case Draw::student_t:
            return input.centre + input.spread * random.student_t(input.detail);
        case Draw::rectangular:
            return random.rectangular(low, high);
        case Draw::triangular:
            return random.triangular(low, high);
        case Draw::arcsine:
            return random.arcsine(low, high);
        case Draw::trapezoidal:
            return random.trapezoidal(low, high, input.detail);
        case Draw::curvilinear_trapezoidal:
            return random.curvilinear_trapezoidal(low, high, input.detail);
    }
    return input.centre;
}

void draw_all(std::span<const DrawnInput> inputs, const Factor& factor, numeric::Random& random,
              std::vector<double>& x) {
    std::vector<double>& raw = x;
    for (std::size_t i = 0; i < inputs.size(); ++i) raw[i] = draw(inputs[i], random);
    // From the last input backwards, because each needs the raw draws of those before it.
    for (std::size_t i = inputs.size(); i-- > 0;) {
        if (inputs[i].shape != Draw::normal) continue;
        double z = 0;
        for (std::size_t j = 0; j <= i; ++j) {
            if (factor[i][j] != 0) z += factor[i][j] * raw[j];
        }
        x[i] = inputs[i].centre + inputs[i].spread * z;
    }
}

// Value number ceil(p M) of the sorted draws, counted from one (7.7.1).
std::size_t place_of(double p, std::size_t count) {
    const double place = std::ceil(p * static_cast<double>(count));
    return std::min(count, static_cast<std::size_t>(std::max(1.0, place))) - 1;
}

void summarise(std::vector<double> y, double probability, MonteCarloResult& result) {
    result.draws = y.size();
    result.mean = numeric::mean(y);
    result.u = numeric::standard_deviation(y);
    std::sort(y.begin(), y.end());
    const std::size_t inside = place_of(probability, y.size()) + 1;
    // Value number r and r + q, counted from one, with q values inside and r = (M - q)/2 (7.7.2).
    const std::size_t first = std::max<std::size_t>((y.size() - inside) / 2, 1) - 1;
    result.symmetric_low = y[first];
    result.symmetric_high = y[std::min(first + inside, y.size() - 1)];
    result.one_sided_high = y[place_of(probability, y.size())];
    std::size_t best = 0;
    for (std::size_t i = 0; i + inside < y.size(); ++i) {
        if (y[i + inside] - y[i] < y[best + inside] - y[best]) best = i;
    }
    result.shortest_low = y[best];
    result.shortest_high = y[std::min(best + inside, y.size() - 1)];
}

// 7.9.4: two standard deviations of the block averages of mean, u and both ends stay under half a digit.
class Settled {
public:
    void add(const std::vector<double>& block, double probability) {
        MonteCarloResult part;
        summarise(block, probability, part);
        const std::array<double, 4> now{part.mean, part.u, part.symmetric_low, part.symmetric_high};
        for (std::size_t i = 0; i < now.size(); ++i) seen_[i].push_back(now[i]);
    }
    bool reached(double u, int digits) const {
        const double n = static_cast<double>(seen_[0].size());
        if (n < 2) return false;
        return std::all_of(seen_.begin(), seen_.end(), [&](const std::vector<double>& values) {
            return 2 * numeric::standard_deviation(values) / std::sqrt(n) < half_last_digit(u, digits);
        });
    }

private:
    std::array<std::vector<double>, 4> seen_;
};

Result<void> first_order(std::span<const DrawnInput> inputs, const Model& model, const MonteCarloOptions& options,
                         MonteCarloResult& result) {
    std::vector<double> x;
    for (const DrawnInput& input : inputs) x.push_back(input.centre);
    result.first_order_value = model(x);
    std::vector<Contribution> parts;
    for (std::size_t i = 0; i < inputs.size(); ++i) {
        // GUM 5.1.3 note 2 takes one u either way; a thousandth of it follows the slope, not the bend.
        const double u = standard_uncertainty(inputs[i]);
        const double h = 1e-3 * u;
        double slope = 0;
        if (h > 0) {
            x[i] = inputs[i].centre + h;
            const double above = model(x);
            x[i] = inputs[i].centre - h;
            slope = (above - model(x)) / (2 * h);
            x[i] = inputs[i].centre;
        }
        parts.push_back(
            {inputs[i].name, slope, u, inputs[i].shape == Draw::student_t ? inputs[i].detail : kInfiniteDof});
    }
    const auto combined = combine(parts, options.correlations);
    if (!combined) return tl::unexpected(combined.error());
    result.first_order_u = combined->u;
    const double half = combined->u > 0 ? coverage_factor(options.probability, combined->dof) * combined->u : 0;
    const double allowed = half_last_digit(result.u, 2);
    const double low = std::abs(result.first_order_value - half - result.symmetric_low);
    const double high = std::abs(result.first_order_value + half - result.symmetric_high);
    const bool close = low <= allowed && high <= allowed;
    result.first_order_valid = (combined->first_order_valid || result.u == 0) && close;
    return {};
}

}  // namespace

double standard_uncertainty(const DrawnInput& input) {
    const double a = input.spread;
    switch (input.shape) {
        case Draw::normal:
            return a;
        case Draw::student_t:
            return a;
        case Draw::rectangular:
            return standard_from_limit(a, Shape::rectangular);
        case Draw::triangular:
            return standard_from_limit(a, Shape::triangular);
        case Draw::arcsine:
            return standard_from_limit(a, Shape::arcsine);
        case Draw::trapezoidal:
            return a * std::sqrt((1 + input.detail * input.detail) / 6);
        case Draw::curvilinear_trapezoidal:
            return std::sqrt(a * a / 3 + input.detail * input.detail / 9);
    }
    return a;
}

double half_last_digit(double u, int digits) {
    if (!(u > 0)) return 0;
    // Rounding to `digits` may carry into the next decade: 0.0998 with two digits is 10 x 10^-2.
    int exponent = static_cast<int>(std::floor(std::log10(u))) - (digits - 1);
    if (std::round(u / std::pow(10.0, exponent)) >= std::pow(10.0, digits)) ++exponent;
    return 0.5 * std::pow(10.0, exponent);
}

Result<MonteCarloResult> propagate(std::span<const DrawnInput> inputs, const Model& model,
                                   const MonteCarloOptions& options) {
    if (const auto ok = check(inputs, options); !ok) return tl::unexpected(ok.error());
    const auto factor = factor_of(inputs, options.correlations);
    if (!factor) return tl::unexpected(factor.error());
    numeric::Random random(options.seed);
    std::vector<double> x(inputs.size());
    std::vector<double> y;
    std::vector<double> block;
    Settled settled;
    MonteCarloResult result;
    result.stable = options.stable_digits <= 0;
    y.reserve(options.draws);
    while (y.size() < options.draws) {
        draw_all(inputs, *factor, random, x);
        y.push_back(model(x));
        if (!std::isfinite(y.back())) {
            return fail("range", "model", "the model gives no finite value for some draws of its inputs");
        }
        if (options.stable_digits <= 0) continue;
        block.push_back(y.back());
        if (block.size() < kBlock) continue;
        settled.add(block, options.probability);
        block.clear();
        if (settled.reached(numeric::standard_deviation(y), options.stable_digits)) {
            result.stable = true;
            break;
        }
    }
    summarise(std::move(y), options.probability, result);
    if (const auto ok = first_order(inputs, model, options, result); !ok) return tl::unexpected(ok.error());
    return result;
}

}  // namespace fallaway::metrology
