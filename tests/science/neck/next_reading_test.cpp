// What the next reading is expected to tell, against fits that took it.
#include "science/neck/next_reading.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "science/neck/clearances.h"
#include "science/neck/fit.h"
#include "science/numeric/statistics.h"
#include "simulated_neck.h"

namespace fallaway::neck {
namespace {

double rms_u(const NeckModel& model, const numeric::Gaussian& state, const std::vector<Clearance>& of) {
    double sum = 0;
    for (const Clearance& c : of) {
        sum += numeric::variance_of(state, model.fretted_height(c.string, c.held, c.over));
    }
    return std::sqrt(sum / double(of.size()));
}

TEST(NextReading, TellsWhatAFitWithItWouldKnow) {
    numeric::Random random(71);
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    const auto taken = take_all(draw_neck(layout, {}, random), basic_places(layout), random);
    const auto fitted = fit(model, taken);
    const auto tight = binding(clearances(model, fitted->state), 12);
    const auto proposals = next_readings(model, fitted->state, taken, 10);
    ASSERT_EQ(proposals->size(), 10U);
    auto readings = taken;
    double before = rms_u(model, fitted->state, tight);
    for (const Proposal& p : *proposals) {
        EXPECT_NEAR(p.u_before, before, 1e-11);
        readings.push_back(with_number(p.reading, 0.1e-3, {p.reading.sd, p.reading.minutes}));
        before = rms_u(model, fit(model, readings)->state, tight);
        EXPECT_NEAR(p.u_after, before, 1e-11);
        EXPECT_NEAR(p.gain * p.reading.minutes, p.u_before * p.u_before - p.u_after * p.u_after, 1e-17);
        for (const Reading& t : taken) EXPECT_FALSE(same_place(p.reading, t));
    }
}

TEST(NextReading, NoOtherWouldTellMoreAMinute) {
    const Layout layout = fanned();
    const NeckModel model(layout, {});
    const auto tight = binding(clearances(model, model.prior()), 12);
    const auto first = next_readings(model, model.prior(), {}, 1);
    ASSERT_TRUE(first);
    ASSERT_EQ(first->size(), 1U);
    const double start = rms_u(model, model.prior(), tight);
    for (const Reading& r : usual_readings(layout)) {
        const double after = rms_u(model, fit(model, std::vector{r})->state, tight);
        EXPECT_LE((start * start - after * after) / r.minutes, first->front().gain * (1 + 1e-9));
    }
}

// From nothing read to everything read, on every kind of instrument: the list ends when nothing is left.
TEST(NextReading, GoesOnUntilNothingIsLeft) {
    Layout zero = six_strings();
    zero.zero_fret = true;
    Layout fretless = six_strings();
    fretless.fretted = false;
    fretless.crown_height = 0;
    Layout one = six_strings();
    one.strings.resize(1);
    Layout few = six_strings();
    few.frets = 2;
    Layout single = six_strings();
    single.frets = 1;
    for (const Layout& layout : {six_strings(), fanned(), zero, fretless, one, few, single}) {
        const NeckModel model(layout, {});
        const auto usual = usual_readings(layout);
        ASSERT_TRUE(check(layout, usual)) << check(layout, usual).error().message;
        const auto all = next_readings(model, model.prior(), {}, 1000);
        ASSERT_TRUE(all);
        EXPECT_GT(all->size(), 0U);
        EXPECT_LE(all->size(), usual.size());
        for (std::size_t i = 0; i < all->size(); ++i) {
            EXPECT_LT((*all)[i].u_after, (*all)[i].u_before);
            EXPECT_NEAR((*all)[i].u_before, i > 0 ? (*all)[i - 1].u_after : (*all)[0].u_before, 1e-12);
        }
        EXPECT_EQ(next_readings(model, fit(model, usual)->state, usual, 5)->size(), 0U);
    }
}

TEST(NextReading, FretlessHasNoCrownsToRead) {
    Layout layout = six_strings();
    layout.fretted = false;
    for (const Reading& r : usual_readings(layout)) {
        EXPECT_TRUE(r.kind == Kind::open_height || r.kind == Kind::gap);
    }
}

// Fourteen chosen readings against the fourteen everybody takes, by what the whole neck gains.
TEST(NextReading, ChosenReadingsBeatTheUsualOnes) {
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    const auto basic = basic_places(layout);
    double minutes = 0;
    for (const Reading& r : basic) minutes += r.minutes;
    std::vector<Reading> chosen;
    double spent = 0;
    const auto proposals = next_readings(model, model.prior(), {}, 100);
    for (const Proposal& p : *proposals) {
        if (spent + p.reading.minutes > minutes) break;
        spent += p.reading.minutes;
        chosen.push_back(p.reading);
    }
    const auto tight = binding(clearances(model, model.prior()), 12);
    const double usual = rms_u(model, fit(model, basic)->state, tight);
    const double better = rms_u(model, fit(model, chosen)->state, tight);
    std::printf("rms u of what binds after %.2f min: the basic 14 %.4f mm, %zu chosen %.4f mm\n", minutes,
                usual * 1e3, chosen.size(), better * 1e3);
    EXPECT_LT(better, usual);
}

}  // namespace
}  // namespace fallaway::neck
