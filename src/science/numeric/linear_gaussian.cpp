#include "science/numeric/linear_gaussian.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include <Eigen/Dense>

#include "science/numeric/distributions.h"

namespace fallaway::numeric {
namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using RowMajor = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

constexpr int kMostSweeps = 400;
constexpr int kUndampedSweeps = 30;  // by then all but oscillating sets have settled
constexpr double kDamping = 0.5;
constexpr double kSettled = 1e-10;     // change of a site, in sd and shares of variance of its form
constexpr double kNarrow = 1e-6;       // an interval narrower than this many sd is its middle
constexpr double kContinuedFrom = 10;  // Mills' ratio by continued fraction from here on
constexpr int kContinuedTerms = 40;    // more than double precision needs there
constexpr double kLargestShrink = 1 - 1e-12;

Eigen::Map<const Vector> vector_of(const std::vector<double>& values) {
    return {values.data(), Eigen::Index(values.size())};
}

Eigen::Map<const RowMajor> covariance_matrix(const Gaussian& state) {
    return {state.covariance.data(), Eigen::Index(state.size()), Eigen::Index(state.size())};
}

// Upper tail over density, x >= 0.
double mills(double x) {
    if (x < kContinuedFrom) {
        return std::erfc(x / std::numbers::sqrt2) * std::exp(x * x / 2) * std::sqrt(std::numbers::pi / 2);
    }
    double tail = x;
    for (int k = kContinuedTerms; k >= 1; --k) tail = x + k / tail;
    return 1 / tail;
}

struct Standard {
    double log_z;
    double shift;
    double shrink;
};

double log_density(double z) {
    return -z * z / 2 - std::log(2 * std::numbers::pi) / 2;
}

// A standard normal between a < b, 0 <= a.
Standard upper_interval(double a, double b) {
    const double d = (b - a) * (b + a) / 2;
    const double e = std::exp(-d);  // density at b over that at a; 0 for an infinite b
    const double z = mills(a) - (e > 0 ? e * mills(b) : 0);
    const double gap = std::isinf(b) ? 1 : -std::expm1(-d);
    const double shift = gap / z;
    const double slope = (a * gap - (e > 0 ? (b - a) * e : 0)) / z;
    return {std::log(z) + log_density(a), shift, shift * shift - slope};
}

Standard standard_interval(double a, double b) {
    if (a > 0) return upper_interval(a, b);
    if (b < 0) {
        const Standard mirrored = upper_interval(-b, -a);
        return {mirrored.log_z, -mirrored.shift, mirrored.shrink};
    }
    const double z = 1 - normal_cdf(a) - normal_sf(b);
    const double pa = std::isinf(a) ? 0 : normal_pdf(a);
    const double pb = std::isinf(b) ? 0 : normal_pdf(b);
    const double shift = (pa - pb) / z;
    const double slope = ((pa > 0 ? a * pa : 0) - (pb > 0 ? b * pb : 0)) / z;
    return {std::log(z), shift, shift * shift - slope};
}

bool good(const Gaussian& prior, std::span<const Observation> observations) {
    const auto finite = [](double x) { return std::isfinite(x); };
    if (prior.covariance.size() != prior.size() * prior.size()) return false;
    if (!std::all_of(prior.mean.begin(), prior.mean.end(), finite)) return false;
    if (!std::all_of(prior.covariance.begin(), prior.covariance.end(), finite)) return false;
    return std::all_of(observations.begin(), observations.end(), [&](const Observation& o) {
        return o.form.weights.size() == prior.size() && o.low <= o.high && std::isfinite(o.u) && o.u > 0 &&
               (!o.is_number() || std::isfinite(o.low)) && std::isfinite(o.form.constant) &&
               std::all_of(o.form.weights.begin(), o.form.weights.end(), finite);
    });
}

// L with L L' = covariance, also where some unknowns or sums of them are known.
Matrix root_of(const Gaussian& prior) {
    const Eigen::LDLT<Matrix> ldlt(covariance_matrix(prior));
    Matrix root = ldlt.matrixL();
    root = ldlt.transpositionsP().transpose() * root;
    return root * ldlt.vectorD().cwiseMax(0).cwiseSqrt().asDiagonal();
}

struct Solved {
    Gaussian state;
    double chi_squared;
    double log_evidence;  // of the rows, their weights being 1/u
};

// Least squares of unit-variance unknowns about the prior mean, with the sites as rows.
Solved solve(const Gaussian& prior, const Matrix& root, std::span<const Observation> observations,
             const std::vector<Site>& sites) {
    const auto n = Eigen::Index(prior.size());
    const auto rows = std::count_if(sites.begin(), sites.end(), [](const Site& s) { return s.precision > 0; });
    Matrix design = Matrix::Zero(rows + n, n);
    Vector right = Vector::Zero(rows + n);
    design.bottomRows(n).setIdentity();
    Eigen::Index row = 0;
    for (std::size_t i = 0; i < sites.size(); ++i) {
        if (!(sites[i].precision > 0)) continue;
        const double weight = std::sqrt(sites[i].precision);
        const LinearForm& form = observations[i].form;
        design.row(row) = weight * (vector_of(form.weights).transpose() * root);
        right(row++) = weight * (sites[i].value - mean_of(prior, form));
    }
    const Eigen::HouseholderQR<Matrix> qr(std::move(design));
    right.applyOnTheLeft(qr.householderQ().transpose());
    double log_evidence = -right.tail(rows).squaredNorm() / 2 - double(rows) * std::log(2 * std::numbers::pi) / 2;
    for (const Site& site : sites) {
        if (site.precision > 0) log_evidence += std::log(site.precision) / 2;
    }
    for (Eigen::Index i = 0; i < n; ++i) log_evidence -= std::log(std::abs(qr.matrixQR()(i, i)));
    const auto upper = qr.matrixQR().topRows(n).triangularView<Eigen::Upper>();
    const Matrix spread = upper.solve<Eigen::OnTheRight>(root);
    const RowMajor covariance = spread * spread.transpose();
    const Vector mean = vector_of(prior.mean) + spread * right.head(n);
    return {{{mean.data(), mean.data() + n}, {covariance.data(), covariance.data() + n * n}},
            right.tail(rows).squaredNorm(),
            log_evidence};
}

// Log of the integral of a normal times exp(pull x - precision x^2/2).
double log_product(double mean, double variance, double precision, double pull) {
    const double force = pull - precision * mean;
    const double scale = 1 + precision * variance;
    return mean * (pull - precision * mean / 2) + force * force * variance / (2 * scale) - std::log(scale) / 2;
}

// Expectation propagation in the space of the intervals' own forms, of which `mean` and `prior` are all that the
// numbers say.
struct Propagation {
    const Vector& prior_mean;
    const Matrix& prior;
    Vector mean;
    Matrix covariance;
    Vector precision;  // of the sites
    Vector pull;       // precision times value
    double log_evidence = 0;
    Vector log_scale;  // a site is exp(log_scale + pull x - precision x^2/2)

