// Dossiers, visits and entries: what goes in comes out, and nothing that is in is ever changed.
#include <SQLiteCpp/SQLiteCpp.h>

#include "shop_fixture.h"

namespace fallaway::store {
namespace {

using History = ShopFolder;

TEST_F(History, ComesBackAsItWasWritten) {
    Visit visit = visit_to(id(1), 2);
    visit.closed = "2026-11-26T17:00:00+01:00";
    visit.card.demo = true;
    visit.procedure = "5f";
    const EntryRow first = entry(0x10, R"({"value":"Saite 6 schnarrt – ♭ \u0000"})");
    {
        Store store = opened();
        ASSERT_TRUE(store.keep_procedure("5f", "{}"));
        ASSERT_TRUE(store.add_dossier(heron()));
        const auto added = store.add_visit(visit, std::vector{first, entry(0x11)});
        ASSERT_TRUE(added) << added.error().message;
        EXPECT_EQ(added->seq, 2);
    }
    const Store store = opened();  // again, from the disk
    EXPECT_EQ(store.dossier(id(1)), heron());
    visit.seq = 2;
    EXPECT_EQ(store.visit(id(2)), visit);
    const auto entries = store.entries(id(2));
    ASSERT_TRUE(entries);
    ASSERT_EQ(entries->size(), 2u);
    EntryRow expected = first;
    expected.seq = 1;
    expected.visit = id(2);
    EXPECT_EQ(entries->front(), expected);
    EXPECT_EQ(store.entries(id(2), 1)->size(), 1u);
    EXPECT_TRUE(store.entries(id(2), 2)->empty());
    EXPECT_EQ(faults(store), "");
}

TEST_F(History, KeepsBytesThatAreNoText) {
    Store store = begun();
    const std::string body("a\0b\xFF", 4);
    ASSERT_TRUE(store.append(id(2), std::vector{entry(0x20, body)}, card_of("", "")));
    EXPECT_EQ(store.entries(id(2))->back().body, body);
    EXPECT_EQ(faults(store), "");
}

TEST_F(History, AddingAgainChangesNothing) {
    Store store = begun();
    EXPECT_TRUE(store.add_dossier(heron()));
    const auto before = store.visit(id(2));
    Visit again = visit_to(id(1), 2);
    again.opened = "2026-11-25T09:30:04+01:00";  // a second try comes later
    EXPECT_EQ(store.add_visit(again, std::vector{entry(0x10)}), before);
    EXPECT_EQ(store.entries(id(2))->size(), 1u);
}

TEST_F(History, AnIdStandsForOneThing) {
    Store store = begun();
    Dossier other = heron();
    other.title = "Vannick Dray";
    EXPECT_EQ(code(store.add_dossier(other)), "conflict");
    EXPECT_EQ(code(store.add_visit(visit_to(id(9), 2), {})), "conflict");
    EXPECT_EQ(code(store.add_visit(visit_to(id(1), 2), std::vector{entry(0x10, "other")})), "conflict");
    EXPECT_EQ(code(store.add_visit(visit_to(id(1), 2), std::vector{entry(0x99)})), "conflict");
    EXPECT_EQ(store.dossier(id(1)), heron());
}

TEST_F(History, WhatIsNotThereIsMissing) {
    Store store = begun();
    EXPECT_EQ(code(store.dossier(id(7))), "missing");
    EXPECT_EQ(code(store.visit(id(7))), "missing");
    EXPECT_EQ(code(store.entries(id(7))), "missing");
    EXPECT_EQ(code(store.update_dossier(heron(7))), "missing");
    EXPECT_EQ(code(store.close_visit(id(7), "2026-11-26T17:00:00+01:00")), "missing");
    EXPECT_EQ(code(store.set_card(id(7), {})), "missing");
    EXPECT_EQ(code(store.append(id(7), std::vector{entry(0x20)}, {})), "missing");
    EXPECT_EQ(code(store.add_visit(visit_to(id(7), 8), {})), "missing");
    Visit judged = visit_to(id(1), 8);
    judged.procedure = "no such hash";
    const auto added = store.add_visit(judged, {});
    ASSERT_FALSE(added);
    EXPECT_EQ(added.error().path, "procedure");
    EXPECT_NE(added.error().message.find("no such hash"), std::string::npos);
    EXPECT_TRUE(store.visits_of(id(7))->empty());
}

TEST_F(History, IdsAreSixteenDigits) {
    Store store = begun();
    Dossier dossier = heron();
    for (const char* bad : {"", "1", "00000000000000AB", "000000000000000g", "00000000000000001"}) {
        dossier.id = bad;
        EXPECT_EQ(code(store.add_dossier(dossier)), "syntax") << bad;
        EntryRow row = entry(1);
        row.id = bad;
        const auto stored = store.append(id(2), std::vector{entry(0x30), row}, {});
        ASSERT_FALSE(stored) << bad;
        EXPECT_EQ(stored.error().path, "/entries/1/id");
    }
    EXPECT_EQ(store.entries(id(2))->size(), 1u);
}

TEST_F(History, AppendsOnce) {
    Store store = begun();
    const std::vector rows{entry(0x20), entry(0x21)};
    const auto first = store.append(id(2), rows, card_of("Ostrel Heron", "Maren Tolk"));
    ASSERT_TRUE(first);
    EXPECT_EQ(*first, (std::vector<std::int64_t>{2, 3}));
    EXPECT_EQ(store.append(id(2), rows, card_of("", "late and wrong")), *first);
    EXPECT_EQ(store.visit(id(2))->card.player, "Maren Tolk");
    EXPECT_EQ(store.append(id(2), std::vector{entry(0x21), entry(0x22)}, card_of("", "Pell Audry")),
              (std::vector<std::int64_t>{3, 4}));
    EXPECT_EQ(store.visit(id(2))->card.player, "Pell Audry");
    EXPECT_EQ(store.visit(id(2))->seq, 4);
    EXPECT_EQ(store.entries(id(2))->size(), 4u);
    EXPECT_EQ(store.append(id(2), {}, card_of("", "nobody")), std::vector<std::int64_t>{});
    EXPECT_EQ(store.visit(id(2))->card.player, "Pell Audry");
}

TEST_F(History, AppendsAllOrNothing) {
    Store store = begun();
    const auto before = store.visit(id(2));
    const auto stored =
        store.append(id(2), std::vector{entry(0x20), entry(0x10, "another body"), entry(0x21)}, card_of("x", "y"));
    ASSERT_FALSE(stored);
    EXPECT_EQ(stored.error().code, "conflict");
    EXPECT_EQ(stored.error().path, "/entries/1/id");
    EXPECT_EQ(code(store.append(id(2), std::vector{entry(0x20), entry(0x20, "twice")}, {})), "conflict");
    EXPECT_EQ(store.entries(id(2))->size(), 1u);
    EXPECT_EQ(store.visit(id(2)), before);
    // What failed used no place in the history up.
    EXPECT_EQ(store.append(id(2), std::vector{entry(0x20)}, {}), std::vector<std::int64_t>{2});
    // The same entry belongs to one visit.
    ASSERT_TRUE(store.add_visit(visit_to(id(1), 3), {}));
    EXPECT_EQ(code(store.append(id(3), std::vector{entry(0x20)}, {})), "conflict");
}

TEST_F(History, CountsOverTheWholeShop) {
    Store store = begun();
    ASSERT_TRUE(store.add_visit(visit_to(id(1), 3), std::vector{entry(0x30)}));
    EXPECT_EQ(store.append(id(2), std::vector{entry(0x31)}, {}), std::vector<std::int64_t>{3});
    EXPECT_EQ(store.visit(id(3))->seq, 2);
    EXPECT_EQ(store.visit(id(2))->seq, 3);
}

TEST_F(History, ClosesAndOpensAgain) {
    Store store = begun();
    ASSERT_TRUE(store.close_visit(id(2), "2026-11-26T17:00:00+01:00"));
    EXPECT_EQ(store.visit(id(2))->closed, "2026-11-26T17:00:00+01:00");
    ASSERT_TRUE(store.close_visit(id(2), std::nullopt));
    EXPECT_EQ(store.visit(id(2))->closed, std::nullopt);
}

TEST_F(History, StaysOfAnInstrumentLatestFirst) {
    Store store = begun();
    Visit earlier = visit_to(id(1), 3);
    earlier.opened = "2026-11-25T09:15:00Z";  // 10:15 where the first was opened at 9:30
    ASSERT_TRUE(store.add_visit(earlier, {}));
    const auto stays = store.visits_of(id(1));
    ASSERT_TRUE(stays);
    ASSERT_EQ(stays->size(), 2u);
    EXPECT_EQ(stays->front().id, id(3));
}

// Not even another program gets an entry out, short of taking the triggers away.
TEST_F(History, EntriesAreForGood) {
    begun();
    SQLite::Database other(shop() / "shop.sqlite", SQLite::OPEN_READWRITE);
    for (const char* sql : {"UPDATE entry SET body = 'x'", "DELETE FROM entry", "UPDATE entry SET seq = seq + 1",
                            "INSERT OR REPLACE INTO entry SELECT seq, id, visit, device, at, 'x', sum FROM entry",
                            "REPLACE INTO entry SELECT seq + 1, id, visit, device, at, 'x', sum FROM entry"}) {
        EXPECT_THROW(other.exec(sql), SQLite::Exception) << sql;
    }
    EXPECT_EQ(opened().entries(id(2))->front().body, entry(0x10).body);
}

TEST_F(History, AReadingShopIsNotWritten) {
    begun();
    Store store = opened(Access::read);
    EXPECT_EQ(store.entries(id(2))->size(), 1u);
    EXPECT_EQ(code(store.append(id(2), std::vector{entry(0x20)}, {})), "read only");
    EXPECT_EQ(code(store.put_setting("name", "x")), "read only");
    EXPECT_EQ(code(store.add_medium("x", "image/png", "2026-11-25T09:00:00Z")), "read only");
    EXPECT_EQ(store.entries(id(2))->size(), 1u);
}

}  // namespace
}  // namespace fallaway::store
