// Runs every case of tests/cases/geometry/strings.json. A case names its kind, what is given, and what to expect;
// a key that its kind does not know fails it, so a case never passes by saying something that nobody reads.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "science/strings/compensation.h"
#include "science/strings/ideal.h"
#include "science/strings/screw_thread.h"
#include "science/strings/stiffness.h"

namespace fallaway::strings {
namespace {

using nlohmann::json;
using Found = std::map<std::string, std::vector<double>>;

constexpr double kInch = 25.4e-3;
constexpr double kLbf = 4.4482216152605;
constexpr double kPoundPerInch = 0.45359237 / kInch;

// What is given; remembers which keys were read.
class Given {
public:
    explicit Given(const json& body) : body_(body) {}
    double number(const char* key) { return read(key).get<double>(); }
    std::string word(const char* key) { return read(key).get<std::string>(); }
    bool flag(const char* key) { return read(key).get<bool>(); }
    bool has(const char* key) const { return body_.contains(key); }
    std::vector<double> list(const char* key) {
        const json& value = read(key);
        if (!value.is_array()) return {value.get<double>()};
        return value.get<std::vector<double>>();
    }
    std::vector<std::string> words(const char* key) { return read(key).get<std::vector<std::string>>(); }
    std::vector<std::string> unread() const {
        std::vector<std::string> out;
        for (const auto& [key, value] : body_.items()) {
            if (!read_.contains(key)) out.push_back(key);
        }
        return out;
    }

private:
    const json& read(const char* key) {
        read_.insert(key);
        return body_.at(key);
    }
    const json& body_;
    std::set<std::string> read_;
};

template <class T>
T good(Result<T> result) {
    if (!result) throw std::runtime_error(result.error().path + ": " + result.error().message);
    return *std::move(result);
}

Found stretching(Given& g) {
    Found out;
    const auto r = g.list("R"), radius = g.list("radius_mm"), t = g.list("T_N");
    for (std::size_t i = 0; i < r.size(); ++i) {
        const double kappa = kappa_of_stretching(r[i]);
        out["kappa"].push_back(kappa);
        out["E_GPa"].push_back(modulus_of_round(kappa, t[i], radius[i] * 1e-3) * 1e-9);
        out["eps"].push_back(eps_of_round(kappa, radius[i] * 1e-3, g.number("L_mm") * 1e-3));
    }
    return out;
}

Response answering(double kappa, double eps) {
    Response r;
    r.kappa = kappa;
    r.eps = eps;
    return r;
}

void put_compensation(Found& out, const StringPath& path, const Response& response, bool nut_free) {
    Task task;
    if (nut_free) task.nut = kFreeTravel;
    const auto found = good(compensate(path, response, task));
    out["saddle_mm"].push_back(found.saddle.value * 1e3);
    out["nut_mm"].push_back(found.nut.value * 1e3);
    out["rms_cents"].push_back(found.rms_after);
}

Found flat_compensation(Given& g) {
    Found out;
    const auto path =
        good(path_of(flat_heights(g.number("scale_mm") * 1e-3, g.number("nut_mm") * 1e-3,
                                  g.number("saddle_over_nut_mm") * 1e-3, static_cast<int>(g.number("frets")))));
    const auto kappa = g.list("kappa"), eps = g.list("eps");
    for (std::size_t i = 0; i < kappa.size(); ++i) put_compensation(out, path, answering(kappa[i], eps[i]), true);
    return out;
}

Found flat_cents(Given& g) {
    Found out;
    const auto path =
        good(path_of(flat_heights(g.number("scale_mm") * 1e-3, g.number("nut_mm") * 1e-3,
                                  g.number("saddle_over_nut_mm") * 1e-3, 12, g.number("behind_mm") * 1e-3)));
    const auto cents = fretted_cents(path, answering(g.number("kappa"), g.number("eps")));
    for (const double fret : g.list("frets")) out["cents"].push_back(cents[static_cast<std::size_t>(fret) - 1]);
    out["first_stretch"] = {stretched_by(path, 0) / path.open.length()};
    return out;
}

Found end_corrections(Given& g) {
    const double eps = g.number("eps");
    return {{"pinned_pinned", {exact_end_correction(Ends::pinned_pinned, eps)}},
            {"clamped_pinned", {exact_end_correction(Ends::clamped_pinned, eps)}},
            {"clamped_clamped", {exact_end_correction(Ends::clamped_clamped, eps)}}};
}

// Even relief between frets 1 and 22, board carried on to the nut; nut over a fret at the nut, action over
// fret 12.
StringPath bench_path(Given& g, int frets) {
    const double scale = g.number("scale_mm") * 1e-3;
    const double relief = g.number("relief_mm") * 1e-3;
    const auto place = [&](double fret) { return scale * (1 - std::exp2(-fret / 12)); };
    const auto board = [&](double x) {
        const double u = (x - place(1)) / (place(22) - place(1));
        return -4 * relief * u * (1 - u);
    };
    Heights h;
    h.saddle_x = scale;
    h.nut_z = board(0) + g.number("nut_over_zero_fret_mm") * 1e-3;
    const double at_12 = board(place(12)) + g.number("action12_mm") * 1e-3;
    h.saddle_z = h.nut_z + (at_12 - h.nut_z) * scale / place(12);
    for (int fret = 1; fret <= frets; ++fret) {
        const double x = place(fret);
        h.crowns.push_back({fret, x, board(x), usual_press_distance(x - place(fret - 1)), 0});
    }
    return good(path_of(h));
}

Found bench_cents(Given& g) {
    Make make;
    make.outer_diameter = {g.number("gauge_in") * kInch, 0};
    make.core_modulus = {g.number("E_GPa") * 1e9, 0};
    make.mass = Estimate{g.number("unit_weight_lb_in") * kPoundPerInch, 0};
    const Pull pull = good(pull_of(good(body_of(make)), {g.number("scale_mm") * 1e-3, 0}, {g.number("f_Hz"), 0}));
    const auto cents = fretted_cents(bench_path(g, 12), response_of(pull));
    Found out{{"T_N", {pull.tension.value}}, {"kappa", {pull.kappa.value}}, {"eps", {pull.eps.value}}};
    for (const double fret : g.list("frets")) out["cents"].push_back(cents[static_cast<std::size_t>(fret) - 1]);
    return out;
}

Found bench_compensation(Given& g) {
    Found out;
    put_compensation(out, bench_path(g, static_cast<int>(g.number("last_fret"))),
                     answering(g.number("kappa"), g.number("eps")), g.flag("nut_free"));
    return out;
}

Found saddle_per_cent(Given& g) {
    const double scale = g.number("scale_mm") * 1e-3;
    const double move = saddle_move_for(1, scale, g.number("fret"));
    return {{"cents_per_mm", {-cents_per_metre(scale, g.number("fret")) * 1e-3}},
            {"mm_per_cent", {move * 1e3}},
            {"turns", {turns_for(Length::m(move), good(thread_named(g.word("thread"))))}}};
}

Found inharmonicities(Given& g) {
    Found out;
    const auto cents = g.list("cents"), partial = g.list("partial"), fret = g.list("fret");
    for (std::size_t i = 0; i < cents.size(); ++i) {
        out["B"].push_back(good(inharmonicity_from_partial(cents[i], static_cast<int>(partial[i]))));
    }
    out["B_ratio_of_frets"] = {fretted_inharmonicity(1, fret.back()) / fretted_inharmonicity(1, fret.front())};
    return out;
}

Found tensions(Given& g) {
    Found out;
    const bool customary = g.has("mass_lb_in");
    const auto mass = g.list(customary ? "mass_lb_in" : "mass_g_m"), f = g.list("f_Hz");
    std::vector<Estimate> all;
    for (std::size_t i = 0; i < mass.size(); ++i) {
        const double si = mass[i] * (customary ? kPoundPerInch : 1e-3);
        const double t =
            string_tension(LinearDensity::kg_per_m(si), Length::mm(g.number("scale_mm")), Frequency::hz(f[i]))
                .newton();
        all.push_back({t, 0});
        out["T_N"].push_back(t);
        out["T_lbf"].push_back(t / kLbf);
    }
    out["total_N"] = {total(all).value};
    return out;
}

Pull plain_pull(double gauge_in, double density, double modulus, double scale_mm, double hz) {
    Make make;
    make.outer_diameter = {gauge_in * kInch, 0};
    make.core_density = {density, 0};
    make.core_modulus = {modulus, 0};
    return good(pull_of(good(body_of(make)), {scale_mm * 1e-3, 0}, {hz, 0}));
}

Found plain(Given& g) {
    const Pull pull =
        plain_pull(g.number("gauge_in"), g.number("density"), 200e9, g.number("scale_mm"), g.number("f_Hz"));
    return {{"T_kgf", {pull.tension.value / 9.80665}},
            {"stress_MPa", {pull.stress.value * 1e-6}},
            {"share", {pull.strength_share.value().value}},
            {"break_Hz", {pull.breaking_pitch.value().value}}};
}

Found plain_kappa(Given& g) {
    Found out;
    const auto f = g.list("f_Hz"), gauge = g.list("gauge_in");
    for (std::size_t i = 0; i < f.size(); ++i) {
        out["kappa"].push_back(
            plain_pull(gauge[i], g.number("density"), g.number("E_GPa") * 1e9, g.number("scale_mm"), f[i])
                .kappa.value);
    }
    return out;
}

Found wound_mass(Given& g) {
    static const std::map<std::string, Wrap> kWraps{
        {"round", Wrap::round}, {"ground", Wrap::ground}, {"flat", Wrap::flat}, {"tape", Wrap::tape}};
    Make make;
    make.core = g.word("core") == "hex" ? Core::hex : Core::round;
    make.wrap = kWraps.at(g.word("wrap"));
    make.outer_diameter = {g.number("outer_in") * kInch, 0};
    make.core_diameter = Estimate{g.number("core_in") * kInch, 0};
    make.core_density = {g.number("density_core"), 0};
    make.wrap_density = {g.number("density_wrap"), 0};
    const Body body = good(body_of(make));
    return {{"mu_g_m", {body.mass.value * 1e3}}, {"packing", {body.packing.value}}};
}

Found implied_mass(Given& g) {
    Found out;
    const auto t = g.list("T_lbf"), f = g.list("f_Hz"), d = g.list("outer_in");
    double sum = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
        const double speed = 2 * g.number("scale_mm") * 1e-3 * f[i];
        Make make;
        make.wrap = Wrap::round;
        make.outer_diameter = {d[i] * kInch, 0};
        make.core_density = {7850, 0};
        make.mass = Estimate{t[i] * kLbf / (speed * speed), 0};
        const Body body = good(body_of(make));
        out["mu_g_m"].push_back(body.mass.value * 1e3);
        out["packing"].push_back(body.packing.value);
        sum += t[i];
    }
    out["total_lbf"] = {sum};
    return out;
}

Found sags(Given& g) {
    Found out;
    for (const double f : g.list("f_Hz")) out["sag_mm"].push_back(lying_sag(Frequency::hz(f)).mm());
    return out;
}

Found turns(Given& g) {
    Found out;
    for (const std::string& name : g.words("thread")) {
        out["turns"].push_back(turns_for(Length::mm(g.number("move_mm")), good(thread_named(name))));
    }
    return out;
}

Found bend(Given& g) {
    const double scale = g.number("scale_mm") * 1e-3;
    const double sounding = scale * std::exp2(-g.number("fret") / 12);
    const PushedAside string{sounding, scale - sounding, g.number("kappa"), 1};
    return {{"aside_mm", {good(aside_for_cents(string, g.number("cents"))) * 1e3}}};
}

Found bearing(Given& g) {
    const Angle turn = break_angle(Length::mm(g.number("drop_mm")), Length::mm(g.number("run_mm")));
    return {{"angle_deg", {turn.degrees()}},
            {"force_N", {force_on_bearing(Force::newton(g.number("T_N")), turn).newton()}}};
}

const std::map<std::string, Found (*)(Given&)>& kinds() {
    static const std::map<std::string, Found (*)(Given&)> kKinds{
        {"stretching", stretching},
        {"flat_compensation", flat_compensation},
        {"flat_cents", flat_cents},
        {"end_correction", end_corrections},
        {"bench_cents", bench_cents},
        {"bench_compensation", bench_compensation},
        {"saddle_per_cent", saddle_per_cent},
        {"inharmonicity", inharmonicities},
        {"tension", tensions},
        {"plain", plain},
        {"plain_kappa", plain_kappa},
        {"wound_mass", wound_mass},
        {"implied_mass", implied_mass},
        {"sag", sags},
        {"turns", turns},
        {"bend", bend},
        {"bearing", bearing},
    };
    return kKinds;
}

// Faults of one case, "" when it holds.
std::string run_case(const json& body) {
    static const std::set<std::string> kKnown{"id", "kind", "given", "expected", "tolerance", "source", "note"};
    for (const auto& [key, value] : body.items()) {
        if (!kKnown.contains(key)) return "unknown key " + key;
    }
    if (body.at("source").get<std::string>().empty() || body.at("expected").empty())
        return "no source, or nothing expected";
    const auto kind = kinds().find(body.at("kind").get<std::string>());
    if (kind == kinds().end()) return "unknown kind";
    Given given(body.at("given"));
    const Found found = kind->second(given);
    if (!given.unread().empty()) return "given has an unknown key " + given.unread().front();
    const json& tolerance = body.at("tolerance");
    for (const auto& [key, value] : body.at("expected").items()) {
        if (!found.contains(key)) return "nothing is known of " + key;
        const auto wanted = value.is_array() ? value.get<std::vector<double>>() : std::vector{value.get<double>()};
        const auto& got = found.at(key);
        if (wanted.size() != got.size()) return key + ": not as many";
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const double allowed = tolerance.contains("rel")
                                       ? tolerance.at("rel").get<double>() * std::abs(wanted[i])
                                       : tolerance.at(key).get<double>();
            if (!(std::abs(got[i] - wanted[i]) <= allowed)) {
                return key + ": expected " + std::to_string(wanted[i]) + ", got " + std::to_string(got[i]);
            }
        }
    }
    return "";
}

