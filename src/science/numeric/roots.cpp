#include "science/numeric/roots.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace fallaway::numeric {
namespace {

constexpr int kMaxIterations = 200;

// The step that inverse quadratic interpolation (or the secant, when only two points differ) proposes.
// Returns it as the fraction p/q with p >= 0.
std::pair<double, double> interpolate(double a, double b, double c, double fa, double fb, double fc) {
    const double half = 0.5 * (c - b);
    const double s = fb / fa;
    double p = 0;
    double q = 0;
    if (a == c) {
        p = 2 * half * s;
        q = 1 - s;
    } else {
        const double t = fa / fc;
        const double r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
    }
    if (p > 0) q = -q;
    return {std::abs(p), q};
}

}  // namespace

Root find_root(const std::function<double(double)>& f, double low, double high, double tolerance) {
    double a = low;
    double b = high;
    double fa = f(a);
    double fb = f(b);
    if (fa == 0) return {a, RootStatus::converged, 0};
    if (fb == 0) return {b, RootStatus::converged, 0};
    if (!(fa * fb < 0) && !(std::signbit(fa) != std::signbit(fb) && fa == fa && fb == fb)) {
        return {std::abs(fa) < std::abs(fb) ? a : b, RootStatus::no_sign_change, 0};
    }
    double c = a;
    double fc = fa;
    double step = b - a;
    double previous = step;
    for (int i = 1; i <= kMaxIterations; ++i) {
        if (std::signbit(fb) == std::signbit(fc)) {
            c = a;
            fc = fa;
            step = previous = b - a;
        }
        if (std::abs(fc) < std::abs(fb)) {
            a = b;
            b = c;
            c = a;
            fa = fb;
            fb = fc;
            fc = fa;
        }
        const double close = 2 * std::numeric_limits<double>::epsilon() * std::abs(b) + 0.5 * tolerance;
        const double half = 0.5 * (c - b);
        if (std::abs(half) <= close || fb == 0) return {b, RootStatus::converged, i};
        bool bisect = std::abs(previous) < close || std::abs(fa) <= std::abs(fb);
        if (!bisect) {
            const auto [p, q] = interpolate(a, b, c, fa, fb, fc);
            bisect = !(2 * p < std::min(3 * half * q - std::abs(close * q), std::abs(previous * q)));
            if (!bisect) {
                previous = step;
                step = p / q;
            }
        }
        if (bisect) step = previous = half;
        a = b;
        fa = fb;
        b += std::abs(step) > close ? step : std::copysign(close, half);
        fb = f(b);
    }
    return {b, RootStatus::iteration_limit, kMaxIterations};
}

Root find_root_from(const std::function<double(double)>& f, double guess, double step, double reach) {
    const double at_guess = f(guess);
    if (at_guess == 0) return {guess, RootStatus::converged, 0};
    double low = guess;
    double high = guess;
    for (double width = step; width <= 2 * reach; width *= 2) {
        const double below = guess - width;
        const double above = guess + width;
        if (std::signbit(f(above)) != std::signbit(at_guess)) return find_root(f, high, above);
        if (std::signbit(f(below)) != std::signbit(at_guess)) return find_root(f, below, low);
        low = below;
        high = above;
    }
    return {guess, RootStatus::no_sign_change, 0};
}

}  // namespace fallaway::numeric
