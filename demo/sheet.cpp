#include "sheet.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace fallaway::demo {
namespace {

constexpr std::size_t kColumns = 115;  // a member
constexpr std::size_t kEntry = 250;    // an entry of a list: a reading with its remark

const Unit& unit_named(const std::string& symbol) {
    for (const Dimension dimension :
         {Dimension::length, Dimension::interval, Dimension::force, Dimension::mass, Dimension::resistance,
          Dimension::temperature, Dimension::angle, Dimension::time, Dimension::level}) {
        if (const Unit* unit = find_unit(symbol, dimension)) return *unit;
    }
    throw std::invalid_argument("no unit " + symbol);
}

int decimals_of(double step) {
    int decimals = 0;
    for (double rest = step; decimals < 6 && std::abs(rest - std::round(rest)) > 1e-6; rest *= 10) ++decimals;
    return decimals;
}

// Compact JSON with a blank after colon and comma.
std::string compact(const Json& json) {
    if (!json.is_structured()) return json.dump();
    std::string text;
    for (const auto& [key, value] : json.items()) {
        if (!text.empty()) text += ", ";
        if (json.is_object()) text += Json(key).dump() + ": ";
        text += compact(value);
    }
    return json.is_object() ? "{" + text + "}" : "[" + text + "]";
}

}  // namespace

void Sheet::add_tool(const std::string& id, const std::string& kind, const ToolTruth& truth, Json entry) {
    drawn_[id] = {kind, truth, random_.rectangular(-truth.bias, truth.bias),
                  1 + random_.rectangular(-truth.bias_relative, truth.bias_relative)};
    if (kind.empty()) return;
    Json line{{"id", id}, {"kind", kind}};
    line.update(entry);
    tools_.push_back(line);
}

void Sheet::sit_down(const Sitting& sitting) {
    sitting_ = sitting;
    minutes_ = sitting.minute;
}

std::string Sheet::now(double minutes_later) {
    minutes_ += minutes_later;
    const int minute = static_cast<int>(minutes_);
    const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return sitting_.day + "T" + two(minute / 60) + ":" + two(minute % 60) + ":00+01:00";
}

void Sheet::sign(Json& entry, double minutes) {
    entry["by"] = sitting_.by;
    entry["when"] = now(minutes);
}

std::string Sheet::one_reading(const Drawn& tool, double truth) {
    const Unit& unit = unit_named(tool.truth.unit);
    double seen = truth * tool.factor + tool.offset + tool.truth.scatter * random_.normal();
    seen = tool.truth.step * std::round(seen / tool.truth.step);
    const double step = difference_from_si(tool.truth.step, unit);
    return format_quantity(seen, unit, decimals_of(step));
}

void Sheet::read(const std::string& what, const Json& at, double truth, const std::string& tool,
                 const Extra& extra) {
    const Drawn& drawn = drawn_.at(tool);
    Json entry = Json::object();
    if (!extra.id.empty()) entry["id"] = extra.id;
    entry["what"] = what;
    if (!at.empty()) entry["at"] = at;
    if (extra.repeats == 1) {
        entry["value"] = one_reading(drawn, truth);
    } else {
        for (int i = 0; i < extra.repeats; ++i) entry["repeats"].push_back(one_reading(drawn, truth));
    }
    if (!drawn.kind.empty()) entry["tool"] = tool;
    sign(entry, 0.5 * extra.repeats);
    entry["stage"] = sitting_.stage;
    if (!extra.remark.empty()) entry["remark"] = extra.remark;
    readings_.push_back(entry);
}

void Sheet::tell(const std::string& what, const Json& at, const std::string& word, const Extra& extra) {
    Json entry = Json::object();
    if (!extra.id.empty()) entry["id"] = extra.id;
    entry["what"] = what;
    if (!at.empty()) entry["at"] = at;
    entry["value"] = word;
    sign(entry, 0.2);
    entry["stage"] = sitting_.stage;
    if (!extra.remark.empty()) entry["remark"] = extra.remark;
    readings_.push_back(entry);
}

void Sheet::rate(const std::string& checkpoint, int step, const std::string& remark, const Json& at,
                 const std::vector<std::string>& photos) {
    Json entry{{"checkpoint", checkpoint}, {"step", step}};
    if (!at.empty()) entry["at"] = at;
    sign(entry, 0.6);
    entry["stage"] = sitting_.stage;
    if (!remark.empty()) entry["remark"] = remark;
    if (!photos.empty()) entry["photos"] = photos;
    ratings_.push_back(entry);
}

void Sheet::work(const std::string& what, const Json& at, const std::string& amount, const std::string& remark) {
    Json entry{{"what", what}};
    if (!at.empty()) entry["at"] = at;
    if (!amount.empty()) entry["amount"] = amount;
    sign(entry, 6);
    if (!remark.empty()) entry["remark"] = remark;
    work_.push_back(entry);
}

void Sheet::remark(const std::string& text, const Json& at) {
    Json entry{{"text", text}};
    if (!at.empty()) entry["at"] = at;
    sign(entry, 0.5);
    remarks_.push_back(entry);
}

std::string Sheet::bench_file(Json story) const {
    const auto put = [&story](const char* name, const Json& entries) {
        if (entries.empty()) return;
        Json& list = story[name];
        if (list.is_null()) list = Json::array();
        for (const Json& entry : entries) list.push_back(entry);
    };
    put("tools", tools_);
    put("readings", readings_);
    put("ratings", ratings_);
    put("work", work_);
    put("remarks", remarks_);
    const std::string invented =
        "Invented for the demo: the readings are drawn from a neck that is known, with seed ";
    story["remarks"].push_back({{"text", invented + std::to_string(seed_)}});
    return laid_out(story) + "\n";
}

std::string laid_out(const Json& json, std::size_t indent, std::size_t before) {
    const std::string short_form = compact(json);
    const std::size_t room = before > indent ? kColumns : kEntry;
    if (!json.is_structured() || (indent > 0 && before + short_form.size() + 1 <= room)) return short_form;
    const std::string margin(indent + 2, ' ');
    std::string text;
    for (const auto& [key, value] : json.items()) {
        if (!text.empty()) text += ",\n";
        const std::string head = margin + (json.is_object() ? Json(key).dump() + ": " : "");
        text += head + laid_out(value, indent + 2, head.size());
    }
    const std::string end = "\n" + std::string(indent, ' ');
    return json.is_object() ? "{\n" + text + end + "}" : "[\n" + text + end + "]";
}

Json on_string(int string) {
    return Json::object({{"string", string}});
}
Json on_string(int string, int fret) {
    return Json::object({{"string", string}, {"fret", fret}});
}
Json on_fret(int fret) {
    return Json::object({{"fret", fret}});
}
Json on_fret(int fret, const std::string& side) {
    return Json::object({{"fret", fret}, {"side", side}});
}

}  // namespace fallaway::demo
