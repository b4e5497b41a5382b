#include "science/neck/profile.h"

#include <algorithm>
#include <cmath>

namespace fallaway::neck {
namespace {

constexpr double kHumpSd = 0.030;                  // m; common practice, no source
constexpr double kSkewScale = 20.784609690826528;  // 12 sqrt(3): u (1 - u) (1/2 - u) peaks at 1/(12 sqrt(3))

double share_of_chord(double x, double first, double last) {
    return (x - first) / (last - first);
}

// A shape less the straight line through its own values at the two ends of the chord.
template <class Shape>
double over_chord(const Shape& shape, double x, double first, double last) {
    const double u = share_of_chord(x, first, last);
    return shape(x) - (shape(first) + (shape(last) - shape(first)) * u);
}

}  // namespace

double parabola(double u) {
    return -4 * u * (1 - u);
}

ProfileShapes::ProfileShapes(const Layout& layout)
    : x_first_(centre_place(layout, 1)),
      x_last_(centre_place(layout, layout.frets)),
      x_joint_(centre_place_of_joint(layout)),
      bent_(layout, NeckBeam{}) {
    const double dip = bent_.deepest_dip();
    if (dip > 0) bow_scale_ = 1 / dip;
}

Shapes ProfileShapes::at(double x) const {
    if (!(x_last_ > x_first_)) return {};
    const double u = share_of_chord(x, x_first_, x_last_);
    const auto turned = [this](double at) { return std::max(0.0, at - x_joint_); };
    const auto raised = [this](double at) {
        const double z = (at - x_joint_) / kHumpSd;
        return std::exp(-z * z / 2);
    };
    return {.bow = bow_scale_ * bent_.over_chord(x),
            .skew = kSkewScale * u * (1 - u) * (0.5 - u),
            .past_joint = over_chord(turned, x, x_first_, x_last_),
            .hump = over_chord(raised, x, x_first_, x_last_)};
}

}  // namespace fallaway::neck
