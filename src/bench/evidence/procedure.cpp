#include "bench/evidence/procedure.h"

#include <algorithm>

namespace fallaway::evidence {
namespace {

template <class T>
bool admits(const std::vector<T>& list, const T& value) {
    return list.empty() || std::ranges::find(list, value) != list.end();
}

// Facts that an instrument may leave open; `unstated` is what an open one answers.
struct OpenFacts {
    const Instrument& instrument;
    bool unstated;

    bool admits_word(const std::vector<std::string>& list, const std::optional<std::string>& value) const {
        return list.empty() || (value ? admits(list, *value) : unstated);
    }
    bool admits_flag(const std::optional<bool>& wanted, const std::optional<bool>& value) const {
        return !wanted || (value ? *wanted == *value : unstated);
    }

    bool admit(const Condition& condition) const {
        const auto bridge = instrument.bridge ? instrument.bridge->type : std::nullopt;
        const auto rod = instrument.truss_rod ? instrument.truss_rod->type : std::nullopt;
        const auto has_pickups = instrument.pickups.empty() ? std::nullopt : std::optional(true);
        std::optional<bool> switched;
        if (!instrument.switch_positions.empty() || has_pickups) switched = !instrument.switch_positions.empty();
        // A head, no battery and no zero fret are what assumptions() takes for granted.
        return admits_flag(condition.headless, instrument.headless.value_or(false)) &&
               admits_flag(condition.battery, instrument.battery.value_or(false)) &&
               admits_flag(condition.zero_fret, instrument.zero_fret.value_or(false)) &&
               admits_flag(condition.pickups, has_pickups) && admits_flag(condition.switched, switched) &&
               admits_word(condition.bridges, bridge) && admits_word(condition.rods, rod) &&
               admits_word(condition.joints, instrument.neck_joint) &&
               admits_word(condition.board_finishes, instrument.board_finish);
    }
};

bool admits_known(const Condition& condition, const Instrument& instrument) {
    const int strings = string_count(instrument);
    return admits(condition.kinds, instrument.kind) &&
           condition.fretted.value_or(instrument.fretted) == instrument.fretted &&
           condition.hand.value_or(instrument.hand) == instrument.hand &&
           condition.fanned.value_or(is_fanned(instrument)) == is_fanned(instrument) &&
           strings >= condition.strings_min.value_or(strings) &&
           strings <= condition.strings_max.value_or(strings);
}

}  // namespace

bool applies(const Condition& condition, const Instrument& instrument) {
    return admits_known(condition, instrument) && OpenFacts{instrument, true}.admit(condition);
}

bool surely_applies(const Condition& condition, const Instrument& instrument) {
    return admits_known(condition, instrument) && OpenFacts{instrument, false}.admit(condition);
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
