#include "science/neck/heights.h"

#include <algorithm>

#include "science/strings/ideal.h"

namespace fallaway::neck {
namespace {

double place(const CrownLine& crowns, int fret) {
    return crowns.x[static_cast<std::size_t>(fret - 1)];
}

double crown(const CrownLine& crowns, int fret) {
    return crowns.z[static_cast<std::size_t>(fret - 1)];
}

double line(double xa, double za, double xb, double zb, double x) {
    return za + (zb - za) * (x - xa) / (xb - xa);
}

}  // namespace

CrownLine crowns_under(const Layout& layout, int string, const std::function<double(double)>& profile,
                       std::span<const double> errors) {
    CrownLine crowns{.length = speaking_length(layout, string)};
    const double nut = layout.strings[static_cast<std::size_t>(string)].x_nut;
    for (int fret = 1; fret <= layout.frets; ++fret) {
        const double x = fret_place(layout, string, fret);
        const double error = errors.empty() ? 0 : errors[static_cast<std::size_t>(fret - 1)];
        crowns.x.push_back(x);
        crowns.z.push_back(profile(nut + x) - board_drop(layout, string, x) + layout.crown_height + error);
    }
    return crowns;
}

double open_height(const CrownLine& crowns, double nut, double saddle, int fret) {
    return line(0, nut, crowns.length, saddle, place(crowns, fret)) - crown(crowns, fret);
}

double fretted_height(const CrownLine& crowns, double saddle, int held, int over) {
    return line(place(crowns, held), crown(crowns, held), crowns.length, saddle, place(crowns, over)) -
           crown(crowns, over);
}

double height_behind(const CrownLine& crowns, double nut, int held, int over) {
    return line(0, nut, place(crowns, held), crown(crowns, held), place(crowns, over)) - crown(crowns, over);
}

double height_under(const CrownLine& crowns, int a, int b, int over) {
    return line(place(crowns, a), crown(crowns, a), place(crowns, b), crown(crowns, b), place(crowns, over)) -
           crown(crowns, over);
}

double rock(const CrownLine& crowns, int below, int middle, int above) {
    return -height_under(crowns, below, above, middle);
}

double relief_of(const CrownLine& crowns) {
    const int last = static_cast<int>(crowns.x.size());
    if (last < 3) return 0;
    double deepest = height_under(crowns, 1, last, 2);
    for (int fret = 3; fret < last; ++fret) deepest = std::max(deepest, height_under(crowns, 1, last, fret));
    return deepest;
}

double saddle_for(const CrownLine& crowns, double nut, int fret, double height) {
    return nut + (height + crown(crowns, fret) - nut) * crowns.length / place(crowns, fret);
}

double nut_for(const CrownLine& crowns, double saddle, int fret, double height) {
    const double share = place(crowns, fret) / crowns.length;
    return (height + crown(crowns, fret) - saddle * share) / (1 - share);
}

Ends ends_from(const CrownLine& crowns, int fret_a, double height_a, int fret_b, double height_b) {
    const double xa = place(crowns, fret_a);
    const double xb = place(crowns, fret_b);
    const double za = height_a + crown(crowns, fret_a);
    const double zb = height_b + crown(crowns, fret_b);
    return {.nut = line(xa, za, xb, zb, 0), .saddle = line(xa, za, xb, zb, crowns.length)};
}

double lying_sag_at(double frequency, double share) {
    return strings::lying_sag(Frequency::hz(frequency)).m() * 4 * share * (1 - share);
}

}  // namespace fallaway::neck
