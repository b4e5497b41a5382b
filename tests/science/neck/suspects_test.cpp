// Readings that do not go together, by number and by word, one blunder and two.
#include "science/neck/suspects.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "population.h"
#include "science/neck/fit.h"
#include "science/neck/next_reading.h"
#include "simulated_neck.h"

namespace fallaway::neck {
namespace {

struct Bench {
    Layout layout = six_strings();
    NeckModel model{layout, {}};
    std::vector<Reading> readings;

    // Without errors, so that every alarm is the blunder's.
    explicit Bench(const std::vector<Reading>& places, std::uint64_t seed = 61) : readings(places) {
        numeric::Random random(seed);
        const auto neck = draw_neck(layout, {}, random);
        for (Reading& r : readings) r.low = r.high = true_value(neck, r);
    }
    void slip(std::size_t i, double by) { readings[i].low = readings[i].high += by; }
};

std::vector<std::size_t> names(const Suspicion& s) {
    std::vector<std::size_t> out;
    for (const Suspect& one : s.named) out.push_back(one.reading);
    std::sort(out.begin(), out.end());
    return out;
}

double probability(const Suspicion& s) {
    double sum = 0;
    for (const Suspect& one : s.named) sum += one.probability;
    return sum;
}

TEST(Examine, SoundReadingsRaiseNoSuspicion) {
    const Bench bench(full_places(six_strings()));
    const auto verdict = examine(bench.model, bench.readings);
    ASSERT_TRUE(verdict);
    EXPECT_TRUE(verdict->consistent());
    EXPECT_EQ(verdict->fit.state.mean, verdict->without.state.mean);
    EXPECT_TRUE(examine(bench.model, {})->consistent());
    const auto bad = examine(bench.model, std::vector<Reading>{{Kind::open_height, 9, 1, 0, 0, 0, 0, 1e-5}});
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().path, "/readings/0/string");
}

TEST(Examine, ABlunderIsNamedAndLeftOut) {
    Bench bench(full_places(six_strings()));
    const auto is_rock = [](const Reading& r) { return r.kind == Kind::rock && r.fret == 11; };
    const auto wrong =
        std::size_t(std::find_if(bench.readings.begin(), bench.readings.end(), is_rock) - bench.readings.begin());
    bench.slip(wrong, 0.5e-3);
    const auto verdict = examine(bench.model, bench.readings);
    ASSERT_EQ(verdict->suspicions.size(), 1U);
    const Suspicion& suspicion = verdict->suspicions.front();
    EXPECT_EQ(names(suspicion), std::vector{wrong});
    EXPECT_EQ(suspicion.repeats, wrong);
    EXPECT_TRUE(same_place(suspicion.decider, bench.readings[wrong]));
    EXPECT_EQ(suspicion.decider.low, 0);
    EXPECT_FALSE(verdict->fit.consistent);
    EXPECT_LT(verdict->fit.p, 1e-6);
    auto rest = bench.readings;
    rest.erase(rest.begin() + std::ptrdiff_t(wrong));
    EXPECT_EQ(verdict->without.state.mean, fit(bench.model, rest)->state.mean);
    EXPECT_TRUE(verdict->without.consistent);
}

// Two heights over fret 12 of one string .5 mm apart: nothing else says which is right.
TEST(Examine, TwoThatDisagreeAreNamedTogetherWithTheRepeatThatDecides) {
    auto places = basic_places(six_strings());
    const std::size_t first = 10;  // string 2 at fret 12
    places.push_back(places[first]);
    Bench bench(places);
    bench.slip(first, -0.25e-3);
    bench.slip(places.size() - 1, 0.25e-3);
    const auto verdict = examine(bench.model, bench.readings);
    ASSERT_EQ(verdict->suspicions.size(), 1U);
    const Suspicion& suspicion = verdict->suspicions.front();
    EXPECT_EQ(names(suspicion), (std::vector<std::size_t>{first, places.size() - 1}));
    EXPECT_GE(probability(suspicion), 0.95);
    ASSERT_TRUE(suspicion.repeats);
    EXPECT_TRUE(same_place(suspicion.decider, bench.readings[first]));

    // The same worked out by drawing: who slipped, what the repeat shows, what is left unknown. n 20,000, seed 62.
    numeric::Random random(62);
    metrology::Uncertain believed[2];
    for (const std::size_t h : {0U, 1U}) {
        auto rest = bench.readings;
        rest.erase(rest.begin() + std::ptrdiff_t(h == 0 ? first : places.size() - 1));
        believed[h] = read(fit(bench.model, rest)->state, bench.model.open_height(2, 12));
    }
    const auto density = [&](double y, const metrology::Uncertain& b) {
        const double sd = std::hypot(b.u, suspicion.decider.sd);
        return std::exp(-(y - b.value) * (y - b.value) / (2 * sd * sd)) / sd;
    };
    const double p[2]{
        suspicion.named[0].reading == first ? suspicion.named[0].probability : suspicion.named[1].probability,
        suspicion.named[0].reading == first ? suspicion.named[1].probability : suspicion.named[0].probability};
    const auto entropy = [](double q) {
        return q > 0 && q < 1 ? -q * std::log2(q) - (1 - q) * std::log2(1 - q) : 0;
    };
    constexpr int kDraws = 20'000;
    double left = 0;
    for (int i = 0; i < kDraws; ++i) {
        const auto& b = believed[random.uniform() * (p[0] + p[1]) < p[0] ? 0 : 1];
        const double y = b.value + std::hypot(b.u, suspicion.decider.sd) * random.normal();
        const double f0 = p[0] * density(y, believed[0]);
        left += entropy(f0 / (f0 + p[1] * density(y, believed[1]))) / kDraws;
    }
    const double unknown = entropy(p[0] / (p[0] + p[1]));
    std::printf("bits unknown %.3f, told by the repeat %.3f, by drawing %.3f (n %d, seed 62)\n", unknown,
                suspicion.bits, unknown - left, kDraws);
    EXPECT_NEAR(suspicion.bits, unknown - left, 0.02);
    EXPECT_GT(suspicion.bits, 0.9 * unknown);

    // The repeat settles it: with it the wrong one stands alone.
    auto settled = bench.readings;
    settled.push_back(with_number(suspicion.decider, bench.readings.back().low, Tools{}.height));
    const auto after = examine(bench.model, settled);
    ASSERT_EQ(after->suspicions.size(), 1U);
    EXPECT_EQ(names(after->suspicions.front()), std::vector{first});
}

TEST(Examine, TwoBlundersAreFoundOneAfterTheOther) {
    Bench bench(full_places(six_strings()));
    bench.slip(0, 0.5e-3);    // relief, treble side
    bench.slip(14, -0.4e-3);  // a nut gap
    const auto verdict = examine(bench.model, bench.readings);
    ASSERT_EQ(verdict->suspicions.size(), 2U);
    EXPECT_EQ(names(verdict->suspicions[0]), std::vector<std::size_t>{0});
    EXPECT_EQ(names(verdict->suspicions[1]), std::vector<std::size_t>{14});
    EXPECT_EQ(verdict->suspicions[1].repeats, 14U);
    EXPECT_EQ(verdict->without.beside.size(), bench.readings.size() - 2);
}

TEST(Examine, AWordThatCannotBeIsSuspected) {
    const NeckModel model(six_strings(), {});
    // The leaf says the crown stands .06 low, the ear heard it click. A leaf that slips seldom ends where a crown
    // may well be; an ear that slips says the other word.
    const std::vector<Reading> readings{with_number({Kind::rock, kCentre, 9}, -0.06e-3, {0.01e-3, 0.5}),
                                        rocker_word(kCentre, 9, true), rocker_word(kCentre, 5, false)};
    const auto verdict = examine(model, readings);
    ASSERT_EQ(verdict->suspicions.size(), 1U);
    EXPECT_EQ(names(verdict->suspicions.front()), std::vector<std::size_t>{1});
    EXPECT_EQ(verdict->suspicions.front().decider.low, kClickFrom);  // a word keeps its edges
    const std::vector<Reading> sound{readings[0], rocker_word(kCentre, 9, false)};
    EXPECT_TRUE(examine(model, sound)->consistent());
}

TEST(Examine, TwoWordsThatDisagreeAreNamedTogether) {
    const NeckModel model(six_strings(), {});
    const std::vector<Reading> readings{wire_word(4, Wire::lifts), wire_word(4, Wire::loose),
                                        wire_word(3, Wire::right)};
    const auto verdict = examine(model, readings);
    ASSERT_EQ(verdict->suspicions.size(), 1U);
    const Suspicion& suspicion = verdict->suspicions.front();
    EXPECT_EQ(names(suspicion), (std::vector<std::size_t>{0, 1}));
    // Slots lie over the zero-fret height more often than under it.
    EXPECT_EQ(suspicion.named.front().reading, 0U);
    EXPECT_EQ(suspicion.decider.string, 4);
    EXPECT_GT(suspicion.bits, 0.2);
}

// A proud fret, a high action all over, a low slot, a bent neck: no reading is to blame.
TEST(Examine, AnUnusualInstrumentIsNoBlunder) {
    const Layout layout = six_strings();
    const NeckModel model(layout, {});
    numeric::Random random(63);
    const auto examined = [&](auto change) {
        auto neck = draw_neck(layout, {}, random);
        change(neck);
        return *examine(model, take_all(neck, full_places(layout), random));
    };
    const auto proud = examined([](SimulatedNeck& n) { n.crowns[9] = 0.25e-3; });
    EXPECT_EQ(proud.unusual, std::vector({Unknown{What::crown, 9}}));
    EXPECT_TRUE(proud.consistent());
    EXPECT_NEAR(read(proud.fit.state, model.unknown({What::crown, 9})).value, 0.25e-3, 0.025e-3);
    const auto high = examined([](SimulatedNeck& n) {
        for (double& a : n.actions) a += 2e-3;
    });
    EXPECT_EQ(high.unusual, std::vector({Unknown{What::action, kAll}}));
    EXPECT_TRUE(high.consistent());
    const auto low = examined([](SimulatedNeck& n) { n.slots[2] = -0.35e-3; });
    EXPECT_EQ(low.unusual, std::vector({Unknown{What::slot, 2}}));
    EXPECT_TRUE(low.consistent());
    const auto bent = examined([](SimulatedNeck& n) { n.relief = 0.9e-3; });
    EXPECT_EQ(bent.unusual, std::vector({Unknown{What::relief, 0}}));
    EXPECT_TRUE(bent.consistent());
}

// A lone reading of what may well be is believed, one of what cannot be is not.
TEST(Examine, ALoneReadingIsBelievedWithinReason) {
    const NeckModel model(six_strings(), {});
    const auto verdict = [&](const Reading& place, double value) {
        return *examine(model, std::vector{with_number(place, value, {0.03e-3, 1})});
    };
    const Reading action{Kind::open_height, 0, 12};
    EXPECT_TRUE(verdict(action, 3.5e-3).consistent());
    EXPECT_EQ(verdict(action, 3.5e-3).unusual.size(), 1U);
    EXPECT_FALSE(verdict(action, 17e-3).consistent());
    const Reading rock{Kind::rock, kCentre, 9};
    EXPECT_TRUE(verdict(rock, 0.2e-3).consistent());
    EXPECT_FALSE(verdict(rock, 1.2e-3).consistent());
}

// Tables of the normal distribution: two-sided .01, .001 and .0001.
TEST(Fit, CriticalWIsOneInAHundredOverAll) {
    EXPECT_NEAR(critical_w(1), 2.5758, 1e-4);
    EXPECT_NEAR(critical_w(0), 2.5758, 1e-4);
    EXPECT_NEAR(critical_w(10), 3.2905, 1e-4);
    EXPECT_NEAR(critical_w(100), 3.8906, 1e-4);
}

}  // namespace
}  // namespace fallaway::neck
