// One neck from its readings. Heights, posterior and clearances are each worked out a second time: point by point
// with heights.h, and from normal equations written anew here.
#include "science/neck/fit.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "population.h"
#include "science/neck/clearances.h"
#include "simulated_neck.h"

namespace fallaway::neck {
namespace {

// A neck's unknowns in the model's order.
numeric::Gaussian truth_of(const NeckModel& model, const SimulatedNeck& neck) {
    numeric::Gaussian truth = model.prior();
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const Unknown& u = model.unknowns()[i];
        switch (u.what) {
            case What::relief:
                truth.mean[i] = neck.relief;
                break;
            case What::kink:
                truth.mean[i] = neck.kink;
                break;
            case What::crown:
                truth.mean[i] = neck.crowns[std::size_t(u.at)];
                break;
            case What::tilt:
                truth.mean[i] = neck.tilts[std::size_t(u.at)];
                break;
            case What::slot:
                truth.mean[i] = neck.slots[std::size_t(u.at)];
                break;
            case What::action:
                truth.mean[i] = neck.actions[std::size_t(u.at)];
                break;
            case What::skew:
            case What::hump:
                ADD_FAILURE() << "not drawn";
                break;
        }
    }
    return truth;
}

Prior with_tilt() {
    Prior prior;
    prior.tilt = {0, 0.02e-3};
    return prior;
}

std::vector<Reading> one_of_each(const Layout& layout) {
    const int last = int(layout.strings.size()) - 1;
    std::vector<Reading> all{{Kind::open_height, 0, 1},
                             {Kind::open_height, last, layout.frets},
                             {Kind::fretted_height, 1, 9, 5},
                             {Kind::fretted_height, last, 2, 1},
                             {Kind::gap, 0, 8, 1, layout.frets},
                             {Kind::gap, last, 6, 1, 14},
                             {Kind::gap, kCentre, 5, 2, 9},
                             {Kind::rock, kCentre, 7},
                             {Kind::rock, 0, 3},
                             {Kind::crown_height, kCentre, 4},
                             {Kind::crown_height, last, 12},
                             {Kind::nut_wire, 2}};
    if (!layout.zero_fret) all.push_back({Kind::nut_gap, 1, 1, 3});
    return all;
}

Layout zero_fret() {
    Layout layout = six_strings();
    layout.zero_fret = true;
    return layout;
}

Layout fretless() {
    Layout layout = six_strings();
    layout.strings.resize(4);
    layout.fretted = false;
    layout.crown_height = 0;
    return layout;
}

TEST(NeckModel, FormsAreTheHeightsPointByPoint) {
    numeric::Random random(21);
    for (const Layout& layout : {six_strings(), fanned(), zero_fret(), fretless()}) {
        const NeckModel model(layout, with_tilt());
        for (int round = 0; round < 5; ++round) {
            const auto neck = draw_neck(layout, with_tilt(), random);
            const auto truth = truth_of(model, neck);
            for (const Reading& r : one_of_each(layout)) {
                EXPECT_NEAR(numeric::mean_of(truth, form_of(model, r)), true_value(neck, r), 1e-12)
                    << int(r.kind) << " string " << r.string << " fret " << r.fret;
            }
        }
    }
}

TEST(NeckModel, ReliefWithoutAFretIsReadWhereTheBeamLiesDeepest) {
    const NeckModel model(six_strings(), {});
    EXPECT_EQ(model.deepest_fret(1, 22), 8);  // the table of shapes in the reference: 1.00 at fret 8
    EXPECT_EQ(form_of(model, {Kind::gap, 0, 0, 1, 22}).weights, model.gap(0, 1, 22, 8).weights);
}

// What stays when a plane is added to crowns, nut and saddle: every clearance and every reading but none of
// heights.
RC_GTEST_PROP(NeckModel, APlaneChangesNoClearance, ()) {
    numeric::Random random(*rc::gen::arbitrary<std::uint64_t>());
    const Layout layout = *rc::gen::element(six_strings(), fanned(), zero_fret(), fretless());
    const NeckModel model(layout, with_tilt());
    numeric::Gaussian state = model.prior();
    const double up = random.rectangular(-1e-3, 1e-3);
    // On a fanned board a crown stands at as many x as there are strings.
    const bool one_place = layout.strings[0].x_nut == layout.strings[1].x_nut;
    const double along = one_place ? random.normal() * 1e-3 : 0;
    const double across = random.normal() * 1e-3;
    const auto plane = [&](int string, double x) { return up + along * x + across * string_y(layout, string, x); };
    const int last = int(layout.strings.size()) - 1;
    for (std::size_t i = 0; i < state.size(); ++i) {
        const Unknown& u = model.unknowns()[i];
        const double x = u.what == What::crown || u.what == What::tilt ? fret_place(layout, 0, u.at) : 0;
        if (u.what == What::crown) state.mean[i] += up + along * x;
        if (u.what == What::tilt) {
            const auto y = [&](int s) { return string_y(layout, s, fret_place(layout, s, u.at)); };
            state.mean[i] += across * (y(0) - y(last)) / 2;
        }
        if (u.what == What::slot) state.mean[i] += plane(u.at, 0);
        if (u.what == What::action) state.mean[i] += plane(u.at, fret_place(layout, u.at, 12));
    }
    const auto before = clearances(model, model.prior());
    const auto after = clearances(model, state);
    for (std::size_t i = 0; i < before.size(); ++i) {
        RC_ASSERT(std::abs(before[i].value - after[i].value) < 1e-12);
        RC_ASSERT(std::abs(before[i].u - after[i].u) < 1e-12);
    }
}

Layout mirrored(Layout layout) {
    std::reverse(layout.strings.begin(), layout.strings.end());
    for (StringLine& line : layout.strings) {
        line.y_nut *= -1;
        line.y_saddle *= -1;
    }
    return layout;
}

RC_GTEST_PROP(Fit, AMirroredNeckFitsToTheMirrorImage, ()) {
    numeric::Random random(*rc::gen::arbitrary<std::uint64_t>());
    const Layout layout = *rc::gen::element(six_strings(), fanned());
    const int last = int(layout.strings.size()) - 1;
    const auto neck = draw_neck(layout, {}, random);
    auto readings = take_all(neck, full_places(layout), random);
    const auto one = clearances(NeckModel(layout, {}), fit(NeckModel(layout, {}), readings)->state);
    for (Reading& r : readings) {
        if (r.string != kCentre) r.string = last - r.string;
    }
    const NeckModel other(mirrored(layout), {});
    const auto two = clearances(other, fit(other, readings)->state);
    const std::size_t each = one.size() / layout.strings.size();
    for (std::size_t i = 0; i < one.size(); ++i) {
        const std::size_t image = (std::size_t(last) - i / each) * each + i % each;
        RC_ASSERT(std::abs(one[i].value - two[image].value) < 1e-10);
        RC_ASSERT(std::abs(one[i].u - two[image].u) < 1e-10);
    }
}

RC_GTEST_PROP(Fit, OrderDoesNotMatterAndMoreIsNeverLess, ()) {
    numeric::Random random(*rc::gen::arbitrary<std::uint64_t>());
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    const auto neck = draw_neck(layout, {}, random);
    const auto numbers = take_all(neck, full_places(layout), random);
    auto readings = with_words(numbers, neck, random);
    const auto forth = fit(model, readings);
    std::reverse(readings.begin(), readings.end());
    const auto back = fit(model, readings);
    RC_ASSERT(forth->converged);
    RC_ASSERT(back->converged);
    for (std::size_t i = 0; i < forth->state.size(); ++i) {
        RC_ASSERT(std::abs(forth->state.mean[i] - back->state.mean[i]) < 1e-11);
    }
    const std::size_t some = *rc::gen::inRange<std::size_t>(0, numbers.size());
    const auto fewer = clearances(model, fit(model, std::span(numbers).first(some))->state);
    const auto more = clearances(model, fit(model, std::span(numbers).first(some + 1))->state);
    for (std::size_t i = 0; i < fewer.size(); ++i) RC_ASSERT(more[i].u <= fewer[i].u * (1 + 1e-9));
}

// (J' W J + P0^-1) x = J' W (y - c) + P0^-1 m0 by Gaussian elimination with pivots, in units of the prior's sd.
struct Dense {
    std::vector<double> mean;
    std::vector<double> sd;
};
Dense normal_equations(const NeckModel& model, const std::vector<Reading>& readings) {
    const auto& prior = model.prior();
    const std::size_t n = prior.size();
    std::vector<double> unit(n);
    for (std::size_t i = 0; i < n; ++i) unit[i] = std::sqrt(prior.covariance[i * n + i]);
    // Left: the information; right: its vector, then the unit matrix, which becomes the inverse.
    std::vector<std::vector<double>> a(n, std::vector<double>(2 * n + 1));
    for (std::size_t i = 0; i < n; ++i) a[i][i] = a[i][n + 1 + i] = 1;
    for (const Reading& r : readings) {
        const Form form = form_of(model, r);
        double off = r.low - form.constant;
        for (std::size_t i = 0; i < n; ++i) off -= form.weights[i] * prior.mean[i];
        for (std::size_t i = 0; i < n; ++i) {
            const double g = form.weights[i] * unit[i] / (r.sd * r.sd);
            a[i][n] += g * off;
            for (std::size_t j = 0; j < n; ++j) a[i][j] += g * form.weights[j] * unit[j];
        }
    }
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k; i < n; ++i) pivot = std::abs(a[i][k]) > std::abs(a[pivot][k]) ? i : pivot;
        std::swap(a[k], a[pivot]);
        for (std::size_t i = 0; i < n; ++i) {
            if (i == k) continue;
            const double f = a[i][k] / a[k][k];
            for (std::size_t j = k; j <= 2 * n; ++j) a[i][j] -= f * a[k][j];
        }
    }
    Dense dense;
    for (std::size_t i = 0; i < n; ++i) {
        dense.mean.push_back(prior.mean[i] + unit[i] * a[i][n] / a[i][i]);
        dense.sd.push_back(unit[i] * std::sqrt(a[i][n + 1 + i] / a[i][i]));
    }
    return dense;
}

