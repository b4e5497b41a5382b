// The survey of the fret tops: lines of equal height over the fingerboard in plan, and how well each stretch is
// known.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/report/figures.h"
#include "bench/report/neck_plan.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using metrology::Uncertain;
using model::BoardPoint;
using model::Contour;
using model::NeckSurvey;
using svg::Anchor;
using svg::Point;

constexpr double kTop = 50;
constexpr double kTickEvery = 46;  // drawing units between two downhill ticks
constexpr double kTick = 7;
constexpr double kLabelRoom = 26;  // half the ground that a height is written on
constexpr double kTold = 0.02e-3;  // m; crowns off by less are not pointed out
constexpr std::size_t kMostTold = 4;

std::string signed_mm(double metres, int decimals = 2) {
    const double mm = metres * 1e3;
    if (std::abs(mm) < 0.5 * std::pow(10, -decimals)) return "0";
    return fmt::format("{}{:.{}f}", mm < 0 ? "−" : "+", std::abs(mm), decimals);
}

class SurveyDrawing {
public:
    SurveyDrawing(const Sheet& sheet, const NeckSurvey& neck)
        : neck_(neck),
          plan_(sheet.bench.instrument, sheet.assessment.assumed),
          middle_(kTop - plan_.edge(true, plan_.end())),
          chain_(middle_ + plan_.edge(false, plan_.end()) + 40) {}

    Markup draw() {
        board();
        for (const Contour& contour : neck_.contours) line(contour);
        for (const Contour& contour : neck_.contours) height_on(contour);
        known_to();
        return out_;
    }
    double height() const { return chain_ + 84; }
    const NeckPlan& plan() const { return plan_; }

private:
    Point at(double along, double y) const { return plan_.place(along, y); }
    Point edge(bool treble, double along) const { return at(along, middle_ + plan_.edge(treble, along)); }

    // Straight between the true places of two frets.
    double along(double fret, int string) const {
        const int below = std::clamp(int(std::floor(fret)), 0, plan_.frets());
        const int above = std::min(below + 1, plan_.frets());
        const double from = plan_.fret(below, string);
        return from + (plan_.fret(above, string) - from) * (fret - below);
    }
    Point place(const BoardPoint& point) const {
        const int string = std::clamp(int(std::lround(point.string)), 1, plan_.strings());
        const double x = along(point.fret, string);
        return at(x, middle_ + plan_.across(point.string, x));
    }

    void board() {
        const int bass = plan_.strings();
        out_ += svg::polygon({edge(true, plan_.fret(0, 1)), edge(true, plan_.fret(plan_.frets(), 1) + 16),
                              edge(false, plan_.fret(plan_.frets(), bass) + 16), edge(false, plan_.fret(0, bass))},
                             "board");
        for (int f = 1; f <= plan_.frets(); ++f) {
            out_ += svg::line(edge(true, plan_.fret(f, 1)), edge(false, plan_.fret(f, bass)),
                              plan_.fretted() ? "hair" : "hair dashed");
            if (f % 12 == 0 || f % 2 == 1) {
                out_ += svg::label(at(plan_.fret(f, 1), kTop - 22), fmt::format("{}", f), "t quiet");
            }
        }
        out_ += svg::line(edge(true, plan_.fret(0, 1)), edge(false, plan_.fret(0, bass)), "nut");
    }

    std::vector<Point> points_of(const Contour& contour) const {
        std::vector<Point> points;
        for (const BoardPoint& point : contour.points) points.push_back(place(point));
        return points;
    }

    void line(const Contour& contour) {
        const auto points = points_of(contour);
        std::string style = contour.level == 0 ? "o" : "contour";
        if (!contour.sure) style += " dashed";
        out_ += svg::polyline(points, style);
        if (contour.level < 0) ticks(contour, points);
    }

