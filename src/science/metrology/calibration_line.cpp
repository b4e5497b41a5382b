#include "science/metrology/calibration_line.h"

#include <cmath>
#include <vector>

#include "science/numeric/least_squares.h"

namespace fallaway::metrology {

Uncertain CalibrationLine::at(double x) const {
    const double d = x - origin;
    const double cross = 2 * d * u_intercept * u_slope * correlation;
    const double variance = u_intercept * u_intercept + d * d * u_slope * u_slope + cross;
    return {intercept + slope * d, std::sqrt(std::max(0.0, variance)), static_cast<double>(dof)};
}

Result<CalibrationLine> calibration_line(std::span<const double> x, std::span<const double> y, double origin) {
    if (x.size() != y.size()) return fail("range", "y", "expected as many y as x");
    if (x.size() < 3) return fail("missing", "x", "expected at least 3 points");
    std::vector<double> moved(x.begin(), x.end());
    for (double& value : moved) value -= origin;
    const numeric::Fit fit = numeric::polynomial_fit(moved, y, 1);
    if (!fit.ok()) {
        return fail("range", "x", "no line through these points: " + std::string(numeric::name_of(fit.status)));
    }
    CalibrationLine line{origin, fit.parameters[0], fit.parameters[1], fit.u(0), fit.u(1), 0, fit.residual_sd,
                         fit.dof};
    if (line.u_intercept > 0 && line.u_slope > 0) line.correlation = fit.correlation(0, 1);
    return line;
}

}  // namespace fallaway::metrology
