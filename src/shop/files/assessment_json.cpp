#include "shop/files/assessment_json.h"

#include <cmath>

#include <nlohmann/json.hpp>

namespace fallaway::files {
namespace {

using Json = nlohmann::ordered_json;

// A number that JSON can hold; what is infinite or not a number is null.
Json finite(double value) {
    return std::isfinite(value) ? Json(value) : Json(nullptr);
}

// Fifteen digits are exact for a value that was read; the sixteenth is dust from the change of unit.
double dusted(double value) {
    if (value == 0 || !std::isfinite(value)) return value;
    const double scale = std::pow(10, 14 - std::floor(std::log10(std::abs(value))));
    return std::isfinite(scale) ? std::round(value * scale) / scale : value;
}

void put(Json& object, const char* key, const std::string& text) {
    if (!text.empty()) object[key] = text;
}

template <class T>
void put(Json& object, const char* key, const std::optional<T>& value) {
    if (value) object[key] = *value;
}

Json place_json(const evidence::Place& place) {
    Json out = Json::object();
    put(out, "string", place.string);
    put(out, "fret", place.fret);
    put(out, "side", place.side);
    put(out, "switch", place.switch_position);
    put(out, "pickup", place.pickup);
    put(out, "control", place.control);
    put(out, "pressed", place.pressed);
    put(out, "spot", place.spot);
    return out;
}

void put_place(Json& object, const evidence::Place& place) {
    if (place != evidence::Place{}) object["at"] = place_json(place);
}

Json figure_json(const judgement::Figure& figure) {
    Json out = Json::object();
    if (figure.si && figure.unit) {
        out["value"] = finite(dusted(from_si(figure.si->value, *figure.unit)));
        out["unit"] = figure.unit->symbol;
        out["u"] = finite(dusted(difference_from_si(figure.si->u, *figure.unit)));
        out["text"] = figure.text;
    } else {
        out["words"] = figure.text;
    }
    return out;
}

void put_figure(Json& object, const char* key, const judgement::Figure& figure) {
    if (!figure.text.empty() || figure.si) object[key] = figure_json(figure);
}

Json acceptance_json(const evidence::Acceptance& acceptance) {
    Json out{{"by", acceptance.by}, {"why", acceptance.why}};
    if (acceptance.when) out["when"] = acceptance.when->typed;
    put(out, "value", acceptance.value);
    return out;
}

std::string_view name_of_stage(evidence::Stage stage) {
    switch (stage) {
        case evidence::Stage::arrival:
            return "arrival";
        case evidence::Stage::before:
            return "before";
        case evidence::Stage::after:
            return "after";
        case evidence::Stage::handover:
            return "handover";
    }
    return "";
}

std::string_view name_of_cure(evidence::Cure cure) {
    switch (cure) {
        case evidence::Cure::none:
            return "none";
        case evidence::Cure::set_up:
            return "set up";
        case evidence::Cure::repair:
            return "repair";
        case evidence::Cure::send_back:
            return "send back";
    }
    return "";
}

Json finding_json(const judgement::Finding& f) {
    Json out{{"id", f.id}};
    put(out, "checkpoint", f.checkpoint);
    out["severity"] = judgement::name_of(f.severity);
    out["cure"] = name_of_cure(f.cure);
    put_place(out, f.at);
    out["title"] = f.title;
    put_figure(out, "found", f.found);
    put(out, "limit", f.limit);
    put(out, "limit_source", f.limit_source);
    out["standing"] = judgement::name_of(f.standing);
    put(out, "p_conform", f.p_conform);
    put(out, "why", f.why);
    put(out, "remedy", f.remedy);
    if (f.accepted) out["accepted"] = acceptance_json(*f.accepted);
    if (f.acceptance_lapsed) out["acceptance_lapsed"] = true;
    put(out, "remark", f.remark);
    return out;
}

Json claim_json(const judgement::ClaimLine& c) {
    Json out{{"id", c.id}, {"name", c.name}};
    put_place(out, c.at);
    out["promised"] = c.promised;
    put(out, "source", c.source);
    put_figure(out, "found", c.found);
    put(out, "tolerance", c.tolerance);
    put(out, "how", c.how);
    out["outcome"] = judgement::name_of(c.outcome);
    put(out, "p_conform", c.p_conform);
    put(out, "advice", c.advice);
    out["checkable"] = c.checkable;
    return out;
}

Json complaint_json(const judgement::ComplaintLine& c) {
    Json out{{"text", c.text}};
    put_place(out, c.at);
    if (c.ending) out["ending"] = judgement::name_of(*c.ending);
    out["shown"] = c.shown;
    out["evidence"] = c.evidence;
    out["findings"] = c.findings;
    put(out, "remark", c.remark);
    put(out, "ended_by", c.ended_by);
    return out;
}

Json card_json(const judgement::CardResult& line) {
    Json out{{"title", line.title}, {"theirs", line.theirs}};
    put(out, "ours", line.ours);
    out["outcome"] = judgement::name_of(line.outcome);
    put(out, "en", line.en);
    return out;
}

Json change_json(const judgement::Change& c) {
    Json out{{"title", c.title}, {"text", c.text}, {"real", c.paired.real}, {"n", c.paired.n}};
    if (!c.unit) return out;
    const auto difference = [&](double si) { return finite(dusted(difference_from_si(si, *c.unit))); };
    out["unit"] = c.unit->symbol;
    out["mean"] = difference(c.paired.mean);
    out["ci95"] = {difference(c.paired.ci95_low), difference(c.paired.ci95_high)};
    out["p_two_sided"] = finite(c.paired.p_two_sided);
    out["pairs"] = Json::array();
    for (const auto& [place, values] : c.pairs) {
        out["pairs"].push_back({{"at", place_json(place)},
                                {"before", finite(dusted(from_si(values.first, *c.unit)))},
                                {"after", finite(dusted(from_si(values.second, *c.unit)))}});
    }
    return out;
}

Json price_json(const judgement::PriceResult& p) {
    Json out = Json::object();
    put(out, "asked", p.asked);
    put(out, "range", p.range);
    put(out, "with_repairs", p.with_repairs);
    put(out, "words", p.words);
    out["sources"] = p.sources;
    return out;
}

Json line_json(const judgement::Line& l) {
    Json out = Json::object();
    put_place(out, l.at);
    put(out, "observable", l.observable);
    put_figure(out, "found", l.found);
    put(out, "limit", l.limit);
    put(out, "limit_source", l.limit_source);
    out["standing"] = judgement::name_of(l.standing);
    if (l.severity) out["severity"] = judgement::name_of(*l.severity);
    put(out, "p_conform", l.p_conform);
    out["stage"] = name_of_stage(l.stage);
    put(out, "by", l.by);
    put(out, "tool", l.tool);
    if (l.tool_assumed) out["tool_assumed"] = true;
    if (l.stale) out["stale"] = l.stale_because;
    if (l.disputed) out["disputed"] = true;
    put(out, "advice", l.advice);
    put(out, "remark", l.remark);
    return out;
}

Json answer_json(const judgement::Answer& a) {
    Json out{{"checkpoint", a.checkpoint}, {"section", a.section}, {"question", a.question}};
    out["in_scope"] = a.in_scope;
    if (!a.surely_applies) out["surely_applies"] = false;
    out["state"] = judgement::name_of(a.state);
    put(out, "because", a.because);
    out["lines"] = Json::array();
    for (const judgement::Line& line : a.lines) out["lines"].push_back(line_json(line));
    return out;
}

Json assumption_json(const evidence::Assumption& a) {
    Json out{{"what", a.what}, {"text", a.text}, {"because", a.because}};
    put(out, "observable", a.observable);
    return out;
}

Json next_json(const judgement::NextReading& n) {
    Json out = Json::object();
    put(out, "checkpoint", n.checkpoint);
    out["what"] = n.what;
    out["minutes"] = finite(n.minutes);
    out["why"] = n.why;
    out["needs"] = n.needs;
    return out;
}

template <class T>
Json list(const std::vector<T>& items, Json (*one)(const T&)) {
    Json out = Json::array();
    for (const T& item : items) out.push_back(one(item));
    return out;
}

}  // namespace

std::string assessment_json(const evidence::Bench& bench, const judgement::Assessment& a,
                            std::string_view version) {
    Json out{{"schema", "fallaway/assessment/1"}, {"version", version}, {"demo", bench.demo}};
    out["instrument"] = describe(bench.instrument);
    out["verdict"] = judgement::name_of(a.verdict);
    out["scope"] = a.scope;
    out["hands"] = a.hands;
    out["procedure"] = a.procedure;
    out["reasons"] = a.reasons;
    out["complaints"] = list(a.complaints, complaint_json);
    out["findings"] = list(a.findings, finding_json);
    out["claims"] = list(a.claims, claim_json);
    out["card"] = list(a.card, card_json);
    out["changes"] = list(a.changes, change_json);
    out["price"] = a.price ? price_json(*a.price) : Json(nullptr);
    out["answers"] = list(a.answers, answer_json);
    out["not_looked_at"] = a.not_looked_at;
    out["not_judged"] = a.not_judged;
    out["assumed"] = list(a.assumed, assumption_json);
    out["next"] = list(a.next, next_json);
    out["cautions"] = a.cautions;
    return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace fallaway::files
