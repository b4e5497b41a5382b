// Formulas written in case files: numbers, names, + - * / ^, brackets, pi, exp log sqrt sin cos atan.
#pragma once

#include <array>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <map>
#include <numbers>
#include <span>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace fallaway::cases {

// A formula as a list of steps on a stack, so that a million evaluations stay cheap.
class Expression {
public:
    // Throws std::invalid_argument, naming the place, when the text is not a formula over these names.
    Expression(std::string text, std::vector<std::string> names)
        : text_(std::move(text)), names_(std::move(names)) {
        sum();
        if (at_ != text_.size()) complain("an operator");
    }

    double operator()(std::span<const double> values) const {
        std::array<double, 64> stack{};
        std::size_t top = 0;
        for (const Step& step : steps_) {
            switch (step.kind) {
                case Kind::number:
                    stack[top++] = step.value;
                    break;
                case Kind::name:
                    stack[top++] = values[step.index];
                    break;
                case Kind::negate:
                    stack[top - 1] = -stack[top - 1];
                    break;
                case Kind::call:
                    stack[top - 1] = step.call(stack[top - 1]);
                    break;
                case Kind::combine:
                    --top;
                    stack[top - 1] = combine(step.symbol, stack[top - 1], stack[top]);
                    break;
            }
        }
        return stack[0];
    }

private:
    enum class Kind { number, name, negate, call, combine };
    struct Step {
        Kind kind = Kind::number;
        double value = 0;
        std::size_t index = 0;
        double (*call)(double) = nullptr;
        char symbol = 0;
    };

    static double combine(char symbol, double a, double b) {
        switch (symbol) {
            case '+':
                return a + b;
            case '-':
                return a - b;
            case '*':
                return a * b;
            case '/':
                return a / b;
            default:
                return b == 2 ? a * a : std::pow(a, b);
        }
    }

    [[noreturn]] void complain(const std::string& expected) const {
        throw std::invalid_argument("model \"" + text_ + "\", character " + std::to_string(at_ + 1) +
                                    ": expected " + expected);
    }
    void skip() {
        while (at_ < text_.size() && text_[at_] == ' ') ++at_;
    }
    bool take(char c) {
        skip();
        if (at_ >= text_.size() || text_[at_] != c) return false;
        ++at_;
        skip();
        return true;
    }
    void binary(char symbol) { steps_.push_back({Kind::combine, 0, 0, nullptr, symbol}); }

    void sum() {
        product();
        while (true) {
            if (take('+')) {
                product();
                binary('+');
            } else if (take('-')) {
                product();
                binary('-');
            } else {
                return;
            }
        }
    }
    void product() {
        sign();
        while (true) {
            if (take('*')) {
                sign();
                binary('*');
            } else if (take('/')) {
                sign();
                binary('/');
            } else {
                return;
            }
        }
    }
    // A sign binds looser than a power: -x^2 is -(x^2).
    void sign() {
        if (take('-')) {
            sign();
            steps_.push_back({Kind::negate});
            return;
        }
        atom();
        if (take('^')) {
            sign();
            binary('^');
        }
    }
    void atom() {
        skip();
        if (take('(')) {
            sum();
            if (!take(')')) complain("a closing bracket");
            return;
        }
        if (at_ < text_.size() && (std::isdigit(static_cast<unsigned char>(text_[at_])) || text_[at_] == '.')) {
            char* end = nullptr;
            const double value = std::strtod(text_.c_str() + at_, &end);
            at_ = static_cast<std::size_t>(end - text_.c_str());
            steps_.push_back({Kind::number, value});
            return;
        }
        const std::size_t start = at_;
        while (at_ < text_.size() && std::isalnum(static_cast<unsigned char>(text_[at_]))) ++at_;
        word(text_.substr(start, at_ - start));
    }
    void word(const std::string& name) {
        static const std::map<std::string, double (*)(double)> functions{
            {"exp", [](double x) { return std::exp(x); }},   {"log", [](double x) { return std::log(x); }},
            {"sqrt", [](double x) { return std::sqrt(x); }}, {"sin", [](double x) { return std::sin(x); }},
            {"cos", [](double x) { return std::cos(x); }},   {"atan", [](double x) { return std::atan(x); }}};
        for (std::size_t i = 0; i < names_.size(); ++i) {
            if (names_[i] == name) {
                steps_.push_back({Kind::name, 0, i});
                return;
            }
        }
        if (name == "pi") {
            steps_.push_back({Kind::number, std::numbers::pi});
            return;
        }
        const auto found = functions.find(name);
        if (found == functions.end()) complain("a number, a bracket or a known name, not \"" + name + "\"");
        if (!take('(')) complain("a bracket after " + name);
        sum();
        if (!take(')')) complain("a closing bracket");
        steps_.push_back({Kind::call, 0, 0, found->second});
    }

    std::string text_;
    std::vector<std::string> names_;
    std::vector<Step> steps_;
    std::size_t at_ = 0;
};

}  // namespace fallaway::cases
