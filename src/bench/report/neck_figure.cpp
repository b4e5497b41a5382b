// The neck in plan with what was read on it.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "bench/report/figures.h"
#include "bench/report/heard.h"
#include "bench/report/neck_plan.h"
#include "bench/report/reading_mark.h"
#include "bench/report/stations.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using svg::Anchor;
using svg::Point;

constexpr double kBoardTop = 50;
constexpr double kColumnGap = 12;
constexpr double kMostDip = 40;  // drawing units that the dip may take

struct StationColumn {
    const Station* station;
    double at;      // where the reading belongs, along the neck
    double centre;  // where its figures stand
    double before;  // room that the figures take towards the nut, and towards the bridge
    double after;
    std::string below;  // "mm ±0.05"
};

class NeckDrawing {
public:
    NeckDrawing(const Sheet& sheet, const std::vector<Station>& stations, const judgement::Line* relief)
        : sheet_(sheet),
          plan_(sheet.bench.instrument, sheet.assessment.assumed),
          relief_(relief),
          middle_(kBoardTop - plan_.edge(true, plan_.end())),
          chain_(middle_ + plan_.edge(false, plan_.end()) + 40) {
        for (const Station& station : stations) {
            if (station.fret <= plan_.frets()) columns_.push_back(column_for(station));
        }
        stand_apart();
    }

    Markup draw() {
        board();
        strings();
        chain();
        for (const StationColumn& column : columns_) figures(column);
        scale();
        if (relief_) side_view();
        return out_;
    }
    double height() const { return bottom_; }
    std::string caption() const {
        std::string out =
            fmt::format("Along the neck true fret places; width drawn {:g} times, string spread as is usual.",
                        plan_.times_wider());
        if (plan_.fanned()) out += " Fanned frets drawn square at fret 7.";
        if (!plan_.fretted()) out += " No frets: their places are dashed.";
        if (relief_) out += fmt::format(" The dip is drawn {:g} times.", dip_times());
        return out;
    }

private:
    Point at(double along, double y) const { return plan_.place(along, y); }

    StationColumn column_for(const Station& station) const {
        const std::string shared = station.shared_unit();
        StationColumn column{&station, plan_.fret(station.fret, plan_.strings()), 0, 0, 0, shared};
        column.before = column.after = svg::width_of(station.title(), kCaptionSize) / 2;
        for (const auto& [string, line] : station.strings) {
            const Mark mark = mark_of(*line, shared);
            column.before = std::max(column.before, plan_.left_handed() ? mark.right() : mark.left());
            column.after = std::max(column.after, plan_.left_handed() ? mark.left() : mark.right());
        }
        column.centre = column.at;
        return column;
    }

    // Columns never overlap: each is pushed past the one before, and back from the end of the drawing.
    void stand_apart() {
        double free = plan_.nut() + 8;
        for (StationColumn& column : columns_) {
            column.centre = std::max(column.at, free + column.before);
            free = column.centre + column.after + kColumnGap;
        }
        double limit = kFigureWidth - 4;
        for (auto column = columns_.rbegin(); column != columns_.rend(); ++column) {
            column->centre = std::min(column->centre, limit - column->after);
            limit = column->centre - column->before - kColumnGap;
        }
    }

    void board() {
        const double nut_bass = plan_.fret(0, plan_.strings());
        const double nut_treble = plan_.fret(0, 1);
        const double last = plan_.fret(plan_.frets(), 1) + 16;
        const double last_bass = plan_.fret(plan_.frets(), plan_.strings()) + 16;
        out_ += svg::polygon(
            {edge(true, nut_treble), edge(true, last), edge(false, last_bass), edge(false, nut_bass)}, "board");
        for (int f = 1; f <= plan_.frets(); ++f) {
            const double treble = plan_.fret(f, 1);
            const double bass = plan_.fret(f, plan_.strings());
            const char* style = plan_.fretted() ? "fret" : "fret dashed";
            out_ += svg::line(edge(true, treble), edge(false, bass), style);
            if (is_numbered(f)) {
                out_ += svg::label(at(treble, kBoardTop - 22), fmt::format("{}", f), "t quiet");
            }
        }
        out_ += svg::line(edge(true, nut_treble), edge(false, nut_bass), "nut");
    }

    static bool is_numbered(int fret) {
        const int step = fret % 12;
        return step == 0 || step == 3 || step == 5 || step == 7 || step == 9;
    }

    Point edge(bool treble, double along) const { return at(along, middle_ + plan_.edge(treble, along)); }
    double string_y(int string, double along) const { return middle_ + plan_.across(string, along); }

