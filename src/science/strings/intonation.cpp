#include "science/strings/intonation.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "science/strings/covariance.h"

namespace fallaway::strings {
namespace {

constexpr double kEndTerm = 1 + std::numbers::pi * std::numbers::pi / 2;
constexpr double kCentsPerRatio = 1200 / std::numbers::ln2;  // of a small relative change

double gamma_of(double fret) {
    return std::exp2(fret / 12);
}

// The legs to one crown, for the heights of nut and saddle given.
FrettedPath path_to(const Crown& crown, const Heights& h) {
    const Leg to_saddle{h.saddle_x - crown.x, h.saddle_z - crown.z};
    const double down = crown.behind * to_saddle.rise / to_saddle.run + crown.below;  // press point under the top
    return {crown.fret, {crown.x - crown.behind, crown.z - down - h.nut_z}, {crown.behind, down}, to_saddle};
}

double more_than(const FrettedPath& p, const Leg& open) {
    return p.to_press.length() + p.to_crown.length() + p.to_saddle.length() - open.length();
}

double stretched(const Heights& h, const Crown& crown) {
    return more_than(path_to(crown, h), {h.saddle_x, h.saddle_z - h.nut_z});
}

// Half the difference of the stretched lengths when one height goes up and down by its u.
template <class Change>
std::vector<double> doubt(const Heights& heights, Change change, double u) {
    std::vector<double> shift;
    for (const Crown& crown : heights.crowns) {
        Heights up = heights;
        Heights down = heights;
        Crown up_crown = crown;
        Crown down_crown = crown;
        change(up, up_crown, u);
        change(down, down_crown, -u);
        shift.push_back((stretched(up, up_crown) - stretched(down, down_crown)) / 2);
    }
    return shift;
}

std::vector<std::vector<double>> doubts_of(const Heights& h) {
    std::vector<std::vector<double>> doubts;
    if (h.u_nut_z > 0) {
        doubts.push_back(doubt(
            h, [](Heights& x, Crown&, double u) { x.nut_z += u; }, h.u_nut_z));
    }
    if (h.u_saddle_z > 0) {
        doubts.push_back(doubt(
            h, [](Heights& x, Crown&, double u) { x.saddle_z += u; }, h.u_saddle_z));
    }
    if (h.u_crown_z > 0) {
        const auto all = doubt(
            h, [](Heights&, Crown& crown, double u) { crown.z += u; }, h.u_crown_z);
        for (std::size_t i = 0; i < all.size(); ++i) {
            doubts.emplace_back(all.size(), 0.0)[i] = all[i];
        }
    }
    return doubts;
}

Result<void> check_crown(const Heights& h, std::size_t i) {
    const Crown& c = h.crowns[i];
    const auto refuse = [&](const char* field, double value, const std::string& expected) {
        return fail("range", fmt::format("crowns/{}/{}", i, field),
                    fmt::format("{:g}: expected {}", value, expected));
    };
    if (c.fret < 1 || c.fret > kMostFrets) return refuse("fret", c.fret, fmt::format("1 to {}", kMostFrets));
    if (!(c.x > 0 && c.x < h.saddle_x)) {
        return refuse("x", c.x, fmt::format("more than 0 and less than the saddle's {:g} m", h.saddle_x));
    }
    if (!(std::abs(c.z) <= 0.1)) return refuse("z", c.z, "-0.1 to 0.1 m");
    if (!(c.behind >= 0 && c.behind < c.x)) return refuse("behind", c.behind, "0 to less than x");
    if (!(c.below >= 0 && c.below <= 0.01)) return refuse("below", c.below, "0 to 0.01 m");
    return {};
}

}  // namespace

Result<StringPath> path_of(const Heights& h) {
    if (!(h.saddle_x >= 0.2 && h.saddle_x <= 1.3)) {
        return fail("range", "saddle_x", fmt::format("{:g} m: expected 0.2 to 1.3 m", h.saddle_x));
    }
    if (!(std::abs(h.nut_z) <= 0.1)) {
        return fail("range", "nut_z", fmt::format("{:g} m: expected -0.1 to 0.1 m", h.nut_z));
    }
    if (!(std::abs(h.saddle_z) <= 0.1)) {
        return fail("range", "saddle_z", fmt::format("{:g} m: expected -0.1 to 0.1 m", h.saddle_z));
    }
    for (const double u : {h.u_nut_z, h.u_saddle_z, h.u_crown_z}) {
        if (!(u >= 0 && u <= 0.01)) return fail("range", "u", fmt::format("{:g} m: expected 0 to 0.01 m", u));
    }
    StringPath path;
    path.open = {h.saddle_x, h.saddle_z - h.nut_z};
    for (std::size_t i = 0; i < h.crowns.size(); ++i) {
        if (auto good = check_crown(h, i); !good) return tl::unexpected(good.error());
        path.frets.push_back(path_to(h.crowns[i], h));
    }
    path.doubts = doubts_of(h);
    return path;
}

double usual_press_distance(double gap) {
    return std::min(8e-3, 0.4 * gap);
}

Heights flat_heights(double scale, double nut_over, double saddle_over_nut, int frets, double behind) {
    Heights h;
    h.nut_z = nut_over;
    h.saddle_x = scale;
    h.saddle_z = nut_over + saddle_over_nut;
    for (int fret = 1; fret <= frets; ++fret) {
        h.crowns.push_back({fret, scale * (1 - 1 / gamma_of(fret)), 0, behind, 0});
    }
    return h;
}

Estimate Response::kappa_estimate() const {
    return {kappa, std::sqrt(covariance[0])};
}

Estimate Response::eps_estimate() const {
    return {eps, std::sqrt(covariance[5])};
}

Response response_of(const Pull& pull) {
    Response r;
    r.kappa = pull.kappa.value;
    r.eps = pull.eps.value;
    r.covariance[0] = pull.kappa.u * pull.kappa.u;
    // Real ends are neither clamp nor pin: the model's stiffness term runs up to a fifth over what the bench
    // finds.
    constexpr double kEndDoubt = 0.15;
    r.covariance[5] = pull.eps.u * pull.eps.u + kEndDoubt * kEndDoubt * pull.eps.value * pull.eps.value;
    // Both rest on core diameter and modulus above all: an error of the core moves them together.
    r.covariance[1] = r.covariance[4] = pull.kappa.u * pull.eps.u;
    return r;
}

std::vector<double> fretted_cents(const StringPath& path, const Response& r, const Moves& moves) {
    const StringPath p = moved(path, {moves.saddle + r.saddle_behind, moves.nut + r.nut_behind});
    const double open = p.open.length();
    const double at_open = std::log2(1 + r.eps + kEndTerm * r.eps * r.eps);
    std::vector<double> cents;
    for (std::size_t i = 0; i < p.frets.size(); ++i) {
        const double sounding = p.frets[i].to_saddle.length();
        const double stretch = stretched_by(p, i) / open;
        const double tighter = 1 + r.kappa * stretch;
        const double e = r.eps * open / sounding / std::sqrt(tighter);
        cents.push_back(1200 * std::log2(open / (gamma_of(p.frets[i].fret) * sounding)) +
                        600 * std::log2(1 + stretch) + 600 * std::log2(tighter) +
                        1200 * (std::log2(1 + e + kEndTerm * e * e) - at_open));
    }
    return cents;
}

double stretched_by(const StringPath& path, std::size_t place) {
    return more_than(path.frets[place], path.open);
}

StringPath moved(StringPath path, const Moves& moves) {
    path.open.run += moves.saddle + moves.nut;
    for (FrettedPath& fret : path.frets) {
        fret.to_press.run += moves.nut;
        fret.to_saddle.run += moves.saddle;
    }
    return path;
}

std::vector<Variation> variations(const StringPath& path, const Response& response) {
    std::vector<Variation> all;
    for (const auto& cause : causes_of(response.covariance, 4)) {
        Variation v{response, path};
        v.response.kappa += cause[0];
        v.response.eps += cause[1];
        v.response.saddle_behind += cause[2];
        v.response.nut_behind += cause[3];
        all.push_back(std::move(v));
    }
    for (const auto& doubt : path.doubts) {
        Variation v{response, path};
        for (std::size_t i = 0; i < path.frets.size(); ++i) v.path.frets[i].to_press.run += doubt[i];
        all.push_back(std::move(v));
    }
    return all;
}

std::vector<Estimate> expected_cents(const StringPath& path, const Response& response, const Moves& moves) {
    const auto cents = fretted_cents(path, response, moves);
    std::vector<double> squares(cents.size(), 0.0);
    for (const Variation& v : variations(path, response)) {
        const auto other = fretted_cents(v.path, v.response, moves);
        for (std::size_t i = 0; i < cents.size(); ++i) squares[i] += (other[i] - cents[i]) * (other[i] - cents[i]);
    }
    std::vector<Estimate> out;
    for (std::size_t i = 0; i < cents.size(); ++i) out.push_back({cents[i], std::sqrt(squares[i])});
    return out;
}

double flat_stretch(double scale, double nut_over, double saddle_over_nut, double fret) {
    const double more = gamma_of(fret) - 1;
    const double sum = gamma_of(fret) * nut_over + more * saddle_over_nut;
    return sum * sum / (2 * more * scale * scale);
}

double first_order_cents(double scale, double kappa, double eps, double stretch, double fret,
                         const Moves& setbacks) {
    const double more = gamma_of(fret) - 1;
    return kCentsPerRatio * (more * (eps - setbacks.saddle / scale) + setbacks.nut / scale + kappa * stretch / 2);
}

double cents_per_metre(double scale, double fret) {
    return -kCentsPerRatio * (gamma_of(fret) - 1) / scale;
}

double saddle_move_for(double cents, double scale, double fret) {
    return -cents / cents_per_metre(scale, fret);
}

}  // namespace fallaway::strings
