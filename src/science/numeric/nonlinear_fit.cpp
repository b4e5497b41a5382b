#include <algorithm>
#include <cmath>
#include <limits>

#include <Eigen/Dense>

#include "science/numeric/least_squares.h"

namespace fallaway::numeric {
namespace {

using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
using Vector = Eigen::VectorXd;

constexpr double kEpsilon = std::numeric_limits<double>::epsilon();

std::span<const double> view(const Vector& v) {
    return {v.data(), static_cast<std::size_t>(v.size())};
}

Vector residuals_at(const ResidualFunction& f, const Vector& p, std::size_t observations) {
    Vector r(static_cast<Eigen::Index>(observations));
    f(view(p), {r.data(), observations});
    return r;
}

// Central differences; the cube root of epsilon balances rounding against the third derivative.
Matrix differences(const ResidualFunction& f, const Vector& p, std::size_t observations) {
    Matrix jacobian(static_cast<Eigen::Index>(observations), p.size());
    for (Eigen::Index j = 0; j < p.size(); ++j) {
        Vector above = p;
        Vector below = p;
        const double h = std::cbrt(kEpsilon) * (p(j) != 0 ? std::abs(p(j)) : 1.0);
        above(j) += h;
        below(j) -= h;
        jacobian.col(j) =
            (residuals_at(f, above, observations) - residuals_at(f, below, observations)) / (above(j) - below(j));
    }
    return jacobian;
}

// Step q in scaled parameters that minimises |r + J q| within |q| <= radius, from J = U S V'.
struct Step {
    Vector q;
    double predicted = 0;  // decrease of |r|^2 by the linear model
};

Step step_within(const Eigen::JacobiSVD<Eigen::MatrixXd>& svd, const Vector& projected, double radius) {
    const Vector& s = svd.singularValues();
    const double floor = s(0) * kEpsilon * static_cast<double>(s.size());
    const auto along = [&](double lambda) {
        Vector z(s.size());
        for (Eigen::Index i = 0; i < s.size(); ++i) {
            z(i) = lambda == 0 && s(i) <= floor ? 0 : -s(i) * projected(i) / (s(i) * s(i) + lambda);
        }
        return z;
    };
    Vector z = along(0);
    if (z.norm() > radius) {
        double low = 0;
        double high = s.cwiseProduct(projected).norm() / radius;
        double lambda = high * 1e-3;
        for (int i = 0; i < 60; ++i) {
            z = along(lambda);
            const double length = z.norm();
            if (std::abs(length - radius) <= 0.05 * radius) break;
            (length > radius ? low : high) = lambda;
            const double slope = (z.array().square() / (s.array().square() + lambda)).sum();
            lambda += (length - radius) / radius * length * length / slope;
            if (!(lambda > low && lambda < high)) lambda = std::max(std::sqrt(low * high), 1e-3 * high);
        }
    }
    Step step;
    step.q = svd.matrixV() * z;
    const Vector left = projected + s.cwiseProduct(z);
    step.predicted = projected.squaredNorm() - left.squaredNorm();
    return step;
}

// The state of the iteration between two steps.
struct Search {
    Vector p;
    Vector r;
    Vector scale;  // the largest length that each column of the Jacobian has had
    double radius = 0;
    bool converged = false;
};

// Tries ever shorter steps until one lowers the sum of squares; sets `converged` when none can.
void advance(const ResidualFunction& f, const Matrix& jacobian, double tolerance, Search& at) {
    const Matrix scaled = jacobian * at.scale.cwiseInverse().asDiagonal();
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
    const Vector projected = svd.matrixU().transpose() * at.r;
    const double now = at.r.squaredNorm();
    while (true) {
        const Step step = step_within(svd, projected, at.radius);
        const double length = step.q.norm();
        const Vector next = at.p + step.q.cwiseQuotient(at.scale);
        const Vector r = residuals_at(f, next, static_cast<std::size_t>(at.r.size()));
        const double then = r.allFinite() ? r.squaredNorm() : std::numeric_limits<double>::infinity();
        const double ratio = step.predicted > 0 ? (now - then) / step.predicted : 0;
        if (ratio < 0.25) {
            at.radius = 0.25 * std::min(at.radius, length);
        } else if (ratio > 0.75) {
            at.radius = std::max(at.radius, 2 * length);
        }
        const bool tiny = length <= tolerance * at.scale.cwiseProduct(at.p).norm();
        const bool exhausted = step.predicted <= kEpsilon * kEpsilon * now || now == 0;
        if (then < now) {
            at.p = next;
            at.r = r;
        }
        at.converged = tiny || exhausted;
        if (then < now || at.converged) return;
    }
}

void add_covariance(const Matrix& jacobian, Fit& fit) {
    const Vector scale = jacobian.colwise().norm();
    const bool flat = (scale.array() == 0).any() || !jacobian.allFinite();
    if (flat) {
        fit.status = FitStatus::rank_deficient;
        return;
    }
    const Matrix scaled = jacobian * scale.cwiseInverse().asDiagonal();
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
    const Vector& s = svd.singularValues();
    // Central differences carry about 1e-10; below that a direction is noise.
    if (s(s.size() - 1) <= 1e-11 * s(0)) {
        fit.status = FitStatus::rank_deficient;
        return;
    }
    const Eigen::MatrixXd half = scale.cwiseInverse().asDiagonal() * svd.matrixV() * s.cwiseInverse().asDiagonal();
    const Matrix covariance = fit.residual_sd * fit.residual_sd * half * half.transpose();
    fit.covariance.assign(covariance.data(), covariance.data() + covariance.size());
}

}  // namespace

Fit nonlinear_fit(const ResidualFunction& residuals, std::size_t observations, std::vector<double> start,
                  const NonlinearOptions& options) {
    Fit fit;
    fit.parameters = start;
    fit.status = FitStatus::too_few_rows;
    if (start.empty() || observations < start.size()) return fit;
    Search at;
    at.p = Eigen::Map<const Vector>(start.data(), static_cast<Eigen::Index>(start.size()));
    at.r = residuals_at(residuals, at.p, observations);
    fit.status = FitStatus::bad_input;
    if (!at.p.allFinite() || !at.r.allFinite()) return fit;

    const auto jacobian_at = [&](const Vector& p) {
        if (!options.jacobian) return differences(residuals, p, observations);
        Matrix jacobian(static_cast<Eigen::Index>(observations), p.size());
        options.jacobian(view(p), {jacobian.data(), static_cast<std::size_t>(jacobian.size())});
        return jacobian;
    };
    Matrix jacobian = jacobian_at(at.p);
    while (!at.converged && fit.iterations < options.max_iterations && jacobian.allFinite()) {
        const Vector lengths = jacobian.colwise().norm().transpose();
        if (fit.iterations == 0) {
            at.scale = lengths.unaryExpr([](double x) { return x > 0 ? x : 1; });
            const double size = at.scale.cwiseProduct(at.p).norm();
            at.radius = options.first_step * (size > 0 ? size : 1);
        }
        at.scale = at.scale.cwiseMax(lengths);
        advance(residuals, jacobian, options.tolerance, at);
        ++fit.iterations;
        jacobian = jacobian_at(at.p);
    }
    fit.status = at.converged ? FitStatus::converged : FitStatus::iteration_limit;
    fit.parameters.assign(at.p.data(), at.p.data() + at.p.size());
    fit.residuals.assign(at.r.data(), at.r.data() + at.r.size());
    fit.rss = at.r.squaredNorm();
    fit.dof = static_cast<int>(observations - start.size());
    fit.residual_sd = fit.dof > 0 ? std::sqrt(fit.rss / fit.dof) : 0;
    if (fit.ok()) add_covariance(jacobian, fit);
    return fit;
}

}  // namespace fallaway::numeric
