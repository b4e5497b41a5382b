// Case functions that take a formula or fit one.
#pragma once

#include "case_reader.h"
#include "expression.h"
#include "science/metrology/calibration_line.h"
#include "science/metrology/correlated.h"
#include "science/metrology/montecarlo.h"
#include "science/numeric/least_squares.h"

namespace fallaway::cases {

// [[i, j, r], ...]
inline std::vector<metrology::Correlation> correlations_of(Given& given) {
    std::vector<metrology::Correlation> result;
    for (const auto& row : given.get<std::vector<std::vector<double>>>("correlations")) {
        if (row.size() != 3) throw std::invalid_argument("a correlation is [i, j, r]");
        result.push_back({static_cast<std::size_t>(row[0]), static_cast<std::size_t>(row[1]), row[2]});
    }
    return result;
}

inline metrology::Draw shape_of(const std::string& word) {
    using metrology::Draw;
    static const std::map<std::string, Draw> shapes{{"normal", Draw::normal},
                                                    {"student_t", Draw::student_t},
                                                    {"rectangular", Draw::rectangular},
                                                    {"triangular", Draw::triangular},
                                                    {"arcsine", Draw::arcsine},
                                                    {"trapezoidal", Draw::trapezoidal},
                                                    {"curvilinear_trapezoidal", Draw::curvilinear_trapezoidal}};
    const auto found = shapes.find(word);
    if (found == shapes.end()) throw std::invalid_argument("unknown shape \"" + word + "\"");
    return found->second;
}

inline Outputs run_monte_carlo(Given& given) {
    std::vector<metrology::DrawnInput> inputs;
    std::vector<std::string> names;
    for (const Json& item : given.raw("inputs")) {
        Given input(item);
        names.push_back(input.get<std::string>("name"));
        inputs.push_back({names.back(), shape_of(input.get<std::string>("shape")), input.number("centre"),
                          input.number("spread"), input.number("detail", 0)});
        input.complain_of_unread();
    }
    metrology::MonteCarloOptions options;
    options.draws = given.get<std::size_t>("draws");
    options.seed = given.get<std::uint64_t>("seed");
    options.probability = given.number("probability", 0.95);
    options.stable_digits = given.has("stable_digits") ? given.get<int>("stable_digits") : 0;
    if (given.has("correlations")) options.correlations = correlations_of(given);
    const auto r = metrology::propagate(inputs, Expression(given.get<std::string>("model"), names), options);
    const metrology::MonteCarloResult& mc = value_of(r);
    return {{"mean", mc.mean},
            {"u", mc.u},
            {"symmetric", {mc.symmetric_low, mc.symmetric_high}},
            {"shortest", {mc.shortest_low, mc.shortest_high}},
            {"one_sided_high", mc.one_sided_high},
            {"first_order_value", mc.first_order_value},
            {"first_order_u", mc.first_order_u},
            {"first_order_valid", mc.first_order_valid},
            {"stable", mc.stable},
            {"draws", mc.draws}};
}

inline Outputs run_calibration_line(Given& given) {
    const auto r = metrology::calibration_line(given.numbers("x"), given.numbers("y"), given.number("origin", 0));
    const metrology::CalibrationLine& line = value_of(r);
    Outputs out{{"intercept", line.intercept},
                {"slope", line.slope},
                {"u_intercept", line.u_intercept},
                {"u_slope", line.u_slope},
                {"correlation", line.correlation},
                {"residual_sd", line.residual_sd},
                {"dof", line.dof}};
    if (given.has("at")) {
        const metrology::Uncertain y = line.at(given.number("at"));
        out["value_at"] = y.value;
        out["u_at"] = y.u;
    }
    return out;
}

// Correlations above the diagonal, row by row.
inline Json upper_triangle(const metrology::Joint& joint) {
    Json result = Json::array();
    for (std::size_t i = 0; i < joint.values.size(); ++i) {
        for (std::size_t j = i + 1; j < joint.values.size(); ++j) result.push_back(joint.correlation(i, j));
    }
    return result;
}

inline Outputs run_joint(Given& given) {
    const auto observations = given.get<std::vector<std::vector<double>>>("observations");
    const auto names = given.get<std::vector<std::string>>("names");
    std::vector<metrology::JointModel> models;
    for (const auto& text : given.get<std::vector<std::string>>("models"))
        models.emplace_back(Expression(text, names));
    const auto inputs = metrology::joint_type_a(observations);
    const auto outputs = metrology::propagate_joint(value_of(inputs), models);
    return {{"u_inputs", inputs->u},
            {"r_inputs", upper_triangle(*inputs)},
            {"values", value_of(outputs).values},
            {"u", outputs->u},
            {"r_outputs", upper_triangle(*outputs)}};
}

inline Outputs outputs_of(const numeric::Fit& fit) {
    if (!fit.ok()) {
        throw std::invalid_argument("no fit: " + std::string(numeric::name_of(fit.status)) + " after " +
                                    std::to_string(fit.iterations) + " iterations, parameters " +
                                    Json(fit.parameters).dump());
    }
    Json u = Json::array();
    for (std::size_t i = 0; i < fit.size(); ++i) u.push_back(fit.u(i));
    return {{"parameters", fit.parameters}, {"u", u},        {"rss", fit.rss}, {"residual_sd", fit.residual_sd},
            {"r_squared", fit.r_squared},   {"dof", fit.dof}};
}

inline std::vector<double> weights_of(Given& given) {
    return given.has("weights") ? given.numbers("weights") : std::vector<double>{};
}

inline Outputs run_linear_fit(Given& given) {
    const auto columns = given.get<std::vector<std::vector<double>>>("columns");
    const auto y = given.numbers("y");
    std::vector<double> design;
    for (std::size_t i = 0; i < y.size(); ++i) {
        for (const auto& column : columns) design.push_back(column.at(i));
    }
    return outputs_of(numeric::linear_fit(design, y, weights_of(given)));
}

inline Outputs run_polynomial_fit(Given& given) {
    return outputs_of(numeric::polynomial_fit(given.numbers("x"), given.numbers("y"), given.get<int>("degree"),
                                              weights_of(given)));
}

// Every start must reach the same answer; outputs of all but the first are compared with the first.
inline Outputs run_nonlinear_fit(Given& given) {
    const auto x = given.numbers("x");
    const auto y = given.numbers("y");
    if (x.size() != y.size()) throw std::invalid_argument("x and y differ in length");
    const auto starts = given.get<std::vector<std::vector<double>>>("starts");
    const auto text = given.get<std::string>("model");
    Outputs first;
    for (const auto& start : starts) {
        std::vector<std::string> names{"x"};
        for (std::size_t i = 1; i <= start.size(); ++i) names.push_back("b" + std::to_string(i));
        const Expression model(text, names);
        const auto residuals = [&](std::span<const double> b, std::span<double> r) {
            std::vector<double> values{0};
            values.insert(values.end(), b.begin(), b.end());
            for (std::size_t i = 0; i < x.size(); ++i) {
                values[0] = x[i];
                r[i] = y[i] - model(values);
            }
        };
        const Outputs now = outputs_of(numeric::nonlinear_fit(residuals, x.size(), start));
        if (first.empty()) first = now;
        std::vector<std::string> faults;
        compare("parameters from start " + Json(start).dump(), first["parameters"], now.at("parameters"),
                {1e-6, true}, faults);
        if (!faults.empty()) throw std::invalid_argument(faults[0]);
    }
    return first;
}

}  // namespace fallaway::cases
