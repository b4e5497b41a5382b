#include "science/neck/suspects.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include "science/neck/next_reading.h"
#include "science/numeric/distributions.h"

namespace fallaway::neck {
namespace {

constexpr double kBlunder = 1e-3;         // m, sd
constexpr double kUnusualToBlunder = 10;  // one in ten to one in a hundred
constexpr double kNothingToBlunder = 100;
constexpr double kMisfit = 0.01;        // of all numbers together, below which parts are given room
constexpr double kNamed = 0.95;         // the suspects' share of the odds
constexpr std::size_t kHypotheses = 8;  // more than were ever named together
constexpr int kSteps = 240;             // of the integral over what a repeat may show
constexpr double kReach = 6;            // sd on either side of it

double log_normal(double x, double mean, double variance) {
    return -((x - mean) * (x - mean) / variance + std::log(2 * std::numbers::pi * variance)) / 2;
}

// Log probability of a reading where `mean` and `variance` are believed of its form.
double log_likelihood(const Reading& r, double u, double mean, double variance) {
    if (r.is_number()) return log_normal(r.low, mean, variance + u * u);
    return numeric::interval_moments(mean, variance, r.low, r.high, u).log_probability;
}

// How much likelier all readings are if one of them is a blunder, for each: log of the ratio.
std::vector<double> blunder_odds(const NeckModel& model, std::span<const Reading> readings,
                                 const NeckFit& fitted) {
    std::vector<double> odds;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        const Beside& others = fitted.beside[i];
        const double variance = others.u * others.u;
        const double u = observation_of(model, readings[i]).u;
        odds.push_back(log_likelihood(readings[i], std::hypot(u, kBlunder), others.expected, variance) -
                       log_likelihood(readings[i], u, others.expected, variance));
    }
    return odds;
}

// Probability of being the blunder for each reading, most likely first.
std::vector<Suspect> share_odds(const std::vector<double>& odds) {
    const double most = *std::max_element(odds.begin(), odds.end());
    std::vector<Suspect> all;
    double sum = 0;
    for (std::size_t i = 0; i < odds.size(); ++i) {
        all.push_back({i, std::exp(odds[i] - most)});
        sum += all.back().probability;
    }
    for (Suspect& s : all) s.probability /= sum;
    std::stable_sort(all.begin(), all.end(),
                     [](const Suspect& a, const Suspect& b) { return a.probability > b.probability; });
    return all;
}

std::vector<Suspect> fewest_that_hold(const std::vector<Suspect>& all, double share) {
    std::vector<Suspect> named;
    double held = 0;
    for (const Suspect& s : all) {
        named.push_back(s);
        held += s.probability;
        if (held >= share) break;
    }
    return named;
}

double entropy_bits(double p) {
    return p > 0 ? -p * std::log2(p) : 0;
}

// What a new reading is expected to tell about which hypothesis holds, in bits: the entropy of what it may show
// less what is left when the hypothesis is known.
double expected_bits(const Reading& r, double u, std::span<const double> p,
                     std::span<const numeric::Prediction> of) {
    const std::size_t n = p.size();
    if (!r.is_number()) {  // a word falls or does not
        double falls = 0;
        double inside = 0;
        for (std::size_t h = 0; h < n; ++h) {
            const double q = std::exp(log_likelihood(r, u, of[h].mean, of[h].variance));
            falls += p[h] * q;
            inside += p[h] * (entropy_bits(q) + entropy_bits(1 - q));
        }
        return entropy_bits(falls) + entropy_bits(1 - falls) - inside;
    }
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (std::size_t h = 0; h < n; ++h) {
        const double sd = std::sqrt(of[h].variance + u * u);
        low = std::min(low, of[h].mean - kReach * sd);
        high = std::max(high, of[h].mean + kReach * sd);
    }
    double bits = 0;
    const double step = (high - low) / kSteps;
    for (int k = 0; k < kSteps; ++k) {
        const double y = low + (k + 0.5) * step;
        double density = 0;
        std::vector<double> each(n);
        for (std::size_t h = 0; h < n; ++h) {
            each[h] = std::exp(log_normal(y, of[h].mean, of[h].variance + u * u));
            density += p[h] * each[h];
        }
        for (std::size_t h = 0; h < n; ++h) {
            if (each[h] > 0) bits += p[h] * each[h] * std::log2(each[h] / density) * step;
        }
    }
    return bits;
}

// What is believed if one of the readings says nothing.
Result<numeric::Gaussian> state_without(const NeckModel& model, std::span<const Reading> readings,
                                        std::size_t left_out, const numeric::Gaussian& start) {
    std::vector<Reading> rest(readings.begin(), readings.end());
    rest.erase(rest.begin() + std::ptrdiff_t(left_out));
    return fit(model, rest, start).map([](NeckFit&& f) { return std::move(f.state); });
}

Result<void> decide(const NeckModel& model, std::span<const Reading> readings, std::span<const Suspect> all,
                    const numeric::Gaussian& start, const Tools& tools, Suspicion& suspicion) {
    const std::size_t n = std::min(kHypotheses, all.size());
    std::vector<double> p;
    std::vector<numeric::Gaussian> states;
    for (std::size_t h = 0; h < n; ++h) {
        auto state = state_without(model, readings, all[h].reading, start);
        if (!state) return tl::unexpected(state.error());
        p.push_back(all[h].probability);
        states.push_back(std::move(*state));
    }
    const double sum = std::accumulate(p.begin(), p.end(), 0.0);
    for (double& share : p) share /= sum;
    double best = -1;
    const auto consider = [&](const Reading& r, std::optional<std::size_t> repeats) {
        const auto o = observation_of(model, r);
        std::vector<numeric::Prediction> of;
        for (const auto& state : states) {
            of.push_back({numeric::mean_of(state, o.form), numeric::variance_of(state, o.form)});
        }
        const double bits = expected_bits(r, o.u, p, of);
        if (bits / r.minutes <= best) return;
        best = bits / r.minutes;
        suspicion.decider = r;
        suspicion.repeats = repeats;
        suspicion.bits = bits;
    };
    for (const Suspect& s : suspicion.named) consider(readings[s.reading], s.reading);
    for (const Reading& r : usual_readings(model.layout(), tools)) {
        const bool taken =
            std::any_of(readings.begin(), readings.end(), [&](const Reading& t) { return same_place(r, t); });
        if (!taken) consider(r, std::nullopt);
    }
    return {};
}

Result<Suspicion> suspect(const NeckModel& model, std::span<const Reading> readings,
                          const std::vector<double>& odds, const numeric::Gaussian& start, const Tools& tools) {
    const auto all = share_odds(odds);
    Suspicion suspicion;
    suspicion.named = fewest_that_hold(all, kNamed);
    suspicion.decider = readings[all.front().reading];
    suspicion.repeats = all.front().reading;
    if (suspicion.named.size() > 1) {
        if (auto fine = decide(model, readings, all, start, tools, suspicion); !fine) {
            return tl::unexpected(fine.error());
        }
    }
    if (suspicion.decider.is_number()) suspicion.decider.low = suspicion.decider.high = 0;
    return suspicion;
}

// How far from usual an unusual instrument may be: sd, m (kink: rad).
double unusual_sd(What what) {
    switch (what) {
        case What::relief:
            return 0.5e-3;
        case What::skew:
            return 0.1e-3;
        case What::kink:
            return 0.01;
        case What::hump:
            return 0.2e-3;
        case What::crown:
            return 0.15e-3;
        case What::tilt:
            return 0.1e-3;
        case What::slot:
            return 0.3e-3;
        case What::action:
            return 1e-3;
    }
    return 0;
}

std::vector<Unknown> all_that_may_be_unusual(const NeckModel& model) {
    std::vector<Unknown> all = model.unknowns();
    for (const What what : {What::crown, What::slot, What::action}) {
        const auto many = std::count_if(all.begin(), all.end(), [&](const Unknown& u) { return u.what == what; });
        if (many > 1) all.push_back({what, kAll});
    }
    return all;
}

numeric::Gaussian with_room(const NeckModel& model, numeric::Gaussian state, const Unknown& unusual) {
    const std::size_t n = state.size();
    for (std::size_t i = 0; i < n; ++i) {
        const Unknown& u = model.unknowns()[i];
        const bool meant = u.what == unusual.what && (unusual.at == kAll || u.at == unusual.at);
        if (meant) state.covariance[i * n + i] += unusual_sd(u.what) * unusual_sd(u.what);
    }
    return state;
}

// One examination, from the first fit to a consistent one.
class Examination {
public:
    Examination(const NeckModel& model, std::span<const Reading> readings, const Tools& tools)
        : model_(model),
          tools_(tools),
          left_(readings.begin(), readings.end()),
          place_(readings.size()),
          possible_(all_that_may_be_unusual(model)) {
        std::iota(place_.begin(), place_.end(), 0);
    }

