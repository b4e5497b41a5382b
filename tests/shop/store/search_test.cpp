#include "shop_fixture.h"

namespace fallaway::store {
namespace {

class Search : public ShopFolder {
protected:
    static void add(Store& store, std::uint64_t n, std::string title, std::string player, std::string promised,
                    std::optional<std::string> closed = std::nullopt) {
        Visit visit = visit_to(id(1), n);
        visit.card = card_of(std::move(title), std::move(player));
        visit.card.promised = std::move(promised);
        visit.closed = std::move(closed);
        const auto added = store.add_visit(visit, {});
        ASSERT_TRUE(added) << added.error().message;
    }
    // The numbers of the visits found, in order.
    static std::string found(const Store& store, std::string_view query, int limit = 100, int offset = 0) {
        const auto answer = store.find_visits(query, limit, offset);
        if (!answer) return answer.error().code;
        std::string numbers;
        for (const Visit& visit : answer->visits)
            numbers += fmt::format("{} ", std::stoull(visit.id, nullptr, 16));
        return numbers + fmt::format("of {}", answer->total);
    }
};

TEST_F(Search, OpenOnesByPromisedDayThenClosedOnes) {
    Store store = opened();
    ASSERT_TRUE(store.add_dossier(heron()));
    add(store, 2, "Ostrel Heron", "Joon Aster", "");
    add(store, 3, "Ostrel Heron", "Joon Aster", "2026-12-02");
    add(store, 4, "Ostrel Heron", "Joon Aster", "2026-11-20", "2026-11-24T10:00:00Z");
    add(store, 5, "Ostrel Heron", "Joon Aster", "2026-11-28");
    add(store, 6, "Ostrel Heron", "Joon Aster", "", "2026-11-24T11:30:00+01:00");  // 10:30 UTC
    add(store, 7, "Ostrel Heron", "Joon Aster", "2026-11-28");
    EXPECT_EQ(found(store, ""), "7 5 3 2 6 4 of 6");
    EXPECT_EQ(found(store, "heron", 2), "7 5 of 6");
    EXPECT_EQ(found(store, "heron", 2, 4), "6 4 of 6");
    EXPECT_EQ(found(store, "heron", 2, 6), "of 6");
}

TEST_F(Search, EveryWordStandsSomewhere) {
    Store store = opened();
    ASSERT_TRUE(store.add_dossier(heron()));  // owner Ruta Vell
    add(store, 2, "Ostrel Heron", "Joon Aster", "");
    add(store, 3, "Vannick Dray", "Élise Ørn", "");
    EXPECT_EQ(found(store, "heron"), "2 of 1");
    EXPECT_EQ(found(store, "ASTER ostrel"), "2 of 1");
    EXPECT_EQ(found(store, "  ron  oh-0 "), "2 of 1");
    EXPECT_EQ(found(store, "heron élise"), "of 0");
    EXPECT_EQ(found(store, "éLISE"), "3 of 1");
    EXPECT_EQ(found(store, "øRN"), "3 of 1");
    EXPECT_EQ(found(store, "Elise"), "of 0");     // accents as typed
    EXPECT_EQ(found(store, "ruta"), "3 2 of 2");  // the owner
    EXPECT_EQ(found(store, "not ready"), "3 2 of 2");
    EXPECT_EQ(found(store, "heronoh"), "of 0");  // no word reaches over two fields
    for (const char* odd : {"%", "_", "*", "\"", "'", "h_ron", "\xFF"})
        EXPECT_EQ(found(store, odd), "of 0") << odd;
}

TEST_F(Search, FollowsChanges) {
    Store store = opened();
    ASSERT_TRUE(store.add_dossier(heron()));
    add(store, 2, "Ostrel Heron", "Joon Aster", "");
    Dossier sold = heron();
    sold.owner = "Ilse Corvin";
    ASSERT_TRUE(store.update_dossier(sold));
    EXPECT_EQ(store.dossier(id(1)), sold);
    EXPECT_EQ(found(store, "corvin"), "2 of 1");
    EXPECT_EQ(found(store, "vell"), "of 0");
    ASSERT_TRUE(store.set_card(id(2), card_of("Ostrel Heron", "Pell Audry")));
    EXPECT_EQ(found(store, "audry corvin"), "2 of 1");
    EXPECT_EQ(found(store, "aster"), "of 0");
}

TEST_F(Search, FindsInstrumentsLastSeenFirst) {
    Store store = opened();
    for (std::uint64_t n : {1, 2, 3}) ASSERT_TRUE(store.add_dossier(heron(n)));
    Visit visit = visit_to(id(2), 0x20);
    ASSERT_TRUE(store.add_visit(visit, {}));
    visit.id = id(0x21);
    visit.dossier = id(1);
    visit.opened = "2026-11-24T09:30:00+01:00";
    ASSERT_TRUE(store.add_visit(visit, {}));
    const auto all = store.find_dossiers("HERON vell", 10);
    ASSERT_TRUE(all);
    ASSERT_EQ(all->size(), 3u);
    EXPECT_EQ((*all)[0].id, id(2));
    EXPECT_EQ((*all)[1].id, id(1));
    EXPECT_EQ((*all)[2].id, id(3));
    EXPECT_EQ(store.find_dossiers("oh-0003", 10)->size(), 1u);
    EXPECT_EQ(store.find_dossiers("", 2)->size(), 2u);
}

TEST_F(Search, AQueryHasItsLength) {
    Store store = begun();
    std::string many;
    while (many.size() + 2 <= kLongestQuery) many += "o ";
    EXPECT_EQ(found(store, many), "2 of 1");
    EXPECT_EQ(found(store, std::string(kLongestQuery + 1, 'o')), "size");
    EXPECT_EQ(code(store.find_dossiers(std::string(kLongestQuery + 1, 'o'), 1)), "size");
}

}  // namespace
}  // namespace fallaway::store
