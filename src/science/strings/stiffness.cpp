#include "science/strings/stiffness.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <fmt/format.h>

#include "science/numeric/distributions.h"
#include "science/numeric/roots.h"

namespace fallaway::strings {
namespace {

using std::numbers::pi;

constexpr double kNaN = std::numeric_limits<double>::quiet_NaN();
constexpr double kMostEps = 0.1;
constexpr int kMostPartials = 60;

bool good_eps(double eps) {
    return eps >= 0 && eps <= kMostEps;
}

double wave_number(Ends ends, double eps, int n) {
    const auto p_of = [eps](double k) { return std::hypot(k, 1 / eps); };
    const auto clamped_pinned = [&](double k) {
        const double p = p_of(k);
        return p * std::sin(k) - k * std::cos(k) * std::tanh(p);
    };
    const auto clamped_clamped = [&](double k) {
        const double p = p_of(k);
        return 2 * k * p * (1 / std::cosh(std::min(p, 700.0)) - std::cos(k)) +
               std::sin(k) * std::tanh(p) / (eps * eps);  // p^2 - k^2 = 1/eps^2
    };
    const double low = n * pi;
    if (ends == Ends::clamped_pinned) return numeric::find_root(clamped_pinned, low, low + pi / 2).x;
    return numeric::find_root(clamped_clamped, low, low + pi).x;
}

// Sums of a weighted straight line y = a + b x.
struct Line {
    double a, b, aa, bb, ab;  // values and covariances
};
Line straight_line(std::span<const double> x, std::span<const double> y, std::span<const double> w) {
    double s = 0, sx = 0, sy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) s += w[i], sx += w[i] * x[i], sy += w[i] * y[i];
    const double mean = sx / s;
    double sxx = 0, sxy = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        sxx += w[i] * (x[i] - mean) * (x[i] - mean);
        sxy += w[i] * (x[i] - mean) * y[i];
    }
    const double b = sxy / sxx;
    return {sy / s - b * mean, b, 1 / s + mean * mean / sxx, 1 / sxx, -mean / sxx};
}

bool usable(std::span<const Partial> partials) {
    bool differ = false;
    for (const Partial& p : partials) {
        const bool good = p.n >= 1 && p.n <= kMostPartials && p.hz > 0 && p.u_hz > 0 && std::isfinite(p.hz) &&
                          std::isfinite(p.u_hz);
        if (!good) return false;
        differ = differ || p.n != partials.front().n;
    }
    return partials.size() >= 3 && differ;
}

}  // namespace

double end_correction(Ends ends, double eps) {
    if (!good_eps(eps)) return kNaN;
    switch (ends) {
        case Ends::pinned_pinned:
            return pi * pi * eps * eps / 2;
        case Ends::clamped_pinned:
            return eps + (1 + pi * pi / 2) * eps * eps;
        case Ends::clamped_clamped:
            return 2 * eps + (4 + pi * pi / 2) * eps * eps;
    }
    return kNaN;
}

double exact_end_correction(Ends ends, double eps, int partial) {
    if (!good_eps(eps) || partial < 1 || partial > kMostPartials) return kNaN;
    if (eps == 0) return 0;
    const double k = ends == Ends::pinned_pinned ? partial * pi : wave_number(ends, eps, partial);
    const double bent = std::sqrt(1 + eps * eps * k * k);
    // k bent/(n pi) - 1 without losing the small difference.
    return (k / (partial * pi) - 1) * bent + eps * eps * k * k / (1 + bent);
}

double kappa_of_stretching(double r) {
    return 2 * r + 1;
}

double eps_of_round(double kappa, double radius, double length) {
    return std::sqrt(kappa) * radius / (2 * length);
}

double modulus_of_round(double kappa, double tension, double radius) {
    return kappa * tension / (pi * radius * radius);
}

double inharmonicity_of(double eps) {
    return pi * pi * eps * eps;
}

double eps_of_inharmonicity(double b) {
    return std::sqrt(b) / pi;
}

double partial_frequency(double f0, double b, int n) {
    return n * f0 * std::sqrt(1 + b * n * n);
}

Result<double> inharmonicity_from_partial(double cents, int n) {
    if (n < 2 || n > kMostPartials) {
        return fail("range", "partial", fmt::format("{}: expected 2 to {}", n, kMostPartials));
    }
    const double r = std::exp2(cents / 600);
    if (!(cents >= 0) || !(r < n * n)) {
        return fail("range", "cents",
                    fmt::format("{:g} cents: expected 0 to less than {:g}", cents, 1200 * std::log2(n)));
    }
    return (r - 1) / (n * n - r);
}

double fretted_inharmonicity(double b, double fret) {
    return b * std::exp2(fret / 6);
}

Result<PartialFit> fit_partials(std::span<const Partial> partials) {
    if (!usable(partials)) {
        return fail("range", "partials",
                    fmt::format("{} partials: expected at least 3, of numbers 1 to {} that differ, each with a "
                                "frequency and a standard uncertainty above 0",
                                partials.size(), kMostPartials));
    }
    std::vector<double> x, y, w;
    for (const Partial& p : partials) {
        const double per_n = p.hz / p.n;
        const double u = 2 * per_n * p.u_hz / p.n;
        x.push_back(1.0 * p.n * p.n);
        y.push_back(per_n * per_n);
        w.push_back(1 / (u * u));
    }
    const Line line = straight_line(x, y, w);
    if (!(line.a > 0)) {
        return fail("range", "partials", "no law of a stiff string goes through these frequencies");
    }
    PartialFit fit;
    const double b = line.b / line.a;
    fit.f0 = {std::sqrt(line.a), std::sqrt(line.aa) / (2 * std::sqrt(line.a))};
    const double var = (line.bb - 2 * b * line.ab + b * b * line.aa) / (line.a * line.a);
    fit.inharmonicity = {b, std::sqrt(std::max(0.0, var))};
    double squares = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double expected = line.a + line.b * x[i];
        fit.chi_squared += w[i] * (y[i] - expected) * (y[i] - expected);
        const double cents = 600 * std::log2(y[i] / std::max(expected, 1e-9 * y[i]));
        squares += cents * cents;
    }
    fit.dof = static_cast<int>(x.size()) - 2;
    fit.scatter_cents = std::sqrt(squares / static_cast<double>(x.size()));
    fit.chance = numeric::chi_squared_sf(fit.chi_squared, fit.dof);
    return fit;
}

double bend_cents(const PushedAside& string, double aside) {
    const double l = std::hypot(string.sounding, aside);
    const double whole = string.sounding + string.behind;
    const double strain = (l + std::hypot(string.behind, aside)) / whole - 1;
    return 600 * std::log2((1 + string.kappa * strain) * (1 + strain)) - 1200 * std::log2(l / string.sounding);
}

double bend_force(const PushedAside& string, double aside) {
    const double l = std::hypot(string.sounding, aside);
    const double l2 = std::hypot(string.behind, aside);
    const double strain = (l + l2) / (string.sounding + string.behind) - 1;
    return string.tension * (1 + string.kappa * strain) * (aside / l + aside / l2);
}

Result<double> aside_for_cents(const PushedAside& string, double cents) {
    const auto over = [&](double y) { return bend_cents(string, y) - cents; };
    const double most = string.sounding / 2;
    if (!(cents >= 0) || !(over(most) >= 0)) {
        return fail("range", "cents",
                    fmt::format("{:g} cents: expected 0 to {:.0f}, what half the sounding length aside gives",
                                cents, std::max(0.0, bend_cents(string, most))));
    }
    return numeric::find_root(over, 0, most).x;
}

}  // namespace fallaway::strings
