#include "bench/evidence/procedure.h"

#include <algorithm>

namespace fallaway::evidence {
namespace {

template <class T>
bool admits(const std::vector<T>& list, const T& value) {
    return list.empty() || std::ranges::find(list, value) != list.end();
}

// A fact that is not stated excludes nothing.
bool admits_stated(const std::vector<std::string>& list, const std::optional<std::string>& value) {
    return !value || admits(list, *value);
}
bool admits_stated(const std::optional<bool>& wanted, const std::optional<bool>& value) {
    return !wanted || !value || *wanted == *value;
}

}  // namespace

bool applies(const Condition& condition, const Instrument& instrument) {
    const auto bridge = instrument.bridge ? instrument.bridge->type : std::nullopt;
    const auto rod = instrument.truss_rod ? instrument.truss_rod->type : std::nullopt;
    const int strings = string_count(instrument);
    const auto has_pickups = instrument.pickups.empty() ? std::nullopt : std::optional(true);
    return admits(condition.kinds, instrument.kind) &&
           condition.fretted.value_or(instrument.fretted) == instrument.fretted &&
           condition.hand.value_or(instrument.hand) == instrument.hand &&
           admits_stated(condition.fanned, is_fanned(instrument)) &&
           admits_stated(condition.headless, instrument.headless) &&
           admits_stated(condition.battery, instrument.battery) &&
           admits_stated(condition.zero_fret, instrument.zero_fret) &&
           admits_stated(condition.pickups, has_pickups) && admits_stated(condition.bridges, bridge) &&
           admits_stated(condition.rods, rod) && admits_stated(condition.joints, instrument.neck_joint) &&
           admits_stated(condition.board_finishes, instrument.board_finish) &&
           strings >= condition.strings_min.value_or(strings) &&
           strings <= condition.strings_max.value_or(strings);
}

double BassToTreble::at(int string, int strings) const {
    if (strings < 2) return treble;
    const double towards_bass = static_cast<double>(string - 1) / (strings - 1);
    return treble + (bass - treble) * towards_bass;
}

const Checkpoint* find_checkpoint(const Procedure& procedure, std::string_view id) {
    const auto found = std::ranges::find(procedure.checkpoints, id, &Checkpoint::id);
    return found == procedure.checkpoints.end() ? nullptr : &*found;
}

const Scope* find_scope(const Procedure& procedure, std::string_view name) {
    const auto found = std::ranges::find(procedure.scopes, name, &Scope::name);
    return found == procedure.scopes.end() ? nullptr : &*found;
}

bool allowed(Disturbs disturbs, Hands hands) {
    switch (hands) {
        case Hands::look_only:
            return disturbs == Disturbs::nothing;
        case Hands::adjust:
            return disturbs != Disturbs::opens_a_cavity;
        case Hands::work:
            return true;
    }
    return false;
}

}  // namespace fallaway::evidence
