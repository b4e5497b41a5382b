// Every case of tests/cases/geometry/fit.json.
//   near-exact   crowns of an even curve ("relief_mid"), all read by a straightedge, and two open heights, with an
//                sd of a ten-thousandth of a millimetre; answers the clearances held at "held" over each of
//                "over".
//   two-heights  the open heights over 1 and 12 of known flat crowns; answers what is then known of nut and
//   saddle.
#include <cmath>
#include <fstream>

#include <gtest/gtest.h>

#include "case_units.h"
#include "science/neck/clearances.h"
#include "science/neck/fit.h"

namespace fallaway::cases {
namespace {

using neck::Kind;

neck::Layout one_string(CaseGiven& in) {
    neck::Layout layout;
    const double scale = in.number("scale");
    layout.strings = {{.scale = scale, .setback = in.number("saddle_x") - scale}};
    layout.frets = 22;
    return layout;
}

Json near_exact(CaseGiven& in) {
    const neck::Layout layout = one_string(in);
    const neck::NeckModel model(layout, {});
    const neck::Tool tool{1e-7, 1};
    const double first = neck::fret_place(layout, 0, 1);
    const double last = neck::fret_place(layout, 0, 22);
    const double relief = in.number("relief_mid");
    std::vector<neck::Reading> readings;
    for (int fret = 2; fret < 22; ++fret) {
        const double dip = -relief * neck::parabola((neck::fret_place(layout, 0, fret) - first) / (last - first));
        readings.push_back(neck::with_number({Kind::gap, 0, fret, 1, 22}, dip, tool));
    }
    for (const int fret : {1, 12}) {
        const double height = in.number("open_height_" + std::to_string(fret));
        readings.push_back(neck::with_number({Kind::open_height, 0, fret}, height, tool));
    }
    const auto fitted = neck::fit(model, readings).value();
    const auto all = neck::clearances(model, fitted.state);
    Json found = Json::array();
    const int held = in.whole("held");
    for (const int over : in.wholes("over")) {
        for (const auto& c : all) {
            if (c.held == held && c.over == over) found.push_back(c.value);
        }
    }
    return {{"clearance", found}};
}

Json two_heights(CaseGiven& in) {
    const neck::Guess nothing_known{0, 1};  // a metre
    neck::Prior prior{.relief = {}, .kink = {}, .crown = {}, .slot = nothing_known, .action = nothing_known};
    const neck::NeckModel model(one_string(in), prior);
    const auto fitted =
        neck::fit(model,
                  std::vector{neck::with_number({Kind::open_height, 0, 1}, 0, {in.number("sd_fret1"), 1}),
                              neck::with_number({Kind::open_height, 0, 12}, 0, {in.number("sd_fret12"), 1})})
            .value();
    const neck::Form nut = model.nut(0);
    const neck::Form saddle = model.saddle(0);
    const auto joint = numeric::covariance_of(fitted.state, std::vector{nut, saddle});
    return {{"sd_nut", std::sqrt(joint[0])},
            {"sd_saddle", std::sqrt(joint[3])},
            {"corr", joint[1] / std::sqrt(joint[0] * joint[3])},
            {"sd_height_over_17", neck::read(fitted.state, model.open_height(0, 17)).u}};
}

TEST(FitCases, Hold) {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/tests/cases/geometry/fit.json");
    const Json all = Json::parse(file).at("cases");
    ASSERT_GE(all.size(), 5U);
    for (const Json& one : all) {
        const auto id = one.at("id").get<std::string>();
        const auto kind = one.at("kind").get<std::string>();
        ASSERT_TRUE(kind == "near-exact" || kind == "two-heights") << id;
        EXPECT_FALSE(one.at("source").get<std::string>().empty()) << id;
        CaseGiven given(one.at("given"));
        const Json found = kind == "near-exact" ? near_exact(given) : two_heights(given);
        given.complain_of_unread();
        for (const auto& [key, value] : one.at("expected").items()) {
            std::vector<std::string> faults;
            compare(key, key, one.at("tolerance"), value, found.at(part(key).name), faults);
            for (const auto& fault : faults) ADD_FAILURE() << id << ": " << fault;
        }
    }
}

}  // namespace
}  // namespace fallaway::cases
