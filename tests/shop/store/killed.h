// A program that stores entries and photos is killed at a random moment, again and again on the same shop.
// Whatever it said was stored must be there.
#pragma once

#include <poll.h>
#include <signal.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <set>

#include "child.h"
#include "science/numeric/random.h"
#include "shop/files/digest.h"
#include "shop_fixture.h"

namespace fallaway::store {

constexpr std::uint64_t kKilledSeed = 20261125;

// When a child is killed: when it has said so many things and some time more has passed.
struct Moment {
    std::size_t said = 0;
    double more = 0;  // ms
};

// Every fifth while it opens the shop, and puts right what the last one left; the others amid their work.
inline Moment random_moment(numeric::Random& random) {
    const bool opening = random.uniform() < 0.2;
    const double said = opening ? 0 : 1 + 60 * random.uniform();
    return {std::size_t(said), (opening ? 60 : 5) * random.uniform()};
}

// Says one line for each thing that is stored, until it is killed.
[[noreturn]] inline void store_until_killed(const fs::path& shop, int pipe, std::uint64_t run) {
    const auto say = [pipe](const std::string& line) {
        if (::write(pipe, line.data(), line.size()) != ssize_t(line.size())) ::_exit(2);
    };
    auto store = Store::open(shop, Access::write);
    if (!store) ::_exit(3);
    for (std::uint64_t n = 0;; n += 3) {
        const std::uint64_t first = run << 32 | n;
        const std::vector rows{entry(first), entry(first + 1), entry(first + 2, std::string(3000, 'x'))};
        if (!store->append(id(1), rows, card_of("Ostrel Heron", fmt::format("{}", n)))) ::_exit(4);
        for (const EntryRow& row : rows) say(row.id + "\n");
        const std::string photo = fmt::format("photo {} {}", run, n);
        if (n % 9 == 0) {
            if (!store->add_medium(photo, "image/jpeg", "2026-11-25T09:00:00Z")) ::_exit(5);
            say(files::sha256_hex(photo) + "\n");
        }
    }
}

// What the child said until it was killed.
inline std::string run_and_kill(const fs::path& shop, std::uint64_t run, Moment moment) {
    using Clock = std::chrono::steady_clock;
    int pipe[2];
    if (::pipe2(pipe, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
    const auto more =
        std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double, std::milli>(moment.more));
    const pid_t child = ::fork();
    if (child == 0) store_until_killed(shop, pipe[1], run);
    ::close(pipe[1]);
    std::string said;
    char chunk[4096];
    bool killed = false;
    auto end = Clock::time_point::max();
    for (;;) {
        const auto lines = std::size_t(std::count(said.begin(), said.end(), '\n'));
        if (lines >= moment.said && end == Clock::time_point::max()) end = Clock::now() + more;
        if (!killed && Clock::now() >= end) {
            ::kill(child, SIGKILL);
            killed = true;
        }
        pollfd ready{pipe[0], POLLIN, 0};
        if (::poll(&ready, 1, killed ? -1 : 0) == 0) continue;
        const ssize_t got = ::read(pipe[0], chunk, sizeof chunk);
        if (got <= 0) break;
        said.append(chunk, std::size_t(got));
    }
    ::close(pipe[0]);
    int status = 0;
    ::kill(child, SIGKILL);
    ::waitpid(child, &status, 0);
    EXPECT_TRUE(WIFSIGNALED(status)) << "the child ended by itself with " << WEXITSTATUS(status);
    return said;
}

// Kills `times` times; returns how many things were said to be stored in all.
inline std::size_t kill_again_and_again(const fs::path& shop, int times) {
    numeric::Random random(kKilledSeed);
    std::set<std::string> said;
    for (int run = 1; run <= times; ++run) {
        const Moment moment = random_moment(random);
        const std::string text = run_and_kill(shop, std::uint64_t(run), moment);
        for (std::size_t at = 0; at < text.size();) {
            const std::size_t stop = text.find('\n', at);
            if (stop == std::string::npos) break;  // cut off in the middle of a word
            said.insert(text.substr(at, stop - at));
            at = stop + 1;
        }
        const auto store = Store::open(shop, Access::write);
        EXPECT_TRUE(store) << "run " << run << ": " << store.error().message;
        if (!store) break;
        const auto entries = store->entries(id(1));
        std::set<std::string> there;
        for (const EntryRow& row : *entries) there.insert(row.id);
        EXPECT_EQ(entries->size() % 3, 0u) << "run " << run << ": half an append";
        for (const std::string& what : said) {
            const bool kept = what.size() == 16 ? there.contains(what) : store->medium(what).has_value();
            EXPECT_TRUE(kept) << "run " << run << ": lost " << what;
        }
        const auto faults = store->check(go_on);
        EXPECT_TRUE(faults && faults->empty()) << "run " << run;
    }
    std::printf("seed %llu: killed %d times, %zu entries and photos said to be stored\n",
                (unsigned long long)kKilledSeed, times, said.size());
    return said.size();
}

class Killed : public ShopFolder {
protected:
    std::size_t kill_times(int times) {
        {
            Store store = opened();
            EXPECT_TRUE(store.add_dossier(heron()));
            EXPECT_TRUE(store.add_visit(visit_to(id(1), 1), {}));
        }
        return kill_again_and_again(shop(), times);
    }
};

}  // namespace fallaway::store
