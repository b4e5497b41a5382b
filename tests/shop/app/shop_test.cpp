// The use cases of a shop, over a real store in a folder of its own.
#include "shop/app/shop.h"

#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include <gtest/gtest.h>

#include "bench/judgement/judge.h"
#include "shop/files/bench_codec.h"
#include "shop/files/embedded.h"

namespace fallaway::app {
namespace {

namespace api = files::api;

constexpr const char* kTablet = "aaaaaaaaaaaaaaaa";
constexpr const char* kPhone = "bbbbbbbbbbbbbbbb";

std::string hex(int number) {
    return fmt::format("{:016x}", number);
}

files::Entry entry(int number, std::string path, std::string_view json, std::vector<std::string> replaces = {},
                   std::int64_t saw = 0) {
    files::Entry out{hex(number), std::move(path), {}, std::move(replaces), saw};
    if (!json.empty()) out.value = *files::read_json(json);
    return out;
}

files::Entry height(int number, int string, std::string_view mm, std::vector<std::string> replaces = {}) {
    return entry(number, "/readings",
                 fmt::format(R"({{"what": "string height", "at": {{"string": {}, "fret": 12}}, "value": "{}"}})",
                             string, mm),
                 std::move(replaces));
}

class ShopTest : public ::testing::Test {
protected:
    ShopTest() {
        const auto* test = ::testing::UnitTest::GetInstance()->current_test_info();
        folder_ =
            std::filesystem::temp_directory_path() / fmt::format("fallaway-shop-{}-{}", ::getpid(), test->name());
        std::filesystem::remove_all(folder_);
        open();
    }
    ~ShopTest() override {
        shop_.reset();
        std::filesystem::remove_all(folder_);
    }

    // Each call of the clock is a second later, so that stays have an order.
    void open() {
        World world{[this] { return fmt::format("2026-11-{:02}T09:00:{:02}+01:00", day_, ++second_ % 60); },
                    [this] { return fmt::format("2026-11-{:02}", day_); }, [this] { return hex(++id_); }};
        auto opened = Shop::open(folder_, store::Access::write, true, "0.0.0", world);
        ASSERT_TRUE(opened) << opened.error().message;
        shop_ = std::move(*opened);
    }
    void reopen() {
        shop_.reset();
        open();
    }
    std::string new_guitar(int number = 1) {
        api::NewVisit asked;
        asked.id = hex(0x1000 + number);
        asked.kind = "electric guitar";
        const auto opened = shop_->open_visit(asked);
        EXPECT_TRUE(opened) << opened.error().front().message;
        return asked.id;
    }
    api::EntriesStored add(const std::string& visit, std::vector<files::Entry> entries,
                           const char* device = kTablet) {
        const auto stored = shop_->add(visit, std::move(entries), device);
        EXPECT_TRUE(stored) << stored.error().front().path << ": " << stored.error().front().message;
        return stored ? *stored : api::EntriesStored{};
    }
    evidence::Bench bench(const std::string& visit) {
        const auto text = shop_->bench_file(visit);
        EXPECT_TRUE(text);
        const auto decoded = files::decode_bench(*text);
        EXPECT_TRUE(decoded) << decoded.error().front().message;
        return decoded ? *decoded : evidence::Bench{};
    }