    Propagation(const Vector& m, const Matrix& k)
        : prior_mean(m),
          prior(k),
          mean(m),
          covariance(k),
          precision(Vector::Zero(m.size())),
          pull(Vector::Zero(m.size())),
          log_scale(Vector::Zero(m.size())) {}

    // Visits one site; how far it wanted to move.
    double visit(Eigen::Index j, const Observation& o, double damping) {
        const double v = covariance(j, j);
        if (!(v > 0)) {  // known: what it is worth never changes
            log_scale(j) = interval_moments(mean(j), 0, o.low - o.form.constant, o.high - o.form.constant, o.u)
                               .log_probability;
            return 0;
        }
        const double left = 1 - precision(j) * v;
        if (!(left > 0)) return 0;
        const double cavity = v / left;
        const double centre = (mean(j) - pull(j) * v) / left;
        // The form's constant is left out of both mean and limits.
        const auto moments =
            interval_moments(centre, cavity, o.low - o.form.constant, o.high - o.form.constant, o.u);
        const double total = cavity + o.u * o.u;
        const double rest = total - cavity * moments.shrink;
        const double new_precision = moments.shrink / rest;
        const double new_pull = (moments.shrink * centre + std::sqrt(total) * moments.shift) / rest;
        log_scale(j) = moments.log_probability - log_product(centre, cavity, new_precision, new_pull);
        const double d_precision = new_precision - precision(j);
        const double d_pull = new_pull - pull(j);
        const double moved =
            std::max(std::abs(d_precision) * v, std::abs(d_pull - d_precision * mean(j)) * std::sqrt(v));
        change(j, damping * d_precision, damping * d_pull);
        return moved;
    }

    void change(Eigen::Index j, double d_precision, double d_pull) {
        const Vector column = covariance.col(j);
        const double scale = 1 / (1 + d_precision * column(j));
        mean += column * (scale * (d_pull - d_precision * mean(j)));
        covariance -= (d_precision * scale) * column * column.transpose();
        precision(j) += d_precision;
        pull(j) += d_pull;
    }

