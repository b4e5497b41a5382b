#include "science/metrology/tool.h"

#include <algorithm>
#include <cmath>

#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

double from_step(double step) {
    return step / std::sqrt(12.0);
}

// What n readings know of their own scatter, and what handling adds to a mean of n.
struct Scatter {
    double of_mean = 0;
    double handling = 0;
    double dof = 0;
};

// Scatter or step, whichever is larger, and handling where the scatter does not already show it.
void add_repeatability(const Scatter& scatter, double step, ToolBudget& result) {
    const double u_step = from_step(step);
    if (scatter.of_mean > 0 && scatter.of_mean >= u_step) {
        if (scatter.of_mean >= scatter.handling) {
            result.parts.push_back({"scatter of the readings", 1, scatter.of_mean, scatter.dof});
            result.u_repeat = scatter.of_mean;
            return;
        }
    } else if (u_step > 0) {
        result.parts.push_back({"step of the scale", 1, u_step, kInfiniteDof});
    }
    if (scatter.handling > 0) {
        result.parts.push_back({"handling", 1, scatter.handling, kInfiniteDof});
        result.u_repeat = scatter.handling;
    }
}

void add_limits(const FeatureBudget& line, double value, const std::optional<Certificate>& certificate,
                ToolBudget& result) {
    if (certificate) {
        result.parts.push_back({"certificate", 1, certificate->expanded_u / certificate->k, kInfiniteDof});
        return;
    }
    const double limit = line.limit + line.limit_per_value * std::abs(value);
    if (limit > 0) {
        const double u = standard_from_limit(limit, Shape::rectangular);
        result.parts.push_back({"permitted error of the tool", 1, u, kInfiniteDof});
    }
}

// A stated total already holds repeatability, step and limits; only what exceeds it may enlarge it.
void add_total(double total, const FeatureBudget& line, const Scatter& scatter, double step_written,
               const std::optional<Certificate>& certificate, ToolBudget& result) {
    const double certified = certificate ? certificate->expanded_u / certificate->k : 0;
    if (scatter.of_mean > std::max(total, certified)) {
        result.parts.push_back({"scatter of the readings", 1, scatter.of_mean, scatter.dof});
        result.u_repeat = scatter.of_mean;
    } else if (certified > total) {
        result.parts.push_back({"certificate", 1, certified, kInfiniteDof});
    } else {
        result.parts.push_back({"tool and feature as a whole", 1, total, kInfiniteDof});
    }
    if (step_written > line.step) {
        result.parts.push_back({"step as written", 1, from_step(step_written), kInfiniteDof});
    }
}

}  // namespace

const FeatureBudget* budget_for(const ToolKind& tool, std::string_view feature) {
    const FeatureBudget* any_other = nullptr;
    for (const FeatureBudget& line : tool.budgets) {
        if (line.feature == feature) return &line;
        if (line.feature.empty()) any_other = &line;
    }
    return any_other;
}

ToolBudget budget(const FeatureBudget& line, std::span<const double> readings, double step_written,
                  const std::optional<Certificate>& certificate) {
    ToolBudget result;
    const double n = static_cast<double>(readings.size());
    result.result.value = numeric::mean(readings);
    const Scatter scatter{n > 1 ? numeric::standard_deviation(readings) / std::sqrt(n) : 0,
                          n > 0 ? line.handling / std::sqrt(n) : 0, n - 1};
    if (line.total) {
        add_total(*line.total, line, scatter, step_written, certificate, result);
    } else {
        add_repeatability(scatter, std::max(line.step, step_written), result);
        add_limits(line, result.result.value, certificate, result);
    }
    if (const auto combined = combine(result.parts)) {
        result.result.u = combined->u;
        result.result.dof = combined->dof;
    }
    return result;
}

Uncertain bracket(double go, double no_go) {
    return {0.5 * (go + no_go), from_step(std::abs(no_go - go)), kInfiniteDof};
}

}  // namespace fallaway::metrology
