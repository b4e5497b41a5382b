// Strings drawn from what is believed of them, listened to with an honest tuner, and fitted: n and seed beside
// each.
#include "science/strings/response_fit.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "science/numeric/random.h"
#include "science/numeric/statistics.h"
#include "science/strings/compensation.h"
#include "science/strings/stiffness.h"
#include "string_fixture.h"

namespace fallaway::strings {
namespace {

const std::vector<int> kFretsHeard{1, 3, 5, 7, 9, 12, 15, 17, 19};

// A plain third string on high action: the case with the most to find.
Response prior() {
    Response r = exactly(397, 0.0033);
    r.covariance[0] = std::pow(0.10 * r.kappa, 2);
    r.covariance[5] = std::pow(0.15 * r.eps, 2);
    return r;
}

struct Truth {
    Response response;
    double open = 0;
};

Truth drawn(numeric::Random& random, const Listening& heard) {
    Truth truth{prior(), heard.u_open * random.normal()};
    truth.response.kappa *= std::exp(0.10 * random.normal());
    truth.response.eps *= std::exp(0.15 * random.normal());
    truth.response.saddle_behind = heard.u_saddle_place * random.normal();
    truth.response.nut_behind = heard.u_nut_place * random.normal();
    return truth;
}

void listen(Listening& heard, const StringPath& path, const Truth& truth, double u, numeric::Random& random) {
    const auto cents = fretted_cents(path, truth.response);
    heard.cents.push_back({0, truth.open + u * random.normal(), u});
    for (const int fret : kFretsHeard) {
        heard.cents.push_back(
            {fret, truth.open + cents[static_cast<std::size_t>(fret - 1)] + u * random.normal(), u});
    }
}

struct Tally {
    const char* what;
    int held = 0;
};

void expect_95(const Tally& tally, int n) {
    const auto interval = numeric::wilson(tally.held, n, 0.99);
    std::printf("%-14s in its 95 %% interval: %.3f [%.3f, %.3f], n %d\n", tally.what, 1.0 * tally.held / n,
                interval.low, interval.high, n);
    EXPECT_LE(interval.low, 0.95) << tally.what;
    EXPECT_GE(interval.high, 0.95) << tally.what;
}

bool holds(double value, double u, double truth) {
    return std::abs(value - truth) <= 1.96 * u;
}

// 1000 strings, seed 17, tuner 0.4 cent. Constants, the move and the cents after it, each by its own interval.
TEST(ResponseFit, IntervalsHoldTheTruth) {
    constexpr int kStrings = 1000;
    numeric::Random random(17);
    const auto path = path_on({.nut_over = 0.25e-3, .action = 2.5e-3});
    Tally kappa{"log kappa"}, eps{"log eps"}, open{"open string"}, move{"saddle move"}, nut{"nut move"},
        after{"cents at 7"};
    int refused = 0;
    Task task;
    task.nut = kFreeTravel;
    for (int i = 0; i < kStrings; ++i) {
        Listening heard;
        heard.u_open = 1;
        const Truth truth = drawn(random, heard);
        listen(heard, path, truth, 0.4, random);
        const auto fit = good(fit_response(path, prior(), heard));
        if (fit.check.refused()) {
            ++refused;
            continue;
        }
        const Response& r = *fit.response;
        kappa.held += holds(std::log(r.kappa), r.kappa_estimate().u / r.kappa, std::log(truth.response.kappa));
        eps.held += holds(std::log(r.eps), r.eps_estimate().u / r.eps, std::log(truth.response.eps));
        open.held += holds(fit.open.value, fit.open.u, truth.open);
        const auto told = good(compensate(path, r, task));
        const auto ideal = good(compensate(path, truth.response, task));
        move.held += holds(told.saddle.value, told.saddle.u, ideal.saddle.value);
        nut.held += holds(told.nut.value, told.nut.u, ideal.nut.value);
        const auto real = fretted_cents(path, truth.response, {told.saddle.value, told.nut.value});
        after.held += holds(told.frets[6].after.value, told.frets[6].after.u, real[6]);
    }
    const int n = kStrings - refused;
    std::printf("refused %d of %d sound strings\n", refused, kStrings);
    EXPECT_LE(refused, 6);  // a thousand chances of 0.001: more than 6 in less than one run of 10 000
    for (const Tally& tally : {kappa, eps, open, move, nut, after}) expect_95(tally, n);
}

TEST(ResponseFit, ListeningBeatsTheTable) {
    numeric::Random random(4);
    const auto path = path_on({.nut_over = 0.25e-3, .action = 2.5e-3});
    Listening heard;
    const Truth truth{prior(), 0};
    listen(heard, path, truth, 0.3, random);
    const auto fit = good(fit_response(path, prior(), heard));
    ASSERT_TRUE(fit.response.has_value());
    const double by_table = good(compensate(path, prior(), {})).saddle.u;
    const double by_ear = good(compensate(path, *fit.response, {})).saddle.u;
    std::printf("u of the saddle move: by the table %.3f mm, by ear %.3f mm\n", by_table * 1e3, by_ear * 1e3);
    EXPECT_LT(by_ear, by_table / 2);
    EXPECT_LT(by_ear, 0.15e-3);
}

// Set by what was heard, listened to again, set again: the second move is within its u (2.6 of them) of none.
// 300 strings, seed 8.
TEST(ResponseFit, ASecondSettingFindsNothing) {
    constexpr int kStrings = 300;
    numeric::Random random(8);
    const auto path = path_on({});
    Tally none{"second move"};
    for (int i = 0; i < kStrings; ++i) {
        Listening heard;
        const Truth truth = drawn(random, heard);
        listen(heard, path, truth, 0.4, random);
        const auto fit = good(fit_response(path, prior(), heard));
        if (!fit.response) {
            ++none.held;
            continue;
        }
        const auto first = good(compensate(path, *fit.response, {}));
        const auto after = moved(path, {first.saddle.value, 0});
        Listening again;
        listen(again, after, truth, 0.4, random);
        again.u_saddle_place = 0;
        const auto second_fit = good(fit_response(after, *fit.response, again));
        if (!second_fit.response) {
            ++none.held;
            continue;
        }
        const auto second = good(compensate(after, *second_fit.response, {}));
        none.held += std::abs(second.saddle.value) <= 1.96 * std::hypot(first.saddle.u, second.saddle.u);
    }
    EXPECT_GE(numeric::wilson(none.held, kStrings, 0.99).high, 0.95);
    std::printf("second move within 1.96 u of none: %d of %d\n", none.held, kStrings);
}

TEST(ResponseFit, RefusesAWornString) {
    const auto path = path_on({});
    numeric::Random random(2);
    Listening heard;
    listen(heard, path, {prior(), 0}, 0.4, random);
    const auto reason = [&](auto change) {
        Listening changed = heard;
        change(changed);
        const auto fit = good(fit_response(path, prior(), changed));
        EXPECT_EQ(fit.response.has_value(), !fit.check.refused());
        return fit.check;
    };
    const double b = inharmonicity_of(prior().eps);
    EXPECT_FALSE(reason([](Listening&) {}).refused());
    EXPECT_FALSE(reason([&](Listening& h) { h.overtones.inharmonicity = Estimate{1.2 * b, 0.1 * b}; }).refused());
    const auto high = reason([&](Listening& h) { h.overtones.inharmonicity = Estimate{3 * b, 0.1 * b}; });
    EXPECT_EQ(high.reason, Refusal::inharmonicity_high);
    EXPECT_DOUBLE_EQ(high.found, 3 * b);
    EXPECT_NEAR(high.limit, b * (1 + 3 * std::hypot(0.1, 0.3)), 1e-9);
    EXPECT_EQ(reason([&](Listening& h) {
                  h.overtones.inharmonicity = Estimate{0.01 * b, 0.001 * b};
              }).reason,
              Refusal::inharmonicity_low);
    const auto scatter = reason([](Listening& h) { h.overtones.scatter_cents = 5; });
    EXPECT_EQ(scatter.reason, Refusal::partials_scatter);
    EXPECT_EQ(scatter.limit, kMostScatter);
    const auto off = reason([](Listening& h) { h.cents[4].cents += 6; });  // one fret alone off by 15 u
    EXPECT_EQ(off.reason, Refusal::cents_off_model);
    EXPECT_GT(off.found, off.limit);
    // Sharp everywhere by 20 cents more than strings can be.
    EXPECT_EQ(reason([](Listening& h) {
                  for (std::size_t i = 1; i < h.cents.size(); ++i) h.cents[i].cents += 20;
              }).reason,
              Refusal::cents_off_model);
}

TEST(ResponseFit, RefusesBadInputByName) {
    const auto path = path_on({});
    const auto error = [&](auto change) {
        Listening heard;
        heard.cents = {{1, 1, 0.5}, {12, 5, 0.5}};
        Response p = prior();
        change(heard, p);
        const auto fit = fit_response(path, p, heard);
        return fit ? std::string("none") : fit.error().path;
    };
    EXPECT_EQ(error([](Listening&, Response&) {}), "none");
    EXPECT_EQ(error([](Listening& h, Response&) { h.cents[1].fret = 30; }), "cents/1/fret");
    EXPECT_EQ(error([](Listening& h, Response&) { h.cents[1].u = 0; }), "cents/1/u");
    EXPECT_EQ(error([](Listening& h, Response&) { h.cents[0].cents = NAN; }), "cents/0/cents");
    EXPECT_EQ(error([](Listening& h, Response&) { h.cents = {{0, 1, 0.5}}; }), "cents");
    EXPECT_EQ(error([](Listening& h, Response&) { h.u_open = -1; }), "u");
    EXPECT_EQ(error([](Listening&, Response& p) { p.kappa = 0; }), "prior");
}

RC_GTEST_PROP(ResponseFit, WhateverIsHeardTheAnswerIsFinite, ()) {
    const auto path = path_on({});
    Listening heard;
    const int n = *rc::gen::inRange(2, 12);
    for (int i = 0; i < n; ++i) {
        heard.cents.push_back(
            {*rc::gen::inRange(0, 23), *rc::gen::inRange(-200, 201) * 1.0, *rc::gen::inRange(1, 50) * 0.1});
    }
    const auto fit = fit_response(path, prior(), heard);
    if (!fit) return;
    RC_ASSERT(std::isfinite(fit->chi_squared) && fit->chance >= 0 && fit->chance <= 1);
    if (!fit->response) return;
    RC_ASSERT(fit->response->kappa > 0 && std::isfinite(fit->response->eps));
    for (const double c : fit->response->covariance) RC_ASSERT(std::isfinite(c));
}

}  // namespace
}  // namespace fallaway::strings
