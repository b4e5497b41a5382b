#include "science/neck/clearances.h"

#include <algorithm>
#include <cmath>

namespace fallaway::neck {
namespace {

// The heights one string runs over, with their joint covariance: support 0 is the nut, then the crowns, then the
// saddle. A clearance is a sum of three of them, so this is all it takes.
class Supports {
public:
    Supports(const NeckModel& model, const numeric::Gaussian& state, int string) {
        const int last = model.layout().frets;
        forms_.push_back(model.nut(string));
        for (int fret = 1; fret <= last; ++fret) forms_.push_back(model.crown(string, fret));
        forms_.push_back(model.saddle(string));
        for (int fret = 0; fret <= last; ++fret) x_.push_back(model.place(string, fret));
        x_[0] = 0;
        x_.push_back(speaking_length(model.layout(), string));
        for (const Form& form : forms_) mean_.push_back(numeric::mean_of(state, form));
        covariance_ = numeric::covariance_of(state, forms_);
    }

    Clearance at(int string, int held, int over) const {
        const std::size_t j = std::size_t(held);
        const std::size_t k = std::size_t(over);
        const std::size_t s = forms_.size() - 1;
        const double share = (x_[k] - x_[j]) / (x_[s] - x_[j]);
        const double a = 1 - share;
        const double variance = a * a * cov(j, j) + share * share * cov(s, s) + cov(k, k) +
                                2 * (a * share * cov(j, s) - a * cov(j, k) - share * cov(s, k));
        return {string, held, over, a * mean_[j] + share * mean_[s] - mean_[k],
                std::sqrt(std::max(0.0, variance))};
    }

private:
    double cov(std::size_t i, std::size_t j) const { return covariance_[i * forms_.size() + j]; }

    std::vector<Form> forms_;
    std::vector<double> x_;
    std::vector<double> mean_;
    std::vector<double> covariance_;
};

}  // namespace

std::vector<Clearance> clearances(const NeckModel& model, const numeric::Gaussian& state) {
    const int strings = int(model.layout().strings.size());
    const int last = model.layout().frets;
    std::vector<Clearance> all;
    all.reserve(std::size_t(strings * last * (last + 1) / 2));
    for (int string = 0; string < strings; ++string) {
        const Supports supports(model, state, string);
        for (int held = 0; held < last; ++held) {
            for (int over = held + 1; over <= last; ++over) all.push_back(supports.at(string, held, over));
        }
    }
    return all;
}

Clearance smallest(std::span<const Clearance> all) {
    const auto least = std::min_element(all.begin(), all.end(),
                                        [](const Clearance& a, const Clearance& b) { return a.value < b.value; });
    return least == all.end() ? Clearance{} : *least;
}

std::vector<Clearance> binding(std::vector<Clearance> all, std::size_t count) {
    // value/u compared without dividing: a known clearance binds only when there is no room at all.
    const auto tighter = [](const Clearance& a, const Clearance& b) { return a.value * b.u < b.value * a.u; };
    const auto middle = all.begin() + std::ptrdiff_t(std::min(count, all.size()));
    std::partial_sort(all.begin(), middle, all.end(), tighter);
    all.erase(middle, all.end());
    return all;
}

}  // namespace fallaway::neck