    std::filesystem::path folder_;
    std::unique_ptr<Shop> shop_;
    int day_ = 25;
    int second_ = 0;
    int id_ = 0x900000;
};

TEST_F(ShopTest, ANewVisitAsksOnlyTheKind) {
    const std::string visit = new_guitar();
    const auto view = shop_->view(visit, kTablet);
    ASSERT_TRUE(view) << view.error().message;
    EXPECT_EQ(view->instrument.strings, 6);
    EXPECT_EQ(view->neck.strings.size(), 6u);
    EXPECT_EQ(view->neck.frets.size(), 23u);
    EXPECT_EQ(view->assessment.verdict, judgement::Verdict::cannot_tell_yet);
    EXPECT_FALSE(view->undo);
    EXPECT_FALSE(view->last);
    EXPECT_GT(view->minutes.total, 0);
    EXPECT_EQ(view->minutes.left, view->minutes.total);
    ASSERT_TRUE(view->next);
}

TEST_F(ShopTest, WhatIsTypedComesBackUnchangedAlsoAfterARestart) {
    const std::string visit = new_guitar();
    add(visit, {height(1, 1, "1.6 mm"), height(2, 2, "4/64 in"), height(3, 3, "0.067in")});
    reopen();
    const auto file = bench(visit);
    ASSERT_EQ(file.readings.size(), 3u);
    EXPECT_EQ(std::get<QuantityText>(*file.readings[0].value).typed, "1.6 mm");
    EXPECT_EQ(std::get<QuantityText>(*file.readings[1].value).typed, "4/64 in");
    EXPECT_EQ(std::get<QuantityText>(*file.readings[2].value).typed, "0.067in");
}

TEST_F(ShopTest, AProcedureOfItsOwnThatIsTakenBackIsGone) {
    const std::string visit = new_guitar();
    files::Json own = *files::read_json(*files::embedded("data/procedures/inspection.json"));
    *own.find("title") = files::Json::of("Ours");
    add(visit, {{hex(1), "/procedure", own, {}}});
    EXPECT_EQ(bench(visit).procedure->title, "Ours");
    ASSERT_TRUE(shop_->undo(visit, hex(2), kTablet));
    EXPECT_FALSE(bench(visit).procedure);
    add(visit, {height(3, 1, "1.6 mm")});
    EXPECT_FALSE(bench(visit).procedure);
}

TEST_F(ShopTest, SendingAgainChangesNothing) {
    const std::string visit = new_guitar();
    const auto first = add(visit, {height(1, 1, "1.6 mm"), height(2, 2, "1.7 mm")});
    const auto again = add(visit, {height(1, 1, "1.6 mm"), height(2, 2, "1.7 mm")});
    EXPECT_EQ(first.seq, again.seq);
    ASSERT_EQ(again.stored.size(), 2u);
    EXPECT_EQ(first.stored[1].seq, again.stored[1].seq);
    EXPECT_EQ(bench(visit).readings.size(), 2u);
    const auto other = shop_->add(visit, {height(1, 1, "1.9 mm")}, kTablet);
    ASSERT_FALSE(other);
    EXPECT_EQ(other.error().front().code, "conflict");
}

TEST_F(ShopTest, WrongEntriesAreNamedAndNothingOfTheirCompanyIsKept) {
    const std::string visit = new_guitar();
    add(visit, {height(1, 6, "1.6 mm")});
    const auto refused = shop_->add(visit, {height(2, 5, "1.7 mm"), height(3, 9, "1.7 mm")}, kTablet);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().front().path, "/entries/1/value/at/string");
    EXPECT_EQ(bench(visit).readings.size(), 1u);
    // A setting that makes an older reading impossible is refused with the reading's own place.
    const auto four = shop_->add(
        visit,
        {entry(4, "/instrument/strings", R"([{"note": "G2"}, {"note": "D2"}, {"note": "A1"}, {"note": "E1"}])")},
        kTablet);
    ASSERT_FALSE(four);
    EXPECT_EQ(four.error().front().path, "/readings/0/at/string");
    EXPECT_TRUE(shop_->add(visit, {height(5, 5, "1.7 mm")}, kTablet));
}

TEST_F(ShopTest, ReplacingWhatIsNotThereIsRefused) {
    const std::string visit = new_guitar();
    const auto refused = shop_->add(visit, {height(1, 1, "1.6 mm", {hex(77)})}, kTablet);
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().front().path, "/entries/0/replaces/0");
}

TEST_F(ShopTest, UndoTakesBackOnesOwnLastAndSaysWhat) {
    const std::string visit = new_guitar();
    add(visit, {height(1, 1, "1.6 mm")}, kTablet);
    add(visit, {height(2, 2, "1.7 mm")}, kPhone);
    const auto back = shop_->undo(visit, hex(50), kTablet);
    ASSERT_TRUE(back);
    ASSERT_TRUE(back->took_back);
    EXPECT_EQ(back->took_back->says, "string height 1.6 mm, string 1, fret 12");
    ASSERT_EQ(bench(visit).readings.size(), 1u);
    EXPECT_EQ(bench(visit).readings[0].at.string, 2);
    const auto again = shop_->undo(visit, hex(50), kTablet);  // the same request: once is once
    ASSERT_TRUE(again);
    EXPECT_EQ(bench(visit).readings.size(), 1u);
    const auto nothing = shop_->undo(visit, hex(51), kTablet);
    ASSERT_TRUE(nothing);
    EXPECT_FALSE(nothing->took_back);
    add(visit, {entry(52, "", "", {hex(50)})});  // put back
    EXPECT_EQ(bench(visit).readings.size(), 2u);
}