    // Short strokes on the side that lies lower, so that a dip is not taken for a hump.
    void ticks(const Contour& contour, const std::vector<Point>& points) {
        double walked = kTickEvery / 2;
        for (std::size_t i = 0; i + 1 < points.size(); ++i) {
            const Point a = points[i];
            const Point b = points[i + 1];
            const double length = std::hypot(b.x - a.x, b.y - a.y);
            walked += length;
            if (walked < kTickEvery || length < 1e-6) continue;
            walked = 0;
            const BoardPoint from{(contour.points[i].fret + contour.points[i + 1].fret) / 2,
                                  (contour.points[i].string + contour.points[i + 1].string) / 2};
            const Point middle = place(from);
            const Point normal{-(b.y - a.y) / length, (b.x - a.x) / length};
            const double side = lower_side(contour, i) ? 1 : -1;
            out_ +=
                svg::line(middle, {middle.x + side * kTick * normal.x, middle.y + side * kTick * normal.y}, "f");
        }
    }

    // Does the sheet fall towards the left of the way from point i to the next, as the drawing turns?
    bool lower_side(const Contour& contour, std::size_t i) const {
        const BoardPoint& a = contour.points[i];
        const BoardPoint& b = contour.points[i + 1];
        const double fret = (a.fret + b.fret) / 2;
        const double string = (a.string + b.string) / 2;
        const double step = 0.05;
        const double along_slope = sheet(fret + step, string) - sheet(fret - step, string);
        const double across_slope = sheet(fret, string + step) - sheet(fret, string - step);
        // The normal (-dy, dx) of the drawing in steps of frets and strings; mirrored for the left hand.
        const double mirror = plan_.left_handed() ? -1 : 1;
        const double n_fret = -mirror * (b.string - a.string);
        const double n_string = mirror * (b.fret - a.fret);
        return n_fret * along_slope + n_string * across_slope < 0;
    }

    double sheet(double fret, double string) const {
        const auto& crowns = neck_.crowns;
        const double f = std::clamp(fret, 1.0, double(crowns.size()));
        const double s = std::clamp(string, 1.0, double(plan_.strings()));
        const std::size_t f0 = std::min(std::size_t(f) - 1, crowns.size() - 2);
        const std::size_t s0 = std::min(std::size_t(s) - 1, std::size_t(plan_.strings()) - 2);
        const double u = f - 1 - double(f0);
        const double v = s - 1 - double(s0);
        const auto z = [&](std::size_t i, std::size_t j) { return crowns[i].off_under[j].value; };
        return (1 - u) * ((1 - v) * z(f0, s0) + v * z(f0, s0 + 1)) +
               u * ((1 - v) * z(f0 + 1, s0) + v * z(f0 + 1, s0 + 1));
    }

    // Written once on each line that has room for it, on ground of its own.
    void height_on(const Contour& contour) {
        if (contour.points.size() < 4) return;
        const Point p = place(contour.points[contour.points.size() / 2]);
        for (const Point& other : written_) {
            if (std::abs(other.x - p.x) < 2 * kLabelRoom && std::abs(other.y - p.y) < 24) return;
        }
        written_.push_back(p);
        out_ += svg::box({p.x - kLabelRoom, p.y - 11}, {p.x + kLabelRoom, p.y + 11}, "ground");
        out_ += svg::label({p.x, p.y + 6}, signed_mm(contour.level), contour.level == 0 ? "t strong" : "t");
    }

    // The chain line under the board: how well the tops are known, fret by fret.
    void known_to() {
        const int bass = plan_.strings();
        out_ += svg::line(at(plan_.fret(1, bass), chain_), at(plan_.fret(plan_.frets(), bass), chain_), "f");
        double free = 0;
        for (const auto& crown : neck_.crowns) {
            const double x = plan_.fret(crown.fret, bass);
            out_ += svg::line(at(x - 5, chain_ + 7), at(x + 5, chain_ - 7), "f");
            const std::string words = fmt::format("±{:.2f}", std::max(0.01, crown.off.u * 1e3));
            const double half = svg::width_of(words, 20) / 2 + 8;
            if (x - half < free) continue;
            free = x + half;
            out_ += svg::label(at(x, chain_ + 30), words, "t quiet");
        }
        out_ += svg::label(at(plan_.fret(1, bass), chain_ + 62), "mm, how well each fret top is known", "t quiet",
                           plan_.anchor(Anchor::start));
    }

