// A full disk and one that cannot be written, both real: a small disk in memory, and a mount for reading alone,
// seen by a child process only. Where mounting is not permitted a limit on the size of files, and a user without
// rights, take their place; the test prints which it was.
#include <signal.h>
#include <sys/resource.h>

#include <cstdio>
#include <fstream>

#include "child.h"
#include "shop/files/file_io.h"
#include "shop_fixture.h"

namespace fallaway::store {
namespace {

using BadDisk = ShopFolder;

// A disk that fills up below `place`, and can be given room again.
class SmallDisk {
public:
    explicit SmallDisk(const fs::path& place) : ballast_(place / "ballast") {
        fs::create_directories(place);
        mounted_ = own_mounts() && ::mount("none", place.c_str(), "tmpfs", 0, "size=6m") == 0;
        if (mounted_) {
            std::ofstream(ballast_) << std::string(2u << 20, 'x');
        } else {
            ::signal(SIGXFSZ, SIG_IGN);  // as an error of the write instead
            limit(2u << 20);
        }
        std::printf("full disk: by %s\n", mounted_ ? "a tmpfs of 6 MB" : "RLIMIT_FSIZE of 2 MB");
        std::fflush(stdout);
    }
    void give_room() const {
        if (mounted_) {
            fs::remove(ballast_);
        } else {
            limit(RLIM_INFINITY);
        }
    }

private:
    static void limit(rlim_t bytes) {
        rlimit now{};
        ::getrlimit(RLIMIT_FSIZE, &now);
        now.rlim_cur = std::min(bytes, now.rlim_max);
        ::setrlimit(RLIMIT_FSIZE, &now);
    }
    fs::path ballast_;
    bool mounted_ = false;
};

std::size_t files_below(const fs::path& folder) {
    std::size_t n = 0;
    for (const auto& item : fs::recursive_directory_iterator(folder)) n += item.is_regular_file();
    return n;
}

// Entries of 20 kB until one is refused; how many were stored.
std::size_t fill_up(Store& store, std::string& refused_with) {
    for (std::size_t n = 0; n < 5000; ++n) {
        const auto stored = store.append(id(2), std::vector{entry(0x1000 + n, std::string(20'000, 'b'))},
                                         card_of("Ostrel Heron", fmt::format("player {}", n)));
        if (!stored) {
            refused_with = stored.error().code;
            return n;
        }
    }
    return 5000;
}

TEST_F(BadDisk, FullLosesNothingAndGoesOnLater) {
    const auto fault = in_child([&]() -> std::string {
        const SmallDisk disk(folder_ / "disk");
        const fs::path place = folder_ / "disk" / "shop";
        std::size_t stored = 0;
        {
            Store store = open_at(place);
            MUST_BE(code(store.add_dossier(heron())), "");
            MUST_BE(code(store.add_visit(visit_to(id(1), 2), {})), "");
            std::string refused;
            stored = fill_up(store, refused);
            MUST_BE(refused, "full");
            MUST_BE(stored > 10, true);
            MUST_BE(store.entries(id(2))->size(), stored);
            MUST_BE(store.visit(id(2))->card.player, fmt::format("player {}", stored - 1));
            MUST_BE(store.find_visits("heron", 10)->total, 1);
            const std::size_t before = files_below(place);
            MUST_BE(code(store.add_medium(std::string(5u << 20, 'm'), "audio/wav", "2026-11-25T09:00:00Z")),
                    "full");
            MUST_BE(code(store.backup(folder_ / "disk" / "copy", go_on)), "full");
            MUST_BE(files_below(place), before);
            MUST_BE(fs::exists(folder_ / "disk" / "copy"), false);
            MUST_BE(faults(store), "");
        }
        const auto again = Store::open(place, Access::write);
        if (!again) MUST_BE(again.error().code, "full");
        disk.give_room();
        Store store = open_at(place);
        MUST_BE(store.entries(id(2))->size(), stored);
        MUST_BE(code(store.append(id(2), std::vector{entry(0x99999)}, {})), "");
        MUST_BE(code(store.add_medium("photo", "image/png", "2026-11-25T09:00:00Z")), "");
        MUST_BE(store.entries(id(2))->size(), stored + 1);
        MUST_BE(faults(store), "");
        return "";
    });
    EXPECT_EQ(fault, "");
}

TEST_F(BadDisk, FullMakesNoHalfAShop) {
    const auto fault = in_child([&]() -> std::string {
        const fs::path place = folder_ / "disk";
        fs::create_directories(place);
        if (own_mounts() && ::mount("none", place.c_str(), "tmpfs", 0, "size=64k") == 0) {
            MUST_BE(code(Store::open(place / "shop", Access::write, true)), "full");
        } else {
            ::signal(SIGXFSZ, SIG_IGN);
            const rlimit small{16'384, RLIM_INFINITY};
            ::setrlimit(RLIMIT_FSIZE, &small);
            MUST_BE(code(Store::open(place / "shop", Access::write, true)), "full");
        }
        MUST_BE(files_below(place), 0u);
        return "";
    });
    EXPECT_EQ(fault, "");
}

// Takes away the right to write below `folder`.
void make_read_only(const fs::path& folder) {
    if (own_mounts() && ::mount(folder.c_str(), folder.c_str(), nullptr, MS_BIND, nullptr) == 0 &&
        ::mount(nullptr, folder.c_str(), nullptr, MS_BIND | MS_REMOUNT | MS_RDONLY, nullptr) == 0) {
        std::printf("read only: by a mount for reading alone\n");
    } else {
        for (const auto& item : fs::recursive_directory_iterator(folder)) {
            fs::permissions(item.path(), item.is_directory() ? fs::perms(0555) : fs::perms(0444));
        }
        fs::permissions(folder, fs::perms(0555));
        fs::permissions(folder.parent_path(), fs::perms(0777));
        if (::geteuid() == 0 && ::setuid(65534) != 0)
            throw std::runtime_error("no way to lose the right to write");
        std::printf("read only: by a user without rights\n");
    }
    std::fflush(stdout);
}

std::string look_at_read_only_shop(const fs::path& place, const fs::path& copy, std::size_t entries) {
    MUST_BE(code(Store::open(place, Access::write)), "read only");
    MUST_BE(code(Store::open(place, Access::write, true)), "read only");
    MUST_BE(code(Store::open(place / "new", Access::write, true)), "read only");
    auto store = Store::open(place, Access::read);
    MUST_BE(code(store), "");
    MUST_BE(store->entries(id(2))->size(), entries);
    MUST_BE(store->find_visits("heron", 10)->total, 1);
    MUST_BE(code(store->append(id(2), std::vector{entry(0x20)}, {})), "read only");
    MUST_BE(code(store->add_medium("x", "image/png", "2026-11-25T09:00:00Z")), "read only");
    MUST_BE(code(store->backup(copy, go_on)), "");
    const auto found = store->check(go_on);
    MUST_BE(found.has_value() && found->empty(), true);
    auto copied = Store::open(copy, Access::write);
    MUST_BE(code(copied), "");
    MUST_BE(copied->entries(id(2))->size(), entries);
    return "";
}

TEST_F(BadDisk, ReadOnlyOpensForReadingAlone) {
    begun();
    EXPECT_EQ(in_child([&] {
                  make_read_only(shop());
                  return look_at_read_only_shop(shop(), folder_ / "copy", 1);
              }),
              "");
}

// What a program that was stopped left beside the database holds its last entries.
TEST_F(BadDisk, ReadOnlyAfterAProgramWasStopped) {
    const auto stopped = in_child([&]() -> std::string {
        auto* store = new Store(begun());  // never closed
        MUST_BE(code(store->append(id(2), std::vector{entry(0x40)}, card_of("Ostrel Heron", ""))), "");
        return "";
    });
    ASSERT_EQ(stopped, "");
    ASSERT_GT(fs::file_size(shop() / "shop.sqlite-wal"), 0u);
    EXPECT_EQ(in_child([&] {
                  make_read_only(shop());
                  return look_at_read_only_shop(shop(), folder_ / "copy", 2);
              }),
              "");
}

}  // namespace
}  // namespace fallaway::store
