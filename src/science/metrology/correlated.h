// Several quantities observed together, and several results that share their inputs.
// Source: JCGM 100:2008, 5.2 and annex H.2.
#pragma once

#include <functional>
#include <span>
#include <vector>

#include "science/base/result.h"

namespace fallaway::metrology {

// Estimates with standard uncertainties and correlation coefficients (row-major, square).
struct Joint {
    std::vector<double> values;
    std::vector<double> u;
    std::vector<double> r;

    double correlation(std::size_t i, std::size_t j) const { return r[i * values.size() + j]; }
};

// Means of simultaneous observations, one inner vector a quantity, all of one length of at least 2
// (5.2.3, eq. 17). A quantity without scatter is uncorrelated with every other.
Result<Joint> joint_type_a(std::span<const std::vector<double>> observations);

// One value computed from the inputs.
using JointModel = std::function<double(std::span<const double> inputs)>;
// First-order propagation of all outputs together; sensitivities by central differences of u/1000.
// Errors: sizes of `inputs` that do not match.
Result<Joint> propagate_joint(const Joint& inputs, std::span<const JointModel> models);

}  // namespace fallaway::metrology