    Result<Verdict> run(const numeric::Gaussian& start) {
        const auto all = left_;
        verdict_.start = start;
        auto fine = refit();
        while (fine && !settled()) {
            const NeckFit& now = verdict_.without;
            const auto odds = blunder_odds(model_, left_, now);
            const double other = now.consistent
                                     ? std::log(kNothingToBlunder)  // a common misfit, no reading stands out
                                     : *std::max_element(odds.begin(), odds.end());
            const auto given = give_room_unless(now.log_evidence + other);
            if (!given) return tl::unexpected(given.error());
            if (!*given && now.consistent) break;
            if (!*given) fine = set_aside(odds);
            if (fine) fine = refit();
        }
        if (!fine) return tl::unexpected(fine.error());
        auto whole = neck::fit(model_, all, verdict_.start);
        if (!whole) return tl::unexpected(whole.error());
        verdict_.fit = std::move(*whole);
        return std::move(verdict_);
    }

private:
    bool settled() const { return verdict_.without.consistent && verdict_.without.p >= kMisfit; }

    Result<void> refit() {
        auto fitted = neck::fit(model_, left_, verdict_.start);
        if (!fitted) return tl::unexpected(fitted.error());
        verdict_.without = std::move(*fitted);
        return {};
    }

    // To the likeliest unusual part, if one is likelier than a blunder of that log probability.
    Result<bool> give_room_unless(double blunder) {
        std::size_t best = possible_.size();
        double most = blunder;
        for (std::size_t i = 0; i < possible_.size(); ++i) {
            const auto fitted = neck::fit(model_, left_, with_room(model_, verdict_.start, possible_[i]));
            if (!fitted) return tl::unexpected(fitted.error());
            const double odds = fitted->log_evidence + std::log(kUnusualToBlunder);
            if (odds <= most) continue;
            most = odds;
            best = i;
        }
        if (best == possible_.size()) return false;
        verdict_.start = with_room(model_, std::move(verdict_.start), possible_[best]);
        verdict_.unusual.push_back(possible_[best]);
        possible_.erase(possible_.begin() + std::ptrdiff_t(best));
        return true;
    }

