#include "science/strings/choice.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "science/numeric/roots.h"
#include "science/strings/stiffness.h"

namespace fallaway::strings {
namespace {

constexpr double kSameGauge = 1e-6;  // m
constexpr double kGaugeU = 5e-6;     // m

bool same_kind(const StringRow& row, Wrap wrap, Material material) {
    return row.wrap == wrap && row.material == material;
}

double per_section(const StringRow& row) {
    return row.mass.value / (row.gauge * row.gauge);
}

// The neighbours of a gauge among rows of its kind; absent on a side without one.
struct Neighbours {
    std::optional<std::size_t> thinner, thicker;
};
Neighbours neighbours(std::span<const StringRow> rows, double gauge, Wrap wrap, Material material) {
    Neighbours n;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (!same_kind(rows[i], wrap, material)) continue;
        const double g = rows[i].gauge;
        if (g <= gauge + kSameGauge && (!n.thinner || g > rows[*n.thinner].gauge)) n.thinner = i;
        if (g >= gauge - kSameGauge && (!n.thicker || g < rows[*n.thicker].gauge)) n.thicker = i;
    }
    return n;
}

}  // namespace

Make make_of(const StringRow& row) {
    Make make;
    make.core = row.core;
    make.wrap = row.wrap;
    make.material = row.material;
    make.outer_diameter = {row.gauge, kGaugeU};
    make.core_diameter = row.core_diameter;
    if (row.material == Material::nylon) make.core_density = kNylonDensity;
    if (row.core_modulus) make.core_modulus = *row.core_modulus;
    make.mass = row.mass;
    return make;
}

Result<Gauged> string_of_gauge(std::span<const StringRow> rows, double gauge, Wrap wrap, Core core,
                               Material material) {
    if (!(gauge >= 1e-4 && gauge <= 6e-3)) {
        return fail("range", "gauge", fmt::format("{:g} m: expected 0.0001 to 0.006 m", gauge));
    }
    const auto [thinner, thicker] = neighbours(rows, gauge, wrap, material);
    for (const auto& near : {thinner, thicker}) {
        if (near && std::abs(rows[*near].gauge - gauge) <= kSameGauge) {
            return Gauged{make_of(rows[*near]), MassFrom::row, near};
        }
    }
    if (material == Material::nylon) {
        return fail("missing", "gauge", fmt::format("{:g} m: no nylon string of that gauge in the table", gauge));
    }
    Gauged out;
    out.make.core = core;
    out.make.wrap = wrap;
    out.make.material = material;
    out.make.outer_diameter = {gauge, kGaugeU};
    if (wrap == Wrap::plain || !thinner || !thicker) return out;
    const StringRow& a = rows[*thinner];
    const StringRow& b = rows[*thicker];
    const double packing = std::lerp(per_section(a), per_section(b), (gauge - a.gauge) / (b.gauge - a.gauge));
    const double mass = packing * gauge * gauge;
    out.make.core = a.core;
    out.make.mass = Estimate{mass, kBetweenRowsU * mass};
    out.from = MassFrom::between_rows;
    out.row = thinner;
    return out;
}

