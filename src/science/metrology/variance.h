// Analysis of variance: scatter between groups against scatter within, and the crossed gauge study.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/base/result.h"

namespace fallaway::metrology {

// Groups of equally many repeats each, from their means and standard deviations.
// Source: JCGM 100:2008, annex H.5.
struct Nested {
    double mean = 0;
    double between_sd = 0;     // sd of the group means
    double within_sd = 0;      // pooled sd of single values within a group
    double between_dof = 0;    // groups - 1
    double within_dof = 0;     // groups (repeats - 1)
    double f = 0;              // repeats between^2 / within^2
    double p = 1;              // probability of such an F when groups do not differ
    double component = 0;      // sd that the groups add to single values; 0 when within explains all
    double u_mean = 0;         // of the grand mean, group differences kept (H.5.2.4)
    double u_mean_pooled = 0;  // of the grand mean, when no group difference is believed (H.5.2.5)
};
// Errors: fewer than 2 groups or 2 repeats, sizes that differ, a negative standard deviation.
Result<Nested> nested(std::span<const double> means, std::span<const double> sds, int repeats);

// Crossed study: every person measures every part equally often. readings[person][part][repeat].
using GaugeReadings = std::vector<std::vector<std::vector<double>>>;

enum class Interaction { automatic, pooled, kept };

struct GaugeStudyOptions {
    Interaction interaction = Interaction::automatic;
    double pool_above_p = 0.25;             // automatic: pool when the interaction's p is above this
    std::optional<double> tolerance_width;  // upper - lower limit
};

// Source of the layout and of its worked example: AIAG, Measurement Systems Analysis, 4th edition. All
// spreads are standard deviations; negative variances count as zero.
struct GaugeStudy {
    double ss_part = 0, ss_person = 0, ss_interaction = 0, ss_repeat = 0;
    double f_interaction = 0;
    double p_interaction = 1;
    bool pooled = true;                            // which model was used: it changes the answer
    double equipment = 0;                          // EV: one person again
    double appraiser = 0;                          // AV: another person
    double interaction = 0;                        // 0 when pooled
    double gauge = 0;                              // GRR: EV, AV and interaction together
    double part = 0;                               // PV
    double total = 0;                              // TV
    double percent_of_total = 0;                   // 100 GRR/TV
    double distinct = 0;                           // 1.41 PV/GRR; infinite when GRR is 0
    int distinct_whole = 0;                        // rounded down
    std::optional<double> precision_to_tolerance;  // 6 GRR / width
};
// Errors: fewer than 2 people, 2 parts or 2 repeats; rows of different length; a width that is not positive.
Result<GaugeStudy> gauge_study(const GaugeReadings& readings, const GaugeStudyOptions& options = {});

}  // namespace fallaway::metrology
