// What a bench tool can know: its budget for one feature, from data and from a certificate.
// Every default and its source stands in data/tools.json.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "science/base/dimension.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::metrology {

// One line of a tool's data: how it errs on one feature ("string height", "scale length"; "" = any other).
// All in SI units of the dimension. Limits are half widths of a rectangular error.
struct FeatureBudget {
    std::string feature;          // an observable's name, or "" for every other one
    double step = 0;              // display or graduation step d; u = d/sqrt(12)
    double limit = 0;             // maximum permissible error, fixed part
    double limit_per_value = 0;   // part that grows with the value: limit + limit_per_value * |value|
    double handling = 0;          // standard deviation of feel, parallax, placement
    std::optional<double> total;  // when set, the standard uncertainty as a whole, repeatability included
    std::string source;
};

struct ToolKind {
    std::string id;    // "steel rule 0.5 mm"
    std::string name;  // for people
    Dimension dimension = Dimension::length;
    std::optional<double> largest;  // the largest value it can read, SI; absent: no limit that matters here
    std::vector<FeatureBudget> budgets;
};

struct Certificate {
    double expanded_u = 0;  // U as printed, SI
    double k = 2;
};

struct ToolBudget {
    Uncertain result;     // mean of the readings and its combined standard uncertainty
    double u_repeat = 0;  // the part that more repeats shrink
    std::vector<Contribution> parts;
};

// The budget line that a tool has for a feature; null when the tool has none (it is not made for that).
const FeatureBudget* budget_for(const ToolKind& tool, std::string_view feature);

// Readings (at least one, SI) of one feature with one tool. The larger of s/sqrt(n) and d/sqrt(12) is taken,
// never both: the scatter already contains the step. `step_written` is the last digit as typed (0: unknown);
// a value written more coarsely than the tool's step keeps the coarser one. A certificate replaces the limits.
ToolBudget budget(const FeatureBudget& line, std::span<const double> readings, double step_written = 0,
                  const std::optional<Certificate>& certificate = {});

// Go / no-go leaves: the value lies between `go` and `no_go`, u = (no_go - go)/sqrt(12).
Uncertain bracket(double go, double no_go);

}  // namespace fallaway::metrology