TEST(Fit, AsTheNormalEquationsSolvedAnew) {
    numeric::Random random(31);
    for (const Layout& layout : {six_strings(), fanned()}) {
        const NeckModel model(layout, with_tilt());
        const auto neck = draw_neck(layout, with_tilt(), random);
        const auto readings = take_all(neck, full_places(layout), random);
        const auto fitted = fit(model, readings);
        const auto dense = normal_equations(model, readings);
        for (std::size_t i = 0; i < dense.mean.size(); ++i) {
            EXPECT_NEAR(fitted->state.mean[i], dense.mean[i], 1e-11);
            EXPECT_NEAR(std::sqrt(fitted->state.covariance[i * dense.mean.size() + i]), dense.sd[i], 1e-11);
        }
    }
}

TEST(Clearances, AsReadOneByOne) {
    numeric::Random random(32);
    for (const Layout& layout : {six_strings(), fanned(), zero_fret(), fretless()}) {
        const NeckModel model(layout, {});
        const auto neck = draw_neck(layout, {}, random);
        const auto fitted = fit(model, take_all(neck, basic_places(layout), random));
        const auto all = clearances(model, fitted->state);
        ASSERT_EQ(all.size(), layout.strings.size() * std::size_t(layout.frets * (layout.frets + 1) / 2));
        double least = 1;
        for (const Clearance& c : all) {
            const auto one = read(fitted->state, model.fretted_height(c.string, c.held, c.over));
            ASSERT_NEAR(c.value, one.value, 1e-13);
            ASSERT_NEAR(c.u, one.u, 1e-12);
            least = std::min(least, c.value);
        }
        EXPECT_EQ(smallest(all).value, least);
        const auto tight = binding(all, 5);
        ASSERT_EQ(tight.size(), 5U);
        const auto ratio = [](const Clearance& c) { return c.value / c.u; };
        EXPECT_TRUE(std::is_sorted(tight.begin(), tight.end(),
                                   [&](const auto& a, const auto& b) { return ratio(a) < ratio(b); }));
        for (const Clearance& c : all) EXPECT_GE(ratio(c), ratio(tight.front()));
    }
    EXPECT_EQ(smallest({}).value, 0);
}

