#include "science/metrology/kappa.h"

#include <algorithm>
#include <cmath>

namespace fallaway::metrology {
namespace {

bool square(const Table& table, std::size_t n) {
    return table.size() == n &&
           std::all_of(table.begin(), table.end(), [n](const auto& row) { return row.size() == n; });
}

bool non_negative(const Table& table) {
    return std::all_of(table.begin(), table.end(), [](const auto& row) {
        return std::all_of(row.begin(), row.end(), [](double x) { return x >= 0; });
    });
}

double sum_of(const Table& table) {
    double sum = 0;
    for (const auto& row : table) {
        for (const double x : row) sum += x;
    }
    return sum;
}

// Shares of each class by the first and by the second person.
struct Margins {
    std::vector<double> first, second;
};

Margins margins(const Table& p) {
    Margins m{std::vector<double>(p.size(), 0.0), std::vector<double>(p.size(), 0.0)};
    for (std::size_t i = 0; i < p.size(); ++i) {
        for (std::size_t j = 0; j < p.size(); ++j) {
            m.first[i] += p[i][j];
            m.second[j] += p[i][j];
        }
    }
    return m;
}

// Fleiss, Cohen & Everitt 1969, in agreement weights v = 1 - w/max w.
double standard_error(const Table& p, const Table& v, const Margins& m, double kappa, double expected,
                      double count) {
    const std::size_t n = p.size();
    std::vector<double> row(n, 0.0);
    std::vector<double> column(n, 0.0);
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            row[i] += v[i][j] * m.second[j];
            column[j] += v[i][j] * m.first[i];
        }
    }
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            sum += p[i][j] * std::pow(v[i][j] - (row[i] + column[j]) * (1 - kappa), 2);
        }
    }
    const double variance = sum - std::pow(kappa - expected * (1 - kappa), 2);
    return std::sqrt(std::max(0.0, variance) / count) / (1 - expected);
}

}  // namespace

Table disagreement(KappaWeights weights, std::size_t classes) {
    Table w(classes, std::vector<double>(classes, 0.0));
    for (std::size_t i = 0; i < classes; ++i) {
        for (std::size_t j = 0; j < classes; ++j) {
            const double apart = std::abs(static_cast<double>(i) - static_cast<double>(j));
            switch (weights) {
                case KappaWeights::nominal:
                    w[i][j] = i == j ? 0 : 1;
                    break;
                case KappaWeights::linear:
                    w[i][j] = apart;
                    break;
                case KappaWeights::quadratic:
                    w[i][j] = apart * apart;
                    break;
            }
        }
    }
    return w;
}

Result<Kappa> cohen_kappa(const Table& counts, const Table& disagreement_weights) {
    const std::size_t n = counts.size();
    if (n < 2 || !square(counts, n))
        return fail("range", "counts", "expected a square table of 2 classes or more");
    if (!square(disagreement_weights, n)) {
        return fail("range", "weights", "expected a table of the same size as the counts");
    }
    if (!non_negative(counts) || !non_negative(disagreement_weights)) {
        return fail("range", "counts", "counts and weights must be 0 or more");
    }
    const double total = sum_of(counts);
    if (!(total > 0)) return fail("missing", "counts", "nothing was counted");
    double heaviest = 0;
    for (const auto& row : disagreement_weights)
        heaviest = std::max(heaviest, *std::max_element(row.begin(), row.end()));
    if (!(heaviest > 0)) return fail("range", "weights", "some disagreement must have a weight above 0");

    Table p = counts;
    Table v = disagreement_weights;
    Kappa result;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            p[i][j] /= total;
            v[i][j] = 1 - v[i][j] / heaviest;
        }
        result.percent_agreement += p[i][i];
    }
    const Margins m = margins(p);
    double observed = 0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            observed += v[i][j] * p[i][j];
            result.expected += v[i][j] * m.first[i] * m.second[j];
        }
    }
    if (1 - result.expected < 1e-12) {
        return fail("undefined", "counts", "everything lies in one class, so chance agreement is complete");
    }
    result.kappa = (observed - result.expected) / (1 - result.expected);
    const bool proportions = total <= 1 + 1e-9;
    if (!proportions) result.u = standard_error(p, v, m, result.kappa, result.expected, total);
    return result;
}

Result<FleissKappa> fleiss_kappa(const Table& counts) {
    if (counts.empty() || counts[0].size() < 2) {
        return fail("missing", "counts", "expected at least one thing and two classes");
    }
    double people = 0;
    for (const double x : counts[0]) people += x;
    if (people < 2) return fail("range", "counts", "expected at least 2 people");
    const std::size_t classes = counts[0].size();
    std::vector<double> share(classes, 0.0);
    const double things = static_cast<double>(counts.size());
    FleissKappa result;
    for (const auto& row : counts) {
        double sum = 0;
        double squares = 0;
        if (row.size() != classes) return fail("range", "counts", "every row needs the same classes");
        for (std::size_t j = 0; j < classes; ++j) {
            sum += row[j];
            squares += row[j] * row[j];
            share[j] += row[j] / (things * people);
        }
        if (sum != people) return fail("range", "counts", "every thing must be sorted by equally many people");
        result.observed += (squares - people) / (people * (people - 1)) / things;
    }
    for (const double p : share) result.expected += p * p;
    if (1 - result.expected < 1e-12) {
        return fail("undefined", "counts", "everything lies in one class, so chance agreement is complete");
    }
    result.kappa = (result.observed - result.expected) / (1 - result.expected);
    return result;
}

}  // namespace fallaway::metrology
