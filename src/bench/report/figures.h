// The drawings of the page. Each returns nothing when there is nothing to draw.
#pragma once

#include <optional>

#include "bench/report/report.h"
#include "bench/report/svg.h"

namespace fallaway::report {

// The neck in plan with true fret places; string heights and nut readings on the strings at the stations where
// they were read, the dip of the neck below. Absent when none of these was read and no note was heard.
std::optional<svg::Figure> neck_figure(const Sheet& sheet);

// What was heard: rows strings, columns frets, and lines that run down to the true places of the neck figure.
// Absent when no note was tried.
std::optional<svg::Figure> ring_figure(const Sheet& sheet);

// The fret tops from above, as the model of the neck has them. Absent while nothing was read on the neck.
std::optional<svg::Figure> survey_figure(const Sheet& sheet);
// Each string's heights and its least room, for the table below it.
Markup strings_over_crowns(const model::NeckSurvey& neck);

// One change, string by string, and the mean change with its 95 % interval. Absent without pairs.
std::optional<svg::Figure> change_figure(const judgement::Change& change, std::size_t number);

}  // namespace fallaway::report
