// What the function of a sum sees: its inputs in SI units by name, and the outcome it fills.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "science/base/dimension.h"
#include "science/base/quantity_text.h"

namespace fallaway::sums {

// One input, read. A single value is a list of one.
struct Given {
    std::vector<double> si;
    std::vector<double> u;
    std::vector<std::size_t> row_lengths;  // tables only
    std::string word;
    const Unit* unit = nullptr;  // as written; null for words and texts
};

// Asking for a name that the sum has not registered is a fault of ours and throws std::out_of_range.
class Inputs {
public:
    void set(const std::string& name, Given given) { given_[name] = std::move(given); }
    const std::map<std::string, Given, std::less<>>& all() const { return given_; }
    Given& at(std::string_view name);
    const Given& at(std::string_view name) const;

    bool has(std::string_view name) const { return given_.find(name) != given_.end(); }
    double si(std::string_view name) const { return at(name).si.front(); }
    double si_or(std::string_view name, double otherwise) const { return has(name) ? si(name) : otherwise; }
    double u(std::string_view name) const { return at(name).u.front(); }
    int whole(std::string_view name) const { return static_cast<int>(si(name)); }
    const std::vector<double>& list(std::string_view name) const { return at(name).si; }
    std::vector<std::vector<double>> table(std::string_view name) const;
    const std::string& word(std::string_view name) const { return at(name).word; }
    template <class Q>
    Q get(std::string_view name) const {
        return Q::si(si(name));
    }

    // The kind and the unit shared by all readings of any kind; the unit as first written.
    Dimension kind = Dimension::ratio;
    const Unit* kind_unit = nullptr;

private:
    std::map<std::string, Given, std::less<>> given_;
};

// One result under the name of a registered output.
struct Found {
    std::string name;
    std::vector<double> si;
    std::vector<double> u;  // empty: only what the inputs bring
    std::string word;
    bool is_column = false;
};

class Outcome {
public:
    Outcome& put(std::string name, double si, double u = 0);
    template <class Q>
    requires requires(Q q) { q.si(); }
    Outcome& put(std::string name, Q value) { return put(std::move(name), value.si()); }
    Outcome& word(std::string name, std::string_view word);
    Outcome& column(std::string name, std::vector<double> si);
    Outcome& note(std::string text);

    std::vector<Found> found;
    std::vector<std::string> notes;
};

}  // namespace fallaway::sums