    const NeckSurvey& neck_;
    NeckPlan plan_;
    double middle_;
    double chain_;
    std::vector<Point> written_;
    Markup out_;
};

Markup twin(const NeckSurvey& neck) {
    std::vector<std::vector<std::string>> rows;
    for (const auto& crown : neck.crowns) {
        std::string under;
        for (const Uncertain& one : crown.off_under) under += (under.empty() ? "" : ", ") + signed_mm(one.value);
        rows.push_back({fmt::format("{}", crown.fret), model::in_mm(crown.off).text, under});
    }
    return twin_table("Height of the fret tops over the shape that is wanted",
                      {"Fret", "In the middle", "Under string 1 to the last, mm"}, rows);
}

// The crowns that stand off by more than is doubtful, the worst first.
std::string crowns_told(const NeckSurvey& neck) {
    std::vector<const model::CrownSurvey*> off;
    for (const auto& crown : neck.crowns) {
        if (std::abs(crown.off.value) >= kTold && std::abs(crown.off.value) > 2 * crown.off.u)
            off.push_back(&crown);
    }
    std::ranges::sort(off, std::greater{}, [](const auto* crown) { return std::abs(crown->off.value); });
    std::vector<std::string> told;
    for (const auto* crown : off) {
        if (told.size() == kMostTold) break;
        told.push_back(fmt::format("fret {} {} by {}", crown->fret,
                                   crown->off.value > 0 ? "stands proud" : "is low",
                                   model::in_mm({std::abs(crown->off.value), crown->off.u}).text));
    }
    if (told.empty()) return "";
    return fmt::format("{}. ", capital(list_of(told)));
}

}  // namespace

std::optional<svg::Figure> survey_figure(const Sheet& sheet) {
    const auto& neck = sheet.assessment.neck;
    if (!neck || neck->readings == 0 || neck->strings.size() < 2 || neck->crowns.size() < 2) return std::nullopt;
    SurveyDrawing drawing(sheet, *neck);
    svg::Figure figure{.id = "survey", .title = "Survey of the fret tops"};
    figure.description = "Lines of equal height over the fingerboard from above.";
    figure.drawing = drawing.draw();
    figure.width = kFigureWidth;
    figure.height = drawing.height();
    figure.caption = fmt::format(
        "{}Relief {} and fallaway {} taken out: a line every {:g} mm, ticks on the lower side, dashed where the "
        "readings do not tell. Width drawn {:g} times.",
        crowns_told(*neck), model::in_mm(neck->relief).text, model::in_mm(neck->fallaway).text,
        neck->contour_step * 1e3, drawing.plan().times_wider());
    figure.twin = twin(*neck);
    return figure;
}

Markup strings_over_crowns(const NeckSurvey& neck) {
    std::vector<TableRow> rows;
    for (const auto& string : neck.strings) {
        const std::string held = string.least_held == 0 ? "open" : fmt::format("held at {}", string.least_held);
        rows.push_back({{text(fmt::format("{}", string.string)), text(model::in_mm(string.slot).text),
                         text(model::in_mm(string.over_first).text), text(model::in_mm(string.over_twelfth).text),
                         text(model::in_mm(string.over_last).text),
                         text(fmt::format("{}, {}, over fret {}", model::in_mm(string.least).text, held,
                                          string.least_over))}});
    }
    return render({"Strings over the fret tops",
                   {{"String", 1},
                    {"Slot over a zero-fret", 2},
                    {"Over fret 1", 2},
                    {"Over fret 12", 2},
                    {"Over the last", 2},
                    {"Least room", 4}},
                   std::move(rows)});
}

}  // namespace fallaway::report
