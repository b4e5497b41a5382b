#include "bench/sums/inputs.h"

#include <stdexcept>

namespace fallaway::sums {

const Given& Inputs::at(std::string_view name) const {
    const auto found = given_.find(name);
    if (found == given_.end()) throw std::out_of_range("no input named " + std::string(name));
    return found->second;
}

Given& Inputs::at(std::string_view name) {
    return const_cast<Given&>(static_cast<const Inputs&>(*this).at(name));
}

std::vector<std::vector<double>> Inputs::table(std::string_view name) const {
    const Given& given = at(name);
    std::vector<std::vector<double>> rows;
    auto next = given.si.begin();
    for (const std::size_t length : given.row_lengths) {
        const auto end = next + static_cast<std::ptrdiff_t>(length);
        rows.emplace_back(next, end);
        next = end;
    }
    return rows;
}

Outcome& Outcome::put(std::string name, double si, double u) {
    found.push_back({std::move(name), {si}, {u}, {}, false});
    return *this;
}

Outcome& Outcome::word(std::string name, std::string_view word) {
    found.push_back({std::move(name), {}, {}, std::string(word), false});
    return *this;
}

Outcome& Outcome::column(std::string name, std::vector<double> si) {
    found.push_back({std::move(name), std::move(si), {}, {}, true});
    return *this;
}

Outcome& Outcome::note(std::string text) {
    notes.push_back(std::move(text));
    return *this;
}

}  // namespace fallaway::sums
