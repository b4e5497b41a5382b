#include "shop/app/visit_view.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "bench/evidence/tuning.h"
#include "bench/judgement/answers.h"
#include "bench/report/neck_plan.h"

namespace fallaway::app {
namespace {

using files::Json;
using files::api::CheckpointState;

bool reads_notes(const evidence::Checkpoint& checkpoint) {
    return !checkpoint.reads.empty() && checkpoint.reads.front() == "note";
}

bool answered(judgement::AnswerState state) {
    using S = judgement::AnswerState;
    return state == S::fine || state == S::faulty || state == S::cannot_tell || state == S::not_applicable;
}

std::vector<files::api::CheckpointPlace> places_of(const evidence::Checkpoint& checkpoint,
                                                   const evidence::Instrument& instrument) {
    const std::string observable = checkpoint.reads.empty() ? "" : checkpoint.reads.front();
    // A note run is one thing to do; the page itself knows where the notes lie.
    if (reads_notes(checkpoint)) return {{{}, observable}};
    std::vector<files::api::CheckpointPlace> places;
    for (const auto& at : judgement::places_to_read(checkpoint, instrument)) places.push_back({at, observable});
    return places;
}

}  // namespace

files::api::InstrumentFacts facts_of(const evidence::Instrument& instrument) {
    return {evidence::string_count(instrument), evidence::fret_count(instrument), instrument.fretted,
            instrument.hand == evidence::Hand::left, evidence::tuning_of(instrument)};
}

files::api::Neck neck_of(const evidence::Instrument& instrument, const judgement::Assessment& assessment) {
    const report::NeckPlan plan(instrument, assessment.assumed);
    files::api::Neck neck;
    neck.width = report::kFigureWidth;
    neck.times_wider = plan.times_wider();
    neck.left = plan.left_handed();
    neck.fretted = plan.fretted();
    const int strings = plan.strings();
    const int last = plan.frets();
    // Where the edge of the board meets the line of a fret.
    const auto corner = [&](int fret, bool treble) {
        const double x = plan.fret(fret, treble ? 1 : strings);
        return files::api::Neck::Corner{x, plan.edge(treble, x)};
    };
    double lowest = 0;
    for (int fret = 0; fret <= last; ++fret) {
        const auto top = corner(fret, true);
        const auto bottom = corner(fret, false);
        neck.frets.push_back({fret, top.x, top.y, bottom.x, bottom.y});
        lowest = std::max({lowest, bottom.y, -top.y});
    }
    const auto notes = evidence::tuning_of(instrument);
    for (int string = 1; string <= strings; ++string) {
        const double x1 = plan.fret(0, string);
        neck.strings.push_back({string, std::size_t(string) <= notes.size() ? notes[string - 1] : "", x1,
                                plan.across(string, x1), plan.end(), plan.across(string, plan.end()),
                                plan.thickness(string)});
        lowest = std::max(lowest, std::abs(neck.strings.back().y2));
    }
    neck.edge = {corner(0, true), corner(last, true), corner(last, false), corner(0, false)};
    // Across, the drawing begins at 0 like along.
    for (auto& fret : neck.frets) fret.y1 += lowest, fret.y2 += lowest;
    for (auto& string : neck.strings) string.y1 += lowest, string.y2 += lowest;
    for (auto& point : neck.edge) point.y += lowest;
    neck.height = 2 * lowest;
    return neck;
}

std::vector<CheckpointState> checkpoint_states(const evidence::Bench& bench, const evidence::Procedure& procedure,
                                               const judgement::Assessment& assessment) {
    std::vector<CheckpointState> states;
    for (const auto& answer : assessment.answers) {
        const auto* checkpoint = evidence::find_checkpoint(procedure, answer.checkpoint);
        if (checkpoint == nullptr) continue;
        const bool forbidden = answer.state == judgement::AnswerState::forbidden;
        states.push_back({checkpoint->id, answer.in_scope, answered(answer.state),
                          forbidden ? 0 : checkpoint->minutes, places_of(*checkpoint, bench.instrument)});
    }
    return states;
}

files::api::Minutes minutes_of(const std::vector<CheckpointState>& checkpoints) {
    files::api::Minutes minutes;
    for (const CheckpointState& checkpoint : checkpoints) {
        if (!checkpoint.in_scope) continue;
        minutes.total += checkpoint.minutes;
        if (!checkpoint.done) minutes.left += checkpoint.minutes;
    }
    return minutes;
}

std::string typed_value(const evidence::Reading& reading) {
    if (reading.value) {
        const auto* quantity = std::get_if<QuantityText>(&*reading.value);
        return quantity != nullptr ? quantity->typed : std::get<std::string>(*reading.value);
    }
    std::string out;
    for (const auto& one : reading.repeats) out += (out.empty() ? "" : ", ") + one.typed;
    return out;
}

files::api::LastStay last_stay(const evidence::Bench& earlier, std::string visit, std::string day) {
    files::api::LastStay stay{std::move(visit), std::move(day), "", {}};
    std::map<std::pair<std::string, evidence::Place>, const evidence::Reading*> latest;
    for (const auto& reading : earlier.readings) {
        auto& kept = latest[{reading.what, reading.at}];
        if (kept == nullptr || kept->stage <= reading.stage) kept = &reading;
        if (reading.by) stay.by = *reading.by;
    }
    for (const auto& [key, reading] : latest)
        stay.values.push_back({key.first, key.second, typed_value(*reading)});
    return stay;
}

std::string wants_line(const evidence::Wants& wants) {
    std::vector<std::string> parts;
    if (wants.hand) {
        constexpr std::array kHands = {"light hand", "medium hand", "heavy hand"};
        parts.emplace_back(kHands[std::size_t(*wants.hand)]);
    }
    if (wants.strings) parts.push_back(*wants.strings);
    if (!wants.tuning.empty()) parts.push_back(fmt::format("{}", fmt::join(wants.tuning, " ")));
    if (wants.height_bass) parts.push_back(wants.height_bass->typed + " bass");
    if (wants.height_treble) parts.push_back(wants.height_treble->typed + " treble");
    if (wants.rattle) {
        constexpr std::array kRattle = {"no rattle", "rattle unplugged only", "rattle when struck hard only"};
        parts.emplace_back(kRattle[std::size_t(*wants.rattle)]);
    }
    return fmt::format("{}", fmt::join(parts, ", "));
}

namespace {

std::string words_of(const Json& value) {
    switch (value.kind) {
        case Json::Kind::null:
            return "not stated any more";
        case Json::Kind::boolean:
            return value.truth ? "yes" : "no";
        case Json::Kind::number:
        case Json::Kind::text:
            return value.text;
        case Json::Kind::list: {
            std::string out;
            for (const Json& item : value.items) out += (out.empty() ? "" : ", ") + words_of(item);
            return out;
        }
        case Json::Kind::record: {
            for (const char* key : {"typed", "text", "name", "note", "type", "id", "what"}) {
                if (const Json* found = value.find(key)) return words_of(*found);
            }
            return fmt::format("{} facts", value.items.size());
        }
    }
    return {};
}

std::string place_words(const Json& record) {
    const Json* at = record.find("at");
    if (at == nullptr || at->kind != Json::Kind::record) return {};
    std::string out;
    for (std::size_t i = 0; i < at->keys.size(); ++i) {
        const std::string& key = at->keys[i];
        const std::string& text = at->items[i].text;
        out += ", ";
        if (key == "side") {
            out += text + " side";
        } else if (key == "switch") {
            out += "switch " + text;
        } else if (key == "pressed") {
            out += "held at fret " + text;
        } else if (key == "capo") {
            out += "capo at fret " + text;
        } else if (key == "fret" && text == "0") {
            out += "open";
        } else if (key == "string" || key == "fret") {
            out += key + " " + text;
        } else {
            out += text;
        }
    }
    return out;
}

std::string rating_words(const Json& value, const evidence::Procedure& procedure) {
    const std::string id = value.text_of("checkpoint");
    const auto* checkpoint = evidence::find_checkpoint(procedure, id);
    const std::string step = value.text_of("step");
    if (checkpoint == nullptr) return fmt::format("{}: step {}", id, step);
    const std::size_t index = step.size() == 1 && step[0] >= '0' && step[0] <= '3' ? step[0] - '0' : 0;
    const std::string anchor = index < checkpoint->anchors.size() ? checkpoint->anchors[index] : "step " + step;
    return fmt::format("{}: {}", judgement::title_of(*checkpoint), anchor);
}

}  // namespace

std::string says(const files::Entry& entry, const evidence::Procedure& procedure) {
    const Json& value = entry.value;
    if (entry.path.empty()) return "took back";
    if (entry.path == "/readings") {
        const Json* repeats = value.find("repeats");
        const std::string figure = repeats != nullptr ? words_of(*repeats) : value.text_of("value");
        return fmt::format("{} {}{}", value.text_of("what"), figure, place_words(value));
    }
    if (entry.path == "/ratings") return rating_words(value, procedure) + place_words(value);
    if (entry.path == "/remarks") return fmt::format("remark “{}”", value.text_of("text"));
    if (entry.path == "/wants/complaints") return fmt::format("complaint “{}”", value.text_of("text"));
    if (entry.path == "/claims") return fmt::format("claim: {} {}", value.text_of("what"), value.text_of("value"));
    if (entry.path == "/work") return fmt::format("work: {} {}", value.text_of("what"), value.text_of("amount"));
    if (entry.path == "/photos") return "photo " + value.text_of("what");
    if (entry.path == "/accepted") return fmt::format("accepted: {}", value.text_of("finding"));
    std::string name = entry.path.substr(entry.path.rfind('/') + 1);
    std::ranges::replace(name, '_', ' ');
    return fmt::format("{}: {}", name, words_of(value));
}

}  // namespace fallaway::app
