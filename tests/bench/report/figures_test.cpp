#include <algorithm>
#include <cmath>
#include <limits>
#include <regex>

#include <gtest/gtest.h>

#include "bench/report/figures.h"
#include "bench/report/heard.h"
#include "bench/report/neck_plan.h"
#include "bench/report/svg.h"
#include "report_fixture.h"

namespace fallaway::report {
namespace {

Visit visit_with_everything_drawn() {
    Visit visit = small_visit();
    judgement::Answer relief;
    judgement::Line line;
    line.observable = "relief";
    line.at.fret = 7;
    line.found = millimetres(0.26, 0.03);
    line.stale = true;
    relief.lines = {line};
    visit.assessment.answers.push_back(relief);
    return visit;
}

std::vector<double> numbers_after(const std::string& drawing, const std::string& pattern) {
    std::vector<double> found;
    const std::regex expression(pattern);
    for (std::sregex_iterator i(drawing.begin(), drawing.end(), expression), end; i != end; ++i) {
        found.push_back(std::stod((*i)[1]));
    }
    return found;
}

std::vector<std::string> words_in(const std::string& drawing) {
    std::vector<std::string> found;
    const std::regex expression(">([^<]+)</text>");
    for (std::sregex_iterator i(drawing.begin(), drawing.end(), expression), end; i != end; ++i)
        found.push_back((*i)[1]);
    return found;
}

// Fret n lies at scale (1 - 2^(-n/12)): fret 12 at half the scale, fret 24 at three quarters. Equal temperament.
TEST(NeckPlan, PutsFretsAtTheirTruePlaces) {
    Visit visit = small_visit();
    visit.bench.instrument.frets = 24;
    const NeckPlan plan(visit.bench.instrument, {});
    const double half = plan.fret(12, 1) - plan.nut();
    EXPECT_NEAR((plan.fret(24, 1) - plan.nut()) / half, 1.5, 1e-12);
    EXPECT_NEAR((plan.fret(7, 1) - plan.nut()) / half, 2 * (1 - std::pow(2, -7.0 / 12)), 1e-12);
}

TEST(NeckPlan, FannedFretsMeetSquareAtTheSeventh) {
    Visit visit = small_visit();
    for (const char* scale : {"635 mm", "642 mm", "648 mm", "655 mm"}) {
        evidence::StringSpec string;
        string.scale = parse_quantity(scale, Dimension::length).value();
        visit.bench.instrument.strings.push_back(string);
    }
    const NeckPlan plan(visit.bench.instrument, {});
    EXPECT_TRUE(plan.fanned());
    EXPECT_NEAR(plan.fret(7, 1), plan.fret(7, 4), 1e-9);
    EXPECT_GT(plan.fret(0, 1), plan.fret(0, 4));
}

TEST(NeckFigure, LeftHandedMirrorsTheDrawingAndNeverTheNumbers) {
    Visit right = small_visit();
    Visit left = small_visit();
    left.bench.instrument.hand = evidence::Hand::left;
    for (const auto& draw : {neck_figure, ring_figure}) {
        const std::string a = draw(right.sheet()).value().drawing.bytes;
        const std::string b = draw(left.sheet()).value().drawing.bytes;
        EXPECT_EQ(words_in(a), words_in(b));
        if (draw == ring_figure) continue;  // its legend stays as it is
        const std::vector<double> xs = numbers_after(a, " x1=\"([^\"]+)\"");
        const std::vector<double> mirrored = numbers_after(b, " x1=\"([^\"]+)\"");
        ASSERT_EQ(xs.size(), mirrored.size());
        std::size_t flipped = 0;
        for (std::size_t i = 0; i < xs.size(); ++i) {
            if (std::abs(xs[i] + mirrored[i] - kFigureWidth) < 0.02) ++flipped;
        }
        EXPECT_GE(flipped + 6, xs.size()) << "all but the rules under the six figures";
        EXPECT_GE(flipped, 30u) << "frets, strings, stations and chain line";
    }
}

TEST(Figures, HaveTitleDescriptionAndTableTwin) {
    const Visit visit = visit_with_everything_drawn();
    for (const auto& draw : {neck_figure, ring_figure}) {
        const auto figure = draw(visit.sheet());
        ASSERT_TRUE(figure);
        const std::string html = svg::figure(*figure).bytes;
        EXPECT_EQ(tag_fault(html), "");
        EXPECT_EQ(count_of(html, "<title"), 1u);
        EXPECT_EQ(count_of(html, "<desc"), 1u);
        EXPECT_EQ(count_of(html, "<table"), 1u);
    }
}

TEST(Figures, StayInsideTheirBoxAndFinite) {
    Visit visit = visit_with_everything_drawn();
    for (const bool bass : {false, true}) {
        for (const int frets : {1, 12, 20, 24, 36}) {
            visit.bench.instrument.kind = bass ? evidence::Kind::electric_bass : evidence::Kind::electric_guitar;
            visit.bench.instrument.frets = frets;
            for (const auto& draw : {neck_figure, ring_figure}) {
                const auto figure = draw(visit.sheet());
                ASSERT_TRUE(figure);
                EXPECT_TRUE(std::isfinite(figure->height));
                for (const double x : numbers_after(figure->drawing.bytes, " x[12]?=\"([^\"]+)\"")) {
                    EXPECT_GE(x, -1);
                    EXPECT_LE(x, figure->width + 1);
                }
                for (const double y : numbers_after(figure->drawing.bytes, " y[12]?=\"([^\"]+)\"")) {
                    EXPECT_GE(y, -1);
                    EXPECT_LE(y, figure->height + 1);
                }
            }
        }
    }
}

TEST(Svg, RefusesWhatIsNotFinite) {
    EXPECT_THROW(svg::number(std::numeric_limits<double>::quiet_NaN()), std::logic_error);
    EXPECT_THROW(svg::number(std::numeric_limits<double>::infinity()), std::logic_error);
    EXPECT_EQ(svg::number(-0.001), "0");
    EXPECT_EQ(svg::number(12.5), "12.5");
}

TEST(NeckFigure, ShowsTheStateOfAFigure) {
    Visit visit = visit_with_everything_drawn();
    const std::string drawing = neck_figure(visit.sheet()).value().drawing.bytes;
    EXPECT_EQ(count_of(drawing, "class=\"bar\""), 2u) << "strings 5 and 6 are outside";
    EXPECT_EQ(count_of(drawing, ">limit 2.20<"), 2u);
    visit.assessment.assumed.push_back({"scale length", "648 ± 12 mm", "usual", "", {0.648, 0.007}});
    EXPECT_NE(neck_figure(visit.sheet()).value().drawing.bytes.find("scale [648 ±12 mm] assumed"),
              std::string::npos);
}

TEST(NeckFigure, FretlessBoardDrawsItsPositionsDashed) {
    Visit visit = small_visit();
    EXPECT_EQ(count_of(neck_figure(visit.sheet()).value().drawing.bytes, "fret dashed"), 0u);
    visit.bench.instrument.fretted = false;
    EXPECT_EQ(count_of(neck_figure(visit.sheet()).value().drawing.bytes, "fret dashed"), 22u);
}

TEST(HeardMap, LaterAndNearerOutranks) {
    evidence::Bench bench;
    bench.readings = {heard(2, 8, "buzzes"), heard({}, {}, "rings"), heard(2, {}, "rattles when struck hard")};
    HeardMap map = heard_map(bench);
    EXPECT_EQ(map.at(2, 8).sound, Sound::buzzes);
    EXPECT_EQ(map.at(2, 9).sound, Sound::rattles);
    EXPECT_EQ(map.at(1, 8).sound, Sound::rings);
    bench.readings.push_back(heard({}, {}, "rings", evidence::Stage::after));
    map = heard_map(bench);
    EXPECT_EQ(map.at(2, 8).sound, Sound::rings);
}

TEST(RingFigure, DrawsNoStrokeForWhatWasNotTried) {
    Visit visit;
    visit.bench.readings = {heard(1, 5, "rings")};
    const auto figure = ring_figure(visit.sheet());
    ASSERT_TRUE(figure);
    EXPECT_EQ(count_of(figure->drawing.bytes, "class=\"heard\""), 2u) << "the note and its legend";
    EXPECT_EQ(count_of(figure->drawing.bytes, "class=\"teeth\""), 0u);
    visit.bench.readings.clear();
    EXPECT_FALSE(ring_figure(visit.sheet()));
    EXPECT_FALSE(neck_figure(visit.sheet()));
}

TEST(ChangeFigure, DrawsEveryPairAndTheBracket) {
    judgement::Change change;
    change.title = "String height over fret 12";
    change.unit = find_unit("mm", Dimension::length);
    change.pairs = {{at_string(1), {1.5e-3, 1.4e-3}}, {at_string(2), {1.6e-3, 1.45e-3}}};
    change.paired.n = 2;
    change.paired.mean = -0.125e-3;
    change.paired.ci95_low = -0.2e-3;
    change.paired.ci95_high = -0.05e-3;
    const auto figure = change_figure(change, 1);
    ASSERT_TRUE(figure);
    const std::vector<std::string> words = words_in(figure->drawing.bytes);
    EXPECT_NE(std::ranges::find(words, "−0.20 to −0.05"), words.end());
    EXPECT_NE(std::ranges::find(words, "1.45"), words.end());
    change.pairs.clear();
    EXPECT_FALSE(change_figure(change, 1));
}

}  // namespace
}  // namespace fallaway::report
