#include "bench/model/contours.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>

namespace fallaway::model {
namespace {

using metrology::Uncertain;
using Rows = std::vector<std::vector<Uncertain>>;

constexpr double kDust = 1e-9;  // m; less is rounding

// An edge of the grid, from a node to the next along or across. Two cells meet at it, so a line that leaves one
// enters the other.
struct Edge {
    std::size_t row = 0;
    std::size_t column = 0;
    bool along = false;  // towards the next row, else the next column

    friend auto operator<=>(const Edge&, const Edge&) = default;
};

// Marching squares (Lorensen & Cline 1987, in two dimensions). A saddle is cut by the mean of its corners.
class Lines {
public:
    Lines(const Rows& rows, double level) : rows_(rows), level_(level) {
        for (std::size_t r = 0; r + 1 < rows.size(); ++r) {
            for (std::size_t c = 0; c + 1 < rows.front().size(); ++c) cut(r, c);
        }
    }

    // Lines that end at the rim first, then the rings.
    std::vector<Contour> take(double step) && {
        std::vector<Contour> lines;
        for (const bool rings : {false, true}) {
            for (;;) {
                const auto start = first(rings);
                if (!start) break;
                lines.push_back(follow(*start, rings, step));
            }
        }
        return lines;
    }

private:
    double height(std::size_t r, std::size_t c) const { return rows_[r][c].value; }
    bool over(std::size_t r, std::size_t c) const { return height(r, c) >= level_ - kDust; }

    void join(const Edge& a, const Edge& b) {
        ways_[a].push_back(b);
        ways_[b].push_back(a);
    }

    void cut(std::size_t r, std::size_t c) {
        const std::array corners = {over(r, c), over(r, c + 1), over(r + 1, c + 1), over(r + 1, c)};
        const std::array<Edge, 4> edges = {Edge{r, c, false}, Edge{r, c + 1, true}, Edge{r + 1, c, false},
                                           Edge{r, c, true}};
        std::vector<Edge> crossed;
        for (std::size_t i = 0; i < 4; ++i) {
            if (corners[i] != corners[(i + 1) % 4]) crossed.push_back(edges[i]);
        }
        if (crossed.size() == 2) join(crossed[0], crossed[1]);
        if (crossed.size() != 4) return;
        const double mean = (height(r, c) + height(r, c + 1) + height(r + 1, c + 1) + height(r + 1, c)) / 4;
        // Around the corners that differ from the middle.
        const bool middle = mean >= level_ - kDust;
        const std::size_t shift = corners[0] == middle ? 0 : 1;
        join(crossed[shift], crossed[(shift + 1) % 4]);
        join(crossed[(shift + 2) % 4], crossed[(shift + 3) % 4]);
    }

    std::optional<Edge> first(bool rings) const {
        for (const auto& [edge, ways] : ways_) {
            if (!ways.empty() && (rings || ways.size() == 1)) return edge;
        }
        return std::nullopt;
    }

    Contour follow(Edge at, bool ring, double step) {
        Contour line{level_, ring, true, {}};
        double u = 0;
        for (;;) {
            const auto [point, known] = crossing(at);
            line.points.push_back(point);
            u += known;
            auto& ways = ways_[at];
            if (ways.empty()) break;
            const Edge next = ways.back();
            ways.pop_back();
            std::erase(ways_[next], at);
            at = next;
        }
        line.sure = u / double(line.points.size()) <= step / 2;
        return line;
    }

    std::pair<BoardPoint, double> crossing(const Edge& edge) const {
        const Uncertain& a = rows_[edge.row][edge.column];
        const Uncertain& b = edge.along ? rows_[edge.row + 1][edge.column] : rows_[edge.row][edge.column + 1];
        const double share = std::clamp((level_ - a.value) / (b.value - a.value), 0.0, 1.0);
        BoardPoint point{double(edge.row + 1), double(edge.column + 1)};
        (edge.along ? point.fret : point.string) += share;
        return {point, a.u + share * (b.u - a.u)};
    }

    const Rows& rows_;
    double level_;
    std::map<Edge, std::vector<Edge>> ways_;
};

}  // namespace

std::vector<Contour> contours(const Rows& rows, double step) {
    std::vector<Contour> all;
    if (rows.size() < 2 || rows.front().size() < 2 || !(step > 0)) return all;
    double low = rows.front().front().value;
    double high = low;
    for (const auto& row : rows) {
        for (const Uncertain& one : row) {
            low = std::min(low, one.value);
            high = std::max(high, one.value);
        }
    }
    for (long i = std::lround(std::floor(high / step)); double(i) * step > low + kDust; --i) {
        std::ranges::move(Lines(rows, double(i) * step).take(step), std::back_inserter(all));
    }
    return all;
}

}  // namespace fallaway::model
