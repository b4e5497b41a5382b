// Many at once, and much: threads that append, read and copy together, and a search through 10,000 visits.
#include <atomic>
#include <chrono>
#include <thread>

#include "shop_fixture.h"

namespace fallaway::store {
namespace {

using Busy = ShopFolder;

constexpr std::uint64_t kWriters = 4;
constexpr std::uint64_t kAppends = 150;  // each of two entries
constexpr int kBackups = 5;

void write_visit(Store& store, std::uint64_t writer) {
    for (std::uint64_t n = 0; n < kAppends; ++n) {
        const std::uint64_t first = 0x10000 * writer + 2 * n;
        const auto stored = store.append(id(writer), std::vector{entry(first), entry(first + 1)},
                                         card_of("Ostrel Heron", fmt::format("player {}", n)));
        ASSERT_TRUE(stored) << stored.error().message;
        const std::string photo = fmt::format("photo {}", n / 2);  // some of them from every writer at once
        ASSERT_TRUE(n % 10 != 0 || store.add_medium(photo, "image/jpeg", "2026-11-25T09:00:00Z"));
    }
}

// Whole appends only, in order, and never fewer than before.
void read_visits(const Store& store, const std::atomic<bool>& writing) {
    std::vector<std::size_t> before(kWriters + 1, 0);
    do {
        for (std::uint64_t writer = 1; writer <= kWriters; ++writer) {
            const auto entries = store.entries(id(writer));
            ASSERT_TRUE(entries) << entries.error().message;
            ASSERT_EQ(entries->size() % 2, 0u);
            ASSERT_GE(entries->size(), before[writer]);
            before[writer] = entries->size();
        }
        const auto found = store.find_visits("heron vell", 100);
        ASSERT_TRUE(found) << found.error().message;
        ASSERT_EQ(found->total, std::int64_t(kWriters));
    } while (writing);
}

TEST_F(Busy, EverybodyAtOnce) {
    Store store = opened();
    ASSERT_TRUE(store.add_dossier(heron(100)));
    for (std::uint64_t writer = 1; writer <= kWriters; ++writer) {
        ASSERT_TRUE(store.add_visit(visit_to(id(100), writer), {}));
    }
    std::atomic<bool> writing = true;
    std::vector<std::thread> readers;
    for (int n = 0; n < 2; ++n) readers.emplace_back([&] { read_visits(store, writing); });
    std::thread copier([&] {
        for (int n = 0; n < kBackups; ++n) {
            const auto done = store.backup(folder_ / fmt::format("copy {}", n), go_on);
            EXPECT_TRUE(done) << done.error().message;
        }
    });
    std::vector<std::thread> writers;
    for (std::uint64_t writer = 1; writer <= kWriters; ++writer) {
        writers.emplace_back([&store, writer] { write_visit(store, writer); });
    }
    for (std::thread& writer : writers) writer.join();
    copier.join();
    writing = false;
    for (std::thread& reader : readers) reader.join();

    EXPECT_EQ(faults(store), "");
    for (std::uint64_t writer = 1; writer <= kWriters; ++writer) {
        const auto entries = store.entries(id(writer));
        ASSERT_EQ(entries->size(), 2 * kAppends);
        for (std::size_t n = 0; n < entries->size(); ++n) EXPECT_EQ((*entries)[n].id, id(0x10000 * writer + n));
        EXPECT_EQ(store.visit(id(writer))->seq, entries->back().seq);
    }
    for (int n = 0; n < kBackups; ++n) {
        const Store copy = open_at(folder_ / fmt::format("copy {}", n));
        EXPECT_EQ(faults(copy), "");
        for (std::uint64_t writer = 1; writer <= kWriters; ++writer) {
            EXPECT_EQ(copy.entries(id(writer))->size() % 2, 0u);
        }
    }
}

// The time is printed, not judged: it depends on the machine.
TEST_F(Busy, TenThousandVisitsAreSearched) {
    constexpr std::uint64_t kVisits = 10'000;
    Store store = opened();
    for (std::uint64_t n = 0; n < kVisits; ++n) {
        ASSERT_TRUE(store.add_dossier(heron(n)));
        Visit visit = visit_to(id(n), n);
        visit.card = card_of(n % 10 == 0 ? "Vannick Dray" : "Ostrel Heron", fmt::format("Spieler Ä{:05}", n));
        if (n % 3 == 0) visit.closed = "2026-11-26T17:00:00+01:00";
        ASSERT_TRUE(store.add_visit(visit, {}));
    }
    const auto search = [&](std::string_view query) {
        ASSERT_TRUE(store.find_visits(query, 50));  // prepares the statements
        const auto begin = std::chrono::steady_clock::now();
        const auto found = store.find_visits(query, 50);
        const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - begin;
        std::printf("\"%s\": %lld of %llu visits in %.1f ms\n", std::string(query).c_str(),
                    (long long)found->total, (unsigned long long)kVisits, took.count());
    };
    search("");
    search("heron ruta");
    search("spieler ä0420");
    search("nowhere");
    EXPECT_EQ(store.find_visits("", 50)->total, std::int64_t(kVisits));
    EXPECT_EQ(store.find_visits("dray vell", 50)->total, std::int64_t(kVisits / 10));
    EXPECT_EQ(store.find_visits("SPIELER Ä0420", 50)->total, 10);
    EXPECT_EQ(store.find_visits("ä04200 oh-0001", 50)->visits.front().id, id(4200));
    EXPECT_EQ(store.find_dossiers("oh-4200", 50)->front().id, id(4200));
}

}  // namespace
}  // namespace fallaway::store
