#include "science/strings/response_fit.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "science/numeric/distributions.h"
#include "science/numeric/least_squares.h"
#include "science/strings/covariance.h"
#include "science/strings/stiffness.h"

namespace fallaway::strings {
namespace {

// The unknowns as independent standard normal numbers: one for each cause of doubt in the prior, the last one the
// open string.
class Unknowns {
public:
    Unknowns(const Response& prior, const Listening& heard) : prior_(prior), u_open_(heard.u_open) {
        std::array<double, 16> logs = prior.covariance;
        const std::array<double, 4> per{1 / prior.kappa, 1 / prior.eps, 1, 1};
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = 0; j < 4; ++j) logs[4 * i + j] *= per[i] * per[j];
        }
        logs[10] += heard.u_saddle_place * heard.u_saddle_place;
        logs[15] += heard.u_nut_place * heard.u_nut_place;
        causes_ = causes_of(logs, 4);
    }

    std::size_t size() const { return causes_.size() + 1; }
    double open(std::span<const double> z) const { return u_open_ * z.back(); }

    Response response(std::span<const double> z) const {
        std::array<double, 4> by{};
        for (std::size_t c = 0; c < causes_.size(); ++c) {
            for (std::size_t i = 0; i < 4; ++i) by[i] += causes_[c][i] * z[c];
        }
        Response r = prior_;
        r.kappa = prior_.kappa * std::exp(by[0]);
        r.eps = prior_.eps * std::exp(by[1]);
        r.saddle_behind = prior_.saddle_behind + by[2];
        r.nut_behind = prior_.nut_behind + by[3];
        return r;
    }

    // Covariance of the response at z from that of z itself.
    std::array<double, 16> covariance(const Response& at, std::span<const double> of_z) const {
        const std::array<double, 4> per{at.kappa, at.eps, 1, 1};
        std::array<double, 16> out{};
        for (std::size_t i = 0; i < 4; ++i) {
            for (std::size_t j = 0; j < 4; ++j) {
                for (std::size_t a = 0; a < causes_.size(); ++a) {
                    for (std::size_t b = 0; b < causes_.size(); ++b) {
                        out[4 * i + j] += per[i] * per[j] * causes_[a][i] * causes_[b][j] * of_z[a * size() + b];
                    }
                }
            }
        }
        return out;
    }

private:
    Response prior_;
    double u_open_;
    std::vector<std::vector<double>> causes_;
};

// The frets of the path in the order of the readings; null for the open string.
std::vector<const FrettedPath*> frets_heard(const StringPath& path, const Listening& heard) {
    std::vector<const FrettedPath*> out;
    for (const HeardCents& h : heard.cents) {
        const auto found = std::ranges::find(path.frets, h.fret, &FrettedPath::fret);
        out.push_back(found == path.frets.end() ? nullptr : &*found);
    }
    return out;
}

Result<void> check(const StringPath& path, const Response& prior, const Listening& heard) {
    if (!(prior.kappa > 0 && prior.eps > 0 && prior.eps < 0.1)) {
        return fail(
            "range", "prior",
            fmt::format("kappa {:g}, eps {:g}: expected both above 0, eps below 0.1", prior.kappa, prior.eps));
    }
    for (const double u : {heard.u_open, heard.u_saddle_place, heard.u_nut_place}) {
        if (!(u >= 0 && std::isfinite(u))) return fail("range", "u", fmt::format("{:g}: expected 0 or more", u));
    }
    std::set<int> frets;
    for (std::size_t i = 0; i < heard.cents.size(); ++i) {
        const HeardCents& h = heard.cents[i];
        const bool known = h.fret == 0 || std::ranges::count(path.frets, h.fret, &FrettedPath::fret) > 0;
        if (!known) {
            return fail("range", fmt::format("cents/{}/fret", i),
                        fmt::format("{}: expected 0 or a fret of the path", h.fret));
        }
        if (!(h.u > 0 && std::isfinite(h.u))) {
            return fail("range", fmt::format("cents/{}/u", i), fmt::format("{:g}: expected more than 0", h.u));
        }
        if (!(std::abs(h.cents) <= 200)) {
            return fail("range", fmt::format("cents/{}/cents", i),
                        fmt::format("{:g} cents: expected -200 to 200", h.cents));
        }
        if (h.fret > 0) frets.insert(h.fret);
    }
    if (frets.empty()) return fail("range", "cents", "no fret was heard: expected one at least");
    return {};
}

// Rows: one a reading, then one an unknown, which the prior holds near 0.
class Rows {
public:
    Rows(const StringPath& path, const Unknowns& unknowns, const Listening& heard)
        : unknowns_(unknowns), heard_(heard) {
        only_.open = path.open;
        for (const FrettedPath* fret : frets_heard(path, heard)) {
            if (fret != nullptr) only_.frets.push_back(*fret);
        }
        // A height that is not known well moves its notes too: it counts with what the tuner leaves open.
        const auto doubts = expected_cents(with_doubts(path), exact(unknowns));
        std::size_t next = 0;
        for (const HeardCents& h : heard.cents) {
            u_.push_back(h.fret == 0 ? h.u : std::hypot(h.u, doubts[next].u));
            if (h.fret != 0) ++next;
        }
    }