TEST(Fit, NoReadingsIsThePrior) {
    const NeckModel model(six_strings(), {});
    const auto fitted = fit(model, {});
    ASSERT_TRUE(fitted);
    EXPECT_TRUE(fitted->converged && fitted->consistent);
    EXPECT_EQ(fitted->state.mean, model.prior().mean);
    EXPECT_EQ(fitted->p, 1);
    const auto action = read(fitted->state, model.unknown({What::action, 3}));
    EXPECT_NEAR(action.value, 1.7e-3, 1e-15);
    EXPECT_NEAR(action.u, 0.3e-3, 1e-15);
}

TEST(Fit, ThreeReadingsLeaveEveryPartDefined) {
    numeric::Random random(33);
    for (const Layout& layout : {six_strings(), fanned(), zero_fret(), fretless()}) {
        const NeckModel model(layout, {});
        const auto neck = draw_neck(layout, {}, random);
        const auto three = std::vector<Reading>{{Kind::gap, 0, 8, 1, layout.frets, 0, 0, 0.015e-3},
                                                {Kind::open_height, 0, 12, 0, 0, 0, 0, 0.05e-3},
                                                {Kind::open_height, 3, 12, 0, 0, 0, 0, 0.05e-3}};
        const auto fitted = fit(model, take_all(neck, three, random));
        ASSERT_TRUE(fitted);
        for (const Clearance& c : clearances(model, fitted->state)) {
            ASSERT_TRUE(std::isfinite(c.value));
            ASSERT_GT(c.u, 0);
            ASSERT_LT(c.u, 1e-3);
        }
        EXPECT_LT(read(fitted->state, model.open_height(0, 12)).u, 0.05e-3);
        EXPECT_GT(read(fitted->state, model.open_height(1, 12)).u, 0.2e-3);
    }
}

