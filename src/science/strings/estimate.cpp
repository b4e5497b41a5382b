#include "science/strings/estimate.h"

#include <cmath>
#include <vector>

namespace fallaway::strings {

Estimate carried(const Formula& f, std::span<const Estimate> inputs) {
    std::vector<double> x;
    for (const Estimate& input : inputs) x.push_back(input.value);
    const double value = f(x);
    double squares = 0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (inputs[i].u == 0) continue;
        x[i] = inputs[i].value + inputs[i].u;
        const double above = f(x);
        x[i] = inputs[i].value - inputs[i].u;
        const double half = (above - f(x)) / 2;
        x[i] = inputs[i].value;
        squares += half * half;
    }
    return {value, std::sqrt(squares)};
}

Estimate carried(const Formula& f, std::initializer_list<Estimate> inputs) {
    return carried(f, std::span<const Estimate>(inputs.begin(), inputs.size()));
}

Estimate total(std::span<const Estimate> parts) {
    Estimate sum;
    double squares = 0;
    for (const Estimate& part : parts) {
        sum.value += part.value;
        squares += part.u * part.u;
    }
    sum.u = std::sqrt(squares);
    return sum;
}

}  // namespace fallaway::strings