TEST_F(ShopTest, LivePagesHearWhatTheyMissed) {
    const std::string visit = new_guitar();
    const auto first = add(visit, {height(1, 1, "1.6 mm")});
    add(visit, {height(2, 1, "1.65 mm", {hex(1)})});
    const auto missed = shop_->missed(visit, first.seq);
    ASSERT_TRUE(missed);
    ASSERT_EQ(missed->put.size(), 1u);
    EXPECT_EQ(missed->put[0].entry.id, hex(2));
    EXPECT_EQ(missed->drop, std::vector<std::string>{hex(1)});
    const auto back = add(visit, {entry(3, "", "", {hex(2)})});
    const auto returned = shop_->missed(visit, back.seq - 1);
    ASSERT_TRUE(returned);
    ASSERT_EQ(returned->put.size(), 1u);
    EXPECT_EQ(returned->put[0].entry.id, hex(1));
}

TEST_F(ShopTest, TwoDevicesAtOnePlaceAreShownAndNeitherIsLost) {
    const std::string visit = new_guitar();
    add(visit, {height(1, 1, "1.6 mm")}, kTablet);
    add(visit, {height(2, 1, "1.8 mm")}, kPhone);
    const auto view = shop_->view(visit, kTablet);
    ASSERT_TRUE(view);
    ASSERT_EQ(view->conflicts.size(), 1u);
    EXPECT_EQ(view->conflicts[0].earlier, hex(1));
    EXPECT_EQ(view->conflicts[0].later, hex(2));
    EXPECT_EQ(bench(visit).readings.size(), 2u);
}

TEST_F(ShopTest, EveryDemoFileGoesInAndComesOutTheSame) {
    for (const auto path : files::embedded_paths("demo/")) {
        const auto text = *files::embedded(path);
        const auto opened = shop_->import_bench(text, "");
        ASSERT_TRUE(opened) << path << ": " << opened.error().front().message;
        const auto out = shop_->bench_file(opened->id);
        ASSERT_TRUE(out);
        EXPECT_EQ(*out, files::encode_bench(*files::decode_bench(text))) << path;
        const auto view = shop_->view(opened->id, kTablet);
        ASSERT_TRUE(view);
        const auto direct = files::decode_bench(text);
        EXPECT_EQ(view->assessment.verdict, judgement::assess(*direct, shop_->catalogue()).verdict) << path;
    }
    const auto all = shop_->find_visits("", 50, 0);
    ASSERT_TRUE(all);
    EXPECT_EQ(all->total, static_cast<std::int64_t>(files::embedded_paths("demo/").size()));
    const auto heron = shop_->find_visits("heron tolk", 50, 0);
    ASSERT_TRUE(heron);
    ASSERT_EQ(heron->visits.size(), 1u);
    EXPECT_EQ(heron->visits[0].title, "Ostrel Heron");
    EXPECT_EQ(heron->visits[0].verdict, "repair first");
}

TEST_F(ShopTest, AKnownInstrumentBeginsWithItsFactsItsPlayersWishesAndItsLastNumbers) {
    const auto first = shop_->import_bench(*files::embedded("demo/heron.json"), hex(0x2000));
    ASSERT_TRUE(first);
    day_ = 27;
    const auto names = shop_->find_names("heron");
    ASSERT_TRUE(names);
    ASSERT_EQ(names->dossiers.size(), 1u);
    api::NewVisit asked;
    asked.id = hex(0x2001);
    asked.kind = "electric guitar";
    asked.dossier = names->dossiers[0].id;
    const auto second = shop_->open_visit(asked);
    ASSERT_TRUE(second) << second.error().front().path << ' ' << second.error().front().message;
    EXPECT_EQ(second->dossier, first->dossier);
    const auto then = bench(hex(0x2000));
    const auto now = bench(hex(0x2001));
    EXPECT_EQ(now.instrument, then.instrument);
    EXPECT_EQ(now.wants->player, "Maren Tolk");
    EXPECT_TRUE(now.wants->complaints.empty());
    EXPECT_FALSE(now.wants->promised);
    EXPECT_EQ(now.wants->hand, then.wants->hand);
    EXPECT_TRUE(now.readings.empty());
    const auto view = shop_->view(hex(0x2001), kTablet);
    ASSERT_TRUE(view);
    ASSERT_TRUE(view->last);
    EXPECT_EQ(view->last->visit, hex(0x2000));
    EXPECT_TRUE(std::ranges::any_of(view->last->values, [](const auto& value) {
        return value.what == "string height" && value.at.string == 6 && value.at.fret == 12;
    }));
    const auto past = shop_->dossier(first->dossier);
    ASSERT_TRUE(past);
    EXPECT_EQ(past->visits.size(), 2u);
    EXPECT_GT(past->rows.size(), 50u);
}