// A word far from where it could have been another changes nothing; one near its edge does.
TEST(Fit, WordsCountOnlyNearTheirEdge) {
    const NeckModel model(six_strings(), {});
    const std::vector<Reading> numbers{with_number({Kind::rock, kCentre, 9}, -0.15e-3, {0.012e-3, 1})};
    auto words = numbers;
    words.push_back(rocker_word(kCentre, 9, false));
    const Form rock = model.rock(kCentre, 9);
    const auto before = read(fit(model, numbers)->state, rock);
    const auto after = read(fit(model, words)->state, rock);
    EXPECT_NEAR(after.value, before.value, 1e-9);
    EXPECT_NEAR(after.u, before.u, 1e-9);
    const auto alone = read(fit(model, std::vector{rocker_word(kCentre, 9, true)})->state, rock);
    EXPECT_GT(alone.value, kClickFrom);
    EXPECT_LT(alone.u, read(model.prior(), rock).u);
}

TEST(Fit, EveryWordMovesItsHeightTheRightWay) {
    const NeckModel model(six_strings(), {});
    const auto slot = [&](const Reading& r) {
        return read(fit(model, std::vector{r})->state, model.unknown({What::slot, 2}));
    };
    EXPECT_LT(slot(wire_word(2, Wire::lifts)).value, slot(wire_word(2, Wire::right)).value);
    EXPECT_LT(slot(wire_word(2, Wire::right)).value, slot(wire_word(2, Wire::loose)).value);
    EXPECT_LT(slot(wire_word(2, Wire::right)).u, 0.02e-3);
    EXPECT_LT(slot(tap_word(2, 2, Tap::dead)).value, slot(tap_word(2, 2, Tap::just_moves)).value);
    EXPECT_LT(slot(tap_word(2, 2, Tap::just_moves)).value, slot(tap_word(2, 2, Tap::clear_gap)).value);
    // The feeler of .20 goes, that of .23 does not: as good as a number between, a little looser than it.
    const Reading place{Kind::gap, 0, 8, 1, 22};
    const Form gap = model.gap(0, 1, 22, 8);
    const auto feelers =
        read(fit(model, std::vector{with_interval(place, 0.20e-3, 0.23e-3, {0.01e-3, 1})})->state, gap);
    EXPECT_NEAR(feelers.value, 0.215e-3, 0.002e-3);
    EXPECT_NEAR(feelers.u, std::hypot(0.01e-3, 0.03e-3 / std::sqrt(12.0)), 0.002e-3);
}

TEST(Fit, ACaliperSeesTheCrownButNotItsSeat) {
    const NeckModel model(six_strings(), {});
    const Reading r = with_number({Kind::crown_height, kCentre, 9}, 1.16e-3, {1e-9, 1});
    const auto crown = read(fit(model, std::vector{r})->state, model.unknown({What::crown, 9}));
    // .06 over the nominal 1.10, prior sd .03, seat .015: .06 * .03^2/(.03^2 + .015^2).
    EXPECT_NEAR(crown.value, 0.048e-3, 1e-9);
}

