#include "bench/model/current.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <span>

#include <fmt/format.h>

#include "science/metrology/tool.h"
#include "science/neck/relief.h"

namespace fallaway::model {
namespace {

using evidence::Bench;
using evidence::Catalogue;
using evidence::Place;
using evidence::Reading;
using evidence::Stage;

struct ToolChoice {
    const metrology::ToolKind* kind = nullptr;
    std::optional<metrology::Certificate> certificate;
    std::string name;
    bool assumed = false;
};

const metrology::ToolKind* find_kind(const Catalogue& catalogue, std::string_view id) {
    const auto found = std::ranges::find(catalogue.tools, id, &metrology::ToolKind::id);
    return found == catalogue.tools.end() ? nullptr : &*found;
}

ToolChoice choose_tool(const Reading& reading, const evidence::Observable& observable, const Bench& bench,
                       const Catalogue& catalogue) {
    if (!reading.tool) {
        const auto* kind = find_kind(catalogue, observable.default_tool);
        return {kind, std::nullopt, kind ? kind->name : std::string(observable.default_tool), kind != nullptr};
    }
    const auto own = std::ranges::find(bench.tools, *reading.tool, &evidence::ToolUsed::id);
    if (own == bench.tools.end()) {
        const auto* kind = find_kind(catalogue, *reading.tool);
        return {kind, std::nullopt, kind ? kind->name : *reading.tool, false};
    }
    ToolChoice choice{find_kind(catalogue, own->kind), std::nullopt, own->kind, false};
    if (choice.kind) choice.name = choice.kind->name;
    if (own->certificate_u) {
        choice.certificate = metrology::Certificate{own->certificate_u->si, own->certificate_k.value_or(2.0)};
    }
    return choice;
}

// The uncertainty of a quantity: stated by its reader, else from the tool's budget, else from its last digit.
void set_uncertainty(Taken& taken, std::span<const double> values, const QuantityText& text,
                     const ToolChoice& tool) {
    const double from_step = text.step_si / std::sqrt(12.0);
    if (taken.observable->dimension == Dimension::count) {
        taken.y = {values.front(), 0, metrology::kInfiniteDof};
        return;
    }
    const auto* line = tool.kind ? metrology::budget_for(*tool.kind, taken.observable->name) : nullptr;
    if (text.u_si && values.size() == 1) {
        taken.y = {text.si, *text.u_si, metrology::kInfiniteDof};
    } else if (line && tool.kind->dimension == taken.observable->dimension) {
        const auto budget = metrology::budget(*line, values, text.step_si, tool.certificate);
        taken.y = budget.result;
        taken.u_repeat = budget.u_repeat;
    } else {
        const auto mean = metrology::type_a(values);
        taken.y = {mean->value, std::hypot(mean->u, from_step), metrology::kInfiniteDof};
        taken.u_repeat = std::max(mean->u, from_step);
    }
}

std::string stale_because(const Reading& reading, const Bench& bench) {
    for (const auto& work : bench.work) {
        const auto kind = std::ranges::find(evidence::work_kinds(), work.what, &evidence::WorkKind::name);
        if (kind == evidence::work_kinds().end()) continue;
        const bool touches = std::ranges::any_of(
            kind->makes_stale, [&](std::string_view name) { return name == "*" || name == reading.what; });
        const bool elsewhere = (work.at.string && reading.at.string && work.at.string != reading.at.string) ||
                               (work.at.fret && reading.at.fret && work.at.fret != reading.at.fret);
        if (!touches || elsewhere) continue;
        // Without both times the stages tell: work happens between `before` and `after`.
        const bool earlier = work.when && reading.when ? reading.when->instant < work.when->instant
                                                       : reading.stage <= Stage::before;
        if (earlier) return fmt::format("read before: {}{}", work.what, work.amount ? ", " + *work.amount : "");
    }
    return "";
}

bool is_relief(std::string_view what) {
    return what == "relief" || what == "relief a day later";
}

// The line a relief is read under, where it is not the one from fret 1 to the last over the deepest place.
std::optional<neck::ReliefReading> other_line(const Reading& reading, const neck::Layout& layout) {
    if (!reading.at.capo && !reading.at.fret && !reading.at.pressed) return std::nullopt;
    neck::ReliefReading line{reading.at.capo.value_or(1), reading.at.fret.value_or(0),
                             reading.at.pressed.value_or(layout.frets)};
    if (line.from < 1 || line.to < line.from + 2) return std::nullopt;
    const int deepest = neck::deepest_fret(layout, line.from, line.to, neck::ReliefShape::beam);
    if (line.over <= line.from || line.over >= line.to) line.over = deepest;
    // A fret beside the deepest shows less than a leaf can tell.
    if (line.from == 1 && line.to == layout.frets && std::abs(line.over - deepest) <= 1) return std::nullopt;
    return line;
}

// The ratio of two dips does not depend on the scale.
neck::Layout any_neck(const evidence::Instrument& instrument) {
    neck::Layout layout;
    layout.strings = {{0, 0, 0.65, 0, 0}};
    layout.frets = evidence::fret_count(instrument);
    return layout;
}

// Limits and comparisons speak of the dip under fret 1 to the last; a shorter line shows less of it.
void bring_to_the_whole_neck(Taken& taken, const evidence::Instrument& instrument) {
    const neck::Layout layout = any_neck(instrument);
    if (!is_relief(taken.reading->what) || layout.frets < 3) return;
    const auto line = other_line(*taken.reading, layout);
    if (!line) return;
    const double ratio = neck::relief_ratio(layout, *line, neck::ReliefShape::beam);
    if (!(ratio > 0)) return;
    taken.y = {taken.y.value / ratio, taken.y.u / ratio, taken.y.dof};
    taken.u_repeat /= ratio;
    taken.figure.si = taken.y;
    taken.figure.text = fmt::format("{} (read as {} over fret {}, frets {} to {})",
                                    format_at_the_bench(taken.y.value, taken.y.u, *taken.figure.unit),
                                    taken.figure.text, line->over, line->from, line->to);
}

// One thing at one place: how a line was held tells two heights apart, but not two reliefs.
std::pair<std::string_view, Place> thing_of(const Reading& reading) {
    Place place = reading.at;
    if (reading.what == "string height" && place.pressed) return {kHeldHeight, place};
    if (reading.what == "straightedge gap") return {reading.what, place};
    place.pressed.reset();
    place.capo.reset();
    return {reading.what, place};
}

// Of all readings of one thing at one place: those of the latest stage, and of these the fresh ones if there are
// any.
std::vector<const Taken*> those_that_count(const std::vector<const Taken*>& readings) {
    const auto stage_of = [](const Taken* taken) { return taken->reading->stage; };
    const Stage latest = stage_of(*std::ranges::max_element(readings, {}, stage_of));
    std::vector<const Taken*> counting;
    std::ranges::copy_if(readings, std::back_inserter(counting),
                         [&](const Taken* taken) { return stage_of(taken) == latest; });
    const auto stale = [](const Taken* taken) { return !taken->stale_because.empty(); };
    if (!std::ranges::all_of(counting, stale)) std::erase_if(counting, stale);
    return counting;
}

// Does `general` include every place that `particular` can mean? ("all strings" includes "string 2".)
bool includes(const Place& general, const Place& particular) {
    const auto part = [](const auto& wide, const auto& narrow) { return !wide || wide == narrow; };
    return part(general.string, particular.string) && part(general.fret, particular.fret) &&
           part(general.side, particular.side) && part(general.switch_position, particular.switch_position) &&
           part(general.pickup, particular.pickup) && part(general.control, particular.control) &&
           part(general.spot, particular.spot);
}

// How many parts of a place are given; a more particular reading outranks a general one.
int particulars(const Place& place) {
    return int(place.string.has_value()) + int(place.fret.has_value()) + int(place.side.has_value()) +
           int(place.switch_position.has_value()) + int(place.pickup.has_value()) +
           int(place.control.has_value()) + int(place.spot.has_value());
}

// "1.80 mm (Ruta Vell)"
std::string with_reader(const Taken& taken) {
    return taken.reading->by ? fmt::format("{} ({})", taken.figure.text, *taken.reading->by) : taken.figure.text;
}

// "All rang" after the work also answers for the one note that buzzed before it.
void drop_overtaken(std::vector<Current>& list) {
    std::vector<std::pair<Place, Stage>> general;
    const auto most = std::ranges::max(list, {}, [](const Current& c) { return particulars(c.at); });
    for (const Current& current : list) {
        if (particulars(current.at) < particulars(most.at))
            general.emplace_back(current.at, current.taken.reading->stage);
    }
    std::erase_if(list, [&](const Current& current) {
        return std::ranges::any_of(general, [&](const auto& wide) {
            return wide.second > current.taken.reading->stage && includes(wide.first, current.at);
        });
    });
}

void join(Current& current, const Taken& next) {
    Taken& held = current.taken;
    current.from.push_back(next.reading);
    const bool agree = held.word.empty() ? metrology::agreement(held.y, next.y).agree : held.word == next.word;
    if (agree) {
        held = combined(held, next);
        return;
    }
    current.disputed = true;
    const std::string both = fmt::format("{} and {}", with_reader(held), with_reader(next));
    if (held.word.empty()) {
        // Both may be right: the truth lies somewhere between, as wide as they are apart.
        const double apart = std::abs(held.y.value - next.y.value) / 2;
        held.y = {(held.y.value + next.y.value) / 2, std::hypot(apart, std::max(held.y.u, next.y.u)),
                  metrology::kInfiniteDof};
        held.figure.si = held.y;
    } else {
        held.word = next.word;
    }
    held.figure.text = both;
}

}  // namespace

Taken take(const Reading& reading, const Bench& bench, const Catalogue& catalogue) {
    Taken taken;
    taken.reading = &reading;
    taken.observable = evidence::find_observable(reading.what);
    taken.stale_because = stale_because(reading, bench);
    if (reading.value && std::holds_alternative<std::string>(*reading.value)) {
        taken.word = std::get<std::string>(*reading.value);
        taken.figure.text = taken.word;
        return taken;
    }
    std::vector<double> values;
    for (const QuantityText& repeat : reading.repeats) values.push_back(repeat.si);
    const QuantityText& text = reading.value ? std::get<QuantityText>(*reading.value) : reading.repeats.front();
    if (values.empty()) values.push_back(text.si);
    const ToolChoice tool = choose_tool(reading, *taken.observable, bench, catalogue);
    taken.tool = tool.name;
    taken.tool_assumed = tool.assumed && !text.u_si;
    set_uncertainty(taken, values, text, tool);
    taken.figure.unit = text.unit;
    taken.figure.si = taken.y;
    taken.figure.text = taken.observable->dimension == Dimension::count
                            ? format_quantity(taken.y.value, *text.unit, 0)
                            : format_at_the_bench(taken.y.value, taken.y.u, *text.unit, text.decimals);
    taken.as_read = taken.y;
    bring_to_the_whole_neck(taken, bench.instrument);
    return taken;
}

Taken combined(const Taken& a, const Taken& b) {
    Taken result = b;
    if (!a.word.empty() || !b.word.empty()) return result;
    if (a.tool == b.tool && a.u_repeat > 0 && b.u_repeat > 0) {
        const double wa = 1 / (a.u_repeat * a.u_repeat);
        const double wb = 1 / (b.u_repeat * b.u_repeat);
        const double value = (wa * a.y.value + wb * b.y.value) / (wa + wb);
        const double common =
            std::max(a.y.u * a.y.u - a.u_repeat * a.u_repeat, b.y.u * b.y.u - b.u_repeat * b.u_repeat);
        result.u_repeat = std::sqrt(1 / (wa + wb));
        result.y = {value, std::sqrt(std::max(0.0, common) + 1 / (wa + wb)), metrology::kInfiniteDof};
    } else {
        result.y = metrology::fuse(a.y, b.y);
    }
    result.figure.si = result.y;
    if (result.figure.unit && result.observable->dimension != Dimension::count) {
        result.figure.text = format_at_the_bench(result.y.value, result.y.u, *result.figure.unit);
    }
    return result;
}

bool speaks_for(const Place& reading, const Place& asked) {
    const auto part = [](const auto& given, const auto& wanted) { return !given || !wanted || *given == *wanted; };
    return part(reading.string, asked.string) && part(reading.fret, asked.fret) &&
           part(reading.side, asked.side) && part(reading.switch_position, asked.switch_position) &&
           part(reading.pickup, asked.pickup) && part(reading.control, asked.control);
}

CurrentReadings::CurrentReadings(const Bench& bench, const Catalogue& catalogue) {
    all_.reserve(bench.readings.size());
    for (const Reading& reading : bench.readings) all_.push_back(take(reading, bench, catalogue));

    std::map<std::pair<std::string_view, Place>, std::vector<const Taken*>> by_place;
    for (const Taken& taken : all_) {
        by_place[thing_of(*taken.reading)].push_back(&taken);
    }
    for (const auto& [key, readings] : by_place) {
        const auto counting = those_that_count(readings);
        Current current{*counting.front(), key.second, false, {counting.front()->reading}};
        for (const Taken* taken : std::span(counting).subspan(1)) join(current, *taken);
        current_[std::string(key.first)].push_back(std::move(current));
    }
    for (auto& [what, list] : current_) drop_overtaken(list);
}

const std::vector<Current>& CurrentReadings::of(std::string_view observable) const {
    static const std::vector<Current> kNone;
    const auto found = current_.find(observable);
    return found == current_.end() ? kNone : found->second;
}

const Current* CurrentReadings::at(std::string_view observable, const Place& place) const {
    const Current* best = nullptr;
    for (const Current& current : of(observable)) {
        if (!speaks_for(current.at, place)) continue;
        if (!best || particulars(current.at) > particulars(best->at)) best = &current;
    }
    return best;
}

}  // namespace fallaway::model
