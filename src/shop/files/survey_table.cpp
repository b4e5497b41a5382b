// Wire tables of the neck as its readings tell it. Rows of many numbers are plain, in mm, their standard
// uncertainty beside them under the same name with _se.
#include <cmath>

#include "shop/files/assessment_tables.h"
#include "shop/files/bench_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using metrology::Uncertain;
using model::NeckSurvey;

// To a tenth of a micrometre: more is dust.
double in_mm(double metres) {
    return std::round(metres * 1e7) / 1e4;
}

template <class T>
auto values_of(std::vector<Uncertain> T::*member) {
    return [member](const T& record) {
        std::vector<double> list;
        for (const Uncertain& one : record.*member) list.push_back(in_mm(one.value));
        return list;
    };
}
template <class T>
auto spreads_of(std::vector<Uncertain> T::*member) {
    return [member](const T& record) {
        std::vector<double> list;
        for (const Uncertain& one : record.*member) list.push_back(in_mm(one.u));
        return list;
    };
}
template <class T>
auto figure(Uncertain T::*member) {
    return [member](const T& record) { return model::in_mm(record.*member); };
}

Codec<model::Asked> asked_codec() {
    using A = model::Asked;
    return codec_of(Record<A>("survey_asked", "What to read, and where")
                        .tells("what", "the reading", &A::observable, any_text())
                        .defaulted("at", "where; left out for the whole instrument", &A::at, place_codec()));
}

Codec<model::StringSurvey> string_codec() {
    using S = model::StringSurvey;
    const auto numbers = list_of(any_number());
    return codec_of(
        Record<S>("survey_string", "One string over the crowns")
            .tells("string", "1 is the thinnest", &S::string, any_whole())
            .tells("assumed", "those of its figures that rest on what is usual more than on readings", &S::assumed,
                   list_of(any_text()))
            .tells("slot", "floor of the nut slot over a zero-fret", figure(&S::slot), figure_codec())
            .tells("over_first", "underside over fret 1", figure(&S::over_first), figure_codec())
            .tells("over_twelfth", "over fret 12", figure(&S::over_twelfth), figure_codec())
            .tells("over_last", "over the last fret", figure(&S::over_last), figure_codec())
            .tells("next_fret_mm", "room over the next crown: open, held at fret 1, at fret 2, ...",
                   values_of(&S::next_fret), numbers)
            .tells("next_fret_mm_se", "its uncertainty", spreads_of(&S::next_fret), numbers)
            .tells("open_mm", "room of the open string over fret 1, 2, ...", values_of(&S::open), numbers)
            .tells("open_mm_se", "its uncertainty", spreads_of(&S::open), numbers)
            .tells("least", "the least room of this string over any crown", figure(&S::least), figure_codec())
            .tells("least_held", "where it is held then; 0 is open", &S::least_held, any_whole())
            .tells("least_over", "over which fret", &S::least_over, any_whole()));
}

// What a section across the neck is drawn from.
struct BoardShape {
    const NeckSurvey* survey = nullptr;
};

Codec<BoardShape> board_codec() {
    using B = BoardShape;
    const auto each = [](double neck::StringLine::*place) {
        return [place](const B& b) {
            std::vector<double> list;
            for (const neck::StringLine& line : b.survey->layout.strings) list.push_back(in_mm(line.*place));
            return list;
        };
    };
    const auto layout = [](auto of) { return [of](const B& b) { return in_mm(of(b.survey->layout)); }; };
    const auto numbers = list_of(any_number());
    return codec_of(
        Record<B>("survey_board", "The board in section")
            .tells("radius_nut_mm", "radius at the nut", layout([](const auto& l) { return l.board.radius_nut; }),
                   any_number())
            .tells("radius_end_mm", "radius at the last fret",
                   layout([](const auto& l) { return l.board.radius_end; }), any_number())
            .tells(
                "radius_known", "false: that of most of its kind",
                [](const B& b) { return b.survey->radius_known; }, boolean())
            .tells("fret_height_mm", "of the wire over the board",
                   layout([](const auto& l) { return l.crown_height; }), any_number())
            .tells(
                "fret_height_known", "false: that of most of its kind",
                [](const B& b) { return b.survey->fret_height_known; }, boolean())
            .tells("scales_mm", "scale of each string, string 1 first", each(&neck::StringLine::scale), numbers)
            .tells("strings_nut_mm", "where the strings lie across at the nut, string 1 first, 0 in the middle",
                   each(&neck::StringLine::y_nut), numbers)
            .tells("strings_saddle_mm", "and at the saddles", each(&neck::StringLine::y_saddle), numbers));
}

