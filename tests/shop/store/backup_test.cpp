// Backup, restore and check of a shop that is well.
#include <SQLiteCpp/SQLiteCpp.h>

#include <fstream>

#include "shop/files/file_io.h"
#include "shop_fixture.h"

namespace fallaway::store {
namespace {

using Backup = ShopFolder;
using Restore = ShopFolder;

// Names of what lies in a folder.
std::vector<std::string> names_in(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& item : fs::directory_iterator(folder)) names.push_back(item.path().filename());
    std::sort(names.begin(), names.end());
    return names;
}

TEST_F(Backup, IsTheShopAgain) {
    Store store = begun();
    const auto medium = store.add_medium("photo", "image/jpeg", "2026-11-25T09:00:00Z");
    ASSERT_TRUE(medium);
    std::vector<double> told;
    const auto done = store.backup(folder_ / "copies" / "today", [&](double part) {
        told.push_back(part);
        return true;
    });
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
    EXPECT_EQ(told.back(), 1.0);
    EXPECT_EQ(names_in(folder_ / "copies"), std::vector<std::string>{"today"});
    const Store copy = open_at(folder_ / "copies" / "today");
    EXPECT_EQ(copy.entries(id(2)), store.entries(id(2)));
    EXPECT_EQ(copy.medium_bytes(medium->hash), "photo");
    EXPECT_EQ(faults(copy), "");
}

TEST_F(Backup, WritesOverNothing) {
    Store store = begun();
    fs::create_directories(folder_ / "full");
    std::ofstream(folder_ / "full" / "letter") << "mine";
    std::ofstream(folder_ / "file") << "mine";
    fs::create_directories(folder_ / "empty");
    fs::create_symlink(shop(), folder_ / "link");
    EXPECT_EQ(code(store.backup(folder_ / "full", go_on)), "file");
    EXPECT_EQ(code(store.backup(folder_ / "file", go_on)), "file");
    EXPECT_EQ(code(store.backup(shop(), go_on)), "file");
    EXPECT_EQ(code(store.backup(shop() / "copy", go_on)), "file");
    EXPECT_EQ(code(store.backup(folder_ / "other" / ".." / "shop" / "copy", go_on)), "file");
    EXPECT_EQ(code(store.backup(folder_ / "link" / "copy", go_on)), "file");
    EXPECT_TRUE(store.backup(folder_ / "empty", go_on));
    EXPECT_TRUE(store.backup(folder_ / "shop2/", go_on));
    EXPECT_EQ(names_in(folder_ / "full"), std::vector<std::string>{"letter"});
    EXPECT_EQ(names_in(folder_), (std::vector<std::string>{"empty", "file", "full", "link", "shop", "shop2"}));
}

TEST_F(Backup, StoppedLeavesNothing) {
    Store store = begun();
    ASSERT_TRUE(store.add_medium("photo", "image/jpeg", "2026-11-25T09:00:00Z"));
    for (int steps : {0, 1}) {
        int left = steps;
        EXPECT_EQ(code(store.backup(folder_ / "copy", [&](double) { return left-- > 0; })), "stopped");
        EXPECT_EQ(names_in(folder_), std::vector<std::string>{"shop"});
    }
    EXPECT_EQ(code(store.check([](double) { return false; })), "stopped");
    EXPECT_EQ(faults(store), "");
}

TEST_F(Restore, PutsTheBackupInPlaceAndKeepsTheShop) {
    {
        Store store = begun();
        ASSERT_TRUE(store.add_medium("photo", "image/jpeg", "2026-11-25T09:00:00Z"));
        ASSERT_TRUE(store.backup(folder_ / "copy", go_on));
        ASSERT_TRUE(store.append(id(2), std::vector{entry(0x20)}, {}));
        EXPECT_EQ(code(restore(folder_ / "copy", shop())), "busy");  // while somebody has it open
        EXPECT_EQ(store.entries(id(2))->size(), 2u);
    }
    const auto done = restore(folder_ / "copy", folder_ / "shop/");
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_EQ(names_in(folder_), (std::vector<std::string>{"copy", "shop", "shop.before-restore"}));
    {
        Store store = opened();
        EXPECT_EQ(store.entries(id(2))->size(), 1u);
        EXPECT_EQ(faults(store), "");
        ASSERT_TRUE(store.append(id(2), std::vector{entry(0x21)}, {}));
    }
    EXPECT_EQ(open_at(folder_ / "shop.before-restore").entries(id(2))->size(), 2u);
    EXPECT_EQ(open_at(folder_ / "copy").entries(id(2))->size(), 1u);  // the backup is its own
    // What an earlier restore set aside is not written over.
    EXPECT_EQ(code(restore(folder_ / "copy", shop())), "file");
    EXPECT_EQ(opened().entries(id(2))->size(), 2u);
}

TEST_F(Restore, WhereThereIsNoShop) {
    ASSERT_TRUE(begun().backup(folder_ / "copy", go_on));
    ASSERT_TRUE(restore(folder_ / "copy", folder_ / "new"));
    EXPECT_EQ(open_at(folder_ / "new").entries(id(2))->size(), 1u);
    fs::create_directories(folder_ / "letters");
    std::ofstream(folder_ / "letters" / "letter") << "mine";
    EXPECT_EQ(code(restore(folder_ / "copy", folder_ / "letters")), "file");
    EXPECT_EQ(code(restore(folder_ / "nowhere", folder_ / "new")), "file");
    EXPECT_EQ(code(restore(folder_ / "letters", folder_ / "new")), "file");
    EXPECT_EQ(code(restore(folder_ / "new", folder_ / "new")), "file");
    EXPECT_EQ(names_in(folder_), (std::vector<std::string>{"copy", "letters", "new", "shop"}));
}

TEST_F(Restore, RefusesADamagedOrNewerBackup) {
    {
        Store store = begun();
        const auto medium = store.add_medium("photo", "image/jpeg", "2026-11-25T09:00:00Z");
        ASSERT_TRUE(medium);
        ASSERT_TRUE(store.backup(folder_ / "spoiled", go_on));
        ASSERT_TRUE(store.backup(folder_ / "newer", go_on));
        ASSERT_TRUE(store.backup(folder_ / "torn", go_on));
        std::ofstream(folder_ / "spoiled" / "media" / medium->hash.substr(0, 2) / (medium->hash + ".jpg")) << "x";
    }
    SQLite::Database(folder_ / "newer" / "shop.sqlite", SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 2");
    fs::resize_file(folder_ / "torn" / "shop.sqlite", fs::file_size(folder_ / "torn" / "shop.sqlite") / 2);
    EXPECT_EQ(code(restore(folder_ / "spoiled", shop())), "damaged");
    EXPECT_EQ(code(restore(folder_ / "newer", shop())), "newer");
    EXPECT_EQ(code(restore(folder_ / "torn", shop())), "damaged");
    EXPECT_EQ(names_in(folder_), (std::vector<std::string>{"newer", "shop", "spoiled", "torn"}));
    EXPECT_EQ(opened().entries(id(2))->size(), 1u);
}

}  // namespace
}  // namespace fallaway::store