TEST_F(ShopTest, AToolOfTheWallComesAlongWithItsCertificate) {
    ASSERT_TRUE(shop_->put_tool({"blue caliper", "digital caliper", "2026-05-02", "", "0.03 mm", 2, "", false}));
    const std::string visit = new_guitar();
    add(visit,
        {entry(1, "/readings", R"({"what": "nut width", "value": "42.10 mm", "tool": "blue caliper"})"),
         entry(
             2, "/readings",
             R"({"what": "string spread", "at": {"spot": "bridge"}, "value": "52.4 mm", "tool": "blue caliper"})")});
    const auto file = bench(visit);
    ASSERT_EQ(file.tools.size(), 1u);
    EXPECT_EQ(file.tools[0].calibrated, "2026-05-02");
    EXPECT_EQ(file.tools[0].certificate_u->typed, "0.03 mm");
}

TEST_F(ShopTest, WhatIsNotedOfAPersonOutlivesTheirNextVisit) {
    ASSERT_TRUE(shop_->put_person({"Ruta Vell", true, "bench 2", "left-handed"}));
    api::NewVisit asked;
    asked.id = hex(0x3000);
    asked.kind = "electric bass";
    asked.by = "Ruta Vell";
    ASSERT_TRUE(shop_->open_visit(asked));
    asked.id = hex(0x3001);
    asked.by = "Joon Aster";
    ASSERT_TRUE(shop_->open_visit(asked));
    const auto people = shop_->shop().people;
    ASSERT_EQ(people.size(), 2u);
    EXPECT_TRUE(std::ranges::any_of(
        people, [](const auto& one) { return one.name == "Ruta Vell" && one.contact == "bench 2"; }));
}

TEST_F(ShopTest, WrongListEntriesAreRefusedByName) {
    const auto tool = shop_->put_tool({"x", "no such kind", "2026-13-40", "", "", 2, "", false});
    ASSERT_FALSE(tool);
    EXPECT_EQ(tool.error().size(), 2u);
    const auto limit = shop_->put_limit({"no such checkpoint", {}, {}, {}, "shop rule"});
    ASSERT_FALSE(limit);
    EXPECT_TRUE(std::ranges::count(limit.error(), "/checkpoint", &Error::path) == 1);
}

TEST_F(ShopTest, TryingShowsWhatWouldChangeAndKeepsNothing) {
    const std::string visit = new_guitar();
    std::vector<files::Entry> row;
    for (int s = 1; s <= 6; ++s) row.push_back(height(s, s, s == 6 ? "4.5 mm" : "1.6 mm"));
    const auto tried = shop_->try_out(visit, row, kTablet);
    ASSERT_TRUE(tried) << tried.error().front().message;
    const auto action = std::ranges::find(tried->answers, "action-12", &judgement::Answer::checkpoint);
    ASSERT_NE(action, tried->answers.end());
    EXPECT_EQ(action->state, judgement::AnswerState::faulty);
    EXPECT_TRUE(bench(visit).readings.empty());
}

TEST_F(ShopTest, ChangesAreToldToWhoeverListens) {
    std::vector<std::string> told;
    shop_->on_change([&](const std::string& visit) { told.push_back(visit); });
    const std::string visit = new_guitar();
    add(visit, {height(1, 1, "1.6 mm")});
    EXPECT_EQ(told, (std::vector<std::string>{visit, visit}));
}

}  // namespace
}  // namespace fallaway::app
