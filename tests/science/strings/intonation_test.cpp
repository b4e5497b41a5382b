#include "science/strings/intonation.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "science/strings/stiffness.h"
#include "string_fixture.h"

namespace fallaway::strings {
namespace {

// A string without stretch and stiffness on exact frets plays in tune.
TEST(Intonation, AnIdealStringIsInTune) {
    const auto path = good(path_of(flat_heights(0.65, 0, 0, 24)));
    for (const double cents : fretted_cents(path, exactly(0, 0))) EXPECT_NEAR(cents, 0, 1e-9);
}

// Each part of the model by itself: the geometry alone, stretch alone, ends alone.
TEST(Intonation, PartsAreWhatTheyAreNamedFor) {
    const auto path = good(path_of(flat_heights(0.65, 1e-3, 4e-3, 12)));
    const double open = path.open.length();
    for (std::size_t i = 0; i < path.frets.size(); ++i) {
        const double gamma = std::exp2(path.frets[i].fret / 12.0);
        const double sounding = path.frets[i].to_saddle.length();
        const double stretch = stretched_by(path, i) / open;
        // The pitch of a real string: f = sqrt(T/mu)/(2 l), tension up by kappa stretch, mass thinned by stretch.
        const double f_open = 1 / (2 * open);
        const double f = std::sqrt((1 + 50 * stretch) * (1 + stretch)) / (2 * sounding);
        EXPECT_NEAR(fretted_cents(path, exactly(50, 0))[i], 1200 * std::log2(f / (gamma * f_open)), 1e-9);
        // Ends: a fret clamps, so does the nut; a saddle does not. Against the exact root of the equation.
        const double eps = 0.002;
        const double e = eps * open / sounding / std::sqrt(1 + 50 * stretch);
        const double ends = 1200 * std::log2((1 + exact_end_correction(Ends::clamped_pinned, e)) /
                                             (1 + exact_end_correction(Ends::clamped_pinned, eps)));
        EXPECT_NEAR(fretted_cents(path, exactly(50, eps))[i] - fretted_cents(path, exactly(50, 0))[i], ends, 2e-3);
    }
}

TEST(Intonation, FirstOrderNearsTheFullModel) {
    const double scale = 0.65;
    const auto path = good(path_of(flat_heights(scale, 0.1e-3, 0.4e-3, 12)));
    const Moves setbacks{0.05e-3, -0.02e-3};
    const auto cents = fretted_cents(path, exactly(50, 1e-4), setbacks);
    for (const FrettedPath& fret : path.frets) {
        const auto i = static_cast<std::size_t>(fret.fret - 1);
        const double stretch = flat_stretch(scale, 0.1e-3, 0.4e-3, fret.fret);
        EXPECT_NEAR(stretch / (stretched_by(path, i) / scale), 1, 0.01);
        EXPECT_NEAR(first_order_cents(scale, 50, 1e-4, stretch, fret.fret, setbacks), cents[i], 2e-3);
    }
}

TEST(Intonation, SharperWithHigherActionAndHigherNut) {
    double last = 0;
    for (const double action : {1.25e-3, 1.5e-3, 1.75e-3, 2.0e-3, 2.5e-3}) {
        const double at_12 = fretted_cents(path_on({.action = action}), exactly(397, 0.00332))[11];
        EXPECT_GT(at_12, last);
        last = at_12;
    }
    EXPECT_NEAR(last, 16.6, 0.1);  // plain third of .017 in at 2.5 mm, computed by separate code
    last = 0;
    for (const double nut : {0.0, 0.1e-3, 0.3e-3, 0.5e-3}) {
        const double at_1 = fretted_cents(path_on({.nut_over = nut}), exactly(397, 0.00332))[0];
        EXPECT_GT(at_1, last);
        last = at_1;
    }
    EXPECT_NEAR(last, 5.1, 0.1);
}

TEST(Intonation, PressingHarderIsSharper) {
    Heights h = flat_heights(0.65, 0.5e-3, 3e-3, 12, 5e-3);
    const double light = fretted_cents(good(path_of(h)), exactly(400, 0.003))[4];
    for (Crown& crown : h.crowns) crown.below = 0.2e-3;
    EXPECT_GT(fretted_cents(good(path_of(h)), exactly(400, 0.003))[4], light + 0.5);
}

// u of heights: against heights drawn one u up and down by hand.
TEST(Intonation, DoubtsOfHeightsReachTheCents) {
    const double u = 0.05e-3;
    const auto cents_at = [](double nut) {
        return fretted_cents(path_on({.nut_over = nut}), exactly(397, 0.0033));
    };
    Heights h = flat_heights(0.65, 0.5e-3, 3e-3, 12, 5e-3);
    h.u_nut_z = u;
    const auto told = expected_cents(good(path_of(h)), exactly(397, 0.0033));
    h.u_nut_z = 0;
    h.nut_z += u;
    const auto up = fretted_cents(good(path_of(h)), exactly(397, 0.0033));
    h.nut_z -= 2 * u;
    const auto down = fretted_cents(good(path_of(h)), exactly(397, 0.0033));
    for (std::size_t i = 0; i < told.size(); ++i)
        EXPECT_NEAR(told[i].u, std::abs(up[i] - down[i]) / 2, 0.03 * told[i].u);
    EXPECT_GT(cents_at(0.1e-3)[0], cents_at(0.05e-3)[0]);
}

TEST(Intonation, SaddleMoveForCents) {
    for (const double fret : {5.0, 12.0, 17.0}) {
        EXPECT_NEAR(saddle_move_for(3, kScale, fret) * cents_per_metre(kScale, fret), -3, 1e-12);
    }
    const auto path = path_on({});
    const double before = fretted_cents(path, exactly(397, 0.0033))[11];
    const double after = fretted_cents(path, exactly(397, 0.0033), {saddle_move_for(2, kScale, 12), 0})[11];
    EXPECT_NEAR(before - after, 2, 0.04);  // first order: 2 %
}

TEST(Intonation, RefusesByName) {
    const auto path = [](auto change) {
        Heights h = flat_heights(0.65, 1e-3, 4e-3, 12);
        change(h);
        const auto made = path_of(h);
        return made ? std::string("none") : made.error().path;
    };
    EXPECT_EQ(path([](Heights&) {}), "none");
    EXPECT_EQ(path([](Heights& h) { h.saddle_x = 650; }), "saddle_x");
    EXPECT_EQ(path([](Heights& h) { h.nut_z = NAN; }), "nut_z");
    EXPECT_EQ(path([](Heights& h) { h.saddle_z = 4; }), "saddle_z");
    EXPECT_EQ(path([](Heights& h) { h.u_nut_z = -1; }), "u");
    EXPECT_EQ(path([](Heights& h) { h.crowns[3].x = 0.66; }), "crowns/3/x");
    EXPECT_EQ(path([](Heights& h) { h.crowns[3].fret = 40; }), "crowns/3/fret");
    EXPECT_EQ(path([](Heights& h) { h.crowns[3].behind = 1; }), "crowns/3/behind");
    EXPECT_EQ(path([](Heights& h) { h.crowns[3].below = -1e-3; }), "crowns/3/below");
    EXPECT_EQ(path([](Heights& h) { h.crowns[3].z = 1; }), "crowns/3/z");
}

RC_GTEST_PROP(Intonation, EveryNoteIsFinite, ()) {
    Bench bench;
    bench.scale = *rc::gen::inRange(300, 900) * 1e-3;
    bench.relief = *rc::gen::inRange(-5, 20) * 1e-4;
    bench.nut_over = *rc::gen::inRange(-2, 20) * 1e-4;
    bench.action = *rc::gen::inRange(2, 80) * 1e-4;
    bench.u_height = *rc::gen::inRange(0, 20) * 1e-5;
    Response r = exactly(*rc::gen::inRange(0, 1000), *rc::gen::inRange(0, 2000) * 1e-5);
    r.covariance[0] = std::pow(0.2 * r.kappa, 2);
    r.covariance[5] = std::pow(0.2 * r.eps, 2);
    const Moves moves{*rc::gen::inRange(-10, 10) * 1e-3, *rc::gen::inRange(-2, 2) * 1e-3};
    for (const Estimate& cents : expected_cents(path_on(bench), r, moves)) {
        RC_ASSERT(std::isfinite(cents.value) && std::isfinite(cents.u) && cents.u >= 0);
    }
}

}  // namespace
}  // namespace fallaway::strings
