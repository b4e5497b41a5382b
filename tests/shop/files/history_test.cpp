#include "shop/files/history.h"

#include <gtest/gtest.h>

#include "science/numeric/random.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/embedded.h"

namespace fallaway::files {
namespace {

Json json(std::string_view text) {
    const auto value = read_json(text);
    EXPECT_TRUE(value) << text;
    return value ? *value : Json{};
}

std::function<std::string()> counting() {
    return [n = 0]() mutable { return fmt::format("{:016x}", ++n); };
}

Entry entry(int number, std::string path, std::string_view value, std::vector<int> replaces = {},
            std::string device = "a", std::int64_t saw = -1) {
    Entry out;
    out.id = fmt::format("{:016x}", number);
    out.path = std::move(path);
    if (!value.empty()) out.value = json(value);
    for (const int id : replaces) out.replaces.push_back(fmt::format("{:016x}", id));
    out.seq = number;
    out.saw = saw < 0 ? number - 1 : saw;
    out.device = std::move(device);
    return out;
}

constexpr std::string_view kHeight = R"({"what": "string height", "at": {"string": 1, "fret": 12}, "value": ")";
std::string height(std::string_view mm) {
    return fmt::format("{}{} mm\"}}", kHeight, mm);
}

TEST(History, NothingMakesAnEmptyFile) {
    EXPECT_EQ(fold({}), json(R"({"fallaway": 1})"));
    EXPECT_TRUE(conflicts({}).empty());
    EXPECT_FALSE(last_of({}, "a"));
}

TEST(History, SplitAndFoldGiveEveryDemoFileBack) {
    for (const auto path : embedded_paths("demo/")) {
        const auto bench = decode_bench(*embedded(path), built_in_catalogue());
        ASSERT_TRUE(bench) << path;
        auto entries = split(bench_json(*bench), counting());
        for (std::size_t i = 0; i < entries.size(); ++i) entries[i].seq = static_cast<std::int64_t>(i) + 1;
        const auto again = decode_bench(fold(entries), built_in_catalogue());
        ASSERT_TRUE(again) << path << ": " << again.error().front().path << ' ' << again.error().front().message;
        EXPECT_EQ(encode_bench(*again), encode_bench(*bench)) << path;
    }
}

TEST(History, TheLatestSettingCountsAndNullTakesItOut) {
    const std::vector<Entry> entries = {entry(1, "/instrument/kind", R"("electric guitar")"),
                                        entry(2, "/instrument/scale", R"("635 mm")"),
                                        entry(3, "/instrument/scale", R"("648 mm")")};
    EXPECT_EQ(fold(entries),
              json(R"({"fallaway": 1, "instrument": {"kind": "electric guitar", "scale": "648 mm"}})"));
    std::vector<Entry> without = entries;
    without.push_back(entry(4, "/instrument/scale", "null"));
    EXPECT_EQ(fold(without), json(R"({"fallaway": 1, "instrument": {"kind": "electric guitar"}})"));
}

TEST(History, ACorrectionStandsInTheOldPlace) {
    const std::vector<Entry> entries = {entry(1, "/readings", height("1.6")), entry(2, "/readings", height("1.7")),
                                        entry(3, "/readings", height("1.65"), {1})};
    const Json file = fold(entries);
    const Json& readings = *file.find("readings");
    ASSERT_EQ(readings.items.size(), 2u);
    EXPECT_EQ(readings.items[0].find("value")->text, "1.65 mm");
    EXPECT_EQ(readings.items[1].find("value")->text, "1.7 mm");
}

TEST(History, TakingBackATakingBackBringsItBack) {
    std::vector<Entry> entries = {entry(1, "/readings", height("1.6")), entry(2, "", "", {1})};
    EXPECT_EQ(fold(entries).find("readings"), nullptr);
    entries.push_back(entry(3, "", "", {2}));
    EXPECT_EQ(fold(entries).find("readings")->items.size(), 1u);
    EXPECT_EQ(in_force(entries), (std::vector<bool>{true, false, true}));
}

TEST(History, ACorrectionOfACorrectionDoesNotBringTheFirstBack) {
    std::vector<Entry> entries = {entry(1, "/readings", height("1.6")), entry(2, "/readings", height("1.7"), {1}),
                                  entry(3, "/readings", height("1.8"), {2})};
    EXPECT_EQ(in_force(entries), (std::vector<bool>{false, false, true}));
    entries.push_back(entry(4, "", "", {3}));  // taken back: the figure before it counts again, not the first
    EXPECT_EQ(in_force(entries), (std::vector<bool>{false, true, false, true}));
    entries.push_back(entry(5, "", "", {2}));
    EXPECT_EQ(in_force(entries), (std::vector<bool>{true, false, false, true, true}));
}

TEST(History, UndoFindsTheLatestOfItsOwnDevice) {
    std::vector<Entry> entries = {entry(1, "/readings", height("1.6")),
                                  entry(2, "/readings", height("1.7"), {}, "b"),
                                  entry(3, "/hands", R"("adjust")")};
    EXPECT_EQ(last_of(entries, "a"), 2u);
    EXPECT_EQ(last_of(entries, "b"), 1u);
    EXPECT_FALSE(last_of(entries, "c"));
    entries.push_back(entry(4, "", "", {3}));  // what took back is not itself taken back
    EXPECT_EQ(last_of(entries, "a"), 0u);
}

TEST(History, TwoDevicesThatDidNotSeeEachOtherCollide) {
    std::vector<Entry> entries = {entry(1, "/readings", height("1.6"), {}, "a", 0),
                                  entry(2, "/readings", height("1.8"), {}, "b", 0)};
    auto found = conflicts(entries);
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0].slot, "/readings|string height|fret 12, string 1|arrival");
    EXPECT_EQ(std::pair(found[0].earlier, found[0].later), std::pair(std::size_t{0}, std::size_t{1}));
    EXPECT_EQ(fold(entries).find("readings")->items.size(), 2u);  // neither is lost
    entries.push_back(entry(3, "", "", {1}));                     // kept: the other one
    EXPECT_TRUE(conflicts(entries).empty());
}

