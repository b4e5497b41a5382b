#include "science/base/near_word.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

namespace fallaway {
namespace {

constexpr std::size_t kLongestCompared = 60;
constexpr std::size_t kShortList = 8;

std::string alternatives(std::span<const std::string_view> known) {
    if (known.empty()) return "none is known here";
    std::string out = "expected ";
    for (std::size_t i = 0; i < known.size(); ++i) {
        if (i > 0) out += i + 1 == known.size() ? " or " : ", ";
        out += fmt::format("\"{}\"", known[i]);
    }
    return out;
}

}  // namespace

int edit_distance(std::string_view a, std::string_view b) {
    std::vector<int> before_last(b.size() + 1);
    std::vector<int> last(b.size() + 1);
    std::vector<int> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        before_last.swap(last);
        last.swap(row);
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
        }
    }
    return row[b.size()];
}

std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> known) {
    if (word.empty() || word.size() > kLongestCompared) return std::nullopt;
    std::optional<std::string_view> best;
    int best_distance = std::max(1, static_cast<int>(word.size()) / 3) + 1;
    for (const std::string_view candidate : known) {
        if (candidate.size() > kLongestCompared) continue;
        const int distance = edit_distance(word, candidate);
        if (distance >= best_distance || distance >= static_cast<int>(candidate.size())) continue;
        best = candidate;
        best_distance = distance;
    }
    return best;
}

std::string hint(std::string_view word, std::span<const std::string_view> known) {
    const auto close = nearest(word, known);
    if (!close) return alternatives(known);
    const std::string question = fmt::format("did you mean \"{}\"?", *close);
    return known.size() > kShortList ? question : fmt::format("{} {}", alternatives(known) + ";", question);
}

}  // namespace fallaway
