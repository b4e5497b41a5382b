#include "bench/evidence/validation.h"

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include <fmt/format.h>

#include "bench/evidence/check_parts.h"
#include "bench/evidence/tuning.h"
#include "science/base/near_word.h"
#include "science/base/quote.h"

namespace fallaway::evidence {
namespace {

// The names of a list of named things.
template <class List, class Name>
std::vector<std::string_view> names_of(const List& list, Name name) {
    std::vector<std::string_view> names;
    names.reserve(list.size());
    for (const auto& item : list) names.emplace_back(std::invoke(name, item));
    return names;
}

template <class List, class Check>
void for_each_of(const List& list, std::string_view path, Check check) {
    for (std::size_t i = 0; i < list.size(); ++i) check(list[i], fmt::format("{}/{}", path, i));
}

bool is_blank(std::string_view text) {
    return text.find_first_not_of(" \t\n") == std::string_view::npos;
}

class Checker {
public:
    Checker(const Bench& bench, const Catalogue& catalogue)
        : bench_(bench),
          catalogue_(catalogue),
          ground_(ground_of(bench)),
          checkpoints_(names_of(catalogue.procedure.checkpoints, &Checkpoint::id)) {}

    std::vector<Error> check() {
        check_instrument(bench_.instrument, faults_);
        check_ids();
        check_scope();
        if (bench_.wants) check_wants(*bench_.wants);
        for_each_of(bench_.claims, "/claims",
                    [this](const auto& claim, const auto& path) { check_claim(claim, path); });
        for_each_of(bench_.tools, "/tools",
                    [this](const auto& tool, const auto& path) { check_tool(tool, path); });
        for_each_of(bench_.readings, "/readings",
                    [this](const auto& r, const auto& path) { check_reading(r, path); });
        for_each_of(bench_.ratings, "/ratings",
                    [this](const auto& r, const auto& path) { check_rating(r, path); });
        for_each_of(bench_.photos, "/photos", [this](const Photo& photo, const std::string& path) {
            place(photo.at, path);
            if (photo.checkpoint) known_checkpoint(*photo.checkpoint, path + "/checkpoint");
        });
        for_each_of(bench_.work, "/work", [this](const auto& work, const auto& path) {
            check_known(work.what, names_of(work_kinds(), &WorkKind::name), "kind of work", path + "/what",
                        faults_);
            place(work.at, path);
        });
        for_each_of(bench_.accepted, "/accepted",
                    [this](const auto& a, const auto& path) { check_acceptance(a, path); });
        if (bench_.card) check_card(*bench_.card);
        for_each_of(bench_.limits, "/limits",
                    [this](const auto& limit, const auto& path) { check_limit(limit, path); });
        for_each_of(bench_.remarks, "/remarks", [this](const auto& r, const auto& path) { place(r.at, path); });
        check_currency();
        return faults_.take();
    }

private:
    void place(const Place& at, const std::string& path) { check_place(at, path + "/at", ground_, faults_); }

    bool known_checkpoint(std::string_view id, const std::string& path) {
        return checkpoints_.empty() || check_known(id, checkpoints_, "checkpoint", path, faults_);
    }

    void check_ids() {
        std::vector<std::string> ids;
        std::vector<std::string> paths;
        const auto collect = [&](const std::string& id, const std::string& path) {
            ids.push_back(id);
            paths.push_back(path + "/id");
        };
        const auto flush = [&](std::string_view noun) {
            check_unique(ids, paths, noun, faults_);
            ids.clear();
            paths.clear();
        };
        for_each_of(bench_.readings, "/readings", [&](const Reading& reading, const std::string& path) {
            if (reading.id) collect(*reading.id, path);
        });
        reading_ids_.insert(ids.begin(), ids.end());
        flush("reading id");
        for_each_of(bench_.claims, "/claims",
                    [&](const Claim& c, const std::string& path) { collect(c.id, path); });
        flush("claim id");
        for_each_of(bench_.tools, "/tools",
                    [&](const ToolUsed& t, const std::string& path) { collect(t.id, path); });
        flush("tool id");
    }

