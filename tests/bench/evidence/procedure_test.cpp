#include "bench/evidence/procedure.h"

#include <gtest/gtest.h>

#include "bench/evidence/bench.h"
#include "bench/evidence/observable.h"

namespace fallaway::evidence {
namespace {

TEST(Procedure, EmptyConditionAppliesToAll) {
    Instrument bass;
    bass.kind = Kind::electric_bass;
    EXPECT_TRUE(applies({}, {}));
    EXPECT_TRUE(applies({}, bass));
}

TEST(Procedure, KnownFactsExclude) {
    Condition condition;
    condition.kinds = {Kind::electric_bass};
    EXPECT_FALSE(applies(condition, {}));
    condition = {};
    condition.fretted = false;
    EXPECT_FALSE(applies(condition, {}));
    condition = {};
    condition.fanned = true;
    EXPECT_FALSE(applies(condition, {}));
    condition = {};
    condition.strings_min = 7;
    EXPECT_FALSE(applies(condition, {}));
    condition = {};
    condition.strings_max = 5;
    EXPECT_FALSE(applies(condition, {}));
}

TEST(Procedure, WhatIsAssumedIsTakenAsSaid) {
    Condition condition;
    condition.battery = true;
    EXPECT_FALSE(applies(condition, {}));  // assumptions(): no battery
    Instrument guitar;
    guitar.battery = true;
    EXPECT_TRUE(applies(condition, guitar));
    EXPECT_TRUE(surely_applies(condition, guitar));
}

TEST(Procedure, FactsThatAreNotStatedExcludeNothing) {
    Condition condition;
    condition.pickups = false;
    condition.bridges = {"pivot"};
    condition.joints = {"bolt-on"};
    EXPECT_TRUE(applies(condition, {}));
    EXPECT_FALSE(surely_applies(condition, {}));
    Instrument guitar;
    guitar.bridge = Bridge{"fixed", {}, {}};
    EXPECT_FALSE(applies(condition, guitar));
    guitar.bridge->type = "pivot";
    EXPECT_TRUE(applies(condition, guitar));
    guitar.pickups = {{"bridge", {}}};
    EXPECT_FALSE(applies(condition, guitar));
}

TEST(Procedure, LimitsRunInEvenStepsFromTrebleToBass) {
    const BassToTreble limit{2.0, 1.5};
    EXPECT_DOUBLE_EQ(limit.at(1, 6), 1.5);
    EXPECT_DOUBLE_EQ(limit.at(6, 6), 2.0);
    EXPECT_DOUBLE_EQ(limit.at(2, 6), 1.6);
    EXPECT_DOUBLE_EQ(limit.at(1, 1), 1.5);
}

TEST(Procedure, HandsAllow) {
    EXPECT_TRUE(allowed(Disturbs::nothing, Hands::look_only));
    EXPECT_FALSE(allowed(Disturbs::slackens_strings, Hands::look_only));
    EXPECT_FALSE(allowed(Disturbs::turns_a_screw, Hands::look_only));
    EXPECT_TRUE(allowed(Disturbs::turns_a_screw, Hands::adjust));
    EXPECT_FALSE(allowed(Disturbs::opens_a_cavity, Hands::adjust));
    EXPECT_TRUE(allowed(Disturbs::opens_a_cavity, Hands::work));
}

TEST(Procedure, FindsByName) {
    Procedure procedure;
    procedure.checkpoints.resize(2);
    procedure.checkpoints[1].id = "action-12";
    procedure.scopes = {{"quick look", 10, {"action-12"}}};
    EXPECT_EQ(find_checkpoint(procedure, "action-12"), &procedure.checkpoints[1]);
    EXPECT_EQ(find_checkpoint(procedure, "action"), nullptr);
    EXPECT_NE(find_scope(procedure, "quick look"), nullptr);
    EXPECT_EQ(find_scope(procedure, "set-up"), nullptr);
}

TEST(WorkKinds, MakeOnlyKnownObservablesStale) {
    EXPECT_EQ(work_kinds().size(), 17u);
    for (const WorkKind& kind : work_kinds()) {
        for (const std::string_view observable : kind.makes_stale) {
            EXPECT_TRUE(observable == "*" || find_observable(observable) != nullptr)
                << kind.name << ": " << observable;
            EXPECT_NE(observable, "pitch on arrival") << kind.name << " cannot change what was found on arrival";
        }
    }
}

}  // namespace
}  // namespace fallaway::evidence