Codec<model::CrownSurvey> crown_codec() {
    using C = model::CrownSurvey;
    const auto numbers = list_of(any_number());
    return codec_of(
        Record<C>("survey_crown", "One crown")
            .tells("fret", "which", &C::fret, any_whole())
            .tells("assumed", "true: off rests on what is usual more than on readings", &C::assumed, boolean())
            .tells("off", "height over the shape that is wanted, in the middle of the board", figure(&C::off),
                   figure_codec())
            .tells("off_mm", "the same under each string, string 1 first", values_of(&C::off_under), numbers)
            .tells("off_mm_se", "its uncertainty", spreads_of(&C::off_under), numbers)
            .tells("heights_mm", "over the straight line from fret 1 to the last, string 1 first",
                   values_of(&C::heights), numbers)
            .tells("heights_mm_se", "its uncertainty", spreads_of(&C::heights), numbers));
}

Codec<model::Contour> contour_codec() {
    using C = model::Contour;
    const auto places = [](double model::BoardPoint::*part) {
        return [part](const C& c) {
            std::vector<double> list;
            for (const model::BoardPoint& point : c.points) list.push_back(std::round(point.*part * 1e3) / 1e3);
            return list;
        };
    };
    const auto numbers = list_of(any_number());
    return codec_of(
        Record<C>("survey_line", "A line of equal height of the fret tops over the shape that is wanted")
            .tells(
                "level_mm", "the height", [](const C& c) { return in_mm(c.level); }, any_number())
            .tells("sure", "false: not known to half a step along it", &C::sure, boolean())
            .tells("frets", "its points along the board: 7.5 lies halfway from fret 7 to fret 8",
                   places(&model::BoardPoint::fret), numbers)
            .tells("strings", "and across: 1 on string 1", places(&model::BoardPoint::string), numbers));
}

Codec<model::Disagreement> disagreement_codec() {
    using D = model::Disagreement;
    return codec_of(Record<D>("survey_clash", "Readings that do not go together")
                        .tells("texts", "each beside what all others say, the likeliest slip first", &D::texts,
                               list_of(any_text()))
                        .tells("suspects", "the same as places", &D::suspects, list_of(asked_codec()))
                        .tells("decider", "what to read to settle it", &D::decider, asked_codec())
                        .tells("again", "true: that is one of them read again", &D::again, boolean()));
}

Codec<model::NextOnTheNeck> next_codec() {
    using N = model::NextOnTheNeck;
    return codec_of(Record<N>("survey_next", "A reading that would tell most for its minutes")
                        .tells("asked", "which", &N::asked, asked_codec())
                        .tells("minutes", "what it takes", &N::minutes, any_number())
                        .tells(
                            "before_mm", "uncertainty of the least room before it",
                            [](const N& n) { return in_mm(n.u_before); }, any_number())
                        .tells(
                            "after_mm", "and after it, and those above",
                            [](const N& n) { return in_mm(n.u_after); }, any_number()));
}

}  // namespace

Codec<NeckSurvey> survey_codec() {
    using N = NeckSurvey;
    static const auto kCodec =
        codec_of(Record<N>("survey", "The neck as its readings tell it, with what is usual where nothing was read")
                     .tells("readings", "how many speak of it", &N::readings, any_whole())
                     .tells("left_out", "how many were set aside, because they do not go with the others",
                            &N::left_out, any_whole())
                     .tells("assumed", "\"relief\", \"fallaway\": rests on what is usual more than on readings",
                            &N::assumed, list_of(any_text()))
                     .tells("relief", "deepest dip under a line from fret 1 to the last", figure(&N::relief),
                            figure_codec())
                     .tells("relief_at", "over which fret", &N::relief_at, any_whole())
                     .tells("fallaway", "how far the last crown lies under the line of the neck",
                            figure(&N::fallaway), figure_codec())
                     .tells(
                         "board", "what a section across is drawn from", [](const N& n) { return BoardShape{&n}; },
                         board_codec())
                     .tells("strings", "string 1 first", &N::strings, list_of(string_codec()))
                     .tells("crowns", "fret 1 first", &N::crowns, list_of(crown_codec()))
                     .tells(
                         "contour_step_mm", "between two lines", [](const N& n) { return in_mm(n.contour_step); },
                         any_number())
                     .tells("contours", "highest first", &N::contours, list_of(contour_codec()))
                     .tells("disagreements", "readings that do not go together", &N::disagreements,
                            list_of(disagreement_codec()))
                     .tells("next", "what to read next on the neck, best first", &N::next, list_of(next_codec())));
    return kCodec;
}

}  // namespace fallaway::files
