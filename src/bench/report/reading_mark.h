// One figure on a drawing, in the state that it is in: measured, assumed, stale, disputed, outside its limit.
#pragma once

#include <string>

#include "bench/judgement/assessment.h"
#include "bench/report/neck_plan.h"

namespace fallaway::report {

inline constexpr double kFigureSize = 24;   // of a value, in drawing units
inline constexpr double kCaptionSize = 20;  // of what stands beside it

// What stands on the drawing: value, what is beside it (u, unit), and the limit it breaks.
struct Mark {
    std::string value{};
    std::string beside{};
    std::string limit{};  // "limit 2.20"
    bool stale = false;
    bool disputed = false;
    bool assumed = false;
    bool outside = false;

    // Room to the left and to the right of the middle of the value, as read on the page.
    double left() const;
    double right() const;
};

// `shared` is what stands once for the whole column and is not repeated.
Mark mark_of(const judgement::Line& line, const std::string& shared);

// Drawn with the middle of its value at `centre` (along the neck, before mirroring), on ground of its own. Reads
// left to right whatever the hand of the instrument.
Markup draw_mark(const Mark& mark, const NeckPlan& plan, svg::Point centre);

}  // namespace fallaway::report