TEST(Fit, SaysWhatIsWrongWithAReading) {
    const NeckModel model(six_strings(), {});
    const auto path = [&](const Reading& r) {
        const auto result = fit(model, std::vector{with_number({Kind::open_height, 0, 1}, 0, Tools{}.height), r});
        return result ? "" : result.error().path;
    };
    const Reading good{Kind::gap, 0, 8, 1, 22, 0, 0, 1e-5};
    EXPECT_EQ(path(good), "");
    const auto with = [&](auto change) {
        Reading r = good;
        change(r);
        return path(r);
    };
    EXPECT_EQ(with([](Reading& r) { r.string = 6; }), "/readings/1/string");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind::open_height, r.string = kCentre; }), "/readings/1/string");
    EXPECT_EQ(with([](Reading& r) { r.fret = 22; }), "/readings/1/fret");
    EXPECT_EQ(with([](Reading& r) { r.from = 0; }), "/readings/1/from");
    EXPECT_EQ(with([](Reading& r) { r.to = 2; }), "/readings/1/to");
    EXPECT_EQ(with([](Reading& r) { r.to = 23; }), "/readings/1/to");
    EXPECT_EQ(with([](Reading& r) { r.sd = 0; }), "/readings/1/sd");
    EXPECT_EQ(with([](Reading& r) { r.sd = NAN; }), "/readings/1/sd");
    EXPECT_EQ(with([](Reading& r) { r.minutes = 0; }), "/readings/1/minutes");
    EXPECT_EQ(with([](Reading& r) { r.low = NAN; }), "/readings/1/low");
    EXPECT_EQ(with([](Reading& r) { r.high = -1; }), "/readings/1/high");
    EXPECT_EQ(with([](Reading& r) { r.low = r.high = INFINITY; }), "/readings/1/low");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind::fretted_height, r.from = 9; }), "/readings/1/fret");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind::nut_gap, r.from = 1; }), "/readings/1/from");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind::rock, r.fret = 1; }), "/readings/1/fret");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind::crown_height, r.fret = 0; }), "/readings/1/fret");
    EXPECT_EQ(with([](Reading& r) { r.kind = Kind(99); }), "/readings/1/kind");
    const auto message = fit(model, std::vector<Reading>{{Kind::gap, 0, 8, 1, 40, 0, 0, 1e-5}}).error().message;
    EXPECT_EQ(message, "to is 40: expected 3 to 22");
}

TEST(Fit, SaysWhatIsWrongWithALayout) {
    const auto path = [](const Layout& layout) { return check(layout) ? "" : check(layout).error().path; };
    EXPECT_EQ(path(six_strings()), "");
    EXPECT_EQ(path({}), "/layout/strings");
    Layout layout = six_strings();
    layout.frets = 37;
    EXPECT_EQ(path(layout), "/layout/frets");
    layout = six_strings();
    layout.strings[2].scale = 0;
    EXPECT_EQ(path(layout), "/layout/strings/2/scale");
    layout = six_strings();
    layout.board.radius_nut = layout.board.radius_end = 0.01;  // narrower than the strings
    const auto result =
        fit(NeckModel(layout, {}), std::vector<Reading>{{Kind::open_height, 0, 1, 0, 0, 0, 0, 1e-5}});
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().path, "/layout");
}

// Tilt is an unknown only where it can be told, and then a caliper under both outer strings finds it.
TEST(Fit, TiltIsFoundWhereSidesAreRead) {
    const Layout layout = six_strings();
    EXPECT_EQ(fitting(with_tilt(), basic_places(layout)).tilt.sd, 0);
    EXPECT_EQ(fitting(with_tilt(), full_places(layout)).tilt.sd, 0);
    const Tool sharp{1e-9, 1};
    const std::vector<Reading> both{with_number({Kind::crown_height, 0, 9}, 1.13e-3, sharp),
                                    with_number({Kind::crown_height, 5, 9}, 1.07e-3, sharp)};
    const NeckModel model(layout, fitting(with_tilt(), both));
    const auto fitted = fit(model, both);
    // Half the difference is .03, prior sd .02, seats .015/sqrt(2): .03 * .02^2/(.02^2 + .015^2/2).
    EXPECT_NEAR(read(fitted->state, model.unknown({What::tilt, 9})).value, 0.03e-3 * 4 / (4 + 2.25 / 2), 1e-9);
    EXPECT_NEAR(read(fitted->state, model.unknown({What::crown, 9})).value, 0, 1e-9);
}

TEST(Fit, StateCarriesOver) {
    numeric::Random random(34);
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    const auto readings = take_all(draw_neck(layout, {}, random), full_places(layout), random);
    const auto first = fit(model, std::span(readings).first(20));
    const auto then = fit(model, std::span(readings).subspan(20), first->state);
    const auto whole = fit(model, readings);
    for (std::size_t i = 0; i < whole->state.size(); ++i) {
        EXPECT_NEAR(then->state.mean[i], whole->state.mean[i], 1e-11);
    }
}

TEST(Population, FourteenAndFiftyFourReadings) {
    constexpr std::uint64_t kSeed = 41;
    expect_sharp("14 readings", sharpness(basic_places(six_strings()), 200, kSeed), 0.045e-3, kSeed);
    expect_sharp("54 readings", sharpness(full_places(six_strings()), 200, kSeed), 0.013e-3, kSeed);
    expect_sharp("14 readings and words", sharpness(basic_places(six_strings()), 200, kSeed, true), 0.045e-3,
                 kSeed);
}

TEST(Population, BlundersAreFound) {
    expect_found(200, 42);
}

}  // namespace
}  // namespace fallaway::neck
