#include "bench/sums/registry.h"

#include <algorithm>
#include <numeric>

#include "bench/sums/themes.h"

namespace fallaway::sums {
namespace {

template <class T, class Change>
T changed(T copy, Change change) {
    change(copy);
    return copy;
}

Input of_kind(std::string name, std::string says, Kind kind, std::optional<Dimension> dimension) {
    Input input;
    input.name = std::move(name);
    input.says = std::move(says);
    input.kind = kind;
    input.dimension = dimension;
    return input;
}

// How many letters must be added, dropped, changed or swapped with a neighbour to turn a into b
// (Damerau 1964, the restricted distance).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
    std::iota(d[0].begin(), d[0].end(), std::size_t{0});
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t change = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, change});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
            }
        }
    }
    return d[a.size()][b.size()];
}

std::vector<Sum> together(std::vector<Sum> first, const std::vector<Sum>& second) {
    first.insert(first.end(), second.begin(), second.end());
    return first;
}

}  // namespace

Input Input::within(double lowest, double highest) const {
    return changed(*this, [&](Input& i) { i.low = lowest, i.high = highest, i.ends_excluded = false; });
}
Input Input::between(double lowest, double highest) const {
    return changed(*this, [&](Input& i) { i.low = lowest, i.high = highest, i.ends_excluded = true; });
}
Input Input::above(double lowest) const {
    return changed(*this, [&](Input& i) { i.low = lowest, i.high.reset(), i.ends_excluded = true; });
}
Input Input::at_least(double lowest) const {
    return changed(*this, [&](Input& i) { i.low = lowest, i.high.reset(), i.ends_excluded = false; });
}
Input Input::usually(std::string as_typed) const {
    return changed(*this, [&](Input& i) { i.usual = std::move(as_typed); });
}
Input Input::optional() const {
    return changed(*this, [](Input& i) { i.may_be_left_out = true; });
}
Input Input::or_note() const {
    return changed(*this, [](Input& i) { i.may_be_note = true; });
}
Input Input::with_u(UseOfU use) const {
    return changed(*this, [&](Input& i) { i.use_of_u = use; });
}

Input quantity(std::string name, std::string says, Dimension dimension) {
    return of_kind(std::move(name), std::move(says), Kind::quantity, dimension);
}
Input quantities(std::string name, std::string says, Dimension dimension) {
    return of_kind(std::move(name), std::move(says), Kind::list, dimension);
}
Input whole(std::string name, std::string says) {
    return quantity(std::move(name), std::move(says), Dimension::count).with_u(UseOfU::refused);
}
Input number(std::string name, std::string says) {
    return quantity(std::move(name), std::move(says), Dimension::ratio);
}
Input probability(std::string name, std::string says) {
    return number(std::move(name), std::move(says)).between(0, 1).with_u(UseOfU::refused);
}
Input numbers(std::string name, std::string says) {
    return quantities(std::move(name), std::move(says), Dimension::ratio);
}
Input reading(std::string name, std::string says) {
    return of_kind(std::move(name), std::move(says), Kind::quantity, std::nullopt).with_u(UseOfU::refused);
}
Input readings(std::string name, std::string says) {
    return of_kind(std::move(name), std::move(says), Kind::list, std::nullopt).with_u(UseOfU::refused);
}
Input difference(std::string name, std::string says) {
    return changed(reading(std::move(name), std::move(says)).at_least(0),
                   [](Input& i) { i.is_difference = true; });
}
Input table(std::string name, std::string says) {
    return of_kind(std::move(name), std::move(says), Kind::table, Dimension::ratio).with_u(UseOfU::refused);
}
Input reading_table(std::string name, std::string says) {
    return of_kind(std::move(name), std::move(says), Kind::table, std::nullopt).with_u(UseOfU::refused);
}
Input one_of(std::string name, std::string says, std::vector<std::string> words) {
    return changed(of_kind(std::move(name), std::move(says), Kind::word, std::nullopt),
                   [&](Input& i) { i.words = std::move(words); });
}
Input text(std::string name, std::string says) {
    return of_kind(std::move(name), std::move(says), Kind::text, std::nullopt);
}

Output Output::in_unit_of(std::string input) const {
    return changed(*this, [&](Output& o) { o.unit_as_given_for = std::move(input); });
}

Output shown(std::string name, std::string says, Dimension dimension, std::string unit, int decimals) {
    return {std::move(name), std::move(says), dimension, std::move(unit), decimals, false, false, {}};
}
Output plain(std::string name, std::string says, int decimals) {
    return shown(std::move(name), std::move(says), Dimension::ratio, "", decimals);
}
Output count_of(std::string name, std::string says) {
    return shown(std::move(name), std::move(says), Dimension::count, "", 0);
}
Output percent(std::string name, std::string says, int decimals) {
    return shown(std::move(name), std::move(says), Dimension::ratio, "%", decimals);
}
Output like_readings(std::string name, std::string says, int significant) {
    return {std::move(name), std::move(says), std::nullopt, "", significant, false, false, {}};
}
Output spread_of_readings(std::string name, std::string says, int significant) {
    return {std::move(name), std::move(says), std::nullopt, "", significant, false, true, {}};
}
Output word_of(std::string name, std::string says) {
    return {std::move(name), std::move(says), std::nullopt, "", 0, true, false, {}};
}

std::span<const Theme> themes() {
    static const std::vector<Theme> all{
        {"Frets and fingerboard", fret_sums()},
        {"Nut, neck and saddle", setup_sums()},
        {"Strings", together(string_sums(), string_choice_sums())},
        {"Screws and lengths", workshop_sums()},
        {"Pitch", pitch_sums()},
        {"Pickups and pots", electric_sums()},
        {"Readings", reading_sums()},
        {"Inspection", inspection_sums()},
    };
    return all;
}

std::span<const Sum> registry() {
    static const std::vector<Sum> all = [] {
        std::vector<Sum> flat;
        for (const Theme& theme : themes()) flat.insert(flat.end(), theme.sums.begin(), theme.sums.end());
        return flat;
    }();
    return all;
}

const Sum* find(std::string_view name) {
    const auto sum = std::ranges::find(registry(), name, &Sum::name);
    return sum == registry().end() ? nullptr : &*sum;
}

std::vector<std::string_view> near_names(std::string_view name) {
    constexpr std::size_t kLongest = 64;  // nobody meant a sum by more
    constexpr std::size_t kMost = 3;
    const std::string_view asked = name.substr(0, kLongest);
    std::vector<std::pair<std::size_t, std::string_view>> near;
    for (const Sum& sum : registry()) {
        const std::string_view known = sum.name;
        const bool part = asked.size() >= 3 && known.find(asked) != known.npos;
        const std::size_t distance = part ? 1 : edit_distance(asked, known);
        if (distance <= std::max<std::size_t>(2, known.size() / 3)) near.emplace_back(distance, known);
    }
    std::ranges::stable_sort(near, {}, &std::pair<std::size_t, std::string_view>::first);
    if (near.size() > kMost) near.resize(kMost);
    std::vector<std::string_view> names;
    for (const auto& [distance, known] : near) names.push_back(known);
    return names;
}

}  // namespace fallaway::sums
