#include "science/neck/relief.h"

#include "science/neck/profile.h"

namespace fallaway::neck {
namespace {

// Gap under the line from one fret to another for one unit of relief.
template <class Height>
double gap(const Layout& layout, const ReliefReading& reading, const Height& height) {
    const double a = centre_place(layout, reading.from);
    const double b = centre_place(layout, reading.to);
    const double x = centre_place(layout, reading.over);
    return height(a) + (height(b) - height(a)) * (x - a) / (b - a) - height(x);
}

double gap(const Layout& layout, const ProfileShapes& shapes, const ReliefReading& reading, ReliefShape shape) {
    if (shape == ReliefShape::beam) return gap(layout, reading, [&](double x) { return shapes.at(x).bow; });
    const double first = centre_place(layout, 1);
    const double last = centre_place(layout, layout.frets);
    return gap(layout, reading, [&](double x) { return parabola((x - first) / (last - first)); });
}

}  // namespace

double relief_ratio(const Layout& layout, const ReliefReading& reading, ReliefShape shape) {
    return gap(layout, ProfileShapes(layout), reading, shape);
}

int deepest_fret(const Layout& layout, int from, int to, ReliefShape shape) {
    const ProfileShapes shapes(layout);
    int best = from + 1;
    double deepest = gap(layout, shapes, {from, best, to}, shape);
    for (int over = from + 2; over < to; ++over) {
        const double here = gap(layout, shapes, {from, over, to}, shape);
        if (here > deepest) {
            best = over;
            deepest = here;
        }
    }
    return best;
}

}  // namespace fallaway::neck
