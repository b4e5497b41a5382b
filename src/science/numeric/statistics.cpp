#include "science/numeric/statistics.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "science/numeric/distributions.h"

namespace fallaway::numeric {
namespace {

constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

std::vector<double> sorted(std::span<const double> values) {
    std::vector<double> copy(values.begin(), values.end());
    std::sort(copy.begin(), copy.end());
    return copy;
}

}  // namespace

double mean(std::span<const double> values) {
    if (values.empty()) return kNan;
    const double n = static_cast<double>(values.size());
    const double first = std::accumulate(values.begin(), values.end(), 0.0) / n;
    double rest = 0;
    for (const double x : values) rest += x - first;
    return first + rest / n;
}

double standard_deviation(std::span<const double> values) {
    if (values.empty()) return kNan;
    if (values.size() == 1) return 0;
    const double n = static_cast<double>(values.size());
    const double centre = mean(values);
    double squares = 0;
    double rest = 0;
    for (const double x : values) {
        squares += (x - centre) * (x - centre);
        rest += x - centre;
    }
    return std::sqrt(std::max(0.0, squares - rest * rest / n) / (n - 1));
}

double median(std::span<const double> values) {
    return quantile(values, 0.5, QuantileType::type7);
}

double scaled_mad(std::span<const double> values) {
    const double centre = median(values);
    std::vector<double> away(values.begin(), values.end());
    for (double& x : away) x = std::abs(x - centre);
    return 1.4826 * median(away);
}

double quantile(std::span<const double> values, double p, QuantileType type) {
    if (values.empty() || !(p >= 0 && p <= 1)) return kNan;
    const std::vector<double> x = sorted(values);
    const double n = static_cast<double>(x.size());
    double place = 0;  // one-based, real
    switch (type) {
        case QuantileType::type6:
            place = (n + 1) * p;
            break;
        case QuantileType::type7:
            place = 1 + (n - 1) * p;
            break;
        case QuantileType::type8:
            place = 1.0 / 3 + (n + 1.0 / 3) * p;
            break;
    }
    place = std::clamp(place, 1.0, n);
    const double whole = std::floor(place);
    const auto i = static_cast<std::size_t>(whole) - 1;
    if (i + 1 >= x.size()) return x.back();
    return x[i] + (place - whole) * (x[i + 1] - x[i]);
}

Huber huber(std::span<const double> values, double k) {
    Huber result{median(values), scaled_mad(values), 0, true};
    if (values.empty() || !(result.scale > 0)) return result;
    constexpr int max_iterations = 200;
    result.converged = false;
    while (!result.converged && result.iterations < max_iterations) {
        double sum = 0;
        for (const double x : values) {
            sum += std::clamp(x, result.location - k * result.scale, result.location + k * result.scale);
        }
        const double next = sum / static_cast<double>(values.size());
        result.converged = std::abs(next - result.location) <= 1e-12 * result.scale;
        result.location = next;
        ++result.iterations;
    }
    return result;
}

Interval wilson(double hits, double n, double p) {
    if (!(n > 0)) return {0, 1};
    const double z = normal_quantile(0.5 + 0.5 * p);
    const double share = hits / n;
    const double centre = (share + z * z / (2 * n)) / (1 + z * z / n);
    const double half = z / (1 + z * z / n) * std::sqrt(share * (1 - share) / n + z * z / (4 * n * n));
    return {hits == 0 ? 0 : centre - half, hits == n ? 1 : centre + half};
}

std::vector<double> ranks(std::span<const double> values) {
    std::vector<std::size_t> order(values.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t i, std::size_t j) { return values[i] < values[j]; });
    std::vector<double> result(values.size());
    for (std::size_t i = 0; i < order.size();) {
        std::size_t end = i + 1;
        while (end < order.size() && values[order[end]] == values[order[i]]) ++end;
        const double shared = 0.5 * static_cast<double>(i + 1 + end);
        for (; i < end; ++i) result[order[i]] = shared;
    }
    return result;
}

}  // namespace fallaway::numeric