    void check_scope() {
        const ScopeChoice& scope = bench_.scope;
        const bool own = !scope.checkpoints.empty();
        const auto names = names_of(catalogue_.procedure.scopes, &Scope::name);
        if (!own && !names.empty()) check_known(scope.name, names, "scope", "/scope", faults_);
        for_each_of(scope.checkpoints, "/scope/checkpoints",
                    [this](const std::string& id, const std::string& path) { known_checkpoint(id, path); });
        std::vector<std::string> paths;
        for_each_of(scope.checkpoints, "/scope/checkpoints",
                    [&](const std::string&, const std::string& path) { paths.push_back(path); });
        check_unique(scope.checkpoints, paths, "checkpoint", faults_);
    }

    void check_wants(const Wants& wants) {
        if (!wants.tuning.empty() && std::ssize(wants.tuning) != ground_.strings) {
            faults_.add("range", "/wants/tuning",
                        fmt::format("{} notes, expected one for each string: {}{}", wants.tuning.size(),
                                    ground_.strings, bench_.instrument.strings.empty() ? " (assumed)" : ""));
        }
        for_each_of(wants.tuning, "/wants/tuning", [this](const std::string& note, const std::string& path) {
            if (note_number(note)) return;
            faults_.add("syntax", path,
                        fmt::format("{}: not the name of a note, expected one such as \"E4\"", quote(note)));
        });
        const Observable& height = *find_observable("string height");
        if (wants.height_bass) check_quantity(height, *wants.height_bass, "/wants/height_bass", faults_);
        if (wants.height_treble) check_quantity(height, *wants.height_treble, "/wants/height_treble", faults_);
        for_each_of(wants.complaints, "/wants/complaints",
                    [this](const Complaint& complaint, const std::string& path) {
                        place(complaint.at, path);
                        if (complaint.ending) check_ending(*complaint.ending, path + "/ending/shown_by");
                    });
    }

    void check_ending(const ComplaintEnding& ending, const std::string& list_path) {
        for_each_of(ending.shown_by, list_path, [this](const std::string& id, const std::string& path) {
            if (reading_ids_.contains(id)) return;
            const std::vector<std::string_view> known(reading_ids_.begin(), reading_ids_.end());
            const auto close = nearest(id, known);
            const std::string question = close ? fmt::format(", did you mean \"{}\"?", *close) : "";
            faults_.add("unknown", path, fmt::format("{}: no reading has this id{}", quote(id), question));
        });
    }

    void check_claim(const Claim& claim, const std::string& path) {
        place(claim.at, path);
        const auto ids = names_of(catalogue_.claims, &ClaimKind::id);
        if (!check_known(claim.what, ids, "kind of claim", path + "/what", faults_)) return;
        const ClaimKind& kind = *std::ranges::find(catalogue_.claims, claim.what, &ClaimKind::id);
        if (kind.dimension && !claim.value) {
            faults_.add("missing", path + "/value",
                        fmt::format("missing, a claim of this kind has a {} such as \"{}\"",
                                    name_of(*kind.dimension), example_of(*kind.dimension)));
        }
        if (claim.value) check_claim_value(kind, *claim.value, path + "/value");
        if (claim.tolerance) check_tolerance(kind, *claim.tolerance, path + "/tolerance");
    }

    void check_claim_value(const ClaimKind& kind, const Value& value, const std::string& path) {
        const auto* quantity = std::get_if<QuantityText>(&value);
        const bool fits = kind.dimension ? quantity != nullptr && quantity->unit != nullptr &&
                                               quantity->unit->dimension == *kind.dimension
                                         : quantity == nullptr;
        if (!fits) {
            faults_.add(
                "unit", path,
                fmt::format("{}: a claim of {} has {}",
                            quote(quantity != nullptr ? quantity->typed : std::get<std::string>(value)), kind.name,
                            kind.dimension ? fmt::format("a {}", name_of(*kind.dimension)) : "words"));
            return;
        }
        // Only what one reading of the same kind of quantity decides can be held against that reading's range.
        const Observable* observable = find_observable(kind.reads);
        const bool comparable = observable != nullptr && quantity != nullptr && observable->words.empty() &&
                                observable->dimension == *kind.dimension;
        if (comparable) check_quantity(*observable, *quantity, path, faults_);
    }

    void check_tolerance(const ClaimKind& kind, const QuantityText& tolerance, const std::string& path) {
        if (!kind.dimension || tolerance.unit == nullptr || tolerance.unit->dimension != *kind.dimension) {
            faults_.add("unit", path, fmt::format("{}: not of the kind that is claimed", quote(tolerance.typed)));
        } else if (tolerance.si < 0) {
            faults_.add("range", path, fmt::format("{}: a tolerance is not negative", quote(tolerance.typed)));
        }
    }