    std::size_t size() const { return heard_.cents.size() + unknowns_.size(); }

    std::vector<double> fitted(std::span<const double> z) const {
        const double open = unknowns_.open(z);
        const auto cents = fretted_cents(only_, unknowns_.response(z));
        std::vector<double> out;
        std::size_t next = 0;
        for (const HeardCents& h : heard_.cents) out.push_back(open + (h.fret == 0 ? 0 : cents[next++]));
        return out;
    }

    void operator()(std::span<const double> z, std::span<double> residuals) const {
        const auto cents = fitted(z);
        std::size_t row = 0;
        for (; row < cents.size(); ++row) residuals[row] = (heard_.cents[row].cents - cents[row]) / u_[row];
        for (const double one : z) residuals[row++] = one;
    }

private:
    StringPath with_doubts(const StringPath& path) const {
        StringPath out = only_;
        for (const auto& doubt : path.doubts) {
            std::vector<double> shift;
            for (const FrettedPath& fret : only_.frets) {
                const auto at = std::ranges::find(path.frets, fret.fret, &FrettedPath::fret) - path.frets.begin();
                shift.push_back(doubt[static_cast<std::size_t>(at)]);
            }
            out.doubts.push_back(std::move(shift));
        }
        return out;
    }
    static Response exact(const Unknowns& unknowns) {
        Response r = unknowns.response(std::vector<double>(unknowns.size(), 0.0));
        r.covariance = {};
        return r;
    }

    const Unknowns& unknowns_;
    const Listening& heard_;
    StringPath only_;
    std::vector<double> u_;
};

std::optional<std::vector<double>> covariance_at(const Rows& rows, std::span<const double> z) {
    const std::size_t p = z.size();
    const std::size_t n = rows.size();
    constexpr double kStep = 1e-4;  // of one standard uncertainty
    std::vector<std::vector<double>> columns;
    for (std::size_t j = 0; j < p; ++j) {
        std::vector<double> at(z.begin(), z.end());
        std::vector<double> up(n), down(n);
        at[j] = z[j] + kStep;
        rows(at, up);
        at[j] = z[j] - kStep;
        rows(at, down);
        for (std::size_t i = 0; i < n; ++i) up[i] = (up[i] - down[i]) / (2 * kStep);
        columns.push_back(std::move(up));
    }
    std::vector<double> information(p * p, 0.0);
    for (std::size_t a = 0; a < p; ++a) {
        for (std::size_t b = 0; b < p; ++b) {
            for (std::size_t i = 0; i < n; ++i) information[a * p + b] += columns[a][i] * columns[b][i];
        }
    }
    return inverse(information, p);
}

}  // namespace

StringCheck check_overtones(const Response& expected, const Overtones& heard) {
    if (heard.inharmonicity) {
        const double b = inharmonicity_of(expected.eps);
        const double u_b = 2 * b * expected.eps_estimate().u / expected.eps;
        const double reach = kMostDeviates * std::hypot(heard.inharmonicity->u, u_b);
        const double found = heard.inharmonicity->value;
        if (found > b + reach) return {Refusal::inharmonicity_high, found, b + reach};
        if (found < b - reach) return {Refusal::inharmonicity_low, found, b - reach};
    }
    if (heard.scatter_cents && *heard.scatter_cents > kMostScatter) {
        return {Refusal::partials_scatter, *heard.scatter_cents, kMostScatter};
    }
    return {};
}

Result<ResponseFit> fit_response(const StringPath& path, const Response& prior, const Listening& heard) {
    if (auto good = check(path, prior, heard); !good) return tl::unexpected(good.error());
    const Unknowns unknowns(prior, heard);
    const Rows rows(path, unknowns, heard);
    const auto fit =
        numeric::nonlinear_fit(std::ref(rows), rows.size(), std::vector<double>(unknowns.size(), 0.0));
    if (!fit.ok() && fit.status != numeric::FitStatus::iteration_limit) {
        return fail("fit", "cents", "no stretch and stiffness of a string gives these cents");
    }
    const auto of_z = covariance_at(rows, fit.parameters);
    if (!of_z) return fail("fit", "cents", "these cents do not settle the string");

    ResponseFit out;
    out.dof = static_cast<int>(heard.cents.size());
    out.chi_squared = fit.rss;
    out.chance = numeric::chi_squared_sf(out.chi_squared, out.dof);
    const auto fitted = rows.fitted(fit.parameters);
    for (std::size_t i = 0; i < fitted.size(); ++i) out.left_over.push_back(heard.cents[i].cents - fitted[i]);
    out.open = {unknowns.open(fit.parameters), heard.u_open * std::sqrt(of_z->back())};
    out.check = check_overtones(prior, heard.overtones);
    if (!out.check.refused() && out.chance < kLeastChance) {
        out.check = {Refusal::cents_off_model, out.chi_squared,
                     numeric::chi_squared_quantile(1 - kLeastChance, out.dof)};
    }
    if (out.check.refused()) return out;
    Response response = unknowns.response(fit.parameters);
    response.covariance = unknowns.covariance(response, *of_z);
    out.response = response;
    return out;
}

}  // namespace fallaway::strings
