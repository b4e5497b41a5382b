#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "bench/judgement/parts.h"

namespace fallaway::judgement {
namespace {

using evidence::Place;
using evidence::Stage;
using model::CurrentReadings;
using model::Taken;

struct BothTimes {
    const Taken* before = nullptr;
    const Taken* after = nullptr;
};

// One row of the comparison: an observable at one fret (side, pickup, ...), its strings apart.
struct Row {
    std::string_view what;
    Place at;  // without the string
    friend auto operator<=>(const Row&, const Row&) = default;
};

std::map<Row, std::map<Place, BothTimes>> rows_of(const CurrentReadings& readings) {
    std::map<Row, std::map<Place, BothTimes>> rows;
    for (const Taken& taken : readings.all()) {
        if (!taken.word.empty()) continue;
        Place at = taken.reading->at;
        at.pressed.reset();
        Place row = at;
        row.string.reset();
        BothTimes& both = rows[{taken.reading->what, row}][at];
        const Taken*& slot = taken.reading->stage <= Stage::before ? both.before : both.after;
        // The last reading before the work and the last one after it.
        if (!slot || slot->reading->stage <= taken.reading->stage) slot = &taken;
    }
    return rows;
}

std::string change_text(const Change& change, double u_mean) {
    const auto& paired = change.paired;
    const std::string size = format_at_the_bench(std::abs(paired.mean), u_mean, *change.unit);
    const std::string places = paired.n == 1 ? "one place" : fmt::format("mean of {} places", paired.n);
    if (!paired.real) return fmt::format("no change that these tools can see ({}, {})", size, places);
    return fmt::format("{} by {} ({})", paired.mean < 0 ? "less" : "more", size, places);
}

}  // namespace

std::vector<Change> judge_changes(const CurrentReadings& readings) {
    std::vector<Change> changes;
    for (const auto& [row, places] : rows_of(readings)) {
        Change change;
        std::vector<double> differences;
        std::set<std::string> tools;
        double u_repeat = 0;
        double u_whole = 0;
        for (const auto& [place, both] : places) {
            if (!both.before || !both.after) continue;
            const double before = both.before->y.value;
            const double after = both.after->y.value;
            differences.push_back(after - before);
            change.pairs.push_back({place, {before, after}});
            change.unit = both.after->figure.unit;
            tools.insert(both.before->tool);
            tools.insert(both.after->tool);
            u_repeat = std::max({u_repeat, both.before->u_repeat, both.after->u_repeat});
            u_whole = std::max({u_whole, both.before->y.u, both.after->y.u});
        }
        if (differences.empty() || !change.unit) continue;
        // The same tool's own error cancels; two different tools keep all of theirs.
        const double u_single = tools.size() == 1 && u_repeat > 0 ? u_repeat : u_whole;
        const double u_mean = u_single * std::sqrt(2.0 / double(differences.size()));
        if (const auto paired = metrology::paired(differences, u_single)) {
            change.paired = *paired;
        } else {
            change.paired.n = 1;
            change.paired.mean = differences.front();
        }
        change.paired.real = std::abs(change.paired.mean) > 1.96 * u_mean;
        change.title =
            std::string(row.what) + (evidence::key_of(row.at).empty() ? "" : ", " + evidence::describe(row.at));
        change.text = change_text(change, u_mean);
        changes.push_back(std::move(change));
    }
    return changes;
}

}  // namespace fallaway::judgement
