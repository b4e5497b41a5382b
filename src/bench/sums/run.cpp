// Doing a sum and carrying the uncertainties of its inputs to its outputs.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "bench/sums/arguments.h"
#include "bench/sums/registry.h"

namespace fallaway::sums {
namespace {

constexpr double kStep = 1e-3;       // of u: small enough for a slope, large enough above rounding
constexpr double kRounding = 1e-14;  // of a value: a smaller change is noise
constexpr double kMostBend = 0.2;    // of the first-order part, before a note says that the result bends

// The variance of every value of an outcome, flat in the order of the outcome.
struct Carried {
    std::vector<double> variance;
    bool any = false;
    bool bends = false;
};

std::vector<double> flat(const Outcome& outcome) {
    std::vector<double> values;
    for (const Found& found : outcome.found) values.insert(values.end(), found.si.begin(), found.si.end());
    return values;
}

// The outcome with one entry of one input moved; absent when the sum refuses it or answers in another shape.
std::optional<std::vector<double>> moved(const Sum& sum, Inputs inputs, const std::string& name, std::size_t entry,
                                         double by, std::size_t size) {
    inputs.at(name).si[entry] += by;
    const auto outcome = sum.function(inputs);
    if (!outcome) return std::nullopt;
    auto values = flat(*outcome);
    if (values.size() != size || !std::ranges::all_of(values, [](double v) { return std::isfinite(v); })) {
        return std::nullopt;
    }
    return values;
}

// Adds what one entry of one input brings.
void add_part(const Sum& sum, const Inputs& inputs, const std::string& name, std::size_t entry, double u,
              const std::vector<double>& centre, Carried& carried) {
    const std::size_t n = centre.size();
    const auto above = moved(sum, inputs, name, entry, u * kStep, n);
    const auto below = moved(sum, inputs, name, entry, -u * kStep, n);
    const auto far_above = moved(sum, inputs, name, entry, u, n);
    const auto far_below = moved(sum, inputs, name, entry, -u, n);
    if (!far_above || !far_below) carried.bends = true;
    if (!above && !below) return;
    const double width = (above ? kStep : 0) + (below ? kStep : 0);
    for (std::size_t i = 0; i < n; ++i) {
        const double high = above ? (*above)[i] : centre[i];
        const double low = below ? (*below)[i] : centre[i];
        const double difference = std::abs(high - low) > kRounding * std::abs(centre[i]) ? high - low : 0;
        const double part = difference / width;
        carried.variance[i] += part * part;
        if (!far_above || !far_below) continue;
        const double bend = ((*far_above)[i] - 2 * centre[i] + (*far_below)[i]) / 2;
        const double noise = 1e-9 * std::abs(centre[i]);
        if (std::abs(bend) > kMostBend * std::abs(part) + noise) carried.bends = true;
    }
}

Carried carry(const Sum& sum, const Inputs& inputs, const Outcome& outcome) {
    const std::vector<double> centre = flat(outcome);
    Carried carried{std::vector<double>(centre.size(), 0.0)};
    for (const Input& input : sum.inputs) {
        if (input.use_of_u != UseOfU::carried || !inputs.has(input.name)) continue;
        const Given& given = inputs.at(input.name);
        for (std::size_t entry = 0; entry < given.u.size(); ++entry) {
            if (given.u[entry] <= 0) continue;
            carried.any = true;
            add_part(sum, inputs, input.name, entry, given.u[entry], centre, carried);
        }
    }
    return carried;
}

const Unit& unit_for(const Output& output, Dimension dimension, const Inputs& inputs) {
    if (!output.dimension && inputs.kind_unit != nullptr && dimension == inputs.kind) return *inputs.kind_unit;
    if (!output.unit_as_given_for.empty() && inputs.has(output.unit_as_given_for)) {
        return *inputs.at(output.unit_as_given_for).unit;
    }
    const Unit* unit = output.dimension ? find_unit(output.unit, dimension) : nullptr;
    return unit != nullptr ? *unit : units_of(dimension).front();
}

// Decimals in `unit` for as fine a print as was registered.
int decimals_for(const Output& output, const Unit& unit, double si) {
    if (!output.dimension) {
        const double number = std::abs(output.is_difference ? difference_from_si(si, unit) : from_si(si, unit));
        if (!(number > 0) || !std::isfinite(number)) return output.decimals - 1;
        return std::max(0, output.decimals - 1 - static_cast<int>(std::floor(std::log10(number))));
    }
    const Unit* registered = find_unit(output.unit, *output.dimension);
    const double coarser = registered == nullptr ? 1 : unit.factor / registered->factor;
    return std::max(0, output.decimals + static_cast<int>(std::round(std::log10(coarser))));
}

AnswerValue printed(const Output& output, const Found& found, std::span<const double> variances,
                    const Inputs& inputs) {
    AnswerValue value{output.name,          output.says, {}, nullptr, found.is_column,
                      output.is_difference, found.si,    {}, {},      found.word};
    if (output.is_word) return value;
    Dimension dimension = output.dimension.value_or(inputs.kind);
    if (output.is_difference && dimension == Dimension::temperature) dimension = Dimension::temperature_difference;
    const Unit& unit = unit_for(output, dimension, inputs);
    value.dimension = dimension;
    value.unit = &unit;
    for (std::size_t i = 0; i < found.si.size(); ++i) {
        const double own = found.u.empty() ? 0 : found.u[i];
        const double u = std::sqrt(own * own + variances[i]);
        value.u.push_back(u);
        value.texts.push_back(format_with_u(found.si[i], u, unit, decimals_for(output, unit, found.si[i])));
    }
    return value;
}

}  // namespace

Result<Answer> run(const Sum& sum, const std::vector<Argument>& arguments) {
    const auto inputs = read_arguments(sum, arguments);
    if (!inputs) return tl::unexpected(inputs.error());
    const auto outcome = sum.function(*inputs);
    if (!outcome) return tl::unexpected(outcome.error());
    const Carried carried = carry(sum, *inputs, *outcome);

    Answer answer{{}, outcome->notes, sum.cautions};
    std::size_t at = 0;
    for (const Found& found : outcome->found) {
        const auto output = std::ranges::find(sum.outputs, found.name, &Output::name);
        if (output == sum.outputs.end()) throw std::logic_error(sum.name + " has no output named " + found.name);
        const auto variances = std::span(carried.variance).subspan(at, found.si.size());
        answer.outputs.push_back(printed(*output, found, variances, *inputs));
        at += found.si.size();
    }
    if (carried.any) answer.notes.emplace_back("\u00B1 is one standard uncertainty, carried by first order.");
    if (carried.bends) {
        answer.notes.emplace_back(
            "The result bends within the uncertainty of an input: take \u00B1 as a rough figure.");
    }
    return answer;
}

}  // namespace fallaway::sums
