#include "science/strings/compensation.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

namespace fallaway::strings {
namespace {

using Pair = std::array<double, 2>;  // saddle, nut

struct Counted {
    std::vector<double> weight;  // by fret of the path
    std::vector<double> target;
};

struct Box {
    Pair low{};
    Pair high{};
};

Result<Counted> counted(const StringPath& path, const Task& task) {
    const double all = task.wishes.empty() ? 1 : 0;
    Counted out{std::vector<double>(path.frets.size(), all), std::vector<double>(path.frets.size(), 0.0)};
    for (std::size_t i = 0; i < task.wishes.size(); ++i) {
        const FretWish& wish = task.wishes[i];
        const auto refuse = [&](const char* field, double value, const char* expected) {
            return fail("range", fmt::format("wishes/{}/{}", i, field),
                        fmt::format("{:g}: expected {}", value, expected));
        };
        const auto at = std::ranges::find(path.frets, wish.fret, &FrettedPath::fret);
        if (at == path.frets.end()) return refuse("fret", wish.fret, "a fret of the path");
        if (!(wish.weight >= 0 && wish.weight <= 1e6)) return refuse("weight", wish.weight, "0 to 1000000");
        if (!(std::abs(wish.target) <= 100)) return refuse("target", wish.target, "-100 to 100 cents");
        const auto place = static_cast<std::size_t>(at - path.frets.begin());
        out.weight[place] = wish.weight;
        out.target[place] = wish.target;
    }
    const auto counts = out.weight.size() - static_cast<std::size_t>(std::ranges::count(out.weight, 0.0));
    const bool nut_free = task.nut && task.nut->low < task.nut->high;
    if (counts < (nut_free ? 2u : 1u)) {
        return fail("range", "wishes",
                    fmt::format("{} frets count: expected at least {}", counts, nut_free ? 2 : 1));
    }
    return out;
}

Result<Box> box_of(const Task& task) {
    const auto good = [](const Travel& t) { return t.low <= 0 && t.high >= 0 && t.low >= -0.1 && t.high <= 0.1; };
    const auto refuse = [](const char* part, const Travel& t) {
        return fail("range", part,
                    fmt::format("{:g} to {:g} m: expected a travel from 0 or less to 0 or more, within 0.1 m",
                                t.low, t.high));
    };
    const Travel nut = task.nut.value_or(Travel{});
    if (!good(task.saddle)) return refuse("saddle", task.saddle);
    if (!good(nut)) return refuse("nut", nut);
    return Box{{task.saddle.low, nut.low}, {task.saddle.high, nut.high}};
}

// A weighted straight problem: minimise |r + J d|^2, held as its normal equations.
struct Normal {
    double ss = 0, sn = 0, nn = 0, s = 0, n = 0;

