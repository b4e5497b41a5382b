#include "science/strings/covariance.h"

#include <cmath>

namespace fallaway::strings {

std::vector<std::vector<double>> causes_of(std::span<const double> covariance, std::size_t size) {
    constexpr double kTold = 1e-12;  // share of its variance below which a figure is told by those before it
    std::vector<std::vector<double>> columns;
    for (std::size_t j = 0; j < size; ++j) {
        const auto rest = [&](std::size_t i) {
            double left = covariance[i * size + j];
            for (const auto& column : columns) left -= column[i] * column[j];
            return left;
        };
        const double pivot = rest(j);
        if (!(pivot > kTold * covariance[j * size + j])) continue;
        std::vector<double> column(size, 0.0);
        for (std::size_t i = 0; i < size; ++i) column[i] = rest(i) / std::sqrt(pivot);
        columns.push_back(std::move(column));
    }
    return columns;
}

std::optional<std::vector<double>> inverse(std::span<const double> matrix, std::size_t size) {
    // Gauss-Jordan without exchange of rows: a positive definite matrix needs none.
    std::vector<double> a(matrix.begin(), matrix.end());
    std::vector<double> out(size * size, 0.0);
    for (std::size_t i = 0; i < size; ++i) out[i * size + i] = 1;
    for (std::size_t j = 0; j < size; ++j) {
        const double pivot = a[j * size + j];
        if (!(pivot > 0) || !std::isfinite(pivot)) return std::nullopt;
        for (std::size_t k = 0; k < size; ++k) a[j * size + k] /= pivot, out[j * size + k] /= pivot;
        for (std::size_t i = 0; i < size; ++i) {
            const double factor = a[i * size + j];
            if (i == j || factor == 0) continue;
            for (std::size_t k = 0; k < size; ++k) {
                a[i * size + k] -= factor * a[j * size + k];
                out[i * size + k] -= factor * out[j * size + k];
            }
        }
    }
    return out;
}

}  // namespace fallaway::strings
