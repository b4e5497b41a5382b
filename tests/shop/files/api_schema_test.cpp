// schema/api.schema.json, the tables of docs/api.md and docs/assessment-json.md, and one sample of every message
// are what the wire tables say, byte for byte. FALLAWAY_UPDATE=1 in the environment rewrites them; read the
// difference before you keep it. tests/tools/api_schema_test.py holds the samples against the schema.
#include <cstdlib>
#include <fstream>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "api_fixture.h"
#include "bench/sums/registry.h"
#include "shop/files/assessment_json.h"
#include "shop/files/sums_json.h"

namespace fallaway::files::api {
namespace {

constexpr const char* kSamples = "tests/shop/files/golden/api_samples.json";

// Byte for byte what stands in the file; written there first when asked to.
void expect_file(const std::string& below_root, const std::string& text) {
    if (std::getenv("FALLAWAY_UPDATE") != nullptr) {
        std::ofstream(std::string(FALLAWAY_SOURCE_DIR) + "/" + below_root, std::ios::binary) << text;
    }
    EXPECT_EQ(read_file(below_root), text);
}

void expect_tables(const std::string& manual, const std::string& tables) {
    const std::string text = read_file(manual);
    const std::string begin = "<!-- generated: tables of the records -->\n";
    const auto first = text.find(begin) + begin.size();
    const auto end = text.find("<!-- end of generated -->\n");
    ASSERT_NE(end, std::string::npos);
    ASSERT_LE(first, end);
    expect_file(manual, text.substr(0, first) + tables + text.substr(end));
}

class Samples {
public:
    void add(const char* is, const std::string& line) {
        EXPECT_EQ(line.find('\n'), std::string::npos) << is;
        const auto value = read_json(line);
        ASSERT_TRUE(value.has_value()) << is;
        all_.items.push_back(Json::record({{"is", Json::of(is)}, {"value", *value}}));
    }
    std::string text() const { return write_json(all_); }

private:
    Json all_ = Json::list();
};

VisitLine sample_line() {
    return {id_of(1),
            id_of(2),
            "Ostrel Heron",
            "OH-0412",
            "Joon Aster",
            "quick look",
            "2026-11-28",
            "repair first",
            "relief",
            12.5,
            7,
            31,
            "2026-11-24T09:00:00+01:00",
            "",
            true};
}

void add_shop(Samples& samples) {
    Shop shop;
    shop.version = "0.1.0";
    shop.name = "Bench of Ruta Vell";
    shop.today = "2026-11-25";
    shop.people = {{"Ruta Vell", true, "", ""}, {"Joon Aster", false, "by letter", "plays hard"}};
    shop.tools = {{"blue caliper", "digital caliper", "2026-03-01", "2027-03-01", "0.02 mm", 2, "", false}};
    shop.rates = {{"set-up", "60 EUR", ""}};
    shop.limits = {good(decode_limit(R"({"checkpoint": "action-12", "high": "2 mm", "source": "own"})"))};
    shop.device = {id_of(9), "Bench tablet"};
    samples.add("shop", encode(shop));
    samples.add("medium", encode(Medium{std::string(64, 'a'), "media/aa.jpg", "image/jpeg", 120'000}));
    samples.add("pairing", encode(Pairing{"7KQ4-MX2P", "https://bench.local/pair?code=7KQ4-MX2P", "<svg/>",
                                          "2026-11-24T09:20:00+01:00", "http://bench.local/"}));
    samples.add("paired", encode(Paired{{id_of(9), "Bench tablet"}}));
    samples.add("devices", encode(Devices{{{id_of(9), "Bench tablet", "2026-11-24T09:00:00+01:00",
                                            "2026-11-24T09:10:00+01:00", false, true}}}));
    samples.add("catalogue",
                encode_catalogue({test_catalogue().procedure,
                                  {test_catalogue().claims.begin(), test_catalogue().claims.begin() + 2},
                                  {test_catalogue().tools.front()}}));
}

void add_visits(Samples& samples) {
    samples.add("visit_line", encode(sample_line()));
    samples.add("visits", encode(Visits{"2026-11-25", {sample_line()}, 1}));
    samples.add("names", encode(Names{{{id_of(2), "Ostrel Heron", "OH-0412", "electric guitar", "Maren Tolk", 2,
                                        KnownInstrument::Stay{id_of(1), "2026-11-24"}}},
                                      {{"Joon Aster", "medium hand, 10-46"}}}));
    samples.add("visit_opened", encode(VisitOpened{id_of(1), id_of(2)}));
    samples.add("dossier",
                encode(Dossier{
                    id_of(2),
                    "electric guitar",
                    "Ostrel Heron",
                    "OH-0412",
                    "",
                    {sample_line()},
                    {{"string height", "string 6, fret 12", {{id_of(1), "2026-11-24", "arrival", "1.95 mm"}}}}}));
}

void add_view(Samples& samples) {
    auto entries = entries_of(good_bench("full"));
    auto view = *view_of(entries, test_catalogue());
    view.closed = "2026-11-25T17:00:00+01:00";
    view.neck.frets = {{0, 10, 5, 10, 45}};
    view.neck.strings = {{1, "E4", 10, 8, 900, 7, 0.4}};
    view.neck.edge = {{10, 5}, {900, 5}};
    view.conflicts = {{"/hands", id_of(3), id_of(4)}};
    view.last = LastStay{id_of(5), "2025-10-01", "", {{"relief", {}, "0.20 mm"}}};
    samples.add("visit_view", encode(view));
    auto fewer = view;
    fewer.closed.clear();
    fewer.undo.reset();
    fewer.next.reset();
    fewer.minutes.left = 0;
    fewer.assessment.answers.pop_back();
    samples.add("live_judged", live_judged(fewer, &view));
    samples.add("live_visit", live_visit(7, {view.entries.front()}, {id_of(3)}));
    samples.add("live_here", live_here({{id_of(9), "Bench tablet"}}));
    samples.add(
        "tried",
        encode(Tried{judgement::Verdict::ready, {"Nothing was found"}, {view.assessment.answers.front()}}));
    samples.add("history", encode(History{{{view.entries.front(), false, "hands: adjust", "Bench tablet"}}}));
    samples.add("entries_stored", encode(EntriesStored{9, {{id_of(4), 9}}, UndoOffer{id_of(3), "relief 0.2 mm"}}));
}

void add_sum(Samples& samples) {
    const sums::Sum& sum = *sums::find("agree");
    const auto answer = sums::run(sum, {{"first", "1.62 mm ± 0.035"}, {"second", "1.70 mm ± 0.025"}});
    ASSERT_TRUE(answer) << answer.error().message;
    samples.add("sum_answer", write_json_line(*read_json(sums_answer_json(sum, *answer))));
}

// Requests as a page writes them, read by us and held against the schema.
void add_requests(Samples& samples) {
    const auto add = [&](const char* is, auto decode, const std::string& text) {
        const auto read = decode(text);
        EXPECT_TRUE(read.has_value()) << is << "\n" << told(read.error());
        samples.add(is, text);
    };
    add("new_visit", decode_new_visit,
        R"({"id": "00000000000000f1", "kind": "electric bass", "hand": "left", "fretted": false, "hands": "adjust"})");
    add("new_entries", decode_new_entries,
        R"({"entries": [{"id": "00000000000000f2", "path": "/hands", "value": "work", "saw": 0},)"
        R"( {"id": "00000000000000f3", "path": "", "replaces": ["00000000000000f2"], "saw": 1}]})");
    add("undo_asked", decode_undo, R"({"id": "00000000000000f4"})");
    add("close_asked", decode_close, R"({"closed": true})");
    add("person", decode_person, R"({"name": "Ilse Corvin"})");
    add("shop_tool", decode_tool, R"({"id": "old rule", "kind": "digital caliper", "retired": true})");
    add("rate", decode_rate, R"({"work": "fret dressing", "amount": "180 EUR"})");
    add("shop_name", decode_shop_name, R"({"name": "Bench of Ruta Vell"})");
    add("owner_set", decode_owner, "{}");
    add("sum_asked", decode_sum, R"({"inputs": {"scale": "635 mm"}})");
    add("pair_asked", decode_pair, R"({"code": "7KQ4-MX2P", "name": "Bench tablet"})");
}

TEST(ApiSchema, FileIsWhatTheTablesSay) {
    expect_file("schema/api.schema.json", api_schema());
}

TEST(ApiSchema, ManualsHoldTheTables) {
    expect_tables("docs/api.md", api_documentation());
    expect_tables("docs/assessment-json.md", assessment_documentation());
}

TEST(ApiSchema, OneSampleOfEveryMessage) {
    Samples samples;
    add_shop(samples);
    add_visits(samples);
    add_view(samples);
    add_sum(samples);
    add_requests(samples);
    expect_file(kSamples, samples.text());
}

// In answers the schema comes first.
TEST(ApiSchema, AnswersBeginWithTheirSchema) {
    const auto samples = nlohmann::ordered_json::parse(read_file(kSamples));
    const auto schema = nlohmann::json::parse(api_schema());
    for (const auto& sample : samples) {
        const auto& properties = schema.at("$defs").at(sample.at("is").get<std::string>()).at("properties");
        if (!properties.contains("schema")) continue;
        EXPECT_EQ(sample.at("value").begin().key(), "schema") << sample.at("is");
    }
}

TEST(ApiSchema, EveryReferenceIsDefined) {
    const auto schema = nlohmann::json::parse(api_schema());
    const auto walk = [&](auto& self, const nlohmann::json& value) -> void {
        if (value.is_object() && value.contains("$ref")) {
            const std::string name = value["$ref"].get<std::string>().substr(std::string("#/$defs/").size());
            EXPECT_TRUE(schema.at("$defs").contains(name)) << name;
        }
        if (value.is_structured()) {
            for (const auto& item : value) self(self, item);
        }
    };
    walk(walk, schema);
}

}  // namespace
}  // namespace fallaway::files::api
