#include "science/numeric/random.h"

#include <bit>
#include <cmath>
#include <numbers>

#include "science/numeric/distributions.h"

namespace fallaway::numeric {

Random::Random(std::uint64_t seed) {
    for (std::uint64_t& word : state_) {
        seed += 0x9e3779b97f4a7c15ULL;
        std::uint64_t z = seed;
        z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
        z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
        word = z ^ (z >> 31);
    }
}

std::uint64_t Random::next() {
    const std::uint64_t result = std::rotl(state_[0] + state_[3], 23) + state_[0];
    const std::uint64_t shifted = state_[1] << 17;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= shifted;
    state_[3] = std::rotl(state_[3], 45);
    return result;
}

double Random::uniform() {
    return (static_cast<double>(next() >> 12) + 0.5) * 0x1p-52;
}

double Random::normal() {
    return normal_quantile(uniform());
}

double Random::rectangular(double low, double high) {
    return low + (high - low) * uniform();
}

double Random::triangular(double low, double high) {
    return trapezoidal(low, high, 0);
}

double Random::trapezoidal(double low, double high, double top) {
    const double first = uniform();
    const double second = uniform();
    return low + 0.5 * (high - low) * ((1 + top) * first + (1 - top) * second);
}

double Random::curvilinear_trapezoidal(double low, double high, double slack) {
    const double end = low - slack + 2 * slack * uniform();
    const double other = low + high - end;
    return end + (other - end) * uniform();
}

double Random::arcsine(double low, double high) {
    return 0.5 * (low + high) + 0.5 * (high - low) * std::sin(2 * std::numbers::pi * uniform());
}

double Random::student_t(double dof) {
    while (true) {
        const double u = 2 * uniform() - 1;
        const double v = 2 * uniform() - 1;
        const double w = u * u + v * v;
        if (w > 0 && w <= 1) return u * std::sqrt(dof * std::expm1(-2 / dof * std::log(w)) / w);
    }
}

}  // namespace fallaway::numeric