    double cost(const Pair& d) const {
        return ss * d[0] * d[0] + 2 * sn * d[0] * d[1] + nn * d[1] * d[1] + 2 * (s * d[0] + n * d[1]);
    }
    // Absent when one fret alone counts: then any pair of moves on a line does.
    std::optional<Pair> free_minimum() const {
        const double det = ss * nn - sn * sn;
        if (!(det > 1e-9 * ss * nn)) return std::nullopt;
        return Pair{(sn * n - nn * s) / det, (sn * s - ss * n) / det};
    }
    // Best partner of one part held at a value.
    double best_saddle(double nut) const { return -(s + sn * nut) / ss; }
    double best_nut(double saddle) const { return -(n + sn * saddle) / nn; }
};

// The minimum within the box: inside, or the best of the four edges, each of them a parabola.
Pair minimum_within(const Normal& p, const Box& box) {
    const auto inside = [&](const Pair& d) {
        return d[0] >= box.low[0] && d[0] <= box.high[0] && d[1] >= box.low[1] && d[1] <= box.high[1];
    };
    const auto free = p.free_minimum();
    if (free && inside(*free)) return *free;
    const auto saddle_at = [&](double nut) {
        return Pair{std::clamp(p.best_saddle(nut), box.low[0], box.high[0]), nut};
    };
    const auto nut_at = [&](double saddle) {
        return Pair{saddle, std::clamp(p.best_nut(saddle), box.low[1], box.high[1])};
    };
    const std::array edges{saddle_at(box.low[1]), saddle_at(box.high[1]), nut_at(box.low[0]), nut_at(box.high[0])};
    return *std::ranges::min_element(edges, {}, [&](const Pair& d) { return p.cost(d); });
}

Normal straightened(const StringPath& path, const Response& response, const Counted& c, const Pair& at) {
    constexpr double kStep = 1e-6;  // m
    const auto cents = [&](double saddle, double nut) {
        return fretted_cents(path, response, {at[0] + saddle, at[1] + nut});
    };
    const auto here = cents(0, 0);
    const auto s_up = cents(kStep, 0), s_down = cents(-kStep, 0), n_up = cents(0, kStep),
               n_down = cents(0, -kStep);
    Normal p;
    for (std::size_t i = 0; i < here.size(); ++i) {
        const double js = (s_up[i] - s_down[i]) / (2 * kStep);
        const double jn = (n_up[i] - n_down[i]) / (2 * kStep);
        const double r = here[i] - c.target[i];
        const double w = c.weight[i];
        p.ss += w * js * js;
        p.sn += w * js * jn;
        p.nn += w * jn * jn;
        p.s += w * js * r;
        p.n += w * jn * r;
    }
    return p;
}

std::optional<Pair> solve(const StringPath& path, const Response& response, const Counted& c, const Box& box) {
    constexpr double kSettled = 1e-10;  // m
    constexpr int kMostSteps = 50;
    Pair at{};
    for (int step = 0; step < kMostSteps; ++step) {
        const Normal p = straightened(path, response, c, at);
        const Box left{{box.low[0] - at[0], box.low[1] - at[1]}, {box.high[0] - at[0], box.high[1] - at[1]}};
        const Pair d = minimum_within(p, left);
        if (!std::isfinite(d[0]) || !std::isfinite(d[1])) return std::nullopt;
        at = {std::clamp(at[0] + d[0], box.low[0], box.high[0]),
              std::clamp(at[1] + d[1], box.low[1], box.high[1])};
        if (std::abs(d[0]) < kSettled && std::abs(d[1]) < kSettled) return at;
    }
    return std::nullopt;
}

Limit limit_of(double at, double low, double high) {
    if (low == high) return Limit::none;  // not to be moved: no limit was met
    if (at <= low) return Limit::low;
    return at >= high ? Limit::high : Limit::none;
}

double rms(const std::vector<double>& cents, const Counted& c) {
    double sum = 0, weights = 0;
    for (std::size_t i = 0; i < cents.size(); ++i) {
        sum += c.weight[i] * (cents[i] - c.target[i]) * (cents[i] - c.target[i]);
        weights += c.weight[i];
    }
    return std::sqrt(sum / weights);
}

void fill_cents(Compensation& out, const StringPath& path, const Response& response, const Counted& c,
                const Task& task) {
    const Moves moves{out.saddle.value, out.nut.value};
    const auto before = expected_cents(path, response);
    const auto after = expected_cents(path, response, moves);
    const auto s_off = fretted_cents(path, response, {moves.saddle + task.u_saddle_placing, moves.nut});
    const auto n_off = fretted_cents(path, response, {moves.saddle, moves.nut + task.u_nut_placing});
    double squares = 0, weights = 0;
    for (std::size_t i = 0; i < before.size(); ++i) {
        FretCents fret{path.frets[i].fret, c.weight[i], c.target[i], before[i], after[i], 0};
        fret.after.u = std::sqrt(after[i].u * after[i].u + std::pow(s_off[i] - after[i].value, 2) +
                                 std::pow(n_off[i] - after[i].value, 2));
        fret.u_reading = std::sqrt(fret.after.u * fret.after.u + 2 * task.u_tuner * task.u_tuner);
        squares += c.weight[i] * (std::pow(after[i].value - c.target[i], 2) + fret.after.u * fret.after.u);
        weights += c.weight[i];
        out.frets.push_back(fret);
    }
    out.rms_expected = std::sqrt(squares / weights);
    out.rms_before = rms(fretted_cents(path, response), c);
    out.rms_after = rms(fretted_cents(path, response, moves), c);
}

}  // namespace

Result<Moves> closed_form_setbacks(double scale, double kappa, double eps, std::span<const double> fret,
                                   std::span<const double> stretch, std::span<const double> weight) {
    if (fret.size() != stretch.size() || (!weight.empty() && weight.size() != fret.size())) {
        return fail("range", "frets",
                    fmt::format("{} frets, {} stretches, {} weights: expected as many of each", fret.size(),
                                stretch.size(), weight.size()));
    }
    std::array<double, 3> s{};
    std::array<double, 2> q{};
    for (std::size_t i = 0; i < fret.size(); ++i) {
        const double more = std::exp2(fret[i] / 12) - 1;
        const double w = weight.empty() ? 1 : weight[i];
        s[0] += w, s[1] += w * more, s[2] += w * more * more;
        q[0] += w * stretch[i], q[1] += w * more * stretch[i];
    }
    const double det = s[0] * s[2] - s[1] * s[1];
    if (!(det > 1e-12 * s[0] * s[2])) return fail("range", "frets", "expected at least two frets that count");
    return Moves{scale * (eps + kappa / 2 * (s[0] * q[1] - s[1] * q[0]) / det),
                 -scale * kappa / 2 * (s[2] * q[0] - s[1] * q[1]) / det};
}

Result<Compensation> compensate(const StringPath& path, const Response& response, const Task& task) {
    const auto c = counted(path, task);
    if (!c) return tl::unexpected(c.error());
    const auto box = box_of(task);
    if (!box) return tl::unexpected(box.error());
    const auto best = solve(path, response, *c, *box);
    if (!best) return fail("fit", "", "the moves do not settle for this path and string");

    Compensation out;
    out.saddle.value = (*best)[0];
    out.nut.value = (*best)[1];
    out.saddle_limit = limit_of((*best)[0], box->low[0], box->high[0]);
    out.nut_limit = limit_of((*best)[1], box->low[1], box->high[1]);
    for (const Variation& v : variations(path, response)) {
        const auto other = solve(v.path, v.response, *c, *box);
        if (!other) return fail("fit", "", "the moves do not settle for a string within its uncertainty");
        out.saddle.u = std::hypot(out.saddle.u, (*other)[0] - (*best)[0]);
        out.nut.u = std::hypot(out.nut.u, (*other)[1] - (*best)[1]);
    }
    fill_cents(out, path, response, *c, task);
    return out;
}

Result<BothWays> compensate_both_ways(const StringPath& path, const Response& response, const Task& task) {
    Task saddle = task;
    saddle.nut.reset();
    auto one = compensate(path, response, saddle);
    if (!one) return tl::unexpected(one.error());
    BothWays out{std::move(*one), std::nullopt};
    if (!task.nut) return out;
    auto two = compensate(path, response, task);
    if (!two) return tl::unexpected(two.error());
    out.with_nut = std::move(*two);
    return out;
}

}  // namespace fallaway::strings
