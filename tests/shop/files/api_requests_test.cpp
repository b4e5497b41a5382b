// What a page may ask, and what is refused with which path.
#include <gtest/gtest.h>

#include "api_fixture.h"

namespace fallaway::files::api {
namespace {

constexpr std::string_view kId = "7f3a09c25be4d18a";

// One entry around the parts of a test.
std::string entries(const std::string& parts) {
    return fmt::format(R"({{"entries": [{{"id": "{}", "saw": 3, {}}}]}})", kId, parts);
}

template <class T>
std::vector<Error> faults_of(const ResultAll<T>& result) {
    return result ? std::vector<Error>{} : result.error();
}

struct Refused {
    std::vector<Error> faults;
    std::string path;
    std::string message;
};

void expect_refused(const std::vector<Refused>& table) {
    for (const Refused& row : table) {
        SCOPED_TRACE(row.path + " " + row.message);
        ASSERT_EQ(row.faults.size(), 1u) << told(row.faults);
        EXPECT_EQ(row.faults.front().path, row.path);
        EXPECT_NE(row.faults.front().message.find(row.message), std::string::npos) << row.faults.front().message;
    }
}

TEST(ApiRequests, EntriesAreReadWithTheirValues) {
    const auto read = good(decode_new_entries(entries(
        R"("path": "/readings", "value": {"what": "nut tap", "value": "dead"}, "replaces": ["00000000000000aa"])")));
    ASSERT_EQ(read.entries.size(), 1u);
    EXPECT_EQ(read.entries[0].id, kId);
    EXPECT_EQ(read.entries[0].value.find("what")->text, "nut tap");
    EXPECT_EQ(read.entries[0].replaces, std::vector<std::string>{"00000000000000aa"});
    EXPECT_EQ(read.entries[0].saw, 3);
    EXPECT_EQ(good(decode_new_entries(entries(R"("path": "/instrument/scale", "value": null)"))).entries[0].value,
              Json{});
}

TEST(ApiRequests, AnEntryComesBackAsItWasWritten) {
    for (const Entry& entry : entries_of(good_bench("full"))) {
        Entry written = entry;  // what the store adds is not its writer's
        written.seq = 0;
        written.device.clear();
        written.at.clear();
        const std::string line = encode_entry(entry);
        EXPECT_EQ(line.find('\n'), std::string::npos);
        const auto read = decode_entry(line);
        ASSERT_TRUE(read.has_value()) << read.error().message;
        EXPECT_EQ(*read, written);
    }
}

TEST(ApiRequests, BadEntriesAreRefused) {
    const auto read = [](const std::string& text) { return faults_of(decode_new_entries(text)); };
    const auto of = [&](const std::string& parts) { return read(entries(parts)); };
    std::string many;
    for (int i = 0; i < 501; ++i) many += i == 0 ? "{}" : ", {}";
    const std::string twice = fmt::format(R"({{"id": "{}", "saw": 1, "path": "/hands", "value": "work"}})", kId);
    expect_refused({
        {read("{"), "", "line 1, column 2"},
        {read("[]"), "", "a list: expected a record"},
        {read("{}"), "/entries", "missing"},
        {read(R"({"entries": []})"), "/entries", "an empty list"},
        {read(R"({"entries": 3})"), "/entries", "3: expected a list"},
        {read(R"({"entries": [7]})"), "/entries/0", "7: expected a record"},
        {read(R"({"entrys": [], "entries": [)" + twice + "]}"), "/entrys", "did you mean \"entries\"?"},
        {read(R"({"entries": [)" + many + "]}"), "/entries", "501 entries, expected 500 at most"},
        {read(R"({"entries": [)" + twice + ", " + twice + "]}"), "/entries/1/id", "stands twice"},
        {read(R"({"entries": [{"id": "7F3A09C25BE4D18A", "saw": 1, "path": "/hands", "value": "work"}]})"),
         "/entries/0/id", "expected an id of 16 digits"},
        {read(R"({"entries": [{"id": "7f3a", "saw": 1, "path": "/hands", "value": "work"}]})"), "/entries/0/id",
         "\"7f3a\": expected an id"},
        {read(R"({"entries": [{"id": "7f3a09c25be4d18a", "path": "/hands", "value": "work"}]})"), "/entries/0/saw",
         "missing"},
        {of(R"("path": "/readings")"), "/entries/0/value", "missing"},
        {of(R"("path": "/hands")"), "/entries/0/value", "missing"},
        {of(R"("path": "/readings", "value": null)"), "/entries/0/value", "null: expected a value for the list"},
        {of(R"("path": "/readings/3", "value": {})"), "/entries/0/path", "no part of a bench file"},
        {of(R"("path": "/fallaway", "value": 2)"), "/entries/0/path", "no part of a bench file"},
        {of(R"("path": 3, "value": 2)"), "/entries/0/path", "3: expected a text"},
        {of(R"("path": "")"), "/entries/0/replaces", "missing, an entry without a path"},
        {of(R"("path": "", "replaces": ["00000000000000aa"], "value": 3)"), "/entries/0/value", "without a path"},
        {of(R"("path": "", "replaces": ["aa"])"), "/entries/0/replaces/0", "\"aa\": expected an id"},
        {of(R"("path": "/hands", "value": "work", "replace": [])"), "/entries/0/replace",
         "did you mean \"replaces\"?"},
        {of(R"("path": "/hands", "value": )" + std::string(40, '[') + std::string(40, ']')),
         "/entries/0/value" +
             [] {
                 std::string deep;
                 for (int i = 0; i < 29; ++i) deep += "/0";
                 return deep;
             }(),
         "more than 32 levels"},
    });
    EXPECT_EQ(of(R"("path": "/hands", "value": "work", "seq": 4)").front().path, "/entries/0/seq");
    EXPECT_EQ(read(R"({"entries": [{"id": "7f3a09c25be4d18a", "saw": -1, "path": "/hands", "value": "work"}]})")
                  .front()
                  .path,
              "/entries/0/saw");
}

TEST(ApiRequests, BadRequestsAreRefused) {
    const std::string head = fmt::format(R"("id": "{}", "kind": "electric guitar")", kId);
    const auto visit = [&](const std::string& more) {
        return faults_of(decode_new_visit("{" + head + more + "}"));
    };
    EXPECT_TRUE(visit("").empty());
    EXPECT_TRUE(visit(R"(, "hand": "left", "fretted": false, "hands": "work", "by": "Ruta Vell")").empty());
    expect_refused({
        {visit(R"(, "hand": "both")"), "/hand", "\"both\": not known here"},
        {visit(R"(, "fretted": 1)"), "/fretted", "expected true or false"},
        {visit(R"(, "dossier": "heron")"), "/dossier", "expected an id"},
        {visit(R"(, "player": "")"), "/player", "an empty text"},
        {visit(R"(, "scopes": "quick look")"), "/scopes", "did you mean \"scope\"?"},
        {faults_of(decode_new_visit(R"({"id": "7f3a09c25be4d18a"})")), "/kind", "missing, expected \"electric"},
        {faults_of(decode_undo(R"({"id": 3})")), "/id", "3: expected an id"},
        {faults_of(decode_close("{}")), "/closed", "missing"},
        {faults_of(decode_close(R"({"closed": "yes"})")), "/closed", "\"yes\": expected true or false"},
        {faults_of(decode_person(R"({"technician": true})")), "/name", "missing"},
        {faults_of(decode_person(R"({"name": "Ruta Vell", "phone": "1"})")), "/phone", "unknown key"},
        {faults_of(decode_shop_name(R"({"name": "a\nb"})")), "/name", "one line"},
        {faults_of(decode_owner(R"({"owner": 7})")), "/owner", "7: expected a text"},
        {faults_of(decode_pair(R"({"code": "7KQ4-MX2P"})")), "/name", "missing"},
        {faults_of(decode_sum(R"({"inputs": {"scale": 635}})")), "/inputs/scale", "635: expected a text"},
        {faults_of(decode_sum(R"({"inputs": []})")), "/inputs", "a list: expected a record"},
    });
}

TEST(ApiRequests, ToolsRatesAndLimitsAreHeldAgainstTheCatalogue) {
    const auto tool = [](const std::string& more) {
        return faults_of(decode_tool(R"({"id": "blue caliper", "kind": "digital caliper")" + more + "}"));
    };
    EXPECT_TRUE(tool(R"(, "calibrated": "2026-03-01", "certificate_u": "0.02 mm", "certificate_k": 2)").empty());
    expect_refused({
        {tool(R"(, "certificate_u": "0.02")"), "/certificate_u", "unit missing"},
        {tool(R"(, "certificate_u": "-0.02 mm")"), "/certificate_u", "more than nothing"},
        {tool(R"(, "certificate_k": 0)"), "/certificate_k", "expected a number from 0.1 to 10"},
        {tool(R"(, "due": "2026-02-30")"), "/due", "2026-02-30"},
        {faults_of(decode_tool(R"({"id": "a", "kind": "digital calliper"})")), "/kind",
         "did you mean \"digital caliper\"?"},
        {faults_of(decode_rate(R"({"work": "set-up", "amount": "60"})")), "/amount", "60"},
        {faults_of(decode_rate(R"({"work": "set-up"})")), "/amount", "missing"},
        {faults_of(decode_limit(R"({"checkpoint": "action-12", "low": "1 kg", "source": "own"})")), "/low", "kg"},
        {faults_of(decode_limit(R"({"checkpoint": "action-13", "low": "1 mm", "source": "own"})")), "/checkpoint",
         "did you mean \"action-12\"?"},
    });
    const auto rate = good(decode_rate(R"({"work": "set-up", "amount": "60 EUR"})"));
    EXPECT_EQ(rate.amount, "60 EUR");
}

TEST(ApiRequests, ALimitComesBackAsItWasWritten) {
    const std::string line =
        R"({"checkpoint": "action-12", "low": "1.2 mm", "high": "0.08 in", "strings": "bass", "source": "own"})";
    EXPECT_EQ(encode_limit(good(decode_limit(line))), line);
}

}  // namespace
}  // namespace fallaway::files::api
