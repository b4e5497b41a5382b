// Small symmetric matrices, row-major: what a handful of figures do not know, and share. Shared inside this room.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fallaway::strings {

// Columns of a triangular R with R R' = covariance (Cholesky): one independent cause of one standard uncertainty
// each. A figure taken as exact, or told by those before it, adds no column.
std::vector<std::vector<double>> causes_of(std::span<const double> covariance, std::size_t size);

// Inverse of a positive definite matrix; absent when it is not one.
std::optional<std::vector<double>> inverse(std::span<const double> matrix, std::size_t size);

}  // namespace fallaway::strings
