// Opening: new, older, newer, foreign and damaged files.
#include <SQLiteCpp/SQLiteCpp.h>

#include <array>
#include <fstream>

#include "shop/files/file_io.h"
#include "shop/store/schema.h"
#include "shop_fixture.h"

namespace fallaway::store {
namespace {

class Opening : public ShopFolder {
protected:
    fs::path file() const { return shop() / "shop.sqlite"; }
    std::string bytes() const { return *files::read_file(file()); }
};
using Migration = Opening;

TEST_F(Opening, MakesAShopOnlyWhenAsked) {
    EXPECT_EQ(code(Store::open(shop(), Access::write)), "file");
    EXPECT_EQ(code(Store::open(shop(), Access::read, true)), "file");
    EXPECT_FALSE(fs::exists(shop()));
    { Store store = opened(); }
    EXPECT_TRUE(Store::open(shop(), Access::write));
    EXPECT_TRUE(Store::open(shop(), Access::read));
    std::ofstream(folder_ / "file") << "x";
    EXPECT_EQ(code(Store::open(folder_ / "file", Access::write, true)), "file");
}

TEST_F(Opening, IsSafeAgainstPowerCuts) {
    Store store = begun();
    SQLite::Database other(file());
    EXPECT_EQ(other.execAndGet("PRAGMA journal_mode").getString(), "wal");
    EXPECT_EQ(other.execAndGet("PRAGMA user_version").getInt(), kStoreVersion);
    EXPECT_EQ(other
                  .execAndGet("SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND NOT strict "
                              "AND name NOT LIKE 'sqlite%'")
                  .getInt(),
              0);
}

TEST_F(Opening, RefusesANewerShop) {
    begun();
    SQLite::Database(file(), SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 99");
    const std::string before = bytes();
    for (Access access : {Access::write, Access::read})
        EXPECT_EQ(code(Store::open(shop(), access, true)), "newer");
    EXPECT_EQ(bytes(), before);
}

TEST_F(Opening, RefusesWhatIsNoShop) {
    fs::create_directories(shop());
    for (const std::string& content : {std::string(), std::string("a letter"), std::string(100'000, 'x')}) {
        ASSERT_TRUE(files::write_file(file(), content));
        for (Access access : {Access::write, Access::read}) {
            EXPECT_EQ(code(Store::open(shop(), access, true)), "damaged") << content.size();
        }
        EXPECT_EQ(bytes(), content);
    }
    fs::remove(file());
    SQLite::Database(file(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE letters (text); PRAGMA user_version = 1");
    const std::string before = bytes();
    for (Access access : {Access::write, Access::read})
        EXPECT_EQ(code(Store::open(shop(), access, true)), "damaged");
    EXPECT_EQ(bytes(), before);
}

TEST_F(Opening, DoesNotStartAnewBesideLeftovers) {
    fs::create_directories(shop());
    std::ofstream(shop() / "shop.sqlite-wal") << "the last entries";
    EXPECT_EQ(code(Store::open(shop(), Access::write, true)), "damaged");
    EXPECT_FALSE(fs::exists(file()));
}

TEST_F(Opening, SeesATableThatIsMissing) {
    begun();
    SQLite::Database(file(), SQLite::OPEN_READWRITE).exec("DROP TRIGGER entry_stays");
    EXPECT_EQ(code(Store::open(shop(), Access::write)), "damaged");
    EXPECT_EQ(code(Store::open(shop(), Access::read)), "damaged");
}

TEST_F(Opening, SeesATruncatedFile) {
    begun();
    const std::string whole = bytes();
    for (std::size_t size :
         {std::size_t(1), std::size_t(99), std::size_t(4096), whole.size() / 2, whole.size() - 1}) {
        ASSERT_TRUE(files::write_file(file(), whole.substr(0, size)));
        const auto store = Store::open(shop(), Access::write, true);
        EXPECT_EQ(code(store), "damaged") << size;
    }
}

// A step that leads on from version 1, as a later version of the program might bring it.
constexpr Step kMadeUp = R"sql(
CREATE TABLE visit_new AS SELECT * FROM visit;
ALTER TABLE person ADD COLUMN hand TEXT NOT NULL DEFAULT '';
UPDATE person SET hand = 'left' WHERE name = 'Joon Aster';
DROP TABLE visit_new;
)sql";

class Steps : public Migration {
protected:
    Result<void> take(Step last) const {
        auto connection = Connection::open(file(), Connection::Mode::write);
        if (!connection) return tl::unexpected(connection.error());
        const std::array<Step, 2> all = {steps()[0], last};
        return migrate(**connection, file(), all);
    }
    fs::path copy() const { return shop() / "shop.before-2.sqlite"; }
};

TEST_F(Steps, LeadOnAfterACopyWasMade) {
    {
        Store store = begun();
        ASSERT_TRUE(store.put_person({"Joon Aster", false, "", ""}));
    }
    const auto taken = take(kMadeUp);
    ASSERT_TRUE(taken) << taken.error().message;
    {
        SQLite::Database now(file());
        EXPECT_EQ(now.execAndGet("PRAGMA user_version").getInt(), 2);
        EXPECT_EQ(now.execAndGet("SELECT hand FROM person").getString(), "left");
        EXPECT_EQ(now.execAndGet("SELECT count(*) FROM entry").getInt(), 1);
        auto connection = Connection::open(file(), Connection::Mode::read);
        const std::array<Step, 2> all = {steps()[0], kMadeUp};
        EXPECT_TRUE(check_schema(**connection, file(), all));
        EXPECT_EQ(code(check_schema(**connection, file(), steps())), "damaged");
    }
    EXPECT_EQ(code(Store::open(shop(), Access::write)), "newer");
    // The copy is the shop as it was, ready to be used by the earlier version.
    fs::create_directories(folder_ / "earlier");
    fs::copy_file(copy(), folder_ / "earlier" / "shop.sqlite");
    const Store earlier = open_at(folder_ / "earlier");
    EXPECT_EQ(earlier.entries(id(2))->size(), 1u);
    EXPECT_EQ(faults(earlier), "");
    EXPECT_TRUE(take(kMadeUp));  // nothing left to do
}

TEST_F(Steps, ThatFailLeaveTheShopAsItWas) {
    begun();
    const std::string before = bytes();
    for (const Step bad : {Step("ALTER TABLE person ADD COLUMN hand TEXT; SELECT * FROM nowhere;"),
                           Step("CREATE TABLE new (a); this is no SQL"), Step("DELETE FROM entry;"),
                           Step("INSERT INTO setting VALUES ('a', 'b'); INSERT INTO setting VALUES ('a', 'c');"),
                           Step("DELETE FROM visit;")}) {  // its entries would refer to nothing
        const auto taken = take(bad);
        EXPECT_EQ(code(taken), "damaged") << bad;
        EXPECT_EQ(bytes(), before) << bad;
        EXPECT_TRUE(fs::exists(copy()));
    }
    EXPECT_EQ(opened().entries(id(2))->size(), 1u);
}

TEST_F(Steps, AreNotTakenWithoutACopy) {
    begun();
    const std::string before = bytes();
    fs::create_directories(copy() / "in the way");
    EXPECT_EQ(code(take(kMadeUp)), "file");
    EXPECT_EQ(bytes(), before);
}

// A very early draft of the store, before it had a history: its one table of visits becomes dossiers and visits.
TEST_F(Migration, FromADraftAllTheWay) {
    constexpr Step kDraft = "CREATE TABLE stay (id TEXT PRIMARY KEY, guitar TEXT NOT NULL, player TEXT) STRICT;";
    const std::array<Step, 1> draft = {kDraft};
    const std::array<Step, 3> all = {kDraft,
                                     "CREATE TABLE guitar (id INTEGER PRIMARY KEY, title TEXT) STRICT;"
                                     "INSERT INTO guitar (title) SELECT DISTINCT guitar FROM stay ORDER BY 1;",
                                     "ALTER TABLE stay ADD COLUMN of INTEGER REFERENCES guitar (id);"
                                     "UPDATE stay SET of = (SELECT id FROM guitar WHERE title = stay.guitar);"};
    fs::create_directories(shop());
    ASSERT_TRUE(create_database(file(), draft));
    SQLite::Database(file(), SQLite::OPEN_READWRITE)
        .exec("INSERT INTO stay VALUES ('a', 'Vannick Dray', 'Pell Audry'), ('b', 'Ostrel Heron', NULL)");
    {
        auto connection = Connection::open(file(), Connection::Mode::write);
        ASSERT_TRUE(connection);
        ASSERT_TRUE(migrate(**connection, file(), all));
        EXPECT_TRUE(check_schema(**connection, file(), all));
    }
    SQLite::Database now(file());
    EXPECT_EQ(now.execAndGet("PRAGMA user_version").getInt(), 3);
    EXPECT_EQ(now.execAndGet("SELECT guitar.title FROM stay JOIN guitar ON guitar.id = of WHERE stay.id = 'a'")
                  .getString(),
              "Vannick Dray");
    SQLite::Database before(shop() / "shop.before-3.sqlite");
    EXPECT_EQ(before.execAndGet("PRAGMA user_version").getInt(), 1);
    EXPECT_EQ(before.execAndGet("SELECT count(*) FROM stay").getInt(), 2);
}

}  // namespace
}  // namespace fallaway::store