Result<Feel> feel_of(const Pull& pull, double scale, int fret, double cents) {
    if (fret < 1 || fret > 24) return fail("range", "fret", fmt::format("{}: expected 1 to 24", fret));
    if (!(cents >= 10 && cents <= 500)) {
        return fail("range", "cents", fmt::format("{:g} cents: expected 10 to 500", cents));
    }
    const double sounding = scale * std::exp2(-fret / 12.0);
    const auto string = [&](double kappa, double tension) {
        return PushedAside{sounding, scale - sounding, kappa, tension};
    };
    if (const auto way = aside_for_cents(string(pull.kappa.value, 1), cents); !way) {
        return tl::unexpected(way.error());
    }
    // A kappa so far off that the bend cannot be reached counts as the furthest push.
    const auto aside = [&](double kappa) {
        return aside_for_cents(string(std::max(kappa, 1.0), 1), cents).value_or(sounding / 2);
    };
    constexpr double kStep = 1e-6;  // m
    Feel feel;
    feel.tension = pull.tension;
    feel.aside = carried([&](auto x) { return aside(x[0]); }, {pull.kappa});
    feel.bend_force =
        carried([&](auto x) { return bend_force(string(x[0], x[1]), aside(x[0])); }, {pull.kappa, pull.tension});
    feel.cents_per_metre = carried(
        [&](auto x) {
            const double y = aside(x[0]);
            return (bend_cents(string(x[0], 1), y + kStep) - bend_cents(string(x[0], 1), y - kStep)) / (2 * kStep);
        },
        {pull.kappa});
    const double ends = 1 / sounding + 1 / (scale - sounding);
    feel.sideways = {pull.tension.value * ends, pull.tension.u * ends};
    return feel;
}

Result<std::vector<Candidate>> nearest_rows(std::span<const StringRow> rows, const Seat& seat, std::size_t most) {
    if (!(seat.wanted > 0 && std::isfinite(seat.wanted))) {
        return fail("range", "wanted", fmt::format("{:g} N: expected more than 0", seat.wanted));
    }
    std::vector<Candidate> found;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const StringRow& row = rows[i];
        if (row.material != seat.material || (seat.wrap && row.wrap != *seat.wrap)) continue;
        const auto body = body_of(make_of(row));
        if (!body) return tl::unexpected(body.error());
        const auto pull = pull_of(*body, seat.scale, seat.pitch);
        if (!pull) return tl::unexpected(pull.error());
        const auto feel = feel_of(*pull, seat.scale.value);
        if (!feel) continue;  // so slack that a whole tone is not to be had: no string for this seat
        const Estimate& figure = seat.match == Match::tension ? pull->tension : feel->bend_force;
        found.push_back({i, *pull, *feel, figure.value / seat.wanted - 1, figure.u / seat.wanted,
                         pull->strength_share && pull->strength_share->value > kMostStrengthShare});
    }
    std::ranges::stable_sort(found, [](const Candidate& a, const Candidate& b) {
        if (a.near_breaking != b.near_breaking) return b.near_breaking;
        return std::abs(a.off) < std::abs(b.off);
    });
    if (found.size() > most) found.resize(most);
    return found;
}

std::vector<double> balanced_pulls(double total, std::size_t count, double slope) {
    std::vector<double> pulls;
    double sum = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double part = count == 1 ? 0 : static_cast<double>(i) / static_cast<double>(count - 1);
        pulls.push_back(std::lerp(1.0, slope, part));
        sum += pulls.back();
    }
    for (double& pull : pulls) pull *= total / sum;
    return pulls;
}

Estimate plain_gauge_for(Estimate tension, Estimate scale, Estimate pitch, Estimate density) {
    return carried([](auto x) { return std::sqrt(4 * x[0] / (std::numbers::pi * x[3])) / (2 * x[1] * x[2]); },
                   {tension, scale, pitch, density});
}

Result<double> wound_gauge_for(double tension, double scale, double pitch, Wrap wrap, Core core) {
    const double speed = 2 * scale * pitch;
    const auto over = [&](double gauge) {
        Make make;
        make.core = core;
        make.wrap = wrap;
        make.outer_diameter = {gauge, 0};
        const auto body = body_of(make);
        return body ? body->mass.value * speed * speed - tension : -tension;
    };
    const auto root = numeric::find_root(over, 0.4e-3, 4e-3, 1e-9);
    // Below some gauge no wrap finds room and `over` jumps: a crossing there is no string.
    if (!(tension > 0) || !root.ok() || std::abs(over(root.x)) > 1e-4 * tension) {
        return fail("range", "tension",
                    fmt::format("{:g} N: no wound string of 0.4 to 4 mm pulls so much here", tension));
    }
    return root.x;
}

}  // namespace fallaway::strings
