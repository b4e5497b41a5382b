// The ring map of what was heard.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "bench/evidence/tuning.h"
#include "bench/report/figures.h"
#include "bench/report/heard.h"
#include "bench/report/neck_plan.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using svg::Anchor;
using svg::Point;

constexpr double kFirstColumn = 76;
constexpr double kRightMargin = 10;
constexpr double kFirstRow = 66;
constexpr double kRow = 42;
constexpr double kFan = 64;
constexpr double kLegendRow = 36;
constexpr double kStroke = 25;  // margins are not known yet: every heard stroke has one length

class RingDrawing {
public:
    RingDrawing(const Sheet& sheet, const HeardMap& heard)
        : plan_(sheet.bench.instrument, sheet.assessment.assumed),
          tuning_(evidence::tuning_of(sheet.bench.instrument)),
          heard_(heard),
          column_((kFigureWidth - kFirstColumn - kRightMargin) / (heard.frets + 1)) {}

    Markup draw() {
        frets();
        for (int s = 1; s <= heard_.strings; ++s) {
            name_of_string(s);
            for (int f = 0; f <= heard_.frets; ++f) note(heard_.at(s, f), left_of(f), row_y(s));
        }
        legend();
        return out_;
    }
    double height() const { return legend_y_ + kLegendRow * 0.6; }

private:
    double left_of(int fret) const { return kFirstColumn + fret * column_; }
    double row_y(int string) const { return kFirstRow + (string - 1) * kRow; }
    double bottom() const { return row_y(heard_.strings) + kRow * 0.6; }
    // The legend is no part of the instrument and reads left to right for either hand.
    Point at(double x, double y) const { return in_legend_ ? Point{x, y} : plan_.place(x, y); }

    bool has_fault(int fret) const {
        for (int s = 1; s <= heard_.strings; ++s) {
            const HeardNote& note = heard_.at(s, fret);
            if (note.dead_spot || note.sound > Sound::rings) return true;
        }
        return false;
    }

    void frets() {
        for (int f = 0; f <= heard_.frets; ++f) {
            const double x = left_of(f) + column_;
            const std::string style = f == 0 ? "o" : plan_.fretted() ? "hair" : "hair dashed";
            const double true_x = plan_.fret(f, heard_.strings);
            out_ += svg::polyline({at(x, kFirstRow - 26), at(x, bottom()), at(true_x, bottom() + kFan)},
                                  f == 12 ? "hair mark" : style);
            const std::string number = f == 0 ? "open" : fmt::format("{}", f);
            out_ += svg::label(at(left_of(f) + column_ / 2, 26), number, has_fault(f) ? "t strong" : "t quiet");
        }
    }

    void name_of_string(int s) {
        const double y = row_y(s) + 7;
        out_ += svg::label(at(14, y), fmt::format("{}", s), "t strong", plan_.anchor(Anchor::start));
        std::string note = static_cast<std::size_t>(s) <= tuning_.size() ? tuning_[s - 1] : "";
        out_ += svg::label(at(34, y), note, "t quiet", plan_.anchor(Anchor::start));
    }

    void note(const HeardNote& heard, double x, double y) {
        const double from = x + std::max(2.0, (column_ - kStroke - 10) / 2);
        out_ += svg::line(at(from - 2, y + 6), at(from + 4, y - 6), "f");
        sound(heard.sound, from + 2, y);
        if (heard.dead_spot) dead_spot(from + 4, y);
    }

    void sound(Sound sound, double x, double y) {
        const double end = x + kStroke;
        switch (sound) {
            case Sound::not_tried:
                return;
            case Sound::rings:
                out_ += svg::line(at(x, y), at(end, y), "heard");
                return;
            case Sound::rattles:
                out_ += svg::line(at(x, y), at(x + kStroke * 0.38, y), "heard");
                out_ += svg::line(at(x + kStroke * 0.68, y), at(end, y), "heard");
                return;
            case Sound::buzzes:
                saw_teeth(x, y);
                return;
            case Sound::chokes:
                out_ += svg::line(at(x, y), at(x + 15, y), "heard");
                out_ += svg::line(at(x + 3, y - 8), at(x + 14, y + 8), "cross");
                out_ += svg::line(at(x + 14, y - 8), at(x + 3, y + 8), "cross");
                return;
        }
    }