    const metrology::ToolKind* tool_kind(std::string_view id) const {
        const auto found = std::ranges::find(catalogue_.tools, id, &metrology::ToolKind::id);
        return found == catalogue_.tools.end() ? nullptr : &*found;
    }

    void check_tool(const ToolUsed& tool, const std::string& path) {
        check_known(tool.kind, names_of(catalogue_.tools, &metrology::ToolKind::id), "kind of tool",
                    path + "/kind", faults_);
        if (tool.certificate_u && tool.certificate_u->si <= 0) {
            faults_.add("range", path + "/certificate_u",
                        fmt::format("{}: an uncertainty is more than nothing", quote(tool.certificate_u->typed)));
        }
        if (tool.certificate_k && !tool.certificate_u) {
            faults_.add("missing", path + "/certificate_u", "missing, certificate_k belongs to it");
        }
    }

    // The kind behind an id of the file's tools or of the catalogue; a fault and null when it is neither.
    const metrology::ToolKind* check_tool_named(const std::string& name, const std::string& path) {
        const auto own = std::ranges::find(bench_.tools, name, &ToolUsed::id);
        if (own != bench_.tools.end()) return tool_kind(own->kind);
        if (const auto* kind = tool_kind(name)) return kind;
        auto known = names_of(bench_.tools, &ToolUsed::id);
        for (const auto& kind : catalogue_.tools) known.emplace_back(kind.id);
        check_known(name, known, "tool", path, faults_);
        return nullptr;
    }

    void check_reading(const Reading& reading, const std::string& path) {
        place(reading.at, path);
        const bool has_both = reading.value && !reading.repeats.empty();
        if (has_both) faults_.add("duplicate", path + "/repeats", "value and repeats, expected one of them");
        if (!reading.value && reading.repeats.empty()) {
            faults_.add("missing", path + "/value", "missing, expected a value, or repeats");
        }
        const Observable* observable = check_observable(reading.what, path + "/what", faults_);
        if (observable == nullptr) return;
        check_place_of(*observable, reading.at, path, ground_, faults_);
        if (reading.value) check_value(*observable, *reading.value, path + "/value", faults_);
        for_each_of(reading.repeats, path + "/repeats", [&](const QuantityText& value, const std::string& at) {
            check_quantity(*observable, value, at, faults_);
        });
        if (!reading.tool) return;
        const auto* tool = check_tool_named(*reading.tool, path + "/tool");
        if (tool == nullptr || !observable->words.empty()) return;
        if (tool->dimension == observable->dimension) {
            check_reach(reading, *tool, path);
            check_made_for(reading, *tool, path);
            return;
        }
        faults_.add("unit", path + "/tool",
                    fmt::format("{}: reads a {}, {} is a {}", quote(*reading.tool), name_of(tool->dimension),
                                observable->name, name_of(observable->dimension)));
    }

    void check_made_for(const Reading& reading, const metrology::ToolKind& tool, const std::string& path) {
        if (metrology::budget_for(tool, reading.what) != nullptr) return;
        std::string expected = "another tool";
        for (const auto& kind : catalogue_.tools) {
            if (kind.dimension == tool.dimension && metrology::budget_for(kind, reading.what) != nullptr) {
                expected = "a tool such as " + quote(kind.id);
                break;
            }
        }
        faults_.add(
            "kind", path + "/tool",
            fmt::format("{}: does not read {}, expected {}", quote(*reading.tool), reading.what, expected));
    }

    void check_reach(const Reading& reading, const metrology::ToolKind& tool, const std::string& path) {
        const auto check = [&](const QuantityText& value, const std::string& at) {
            if (!tool.largest || std::abs(value.si) <= *tool.largest) return;
            faults_.add("range", at,
                        fmt::format("{}: over the range of {}, expected {} at most", quote(value.typed), tool.name,
                                    format_quantity(*tool.largest, *value.unit, value.decimals)));
        };
        if (reading.value && std::holds_alternative<QuantityText>(*reading.value)) {
            check(std::get<QuantityText>(*reading.value), path + "/value");
        }
        for_each_of(reading.repeats, path + "/repeats", check);
    }

