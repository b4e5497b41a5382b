#include "science/neck/next_reading.h"

#include <algorithm>
#include <cmath>

#include "science/neck/clearances.h"

namespace fallaway::neck {
namespace {

constexpr std::size_t kBinding = 12;
constexpr int kShortestSpan = 3;  // of frets that a relief reading or a straightedge needs

Reading planned(Reading place, const Tool& tool) {
    return with_number(place, 0, tool);
}

void add_string_heights(std::vector<Reading>& all, const Layout& layout, const Tools& tools) {
    const int strings = int(layout.strings.size());
    for (const int fret : {1, 12, 17, layout.frets}) {
        if (fret > layout.frets || (fret == layout.frets && (fret == 1 || fret == 12 || fret == 17))) continue;
        for (int s = 0; s < strings; ++s) {
            all.push_back(planned({.kind = Kind::open_height, .string = s, .fret = fret}, tools.height));
        }
    }
}

// Joint covariance of the candidates' heights and the binding clearances, brought up to date reading by reading.
class Ahead {
public:
    Ahead(const numeric::Gaussian& state, std::span<const Form> forms, std::size_t candidates)
        : n_(forms.size()), candidates_(candidates), covariance_(numeric::covariance_of(state, forms)) {}

    double mean_variance() const {
        double sum = 0;
        for (std::size_t b = candidates_; b < n_; ++b) sum += at(b, b);
        return sum / double(n_ - candidates_);
    }

    double gain(std::size_t c, double u) const {
        double sum = 0;
        for (std::size_t b = candidates_; b < n_; ++b) sum += at(b, c) * at(b, c);
        return sum / (at(c, c) + u * u) / double(n_ - candidates_);
    }

    void take(std::size_t c, double u) {
        std::vector<double> column(n_);
        for (std::size_t i = 0; i < n_; ++i) column[i] = at(i, c);
        const double scale = 1 / (column[c] + u * u);
        for (std::size_t i = 0; i < n_; ++i) {
            for (std::size_t j = 0; j < n_; ++j) covariance_[i * n_ + j] -= scale * column[i] * column[j];
        }
    }

private:
    double at(std::size_t i, std::size_t j) const { return covariance_[i * n_ + j]; }

    std::size_t n_;
    std::size_t candidates_;
    std::vector<double> covariance_;
};

}  // namespace

std::vector<Reading> usual_readings(const Layout& layout, const Tools& tools) {
    std::vector<Reading> all;
    const int strings = int(layout.strings.size());
    const int last = layout.frets;
    add_string_heights(all, layout, tools);
    if (last > kShortestSpan) {
        all.push_back(planned({.kind = Kind::gap, .string = 0, .from = 1, .to = last}, tools.relief));
        if (strings > 1) {
            all.push_back(
                planned({.kind = Kind::gap, .string = strings - 1, .from = 1, .to = last}, tools.relief));
        }
        for (int fret = 2; fret < last; ++fret) {
            all.push_back(planned({.kind = Kind::gap, .fret = fret, .from = 1, .to = last}, tools.straightedge));
        }
    }
    if (!layout.fretted) return all;
    for (int s = 0; s < strings && last >= 2 && !layout.zero_fret; ++s) {
        all.push_back(planned({.kind = Kind::nut_gap, .string = s, .fret = 1, .from = 2}, tools.nut_gap));
    }
    for (int fret = layout.zero_fret ? 1 : 2; fret < last; ++fret) {
        all.push_back(planned({.kind = Kind::rock, .fret = fret}, tools.rocker));
    }
    for (int fret = 1; fret <= last; ++fret) {
        all.push_back(planned({.kind = Kind::crown_height, .fret = fret}, tools.caliper));
    }
    return all;
}

Result<std::vector<Proposal>> next_readings(const NeckModel& model, const numeric::Gaussian& state,
                                            std::span<const Reading> taken, std::size_t count,
                                            const Tools& tools) {
    if (auto fine = check(model.layout(), taken); !fine) return tl::unexpected(fine.error());
    std::vector<Reading> candidates = usual_readings(model.layout(), tools);
    std::erase_if(candidates, [&](const Reading& c) {
        return std::any_of(taken.begin(), taken.end(), [&](const Reading& t) { return same_place(c, t); });
    });
    std::vector<Form> forms;
    std::vector<double> u;
    for (const Reading& c : candidates) {
        const auto observation = observation_of(model, c);
        forms.push_back(observation.form);
        u.push_back(observation.u);
    }
    for (const Clearance& c : binding(clearances(model, state), kBinding)) {
        forms.push_back(model.fretted_height(c.string, c.held, c.over));
    }
    Ahead ahead(state, forms, candidates.size());
    std::vector<Proposal> proposals;
    std::vector<bool> used(candidates.size());
    while (proposals.size() < count) {
        std::size_t best = candidates.size();
        double most = 0;
        for (std::size_t c = 0; c < candidates.size(); ++c) {
            const double gain = used[c] ? 0 : ahead.gain(c, u[c]) / candidates[c].minutes;
            if (gain <= most) continue;
            most = gain;
            best = c;
        }
        if (best == candidates.size()) break;
        const double before = std::sqrt(ahead.mean_variance());
        ahead.take(best, u[best]);
        used[best] = true;
        proposals.push_back({candidates[best], before, std::sqrt(std::max(0.0, ahead.mean_variance())), most});
    }
    return proposals;
}

}  // namespace fallaway::neck