    Result<void> set_aside(const std::vector<double>& odds) {
        auto suspicion = suspect(model_, left_, odds, verdict_.start, tools_);
        if (!suspicion) return tl::unexpected(suspicion.error());
        std::vector<std::size_t> gone;
        for (Suspect& s : suspicion->named) {
            gone.push_back(s.reading);
            s.reading = place_[s.reading];
        }
        if (suspicion->repeats) suspicion->repeats = place_[*suspicion->repeats];
        std::sort(gone.rbegin(), gone.rend());
        for (const std::size_t i : gone) {
            left_.erase(left_.begin() + std::ptrdiff_t(i));
            place_.erase(place_.begin() + std::ptrdiff_t(i));
        }
        verdict_.suspicions.push_back(std::move(*suspicion));
        return {};
    }

    const NeckModel& model_;
    const Tools& tools_;
    std::vector<Reading> left_;
    std::vector<std::size_t> place_;  // of those left among all
    std::vector<Unknown> possible_;   // that may still turn out unusual
    Verdict verdict_;
};

}  // namespace

Result<Verdict> examine(const NeckModel& model, std::span<const Reading> readings, const numeric::Gaussian& start,
                        const Tools& tools) {
    return Examination(model, readings, tools).run(start);
}

Result<Verdict> examine(const NeckModel& model, std::span<const Reading> readings, const Tools& tools) {
    return examine(model, readings, model.prior(), tools);
}

}  // namespace fallaway::neck