TEST(History, WhoSawTheOtherOrSaysTheSameDoesNotCollide) {
    EXPECT_TRUE(conflicts(std::vector{entry(1, "/readings", height("1.6"), {}, "a", 0),
                                      entry(2, "/readings", height("1.8"), {}, "b", 1)})
                    .empty());
    EXPECT_TRUE(conflicts(std::vector{entry(1, "/readings", height("1.6"), {}, "a", 0),
                                      entry(2, "/readings", height("1.6"), {}, "b", 0)})
                    .empty());
    EXPECT_TRUE(conflicts(std::vector{entry(1, "/remarks", R"({"text": "x"})", {}, "a", 0),
                                      entry(2, "/remarks", R"({"text": "y"})", {}, "b", 0)})
                    .empty());
}

TEST(History, SettingsCollideUntilSomebodyWhoSawBothSetsAgain) {
    std::vector<Entry> entries = {entry(1, "/hands", R"("adjust")", {}, "a", 0),
                                  entry(2, "/hands", R"("work")", {}, "b", 0)};
    ASSERT_EQ(conflicts(entries).size(), 1u);
    entries.push_back(entry(3, "/hands", R"("look only")", {}, "a", 2));
    EXPECT_TRUE(conflicts(entries).empty());
}

TEST(History, WhereEntriesMayWrite) {
    for (const char* path :
         {"/readings", "/wants/complaints", "/hands", "/instrument/scale", "/job/owner", "/scope"}) {
        EXPECT_TRUE(is_entry_path(path)) << path;
    }
    for (const char* path : {"", "/", "readings", "/readings/0", "/fallaway", "/instrument", "/instrument/",
                             "/instrument/scale/si", "/instrument/Scale", "/nonsense", "/nonsense/scale"}) {
        EXPECT_FALSE(is_entry_path(path)) << path;
    }
}

// Against the plainest model there is: nothing that was not taken back names it; taken back is what an entry names
// that only replaces and was not taken back itself. n = 300 histories, seed 20261125, own generator.
TEST(History, ForceIsWhatNothingThatHoldsReplaces) {
    numeric::Random random(20261125);
    for (int run = 0; run < 300; ++run) {
        std::vector<Entry> entries;
        for (int i = 1; i <= 30; ++i) {
            std::vector<int> replaces;
            for (int k = 0; k < 2; ++k) {
                if (i > 1 && random.uniform() < 0.3)
                    replaces.push_back(1 + static_cast<int>(random.uniform() * (i - 1)));
            }
            const bool only_replaces = random.uniform() < 0.3;
            entries.push_back(only_replaces ? entry(i, "", "", replaces)
                                            : entry(i, "/readings", height("1.6"), replaces));
        }
        const auto names = [&](int later, int earlier) {
            return std::ranges::count(entries[later].replaces, entries[earlier].id) > 0;
        };
        const auto taken_back = [&](const auto& self, int i) -> bool {
            for (int j = i + 1; j < 30; ++j) {
                if (entries[j].path.empty() && names(j, i) && !self(self, j)) return true;
            }
            return false;
        };
        const auto force = in_force(entries);
        for (int i = 0; i < 30; ++i) {
            bool replaced = false;
            for (int j = i + 1; j < 30; ++j) {
                replaced = replaced || (names(j, i) && !taken_back(taken_back, j));
            }
            ASSERT_EQ(force[i], !replaced) << "run " << run << ", entry " << i;
        }
    }
}

}  // namespace
}  // namespace fallaway::files
