#include "science/neck/layout.h"

#include <cmath>
#include <numbers>

namespace fallaway::neck {

Layout fanned(Layout layout, double scale_thinnest, double scale_thickest, double square_fret) {
    const double first = layout.strings.front().y_nut;
    const double spread = layout.strings.back().y_nut - first;
    const double share = -std::expm1(-square_fret * std::numbers::ln2 / 12);
    double mean = 0;
    for (StringLine& line : layout.strings) {
        const double across = spread == 0 ? 0 : (line.y_nut - first) / spread;
        line.scale = scale_thinnest + (scale_thickest - scale_thinnest) * across;
        mean += line.scale * share / static_cast<double>(layout.strings.size());
    }
    for (StringLine& line : layout.strings) line.x_nut = mean - line.scale * share;
    return layout;
}

double fret_place(const Layout& layout, int string, int fret) {
    const double scale = layout.strings[static_cast<std::size_t>(string)].scale;
    const auto measured = static_cast<std::size_t>(fret);
    const double error = fret >= 1 && measured <= layout.fret_errors.size() ? layout.fret_errors[measured - 1] : 0;
    return scale * -std::expm1(-fret * std::numbers::ln2 / 12) + error;
}

double speaking_length(const Layout& layout, int string) {
    const StringLine& line = layout.strings[static_cast<std::size_t>(string)];
    return line.scale + line.setback;
}

double string_y(const Layout& layout, int string, double x) {
    const StringLine& line = layout.strings[static_cast<std::size_t>(string)];
    return line.y_nut + (line.y_saddle - line.y_nut) * (x / line.scale);
}

double board_radius(const Board& board, double x) {
    if (std::isinf(board.radius_nut) || std::isinf(board.radius_end))
        return std::numeric_limits<double>::infinity();
    if (board.radius_nut == board.radius_end) return board.radius_nut;
    return board.radius_nut + (board.radius_end - board.radius_nut) * (x / board.x_end);
}

double arc_drop(double y, double radius) {
    // Without the difference of two large numbers, which would lose the digits of a flat arc.
    const double share = y / radius;
    return y * share / (1 + std::sqrt(1 - share * share));
}

double board_drop(const Layout& layout, int string, double x) {
    const StringLine& line = layout.strings[static_cast<std::size_t>(string)];
    return arc_drop(string_y(layout, string, x), board_radius(layout.board, line.x_nut + x));
}

}  // namespace fallaway::neck
