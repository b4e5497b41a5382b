// A straight calibration line and what it predicts. Source: JCGM 100:2008, annex H.3.
#pragma once

#include <span>

#include "science/base/result.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::metrology {

// y = intercept + slope (x - origin).
struct CalibrationLine {
    double origin = 0;
    double intercept = 0;
    double slope = 0;
    double u_intercept = 0;
    double u_slope = 0;
    double correlation = 0;  // of intercept and slope; 0 when one of them has no uncertainty
    double residual_sd = 0;
    int dof = 0;

    Uncertain at(double x) const;
};
// Equally good points, at least 3, not all at one x.
Result<CalibrationLine> calibration_line(std::span<const double> x, std::span<const double> y, double origin = 0);

}  // namespace fallaway::metrology