    void strings() {
        const std::vector<std::string> tuning = evidence::tuning_of(sheet_.bench.instrument);
        for (int s = 1; s <= plan_.strings(); ++s) {
            const double from = plan_.fret(0, s);
            Markup drawn =
                svg::line(at(from, string_y(s, from)), at(plan_.end(), string_y(s, plan_.end())), "string");
            const std::string weight = fmt::format("stroke-width:{}", svg::number(plan_.thickness(s)));
            out_ += tag("g", {{"style", weight}}, drawn);
            const double y = string_y(s, plan_.nut()) + 7;
            out_ += svg::label(at(14, y), fmt::format("{}", s), "t strong", plan_.anchor(Anchor::start));
            const bool named = static_cast<std::size_t>(s) <= tuning.size();
            if (named) out_ += svg::label(at(34, y), tuning[s - 1], "t quiet", plan_.anchor(Anchor::start));
        }
        break_line(plan_.end());
    }

    // The drawing of the strings is shortened here.
    void break_line(double along) {
        const double top = middle_ + plan_.edge(true, along) + 6;
        const double bottom = middle_ + plan_.edge(false, along) - 6;
        const double half = (top + bottom) / 2;
        out_ += svg::polyline({at(along, top), at(along, half - 12), at(along - 7, half - 4),
                               at(along + 7, half + 4), at(along, half + 12), at(along, bottom)},
                              "f");
    }

    // The chain line under the board, met by each station at an oblique stroke, its reading in words below.
    void chain() {
        out_ += svg::line(at(plan_.nut(), chain_), at(plan_.fret(plan_.frets(), plan_.strings()), chain_), "f");
        for (const StationColumn& column : columns_) {
            out_ += svg::line(at(column.at, kBoardTop - 12), at(column.at, chain_ + 12), "station");
            out_ += svg::line(at(column.at - 7, chain_ + 9), at(column.at + 7, chain_ - 9), "heavy");
            const bool moved = std::abs(column.centre - column.at) > 4;
            if (moved) out_ += svg::line(at(column.at, chain_ + 12), at(column.centre, chain_ + 26), "f");
            out_ += svg::label(at(column.centre, chain_ + 46), column.station->title(), "t strong");
            if (!column.below.empty()) out_ += svg::label(at(column.centre, chain_ + 70), column.below, "t quiet");
            if (column.station->whole) {
                const double y = chain_ + (column.below.empty() ? 78 : 102);
                out_ += draw_mark(mark_of(*column.station->whole, ""), plan_, {column.centre, y});
            }
        }
        const bool any_whole =
            std::ranges::any_of(columns_, [](const auto& c) { return c.station->whole != nullptr; });
        bottom_ = chain_ + (columns_.empty() ? 16 : any_whole ? 126 : 84);
    }

    void figures(const StationColumn& column) {
        const std::string shared = column.station->shared_unit();
        for (const auto& [string, line] : column.station->strings) {
            if (string < 1 || string > plan_.strings()) continue;
            out_ += draw_mark(mark_of(*line, shared), plan_, {column.centre, string_y(string, column.centre)});
        }
    }

    // Nut to saddle as a shortened dimension; dashed and in brackets while it is only assumed.
    void scale() {
        if (plan_.fanned()) return;
        const evidence::Assumption* guess = nullptr;
        for (const evidence::Assumption& a : sheet_.assessment.assumed) {
            if (a.what == "scale length") guess = &a;
        }
        const auto& known = sheet_.bench.instrument.scale;
        if (!guess && !known) return;
        const double y = bottom_ + 20;
        const char* style = guess ? "f dashed" : "f";
        const double end = plan_.end();
        out_ += svg::line(at(plan_.nut(), chain_ + 12), at(plan_.nut(), y + 8), "f");
        out_ += svg::line(at(plan_.nut(), y), at(end - 40, y), style);
        out_ += svg::polyline({at(end - 40, y), at(end - 34, y - 8), at(end - 26, y + 8), at(end - 20, y)}, "f");
        out_ += svg::line(at(end - 20, y), at(end, y), style);
        for (const double x : {plan_.nut(), end}) out_ += svg::line(at(x - 6, y + 8), at(x + 6, y - 8), "e");
        const std::string words = guess ? fmt::format("scale [{}] assumed", guess->text) : "scale " + known->typed;
        const double half = svg::width_of(words, kCaptionSize) / 2 + 8;
        const double centre = (plan_.nut() + end) / 2;
        out_ += svg::box(at(centre - half, y - 14), at(centre + half, y + 14), "ground");
        out_ += svg::label(at(centre, y + 7), words, guess ? "t quiet" : "t strong");
        bottom_ = y + 24;
    }

