#include "science/metrology/correlated.h"

#include <algorithm>
#include <cmath>

#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

std::vector<double> slopes(const Joint& inputs, const JointModel& model) {
    std::vector<double> x = inputs.values;
    std::vector<double> result;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (inputs.u[i] == 0) {
            result.push_back(0);
            continue;
        }
        const double centre = x[i];
        const double h = 1e-3 * inputs.u[i];
        x[i] = centre + h;
        const double above = model(x);
        x[i] = centre - h;
        result.push_back((above - model(x)) / (2 * h));
        x[i] = centre;
    }
    return result;
}

double covariance(const Joint& inputs, const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        for (std::size_t j = 0; j < b.size(); ++j) {
            sum += a[i] * inputs.u[i] * inputs.correlation(i, j) * b[j] * inputs.u[j];
        }
    }
    return sum;
}

}  // namespace

Result<Joint> joint_type_a(std::span<const std::vector<double>> observations) {
    if (observations.empty() || observations[0].size() < 2) {
        return fail("missing", "observations", "expected at least two observations of each quantity");
    }
    const std::size_t n = observations[0].size();
    Joint joint;
    for (const std::vector<double>& values : observations) {
        if (values.size() != n) {
            return fail("range", "observations", "quantities observed together need equally many observations");
        }
        joint.values.push_back(numeric::mean(values));
        joint.u.push_back(numeric::standard_deviation(values) / std::sqrt(static_cast<double>(n)));
    }
    for (std::size_t i = 0; i < observations.size(); ++i) {
        for (std::size_t j = 0; j < observations.size(); ++j) {
            double sum = 0;
            for (std::size_t k = 0; k < n; ++k) {
                sum += (observations[i][k] - joint.values[i]) * (observations[j][k] - joint.values[j]);
            }
            const double scale = joint.u[i] * joint.u[j] * static_cast<double>(n * (n - 1));
            joint.r.push_back(i == j ? 1 : scale > 0 ? std::clamp(sum / scale, -1.0, 1.0) : 0);
        }
    }
    return joint;
}

Result<Joint> propagate_joint(const Joint& inputs, std::span<const JointModel> models) {
    const std::size_t n = inputs.values.size();
    if (n == 0 || inputs.u.size() != n || inputs.r.size() != n * n) {
        return fail("range", "inputs", "values, u and correlations must be of matching sizes");
    }
    std::vector<std::vector<double>> gradients;
    Joint outputs;
    for (const JointModel& model : models) {
        outputs.values.push_back(model(inputs.values));
        gradients.push_back(slopes(inputs, model));
        outputs.u.push_back(std::sqrt(std::max(0.0, covariance(inputs, gradients.back(), gradients.back()))));
    }
    for (std::size_t i = 0; i < models.size(); ++i) {
        for (std::size_t j = 0; j < models.size(); ++j) {
            const double scale = outputs.u[i] * outputs.u[j];
            const double r = scale > 0 ? covariance(inputs, gradients[i], gradients[j]) / scale : 0;
            outputs.r.push_back(i == j ? 1 : std::clamp(r, -1.0, 1.0));
        }
    }
    return outputs;
}

}  // namespace fallaway::metrology
