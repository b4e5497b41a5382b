// Instrument after instrument drawn, read and fitted: how sharp the fit is, whether its intervals hold, and
// whether a blunder is found. The same runs serve the fast tests with few instruments and the full ones with many.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <vector>

#include <gtest/gtest.h>

#include "science/neck/clearances.h"
#include "science/neck/suspects.h"
#include "science/numeric/statistics.h"
#include "simulated_neck.h"

namespace fallaway::neck {

struct Rate {
    std::size_t hits = 0;
    std::size_t n = 0;

    void count(bool hit) {
        hits += hit;
        ++n;
    }
    double value() const { return double(hits) / double(n); }
    numeric::Interval interval() const { return numeric::wilson(double(hits), double(n), 0.99); }
    void print(const char* what, std::uint64_t seed) const {
        const auto i = interval();
        std::printf("%s: %zu of %zu, %.4f, 99 %% interval %.4f to %.4f, seed %llu\n", what, hits, n, value(),
                    i.low, i.high, (unsigned long long)seed);
    }
};

// 99 % interval of a median from order statistics (normal approximation of the binomial).
inline numeric::Interval median_interval(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const double n = double(values.size());
    const double half = 2.5758 * std::sqrt(n) / 2;
    const auto at = [&](double rank) { return values[std::size_t(std::clamp(rank, 0.0, n - 1))]; };
    return {at(n / 2 - half), at(n / 2 + half)};
}

struct Sharpness {
    std::vector<double> next_fret_u;  // one for each instrument: the median over its next-fret clearances
    std::vector<double> all_u;
    // Of one next-fret clearance drawn for each instrument, so that the counts are independent.
    Rate covered;
    Rate alarms;
    double chi_squared_ratio = 0;  // mean of chi-squared over its degrees of freedom
};

inline Sharpness sharpness(const std::vector<Reading>& places, int instruments, std::uint64_t seed,
                           bool words = false) {
    numeric::Random random(seed);
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    Sharpness result;
    for (int i = 0; i < instruments; ++i) {
        const auto neck = draw_neck(layout, {}, random);
        const auto numbers = take_all(neck, places, random);
        const auto fitted = fit(model, words ? with_words(numbers, neck, random) : numbers);
        EXPECT_TRUE(fitted->converged);
        const auto all = clearances(model, fitted->state);
        std::vector<Clearance> next;
        std::copy_if(all.begin(), all.end(), std::back_inserter(next),
                     [](const Clearance& c) { return c.next_fret(); });
        const auto median_u = [](const std::vector<Clearance>& of) {
            std::vector<double> u;
            for (const Clearance& c : of) u.push_back(c.u);
            return numeric::median(u);
        };
        result.next_fret_u.push_back(median_u(next));
        result.all_u.push_back(median_u(all));
        const Clearance& c = next[std::size_t(random.uniform() * double(next.size()))];
        const Reading same{c.held == 0 ? Kind::open_height : Kind::fretted_height, c.string, c.over, c.held};
        result.covered.count(std::abs(c.value - true_value(neck, same)) <= 1.959964 * c.u);
        result.alarms.count(!fitted->consistent);
        result.chi_squared_ratio += fitted->chi_squared / fitted->numbers / instruments;
    }
    return result;
}

inline void expect_sharp(const char* what, const Sharpness& s, double target_u, std::uint64_t seed) {
    const double u = numeric::median(s.next_fret_u);
    const auto interval = median_interval(s.next_fret_u);
    std::printf(
        "%s: median next-fret u %.4f mm, 99 %% interval %.4f to %.4f, over all notes %.4f, chi2/n %.3f, "
        "n %zu, seed %llu\n",
        what, u * 1e3, interval.low * 1e3, interval.high * 1e3, numeric::median(s.all_u) * 1e3,
        s.chi_squared_ratio, s.next_fret_u.size(), (unsigned long long)seed);
    s.covered.print("  95 % intervals that hold", seed);
    s.alarms.print("  false alarms", seed);
    EXPECT_LE(interval.low, target_u);
    EXPECT_GE(s.covered.interval().high, 0.93);
    EXPECT_LE(s.covered.interval().low, 0.97);
    EXPECT_LE(s.alarms.interval().low, 0.01);
}

struct Finding {
    Rate detected;
    Rate alone;
    Rate among;  // the named
};

// A blunder of half a millimetre, either way, in one reading that `may` says yes to.
inline Finding blunders(const std::function<bool(const Reading&)>& may, int instruments, std::uint64_t seed) {
    numeric::Random random(seed);
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    const auto places = full_places(layout);
    std::vector<std::size_t> which;
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (may(places[i])) which.push_back(i);
    }
    Finding finding;
    for (int i = 0; i < instruments; ++i) {
        const auto neck = draw_neck(layout, {}, random);
        auto readings = take_all(neck, places, random);
        const std::size_t wrong = which[std::size_t(random.uniform() * double(which.size()))];
        const double slip = random.uniform() < 0.5 ? 0.5e-3 : -0.5e-3;
        readings[wrong].low = readings[wrong].high += slip;
        const auto verdict = examine(model, readings);
        const bool detected = !verdict->consistent();
        finding.detected.count(detected);
        if (!detected) {
            finding.alone.count(false);
            finding.among.count(false);
            continue;
        }
        const auto& named = verdict->suspicions.front().named;
        finding.alone.count(named.size() == 1 && named.front().reading == wrong);
        finding.among.count(
            std::any_of(named.begin(), named.end(), [&](const Suspect& s) { return s.reading == wrong; }));
    }
    return finding;
}

inline void expect_found(int instruments, std::uint64_t seed) {
    const auto sharp = [](const Reading& r) { return r.kind != Kind::open_height; };
    const auto any = blunders([](const Reading&) { return true; }, instruments, seed);
    any.detected.print("any of 54 readings off by .5 mm, detected", seed);
    any.alone.print("  named alone", seed);
    any.among.print("  among the named", seed);
    EXPECT_GE(any.detected.interval().high, 0.98);
    const auto at_sharp = blunders(sharp, instruments, seed + 1);
    at_sharp.detected.print("relief, nut, rocker or straightedge off by .5 mm, detected", seed + 1);
    at_sharp.alone.print("  named alone", seed + 1);
    EXPECT_GE(at_sharp.detected.interval().high, 0.98);
    EXPECT_GE(at_sharp.alone.interval().high, 0.95);
}

}  // namespace fallaway::neck
