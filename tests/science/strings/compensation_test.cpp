#include "science/strings/compensation.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "science/numeric/random.h"
#include "string_fixture.h"

namespace fallaway::strings {
namespace {

Response third_string() {
    Response r = exactly(397.4, 0.0033225);
    r.covariance[0] = 10 * 10;
    r.covariance[5] = std::pow(0.1 * r.eps, 2);
    return r;
}

double cost(const StringPath& path, const Response& r, const Moves& moves) {
    double sum = 0;
    for (const double c : fretted_cents(path, r, moves)) sum += c * c;
    return sum;
}

// The published closed form by published strings: within its first order of the full model's best.
TEST(Compensation, ClosedFormNearsTheBest) {
    const double scale = 0.65;
    const auto path = good(path_of(flat_heights(scale, 1e-3, 4e-3, 12)));
    std::vector<double> frets, stretches;
    for (const FrettedPath& fret : path.frets) {
        frets.push_back(fret.fret);
        stretches.push_back(stretched_by(path, static_cast<std::size_t>(fret.fret - 1)) / path.open.length());
    }
    const Moves first = good(closed_form_setbacks(scale, 48.2, 0.0019, frets, stretches));
    EXPECT_NEAR(first.saddle, 1.4973e-3, 1e-7);  // the same sums in an independent program
    EXPECT_NEAR(first.nut, -0.35715e-3, 1e-8);
    Task task;
    task.nut = kFreeTravel;
    const auto best = good(compensate(path, exactly(48.2, 0.0019), task));
    EXPECT_NEAR(best.saddle.value, first.saddle, 0.05e-3);
    EXPECT_NEAR(best.nut.value, first.nut, 0.02e-3);
}

RC_GTEST_PROP(Compensation, NothingNearbyIsBetter, ()) {
    Bench bench;
    bench.action = *rc::gen::inRange(8, 40) * 1e-4;
    bench.nut_over = *rc::gen::inRange(0, 6) * 1e-4;
    const auto path = path_on(bench);
    const Response r = exactly(*rc::gen::inRange(30, 500), *rc::gen::inRange(0, 700) * 1e-5);
    Task task;
    task.saddle = {*rc::gen::inRange(-50, 0) * 1e-4, *rc::gen::inRange(0, 50) * 1e-4};
    task.nut = Travel{*rc::gen::inRange(-10, 0) * 1e-4, *rc::gen::inRange(0, 10) * 1e-4};
    const auto best = good(compensate(path, r, task));
    const double s = best.saddle.value, n = best.nut.value;
    RC_ASSERT(s >= task.saddle.low && s <= task.saddle.high && n >= task.nut->low && n <= task.nut->high);
    const double here = cost(path, r, {s, n});
    for (const double ds : {-2e-5, 0.0, 2e-5}) {
        for (const double dn : {-2e-5, 0.0, 2e-5}) {
            const double s2 = s + ds, n2 = n + dn;
            const bool inside =
                s2 >= task.saddle.low && s2 <= task.saddle.high && n2 >= task.nut->low && n2 <= task.nut->high;
            if (inside) RC_ASSERT(cost(path, r, {s2, n2}) >= here - 1e-9);
        }
    }
    for (const FretCents& fret : best.frets)
        RC_ASSERT(std::isfinite(fret.after.value) && std::isfinite(fret.after.u));
}

TEST(Compensation, AfterTheMoveThereIsNoneLeft) {
    const auto path = path_on({});
    Task task;
    task.nut = kFreeTravel;
    const auto first = good(compensate(path, third_string(), task));
    const auto again = good(compensate(moved(path, {first.saddle.value, first.nut.value}), third_string(), task));
    EXPECT_LT(std::abs(again.saddle.value), 1e-8);
    EXPECT_LT(std::abs(again.nut.value), 1e-8);
    EXPECT_NEAR(again.rms_before, first.rms_after, 1e-6);
    EXPECT_GT(first.saddle.u, 0.1e-3);
}

TEST(Compensation, SaysWhichLimitHoldsItBack) {
    const auto path = path_on({});
    Task task;
    task.saddle = {-1e-3, 2e-3};
    const auto held = good(compensate(path, third_string(), task));
    EXPECT_EQ(held.saddle_limit, Limit::high);
    EXPECT_EQ(held.saddle.value, 2e-3);
    EXPECT_EQ(held.saddle.u, 0);  // at its end whatever the string
    EXPECT_EQ(held.nut_limit, Limit::none);
    EXPECT_GT(held.frets[11].after.value, 4);
    task.saddle = {-1e-3, 6e-3};
    EXPECT_EQ(good(compensate(path, third_string(), task)).saddle_limit, Limit::none);
}

TEST(Compensation, BothWaysAndTheNutHelps) {
    Task task;
    task.nut = Travel{-1e-3, 0};
    const auto both = good(compensate_both_ways(path_on({}), third_string(), task));
    ASSERT_TRUE(both.with_nut.has_value());
    EXPECT_EQ(both.saddle_only.nut.value, 0);
    EXPECT_LT(both.with_nut->rms_after, both.saddle_only.rms_after);
    EXPECT_LT(both.saddle_only.rms_after, both.saddle_only.rms_before);
    task.nut.reset();
    EXPECT_FALSE(good(compensate_both_ways(path_on({}), third_string(), task)).with_nut.has_value());
}

TEST(Compensation, WeightsAndTargetsRule) {
    Task twelfth;
    twelfth.wishes = {{12, 1, 0}};
    EXPECT_NEAR(good(compensate(path_on({}), third_string(), twelfth)).frets[11].after.value, 0, 1e-6);
    twelfth.wishes = {{12, 1, -2}};
    EXPECT_NEAR(good(compensate(path_on({}), third_string(), twelfth)).frets[11].after.value, -2, 1e-6);
    Task low;
    low.wishes = {{1, 10, 0}, {2, 10, 0}, {3, 10, 0}, {12, 1, 0}};
    Task high;
    high.wishes = {{1, 1, 0}, {12, 10, 0}, {17, 10, 0}};
    const auto by_low = good(compensate(path_on({.nut_over = 0.3e-3}), third_string(), low));
    const auto by_high = good(compensate(path_on({.nut_over = 0.3e-3}), third_string(), high));
    EXPECT_LT(std::abs(by_low.frets[1].after.value), std::abs(by_high.frets[1].after.value));
    EXPECT_LT(std::abs(by_high.frets[16].after.value), std::abs(by_low.frets[16].after.value));
}

// 2000 strings drawn from the response, seed 3: moves scatter as u says, and so do the cents after the move.
TEST(Compensation, UIsWhatDrawsGive) {
    numeric::Random random(3);
    const auto path = path_on({});
    const Response r = third_string();
    const auto told = good(compensate(path, r, {}));
    constexpr int kDraws = 2000;
    double moves = 0, cents = 0;
    for (int i = 0; i < kDraws; ++i) {
        Response drawn = exactly(r.kappa + 10 * random.normal(), r.eps * (1 + 0.1 * random.normal()));
        moves += std::pow(good(compensate(path, drawn, {})).saddle.value - told.saddle.value, 2);
        cents += std::pow(fretted_cents(path, drawn, {told.saddle.value, 0})[11] - told.frets[11].after.value, 2);
    }
    const double relative = 2.6 / std::sqrt(2.0 * kDraws);  // 99 % of a standard deviation from so many draws
    EXPECT_NEAR(std::sqrt(moves / kDraws) / told.saddle.u, 1, relative);
    EXPECT_NEAR(std::sqrt(cents / kDraws) / told.frets[11].after.u, 1, relative);
}

TEST(Compensation, TunerAndHandAreCounted) {
    Task task;
    task.u_tuner = 1;
    task.u_saddle_placing = 0.1e-3;
    const auto out = good(compensate(path_on({}), exactly(397, 0.0033), task));
    EXPECT_NEAR(out.frets[11].after.u, 0.267, 0.01);  // 2.67 cents a millimetre
    EXPECT_NEAR(out.frets[11].u_reading, std::sqrt(2 + 0.267 * 0.267), 0.01);
    EXPECT_GT(out.rms_expected, out.rms_after);
}

TEST(Compensation, RefusesByName) {
    const auto path = [](auto change) {
        Task task;
        task.nut = kFreeTravel;
        change(task);
        const auto made = compensate(path_on({}), third_string(), task);
        return made ? std::string("none") : made.error().path;
    };
    EXPECT_EQ(path([](Task&) {}), "none");
    EXPECT_EQ(path([](Task& t) { t.wishes = {{30, 1, 0}}; }), "wishes/0/fret");
    EXPECT_EQ(path([](Task& t) { t.wishes = {{1, 1, 0}, {12, -1, 0}}; }), "wishes/1/weight");
    EXPECT_EQ(path([](Task& t) { t.wishes = {{1, 1, NAN}}; }), "wishes/0/target");
    EXPECT_EQ(path([](Task& t) { t.wishes = {{12, 1, 0}}; }), "wishes");
    EXPECT_EQ(path([](Task& t) { t.wishes = {{12, 0, 0}}; }), "wishes");
    EXPECT_EQ(path([](Task& t) { t.saddle = {1e-3, 2e-3}; }), "saddle");
    EXPECT_EQ(path([](Task& t) { t.nut = Travel{-1, 0}; }), "nut");
    EXPECT_EQ(
        closed_form_setbacks(0.65, 50, 0.002, std::vector<double>{1}, std::vector<double>{1e-5}).error().path,
        "frets");
}

}  // namespace
}  // namespace fallaway::strings
