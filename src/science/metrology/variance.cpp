#include "science/metrology/variance.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "science/numeric/distributions.h"
#include "science/numeric/statistics.h"

namespace fallaway::metrology {
namespace {

double root(double variance) {
    return std::sqrt(std::max(0.0, variance));
}

double squares_about(std::span<const double> values, double centre) {
    double sum = 0;
    for (const double x : values) sum += (x - centre) * (x - centre);
    return sum;
}

Result<void> check(const GaugeReadings& readings, const GaugeStudyOptions& options) {
    if (readings.size() < 2) return fail("missing", "readings", "expected at least 2 people");
    if (readings[0].size() < 2) return fail("missing", "readings", "expected at least 2 parts");
    if (readings[0][0].size() < 2) return fail("missing", "readings", "expected at least 2 repeats");
    for (const auto& person : readings) {
        if (person.size() != readings[0].size()) {
            return fail("range", "readings", "every person must measure every part");
        }
        for (const auto& repeats : person) {
            if (repeats.size() != readings[0][0].size()) {
                return fail("range", "readings", "every part must be measured equally often");
            }
        }
    }
    if (options.tolerance_width && !(*options.tolerance_width > 0)) {
        return fail("range", "tolerance_width", "the tolerance must be wider than 0");
    }
    return {};
}

// Means by person, by part, and of each cell.
struct Means {
    std::vector<double> person, part, cell;
    double all = 0;
};

Means means_of(const GaugeReadings& readings) {
    const std::size_t people = readings.size();
    const std::size_t parts = readings[0].size();
    Means m;
    for (const auto& person : readings) {
        for (const auto& repeats : person) m.cell.push_back(numeric::mean(repeats));
    }
    for (std::size_t i = 0; i < people; ++i) {
        m.person.push_back(numeric::mean(std::span(m.cell).subspan(i * parts, parts)));
    }
    for (std::size_t j = 0; j < parts; ++j) {
        std::vector<double> column;
        for (std::size_t i = 0; i < people; ++i) column.push_back(m.cell[i * parts + j]);
        m.part.push_back(numeric::mean(column));
    }
    m.all = numeric::mean(m.cell);
    return m;
}

void sums_of_squares(const GaugeReadings& readings, GaugeStudy& study) {
    const Means m = means_of(readings);
    const double people = static_cast<double>(readings.size());
    const double parts = static_cast<double>(readings[0].size());
    const double repeats = static_cast<double>(readings[0][0].size());
    study.ss_part = people * repeats * squares_about(m.part, m.all);
    study.ss_person = parts * repeats * squares_about(m.person, m.all);
    for (std::size_t i = 0; i < m.person.size(); ++i) {
        for (std::size_t j = 0; j < m.part.size(); ++j) {
            const double cell = m.cell[i * m.part.size() + j];
            study.ss_interaction += repeats * std::pow(cell - m.person[i] - m.part[j] + m.all, 2);
            study.ss_repeat += squares_about(readings[i][j], cell);
        }
    }
}

// Variance components from mean squares, with the interaction pooled into the repeats or kept.
void components(double people, double parts, double repeats, GaugeStudy& study) {
    const double dof_interaction = (people - 1) * (parts - 1);
    const double dof_repeat = people * parts * (repeats - 1);
    const double ms_part = study.ss_part / (parts - 1);
    const double ms_person = study.ss_person / (people - 1);
    const double ms_interaction = study.ss_interaction / dof_interaction;
    const double ms_repeat = study.ss_repeat / dof_repeat;
    const double ms_error =
        study.pooled ? (study.ss_interaction + study.ss_repeat) / (dof_interaction + dof_repeat) : ms_repeat;
    const double against = study.pooled ? ms_error : ms_interaction;
    study.equipment = root(ms_error);
    study.appraiser = root((ms_person - against) / (parts * repeats));
    study.interaction = study.pooled ? 0 : root((ms_interaction - ms_error) / repeats);
    study.part = root((ms_part - against) / (people * repeats));
}

}  // namespace

Result<Nested> nested(std::span<const double> means, std::span<const double> sds, int repeats) {
    if (means.size() < 2) return fail("missing", "means", "expected at least 2 groups");
    if (means.size() != sds.size()) return fail("range", "sds", "expected one standard deviation a group");
    if (repeats < 2) return fail("range", "repeats", "expected at least 2 repeats in each group");
    if (std::any_of(sds.begin(), sds.end(), [](double s) { return !(s >= 0); })) {
        return fail("range", "sds", "a standard deviation must be 0 or more");
    }
    const double groups = static_cast<double>(means.size());
    Nested result;
    result.mean = numeric::mean(means);
    result.between_sd = numeric::standard_deviation(means);
    const double within = squares_about(sds, 0) / groups;
    const double between = repeats * result.between_sd * result.between_sd;
    result.within_sd = std::sqrt(within);
    result.between_dof = groups - 1;
    result.within_dof = groups * (repeats - 1);
    if (within > 0) {
        result.f = between / within;
    } else {
        result.f = between > 0 ? std::numeric_limits<double>::infinity() : 0;
    }
    result.p = std::isinf(result.f) ? 0 : numeric::f_sf(result.f, result.between_dof, result.within_dof);
    result.component = root((between - within) / repeats);
    result.u_mean = result.between_sd / std::sqrt(groups);
    const double pooled =
        (result.between_dof * between + result.within_dof * within) / (result.between_dof + result.within_dof);
    result.u_mean_pooled = std::sqrt(pooled / (groups * repeats));
    return result;
}

Result<GaugeStudy> gauge_study(const GaugeReadings& readings, const GaugeStudyOptions& options) {
    if (const auto ok = check(readings, options); !ok) return tl::unexpected(ok.error());
    const double people = static_cast<double>(readings.size());
    const double parts = static_cast<double>(readings[0].size());
    const double repeats = static_cast<double>(readings[0][0].size());
    GaugeStudy study;
    sums_of_squares(readings, study);
    const double dof_interaction = (people - 1) * (parts - 1);
    const double dof_repeat = people * parts * (repeats - 1);
    if (study.ss_repeat > 0) {
        study.f_interaction = (study.ss_interaction / dof_interaction) / (study.ss_repeat / dof_repeat);
        study.p_interaction = numeric::f_sf(study.f_interaction, dof_interaction, dof_repeat);
    } else if (study.ss_interaction > 0) {
        study.f_interaction = std::numeric_limits<double>::infinity();
        study.p_interaction = 0;
    }
    study.pooled = options.interaction == Interaction::automatic ? study.p_interaction > options.pool_above_p
                                                                 : options.interaction == Interaction::pooled;
    components(people, parts, repeats, study);
    study.gauge = std::hypot(study.equipment, study.appraiser, study.interaction);
    study.total = std::hypot(study.gauge, study.part);
    study.percent_of_total = study.total > 0 ? 100 * study.gauge / study.total : 0;
    study.distinct = study.gauge > 0 ? 1.41 * study.part / study.gauge : std::numeric_limits<double>::infinity();
    study.distinct_whole = static_cast<int>(std::min(study.distinct, 1e6));
    if (options.tolerance_width) study.precision_to_tolerance = 6 * study.gauge / *options.tolerance_width;
    return study;
}

}  // namespace fallaway::metrology