json all_cases() {
    std::ifstream in(FALLAWAY_SOURCE_DIR "/tests/cases/geometry/strings.json");
    return json::parse(in).at("cases");
}

TEST(StringCases, AllHold) {
    const json cases = all_cases();
    EXPECT_GE(cases.size(), 30u);
    std::set<std::string> ids;
    for (const json& body : cases) {
        EXPECT_TRUE(ids.insert(body.at("id").get<std::string>()).second) << body.at("id");
        EXPECT_EQ(run_case(body), "") << body.at("id");
    }
}

TEST(StringCases, RefuseWhatTheyDoNotKnow) {
    const json sound = json::parse(R"({"id": "a", "kind": "sag", "given": {"f_Hz": [82.4069]},
        "expected": {"sag_mm": [0.0451]}, "tolerance": {"sag_mm": 0.0005}, "source": "by hand"})");
    const auto after = [&](const char* patch) {
        json body = sound;
        body.merge_patch(json::parse(patch));
        return run_case(body);
    };
    EXPECT_EQ(run_case(sound), "");
    EXPECT_EQ(after(R"({"kind": "sagging"})"), "unknown kind");
    EXPECT_EQ(after(R"({"given": {"gauge": 1}})"), "given has an unknown key gauge");
    EXPECT_EQ(after(R"({"expected": {"sag_in": [1]}})"), "nothing is known of sag_in");
    EXPECT_EQ(after(R"({"remark": "x"})"), "unknown key remark");
    EXPECT_NE(after(R"({"expected": {"sag_mm": [0.0471]}})"), "");
}

}  // namespace
}  // namespace fallaway::strings