    // From the sites anew, so that rounding does not add up (Rasmussen & Williams 2006, eq. 3.66-3.68).
    void refresh() {
        const Vector s = precision.cwiseMax(0).cwiseSqrt();
        const Matrix scaled = s.asDiagonal() * prior;
        Matrix b = scaled * s.asDiagonal();
        b.diagonal().array() += 1;
        const Matrix root = b.llt().matrixL();
        const Matrix half = root.triangularView<Eigen::Lower>().solve(scaled);
        covariance = prior - half.transpose() * half;
        const Vector force = pull - precision.cwiseProduct(prior_mean);
        mean = prior_mean + covariance * force;
        log_evidence = log_scale.sum() + prior_mean.dot(pull + force) / 2 + force.dot(covariance * force) / 2 -
                       root.diagonal().array().log().sum();
    }
};

void propagate(const Gaussian& from_numbers, std::span<const Observation> observations, Conditioned& result) {
    std::vector<std::size_t> which;
    std::vector<LinearForm> forms;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        if (observations[i].is_number()) continue;
        which.push_back(i);
        forms.push_back(observations[i].form);
    }
    const auto n = Eigen::Index(which.size());
    Vector mean(n);
    for (Eigen::Index j = 0; j < n; ++j) mean(j) = mean_of(from_numbers, forms[j]) - forms[j].constant;
    const auto joint = covariance_of(from_numbers, forms);
    const Matrix prior = Eigen::Map<const RowMajor>(joint.data(), n, n);
    Propagation ep(mean, prior);
    result.status = n == 0 ? ConditionStatus::converged : ConditionStatus::iteration_limit;
    while (result.status != ConditionStatus::converged && result.sweeps < kMostSweeps) {
        const double damping = result.sweeps < kUndampedSweeps ? 1 : kDamping;
        double moved = 0;
        for (Eigen::Index j = 0; j < n; ++j) moved = std::max(moved, ep.visit(j, observations[which[j]], damping));
        ep.refresh();
        ++result.sweeps;
        if (moved < kSettled) result.status = ConditionStatus::converged;
    }
    result.log_evidence += ep.log_evidence;
    for (Eigen::Index j = 0; j < n; ++j) {
        const double precision = std::max(0.0, ep.precision(j));
        const double value = precision > 0 ? ep.pull(j) / precision : 0;
        result.sites[which[j]] = {precision, value + forms[j].constant};
    }
}

}  // namespace

LinearForm& LinearForm::operator+=(const LinearForm& other) {
    for (std::size_t i = 0; i < weights.size(); ++i) weights[i] += other.weights[i];
    constant += other.constant;
    return *this;
}

LinearForm& LinearForm::operator*=(double factor) {
    for (double& w : weights) w *= factor;
    constant *= factor;
    return *this;
}

double mean_of(const Gaussian& state, const LinearForm& form) {
    return vector_of(form.weights).dot(vector_of(state.mean)) + form.constant;
}

double variance_of(const Gaussian& state, const LinearForm& form) {
    const auto w = vector_of(form.weights);
    return std::max(0.0, w.dot(covariance_matrix(state) * w));
}

std::vector<double> covariance_of(const Gaussian& state, std::span<const LinearForm> forms) {
    const auto count = Eigen::Index(forms.size());
    Matrix weights(Eigen::Index(state.size()), count);
    for (Eigen::Index i = 0; i < count; ++i) weights.col(i) = vector_of(forms[i].weights);
    const Matrix half = covariance_matrix(state) * weights;
    const RowMajor joint = weights.transpose() * half;
    return {joint.data(), joint.data() + joint.size()};
}

IntervalMoments interval_moments(double mean, double variance, double low, double high, double u) {
    const double total = variance + u * u;
    const double sd = std::sqrt(total);
    const double a = (low - mean) / sd;
    const double b = (high - mean) / sd;
    IntervalMoments moments;
    if (b - a < kNarrow) {
        const double middle = a + (b - a) / 2;
        moments = {log_density(middle) + std::log(b - a), middle, kLargestShrink};
    } else {
        const Standard z = standard_interval(a, b);
        moments = {z.log_z, z.shift, std::clamp(z.shrink, 0.0, kLargestShrink)};
    }
    moments.mean = mean + variance / sd * moments.shift;
    moments.variance = variance * (1 - variance / total * moments.shrink);
    return moments;
}

Conditioned condition(const Gaussian& prior, std::span<const Observation> observations) {
    Conditioned result;
    if (!good(prior, observations)) return result;
    result.sites.resize(observations.size());
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const Observation& o = observations[i];
        if (!o.is_number()) continue;
        result.sites[i] = {1 / (o.u * o.u), o.low};
        ++result.numbers;
    }
    const Matrix root = root_of(prior);
    Solved solved = solve(prior, root, observations, result.sites);
    result.chi_squared = solved.chi_squared;
    result.log_evidence = solved.log_evidence;
    propagate(solved.state, observations, result);
    if (std::size_t(result.numbers) < observations.size()) solved = solve(prior, root, observations, result.sites);
    result.state = std::move(solved.state);
    return result;
}

Prediction prediction_without(const Conditioned& result, std::span<const Observation> observations,
                              std::size_t i) {
    const LinearForm& form = observations[i].form;
    const Site& site = result.sites[i];
    const double mean = mean_of(result.state, form);
    const double variance = variance_of(result.state, form);
    // Rounding can eat what is left where nothing else speaks of the form and the reading is all but exact.
    const double left = std::max(1 - site.precision * variance, std::numeric_limits<double>::epsilon());
    return {(mean - site.precision * variance * site.value) / left, variance / left};
}

}  // namespace fallaway::numeric
