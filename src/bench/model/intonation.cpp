#include "bench/model/intonation.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "science/strings/compensation.h"
#include "science/strings/response_fit.h"

namespace fallaway::model {
namespace {

constexpr int kLastUsed = 12;  // frets that count, all alike
constexpr int kNearNut = 3;    // up to here a high slot is heard
constexpr double kHighSlot =
    0.15e-3;  // m over a zero-fret: a gap of some 0.08 mm over fret 1, held between 2 and 3
// How well it is known where a string ends before any fret was heard, m: saddles stand anywhere near. And how
// closely a saddle is put where it should go. Common practice, no source.
constexpr double kSaddleAnywhere = 4e-3;
constexpr double kPlacing = 0.05e-3;
constexpr double kAnyTuner = 1;  // cents, where the tool tells nothing of itself

Uncertain plain(const strings::Estimate& e) {
    return {e.value, e.u};
}

// In file order of frets; a reading at no fret is the twelfth's.
std::vector<FretHeard> heard_on(const CurrentReadings& readings, int string) {
    std::vector<FretHeard> heard;
    for (const Current& current : readings.of("intonation")) {
        if (current.at.string != string || !current.taken.stale_because.empty()) continue;
        const int fret = current.at.fret.value_or(12);
        if (fret < 1) continue;
        Uncertain cents = current.taken.y;
        if (!(cents.u > 0 && std::isfinite(cents.u))) cents.u = kAnyTuner;
        heard.push_back({fret, cents});
    }
    return heard;
}

// What a string goes over, its saddle `setback` behind the bare scale.
strings::Heights heights_over(const NeckSurvey& neck, int string, double setback,
                              const std::vector<FretHeard>& heard) {
    const auto index = static_cast<std::size_t>(string - 1);
    const StringSurvey& over = neck.strings[index];
    std::set<int> frets;
    for (int fret = 1; fret <= std::min(kLastUsed, neck.layout.frets); ++fret) frets.insert(fret);
    for (const FretHeard& one : heard) frets.insert(std::min(one.fret, neck.layout.frets));

    strings::Heights heights;
    heights.nut_z = over.nut_over_line.value;
    heights.u_nut_z = over.nut_over_line.u;
    heights.saddle_x = neck.layout.strings[index].scale + setback;
    heights.saddle_z = over.saddle_over_line.value;
    heights.u_saddle_z = over.saddle_over_line.u;
    double squares = 0;
    for (const int fret : frets) {
        const double x = neck::fret_place(neck.layout, string - 1, fret);
        const double gap = x - neck::fret_place(neck.layout, string - 1, fret - 1);
        const Uncertain& height = neck.crowns[static_cast<std::size_t>(fret - 1)].heights[index];
        heights.crowns.push_back({fret, x, height.value, strings::usual_press_distance(gap), 0});
        squares += height.u * height.u;
    }
    heights.u_crown_z = std::sqrt(squares / static_cast<double>(frets.size()));
    return heights;
}

strings::Task task_over(const NeckSurvey& neck, double u_reading) {
    strings::Task task;
    for (int fret = 1; fret <= std::min(kLastUsed, neck.layout.frets); ++fret) task.wishes.push_back({fret, 1, 0});
    task.u_saddle_placing = kPlacing;
    task.u_tuner = u_reading / std::sqrt(2.0);  // a reading is the difference of two notes
    return task;
}

std::string why_refused(std::size_t frets) {
    if (frets == 1)
        return "so far off that no place of the saddle near the usual one explains it: look at the string";
    return fmt::format(
        "no sound string gives these cents together (less likely than 1 in {:.0f}): change it, then read again",
        1 / strings::kLeastChance);
}

void take_cents(StringIntonation& out, const strings::Compensation& best) {
    double worst_now = 0;
    const strings::FretCents* twelfth = nullptr;
    for (const strings::FretCents& fret : best.frets) {
        if (fret.weight <= 0) continue;
        out.frets.push_back({fret.fret, plain(fret.before), plain(fret.after)});
        worst_now = std::max(worst_now, std::abs(fret.before.value));
        if (out.worst_fret == 0 || std::abs(fret.after.value) > std::abs(out.worst.value)) {
            out.worst_fret = fret.fret;
            out.worst = plain(fret.after);
        }
        twelfth = &fret;
    }
    out.twelfth_now = plain(twelfth->before);
    out.twelfth_after = plain(twelfth->after);
    out.u_reading = twelfth->u_reading;
    out.rms_now = best.rms_before;
    out.rms_after = best.rms_after;
    out.heard_gain = worst_now - std::abs(out.worst.value) >= kLeastHeard;
}

// What the saddle alone cannot cure, and what may keep it from its place.
void remark_on(StringIntonation& out, const CurrentReadings& readings, const StringSurvey& over) {
    double near_nut = 0;
    for (const FretLeft& fret : out.frets) {
        if (fret.fret <= kNearNut) near_nut = std::max(near_nut, fret.after.value);
    }
    if (near_nut > kLeastHeard && over.slot.value > kHighSlot) {
        out.remarks.push_back(fmt::format(
            "Slot first: it stands {} over a zero-fret, and up to {:.1f} cents would stay near the nut",
            in_mm(over.slot).text, near_nut));
    }
    const Current* travel = readings.at("saddle travel left", {.string = out.string});
    if (travel != nullptr && travel->taken.stale_because.empty() &&
        std::abs(out.move->value) > travel->taken.y.value) {
        out.remarks.push_back(
            fmt::format("{} of travel was read as left, in height or length: see that it reaches",
                        in_mm(travel->taken.y).text));
    }
}

struct Settled {
    std::optional<strings::Compensation> best;  // absent when the string is refused
};

Result<Settled> settle(const strings::Heights& heights, const std::vector<FretHeard>& heard,
                       const strings::Response& prior, const strings::Task& task) {
    const auto path = strings::path_of(heights);
    if (!path) return tl::unexpected(path.error());
    strings::Listening listening;
    listening.u_open = 0;  // every reading is against the open string, and its u has that in
    listening.u_saddle_place = kSaddleAnywhere;
    for (const FretHeard& one : heard) listening.cents.push_back({one.fret, one.cents.value, one.cents.u});
    const auto fit = strings::fit_response(*path, prior, listening);
    if (!fit) return tl::unexpected(fit.error());
    if (!fit->response) return Settled{};
    auto best = strings::compensate(*path, *fit->response, task);
    if (!best) return tl::unexpected(best.error());
    return Settled{*std::move(best)};
}

// Adds what one more cause of doubt does to a move and the cents.
void widen(strings::Compensation& best, const strings::Compensation& other) {
    best.saddle.u = std::hypot(best.saddle.u, other.saddle.value - best.saddle.value);
    for (std::size_t i = 0; i < best.frets.size(); ++i) {
        strings::FretCents& fret = best.frets[i];
        fret.before.u = std::hypot(fret.before.u, other.frets[i].before.value - fret.before.value);
        const double change = other.frets[i].after.value - fret.after.value;
        fret.after.u = std::hypot(fret.after.u, change);
        fret.u_reading = std::hypot(fret.u_reading, change);
    }
}

// One fret alone is heard whatever the heights: were their doubt counted as noise of what was heard, the move
// would fall short of it. So heights are exact there, and each is then tried one u away.
Result<Settled> settle_by_one(strings::Heights heights, const std::vector<FretHeard>& heard,
                              const strings::Response& prior, const strings::Task& task) {
    const double u_nut = std::exchange(heights.u_nut_z, 0);
    const double u_saddle = std::exchange(heights.u_saddle_z, 0);
    heights.u_crown_z = 0;
    auto settled = settle(heights, heard, prior, task);
    if (!settled || !settled->best) return settled;
    for (const auto& [height, u] :
         {std::pair(&strings::Heights::nut_z, u_nut), std::pair(&strings::Heights::saddle_z, u_saddle)}) {
        strings::Heights moved = heights;
        moved.*height += u;
        const auto other = settle(moved, heard, prior, task);
        if (other && other->best) widen(*settled->best, *other->best);
    }
    return settled;
}

Result<void> set_saddle(StringIntonation& out, const CurrentReadings& readings, const NeckSurvey& neck,
                        const FittedString& string, const std::optional<strings::Thread>& screw) {
    const auto index = static_cast<std::size_t>(out.string - 1);
    const auto heights = heights_over(neck, out.string, neck.layout.strings[index].setback, out.heard);
    const auto task = task_over(neck, out.heard.front().cents.u);
    const auto prior = strings::response_of(string.pull);
    const auto settled = out.heard.size() == 1 ? settle_by_one(heights, out.heard, prior, task)
                                               : settle(heights, out.heard, prior, task);
    if (!settled) return tl::unexpected(settled.error());
    if (!settled->best) {
        out.refused = why_refused(out.heard.size());
        return {};
    }
    out.move = plain(settled->best->saddle);
    if (screw) out.turns = std::round(8 * strings::turns_for(Length::m(out.move->value), *screw)) / 8;
    take_cents(out, *settled->best);
    remark_on(out, readings, neck.strings[index]);
    return {};
}

Result<void> expect_setback(StringIntonation& out, const NeckSurvey& neck, const FittedString& string) {
    const auto path = strings::path_of(heights_over(neck, out.string, 0, {}));
    if (!path) return tl::unexpected(path.error());
    const auto best = strings::compensate(*path, strings::response_of(string.pull), task_over(neck, kAnyTuner));
    if (!best) return tl::unexpected(best.error());
    out.setback = plain(best->saddle);
    return {};
}

std::optional<strings::Thread> screw_of(const evidence::Instrument& instrument) {
    if (!instrument.bridge || !instrument.bridge->length_screw) return std::nullopt;
    const auto thread = strings::thread_named(*instrument.bridge->length_screw);
    return thread ? std::optional(*thread) : std::nullopt;
}

}  // namespace

std::optional<Intonation> intonation_of(const evidence::Bench& bench, const CurrentReadings& readings,
                                        const NeckSurvey& neck, const FittedStrings& fitted) {
    if (!bench.instrument.fretted || fitted.strings.empty()) return std::nullopt;
    Intonation out;
    out.screw = screw_of(bench.instrument);
    for (const FittedString& string : fitted.strings) {
        StringIntonation one;
        one.string = string.string;
        one.heard = heard_on(readings, string.string);
        const auto done = one.heard.empty() ? expect_setback(one, neck, string)
                                            : set_saddle(one, readings, neck, string, out.screw);
        if (!done) one.refused = done.error().message;
        out.strings.push_back(std::move(one));
    }
    return out;
}

}  // namespace fallaway::model
