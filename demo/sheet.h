// The technician's sheet: true values go in, readings as a person would have typed them come out, with the errors
// of the tool that took them. Everything drawn comes from one stored seed.
#pragma once

#include <cstdint>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "science/base/quantity_text.h"
#include "science/numeric/random.h"

namespace fallaway::demo {

using Json = nlohmann::ordered_json;

// How a tool errs, SI. Its own offset is drawn once, half a width `bias` either way; each reading scatters with
// `scatter`, and is written down to the nearest `step`.
struct ToolTruth {
    std::string unit;
    double step = 0;
    double bias = 0;
    double bias_relative = 0;  // part that grows with the value
    double scatter = 0;
};

// Where and when the next readings are taken.
struct Sitting {
    std::string stage;
    std::string by;
    std::string day;  // "2026-11-17"
    int minute = 0;   // since midnight, local time
};

struct Extra {
    std::string id = {};
    std::string remark = {};
    int repeats = 1;
};

class Sheet {
public:
    explicit Sheet(std::uint64_t seed) : seed_(seed), random_(seed) {}

    // `id` and `kind` as the bench file names them; `entry` is the tool's line in the file without these two.
    // Without a kind the tool is in use and never named.
    void add_tool(const std::string& id, const std::string& kind, const ToolTruth& truth,
                  Json entry = Json::object());
    void sit_down(const Sitting& sitting);

    void read(const std::string& what, const Json& at, double truth, const std::string& tool,
              const Extra& extra = {});
    void tell(const std::string& what, const Json& at, const std::string& word, const Extra& extra = {});
    void rate(const std::string& checkpoint, int step, const std::string& remark = "", const Json& at = {},
              const std::vector<std::string>& photos = {});
    void work(const std::string& what, const Json& at, const std::string& amount, const std::string& remark = "");
    void remark(const std::string& text, const Json& at = {});

    numeric::Random& random() { return random_; }
    // "2026-11-17T09:31:00+01:00"; every entry takes its own time.
    std::string now(double minutes_later);

    // The story with tools, readings, ratings, work and remarks put in, as the text of a bench file. A last remark
    // says that it is invented, and from which seed.
    std::string bench_file(Json story) const;

private:
    struct Drawn {
        std::string kind;
        ToolTruth truth;
        double offset = 0;
        double factor = 1;
    };

    std::string one_reading(const Drawn& tool, double truth);
    void sign(Json& entry, double minutes);

    std::uint64_t seed_ = 0;
    numeric::Random random_;
    Sitting sitting_;
    double minutes_ = 0;
    std::map<std::string, Drawn> drawn_;
    Json tools_ = Json::array();
    Json readings_ = Json::array();
    Json ratings_ = Json::array();
    Json work_ = Json::array();
    Json remarks_ = Json::array();
};

// One member or one list entry on a line while it fits: to be read and edited by hand.
// `indent` is the depth of the value, `before` what already stands on its line.
std::string laid_out(const Json& json, std::size_t indent = 0, std::size_t before = 0);

Json on_string(int string);
Json on_string(int string, int fret);
Json on_fret(int fret);
Json on_fret(int fret, const std::string& side);

}  // namespace fallaway::demo