    double dip_times() const {
        const double dip = std::abs(relief_->found.si->value) * 1e3 * units_per_mm();
        for (const double times : {200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0}) {
            if (dip * times <= kMostDip) return times;
        }
        return 1;
    }
    double units_per_mm() const {
        const auto& scale = sheet_.bench.instrument.scale;
        const double half_mm = (scale ? scale->si * 1e3 : 648) / 2;
        return (plan_.fret(12, plan_.strings()) - plan_.fret(0, plan_.strings())) / half_mm;
    }

    // The board from the side under a straight line, the dip enlarged.
    void side_view() {
        const double dip =
            std::clamp(relief_->found.si->value * 1e3 * units_per_mm() * dip_times(), -kMostDip, kMostDip);
        const double from = plan_.fret(1, plan_.strings());
        const double to = plan_.fret(plan_.frets(), plan_.strings());
        const double middle = plan_.fret(relief_->at.fret.value_or(7), plan_.strings());
        const double y = bottom_ + 24 + std::max(0.0, -dip);
        out_ += svg::line(at(from, y), at(to, y), "station");
        // The parabola through both ends whose depth at `middle` is the dip.
        const double part = (middle - from) / (to - from);
        const double sag = part > 0.05 && part < 0.95 ? dip / (4 * part * (1 - part)) : dip;
        out_ += svg::curve(at(from, y), at((from + to) / 2, y + 2 * sag), at(to, y), "o");
        out_ += svg::line(at(middle, y - 12), at(middle, y + dip + 12), "f");
        for (const double end : {y, y + dip})
            out_ += svg::line(at(middle - 6, end + 6), at(middle + 6, end - 6), "e");
        const double line = y + std::max(dip, 0.0) + 44;
        const Mark mark = mark_of(*relief_, "");
        out_ += svg::line(at(middle, y + dip + 12), at(middle, line - 18), "f");
        out_ += draw_mark(mark, plan_, {middle, line});
        const Point figure = at(middle, line);
        out_ += svg::label({figure.x - mark.left() - 4, line + 7}, "relief", "t quiet", Anchor::end);
        bottom_ = line + 24;
    }

    const Sheet& sheet_;
    NeckPlan plan_;
    const judgement::Line* relief_;
    std::vector<StationColumn> columns_;
    double middle_;  // of the board, down the page
    double chain_;
    double bottom_ = 0;
    Markup out_;
};

std::string state_words(const judgement::Line& line) {
    if (line.stale) return "stale: " + line.stale_because;
    if (line.disputed) return "two say different";
    std::string words = standing_words(line.standing);
    if (!line.limit.empty()) words += (words.empty() ? "limit " : ", limit ") + line.limit;
    return words.empty() ? "measured" : words;
}

Markup twin(const std::vector<Station>& stations, const judgement::Line* relief) {
    std::vector<std::vector<std::string>> rows;
    const auto add = [&](const std::string& what, const judgement::Line& line) {
        rows.push_back({what, line.at.string ? fmt::format("string {}", *line.at.string) : "", line.found.text,
                        state_words(line)});
    };
    for (const Station& station : stations) {
        const bool height = station.observable == "string height";
        const std::string what = height ? "string height, " + station.title() : station.title();
        for (const auto& [string, line] : station.strings) add(what, *line);
        if (station.whole) add(what, *station.whole);
    }
    if (relief) add("relief", *relief);
    if (rows.empty()) return {};
    return twin_table("What was read along the neck", {"Reading", "String", "Found", "State"}, rows);
}

}  // namespace

std::optional<svg::Figure> neck_figure(const Sheet& sheet) {
    const std::vector<Station> read = stations(sheet.assessment);
    const judgement::Line* relief = relief_line(sheet.assessment);
    if (read.empty() && !relief && !heard_map(sheet.bench).any()) return std::nullopt;
    NeckDrawing drawing(sheet, read, relief);
    svg::Figure figure{.id = "neck", .title = "The neck from above"};
    figure.description =
        fmt::format("Fingerboard of {} with {} and what was read there.", describe(sheet.bench.instrument),
                    counted(static_cast<std::size_t>(fret_count(sheet.bench.instrument)), "fret"));
    figure.drawing = drawing.draw();
    figure.width = kFigureWidth;
    figure.height = drawing.height();
    figure.caption = drawing.caption();
    figure.twin = twin(read, relief);
    return figure;
}

}  // namespace fallaway::report
