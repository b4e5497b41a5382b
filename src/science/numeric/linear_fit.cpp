#include <algorithm>
#include <cmath>

#include <Eigen/Dense>

#include "science/numeric/least_squares.h"

namespace fallaway::numeric {
namespace {

using Real = long double;
using Matrix = Eigen::Matrix<Real, Eigen::Dynamic, Eigen::Dynamic>;
using Vector = Eigen::Matrix<Real, Eigen::Dynamic, 1>;

constexpr Real kRankThreshold = 1e-15L;

bool all_finite(std::span<const double> values) {
    return std::all_of(values.begin(), values.end(), [](double x) { return std::isfinite(x); });
}

// Weighted sum of squares that the residuals are compared with: about the weighted mean when the model
// holds a constant, else about zero.
Real total_squares(const Matrix& design, const Vector& y, const Vector& weights) {
    bool has_constant = false;
    for (Eigen::Index j = 0; j < design.cols(); ++j) {
        has_constant = has_constant || (design(0, j) != 0 && (design.col(j).array() == design(0, j)).all());
    }
    const Real centre = has_constant ? weights.dot(y) / weights.sum() : 0;
    return (weights.array() * (y.array() - centre).square()).sum();
}

void solve(const Matrix& design, const Vector& y, const Vector& weights, Fit& fit) {
    const Vector root = weights.cwiseSqrt();
    Matrix scaled = root.asDiagonal() * design;
    Vector scale = scaled.colwise().norm();
    if ((scale.array() == 0).any()) {
        fit.status = FitStatus::rank_deficient;
        return;
    }
    scaled = scaled * scale.cwiseInverse().asDiagonal();
    Eigen::ColPivHouseholderQR<Matrix> qr(scaled);
    qr.setThreshold(kRankThreshold);
    if (qr.rank() < design.cols()) {
        fit.status = FitStatus::rank_deficient;
        return;
    }
    Vector b = qr.solve(root.cwiseProduct(y));
    // One step of refinement recovers what the reflections rounded away.
    b += qr.solve(root.cwiseProduct(y) - scaled * b);
    const Vector parameters = b.cwiseQuotient(scale);
    const Vector residuals = y - design * parameters;
    const Real rss = (weights.array() * residuals.array().square()).sum();

    fit.status = FitStatus::converged;
    fit.rss = static_cast<double>(rss);
    fit.dof = static_cast<int>(design.rows() - design.cols());
    const Real variance = fit.dof > 0 ? rss / fit.dof : Real(0);
    fit.residual_sd = static_cast<double>(std::sqrt(variance));
    const Real total = total_squares(design, y, weights);
    fit.r_squared = total > 0 ? static_cast<double>(1 - rss / total) : 1;
    const Eigen::Index n = design.cols();
    const Matrix upper = qr.matrixR().topLeftCorner(n, n);
    Matrix inverse = upper.triangularView<Eigen::Upper>().solve(Matrix::Identity(n, n));
    inverse = scale.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverse);
    const Matrix covariance = variance * inverse * inverse.transpose();
    for (Eigen::Index i = 0; i < n; ++i) {
        fit.parameters.push_back(static_cast<double>(parameters(i)));
        for (Eigen::Index j = 0; j < n; ++j) fit.covariance.push_back(static_cast<double>(covariance(i, j)));
    }
    for (const Real r : residuals) fit.residuals.push_back(static_cast<double>(r));
}

// Checks sizes and values; leaves the reason in the status.
bool usable(std::size_t rows, std::size_t cols, std::span<const double> y, std::span<const double> weights,
            Fit& fit) {
    fit.status = FitStatus::too_few_rows;
    if (rows == 0 || rows < cols) return false;
    fit.status = FitStatus::bad_input;
    if (cols == 0 || y.size() != rows || !all_finite(y)) return false;
    if (!weights.empty() && weights.size() != rows) return false;
    return all_finite(weights) && std::all_of(weights.begin(), weights.end(), [](double w) { return w >= 0; });
}

Vector widen(std::span<const double> values) {
    Vector result(static_cast<Eigen::Index>(values.size()));
    std::copy(values.begin(), values.end(), result.data());
    return result;
}

Vector weights_of(std::span<const double> weights, std::size_t rows) {
    return weights.empty() ? Vector::Ones(static_cast<Eigen::Index>(rows)) : widen(weights);
}

}  // namespace

std::string_view name_of(FitStatus status) {
    switch (status) {
        case FitStatus::converged:
            return "converged";
        case FitStatus::too_few_rows:
            return "too few rows";
        case FitStatus::bad_input:
            return "bad input";
        case FitStatus::rank_deficient:
            return "rank deficient";
        case FitStatus::iteration_limit:
            return "iteration limit";
    }
    return "";
}

double Fit::u(std::size_t i) const {
    return std::sqrt(cov(i, i));
}

double Fit::correlation(std::size_t i, std::size_t j) const {
    return cov(i, j) / (u(i) * u(j));
}

Fit linear_fit(std::span<const double> design, std::span<const double> y, std::span<const double> weights) {
    Fit fit;
    const std::size_t rows = y.size();
    const std::size_t cols = rows > 0 ? design.size() / rows : 0;
    if (!usable(rows, cols, y, weights, fit)) return fit;
    if (design.size() != rows * cols || !all_finite(design)) return fit;
    Matrix wide(static_cast<Eigen::Index>(rows), static_cast<Eigen::Index>(cols));
    for (Eigen::Index i = 0; i < wide.rows(); ++i) {
        for (Eigen::Index j = 0; j < wide.cols(); ++j)
            wide(i, j) = design[static_cast<std::size_t>(i * wide.cols() + j)];
    }
    solve(wide, widen(y), weights_of(weights, rows), fit);
    return fit;
}

Fit polynomial_fit(std::span<const double> x, std::span<const double> y, int degree,
                   std::span<const double> weights) {
    Fit fit;
    if (degree < 0 || x.size() != y.size() || !all_finite(x)) return fit;
    if (!usable(x.size(), static_cast<std::size_t>(degree) + 1, y, weights, fit)) return fit;
    Matrix design(static_cast<Eigen::Index>(x.size()), degree + 1);
    design.col(0).setOnes();
    const Vector base = widen(x);
    for (int j = 1; j <= degree; ++j) design.col(j) = design.col(j - 1).cwiseProduct(base);
    solve(design, widen(y), weights_of(weights, x.size()), fit);
    return fit;
}

}  // namespace fallaway::numeric