    void saw_teeth(double x, double y) {
        std::vector<Point> points;
        constexpr int kTeeth = 6;
        for (int i = 0; i <= kTeeth; ++i) {
            const double tooth = i == 0 ? 0 : i % 2 ? -8 : 8;
            points.push_back(at(x + i * kStroke / kTeeth, y + tooth));
        }
        out_ += svg::polyline(points, "teeth");
    }

    void dead_spot(double x, double y) {
        out_ += svg::polyline({at(x, y + 9), at(x + 20, y + 13), at(x, y + 17)}, "e");
    }

    // Only the signs that occur.
    void legend() {
        in_legend_ = true;
        std::set<Sound> sounds;
        bool dead = false;
        for (const HeardNote& note : heard_.notes) {
            sounds.insert(note.sound);
            dead = dead || note.dead_spot;
        }
        legend_y_ = bottom() + kFan + kLegendRow;
        double x = kFirstColumn;
        const auto entry = [&](const HeardNote& sign, const std::string& words) {
            const double wide = 52 + svg::width_of(words, 18);
            if (x + wide > kFigureWidth) {
                x = kFirstColumn;
                legend_y_ += kLegendRow;
            }
            note(sign, x - (column_ - kStroke - 10) / 2, legend_y_ - 6);
            out_ += svg::label(at(x + 40, legend_y_), words, "t quiet", Anchor::start);
            x += wide + 14;
        };
        for (const Sound sound : sounds) entry({.sound = sound}, words_of({.sound = sound}));
        if (dead) entry({.dead_spot = true}, "dead spot, short ring");
    }

    NeckPlan plan_;
    std::vector<std::string> tuning_;
    const HeardMap& heard_;
    double column_;
    double legend_y_ = 0;
    bool in_legend_ = false;
    Markup out_;
};

std::string summary(const HeardMap& heard) {
    std::vector<std::string> faults;
    std::size_t tried = 0;
    for (int s = 1; s <= heard.strings; ++s) {
        for (int f = 0; f <= heard.frets; ++f) {
            const HeardNote& note = heard.at(s, f);
            if (note.sound != Sound::not_tried) ++tried;
            if (note.sound <= Sound::rings && !note.dead_spot) continue;
            const std::string fret = f == 0 ? "open" : fmt::format("fret {}", f);
            faults.push_back(fmt::format("string {} {} {}", s, fret, words_of(note)));
        }
    }
    const std::string head = fmt::format("{} of {} notes tried", tried, heard.notes.size());
    return faults.empty() ? head + ", all of them rang." : fmt::format("{}: {}.", head, join(faults, "; "));
}

Markup twin(const HeardMap& heard) {
    std::vector<std::string> headings{"String", "Open"};
    for (int f = 1; f <= heard.frets; ++f) headings.push_back(fmt::format("Fret {}", f));
    std::vector<std::vector<std::string>> rows;
    for (int s = 1; s <= heard.strings; ++s) {
        std::vector<std::string> row{fmt::format("String {}", s)};
        for (int f = 0; f <= heard.frets; ++f) row.push_back(words_of(heard.at(s, f)));
        rows.push_back(std::move(row));
    }
    return twin_table("Ring map: what was heard, string by string", headings, rows);
}

}  // namespace

std::optional<svg::Figure> ring_figure(const Sheet& sheet) {
    const HeardMap heard = heard_map(sheet.bench);
    if (!heard.any()) return std::nullopt;
    RingDrawing drawing(sheet, heard);
    std::vector<std::string> stages;
    for (const evidence::Stage stage : heard.stages) stages.push_back(stage_words(stage));
    svg::Figure figure{.id = "ring-map", .title = "Ring map", .description = summary(heard)};
    figure.drawing = drawing.draw();
    figure.width = kFigureWidth;
    figure.height = drawing.height();
    figure.twin = twin(heard);
    figure.caption =
        fmt::format("Heard {}. The fret lines run down to their true places on the board.", list_of(stages));
    return figure;
}

}  // namespace fallaway::report
