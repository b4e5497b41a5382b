// What a page does with the messages of the WebSocket: laid over the old view, the difference makes the new one.
#include <random>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "api_fixture.h"

namespace fallaway::files::api {
namespace {

using Wire = nlohmann::json;

// As docs/api.md tells a page to do it.
Wire laid_over(Wire view, const Wire& message) {
    Wire& assessment = view["assessment"];
    if (message.at("whole")) assessment["answers"] = Wire::array();
    std::map<std::string, Wire> answers;
    for (const Wire& answer : assessment["answers"]) answers[answer["checkpoint"]] = answer;
    for (const auto& [key, value] : message.at("assessment").items()) {
        if (key != "answers") assessment[key] = value;
        if (key != "answers") continue;
        for (const Wire& answer : value) answers[answer["checkpoint"]] = answer;
    }
    for (const Wire& gone : message.at("answers_gone")) answers.erase(gone);
    for (const auto& [key, value] : message.items()) {
        if (key == "type" || key == "whole" || key == "assessment" || key == "answers_gone") continue;
        value.is_null() && key != "next" ? void(view.erase(key)) : void(view[key] = value);
    }
    assessment["answers"] = Wire::array();
    for (const Wire& checkpoint : view["checkpoints"])
        assessment["answers"].push_back(answers.at(checkpoint["id"]));
    return view;
}

Wire without_entries(const VisitView& view) {
    Wire json = Wire::parse(encode(view));
    json.erase("entries");
    return json;
}

std::vector<Entry> some_taken_out(const std::vector<Entry>& entries, std::mt19937& random) {
    std::vector<Entry> left = entries;
    const int times = std::uniform_int_distribution(1, 12)(random);
    for (int i = 0; i < times && !left.empty(); ++i) {
        const auto at = std::uniform_int_distribution<std::size_t>(0, left.size() - 1)(random);
        if (left[at].path != "/instrument/kind") left.erase(left.begin() + static_cast<std::ptrdiff_t>(at));
    }
    return left;
}

// n = 8 pairs a demo file, both ways; seed 20261125.
TEST(ApiLive, TheDifferenceMakesTheNewView) {
    std::mt19937 random(20261125);
    int compared = 0;
    for (const char* name : {"heron", "dray", "quick"}) {
        const auto bench = good(decode_bench(read_file(fmt::format("demo/{}.json", name))));
        const auto entries = entries_of(bench);
        for (int round = 0; round < 8; ++round) {
            const auto one = view_of(some_taken_out(entries, random), built_in_catalogue());
            const auto other = view_of(some_taken_out(entries, random), built_in_catalogue());
            if (!one || !other) continue;  // a remark pointed at what was taken out
            EXPECT_EQ(laid_over(without_entries(*one), Wire::parse(live_judged(*other, &*one))),
                      without_entries(*other));
            EXPECT_EQ(laid_over(without_entries(*other), Wire::parse(live_judged(*one, &*other))),
                      without_entries(*one));
            EXPECT_EQ(laid_over(without_entries(*other), Wire::parse(live_judged(*one, nullptr))),
                      without_entries(*one));
            ++compared;
        }
    }
    EXPECT_GE(compared, 12);
}

TEST(ApiLive, WhatDidNotChangeIsLeftOut) {
    const auto entries = entries_of(good(decode_bench(read_file("demo/quick.json"))));
    const auto view = *view_of(entries, built_in_catalogue());
    const Wire same = Wire::parse(live_judged(view, &view));
    EXPECT_EQ(same, Wire::parse(R"({"type": "judged", "whole": false, "assessment": {}, "answers_gone": [],
                                    "seq": )" +
                                std::to_string(view.seq) + "}"));
    EXPECT_EQ(live_judged(view, &view).substr(0, 25), R"({"type": "judged", "seq":)");
}

TEST(ApiLive, MessagesAreOneLine) {
    const auto entries = entries_of(good_bench("full"));
    const std::string visit = live_visit(7, {{entries[0], 1}}, {id_of(3)});
    EXPECT_EQ(Wire::parse(visit)["put"][0]["place"], 1);
    EXPECT_EQ(Wire::parse(visit)["drop"], Wire({id_of(3)}));
    EXPECT_EQ(visit.find('\n'), std::string::npos);
    EXPECT_EQ(live_here({{id_of(1), "Bench tablet"}}),
              R"({"type": "here", "devices": [{"id": "0000000000000001", "name": "Bench tablet"}]})");
}

}  // namespace
}  // namespace fallaway::files::api