    void check_rating(const Rating& rating, const std::string& path) {
        place(rating.at, path);
        check_step(rating.step, path);
        if (!known_checkpoint(rating.checkpoint, path + "/checkpoint")) return;
        const auto* checkpoint = find_checkpoint(catalogue_.procedure, rating.checkpoint);
        if (checkpoint == nullptr) return;
        if (checkpoint->anchors.empty()) {
            faults_.add(
                "kind", path + "/checkpoint",
                fmt::format("{}: is not rated, expected {}", quote(rating.checkpoint),
                            checkpoint->reads.empty() ? "a claim" : "a reading of " + checkpoint->reads.front()));
        } else if (!applies(checkpoint->when, bench_.instrument)) {
            faults_.add("range", path + "/checkpoint",
                        fmt::format("{}: does not apply to this instrument", quote(rating.checkpoint)));
        }
    }

    void check_step(int step, const std::string& path) {
        if (step >= 0 && step <= 3) return;
        faults_.add("range", path + "/step", fmt::format("{}: expected 0 (worst) to 3 (best)", step));
    }

    void check_acceptance(const Acceptance& acceptance, const std::string& path) {
        const auto need = [&](const std::string& text, const char* key, const char* what) {
            if (is_blank(text)) faults_.add("missing", path + key, fmt::format("missing, {}", what));
        };
        need(acceptance.finding, "/finding", "expected the id of a finding");
        need(acceptance.by, "/by", "somebody accepts a finding");
        need(acceptance.why, "/why", "a finding is accepted for a reason");
    }

    void check_card(const Card& card) {
        for_each_of(card.lines, "/card/lines", [this](const CardLine& line, const std::string& path) {
            place(line.at, path);
            if (line.value.has_value() == line.step.has_value()) {
                faults_.add(
                    line.value ? "duplicate" : "missing", path + "/value",
                    line.value ? "value and step, expected one of them" : "missing, expected a value or a step");
            }
            if (line.step) check_step(*line.step, path);
            const Observable* observable = find_observable(line.what);
            if (observable != nullptr && line.step) {
                faults_.add("unknown", path + "/step", fmt::format("{} is measured, not judged", line.what));
            } else if (observable != nullptr) {
                check_place_of(*observable, line.at, path, ground_, faults_);
                if (line.value) check_value(*observable, *line.value, path + "/value", faults_);
            } else {
                check_card_checkpoint(line, path);
            }
        });
    }

    void check_card_checkpoint(const CardLine& line, const std::string& path) {
        auto known = checkpoints_;
        if (known.empty() && line.step) return;
        for (const Observable& observable : observables()) known.push_back(observable.name);
        check_known(line.what, known, "observable or checkpoint", path + "/what", faults_);
    }

    void check_limit(const LimitOverride& limit, const std::string& path) {
        if (!limit.low && !limit.high)
            faults_.add("missing", path + "/high", "missing, expected a low or a high limit");
        if (limit.low && limit.high && limit.low->si > limit.high->si) {
            faults_.add(
                "range", path + "/low",
                fmt::format("{}: above the high limit {}", quote(limit.low->typed), quote(limit.high->typed)));
        }
        known_checkpoint(limit.checkpoint, path + "/checkpoint");
    }

    // Money is never converted: every amount is in the currency of the first.
    void check_currency() {
        const Unit* first = nullptr;
        const auto amount = [&](const QuantityText& money, const std::string& path) {
            if (first == nullptr) first = money.unit;
            if (money.unit == first) return;
            faults_.add(
                "unit", path,
                fmt::format("{}: a file has one currency, expected {}", quote(money.typed), first->symbol));
        };
        if (bench_.wants && bench_.wants->money_limit) amount(*bench_.wants->money_limit, "/wants/money_limit");
        if (!bench_.price) return;
        if (bench_.price->asked) amount(*bench_.price->asked, "/price/asked");
        for_each_of(bench_.price->like, "/price/like",
                    [&](const Sale& sale, const std::string& path) { amount(sale.price, path + "/price"); });
        if (bench_.price->repairs) amount(*bench_.price->repairs, "/price/repairs");
    }

    const Bench& bench_;
    const Catalogue& catalogue_;
    Ground ground_;
    std::vector<std::string_view> checkpoints_;
    std::unordered_set<std::string> reading_ids_;
    Faults faults_;
};

}  // namespace

std::vector<Error> validate(const Bench& bench, const Catalogue& catalogue) {
    return Checker(bench, catalogue).check();
}

}  // namespace fallaway::evidence
