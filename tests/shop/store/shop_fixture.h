// A shop in a folder of its own that goes with the test, and rows to put into it.
#pragma once

#include <stdlib.h>

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "shop/store/store.h"

namespace fallaway::store {

namespace fs = std::filesystem;

// In memory where the machine has such a disk: what is tested does not depend on it, and the machine is spared.
inline fs::path new_folder() {
    std::string name =
        (fs::exists("/dev/shm") ? fs::path("/dev/shm") : fs::temp_directory_path()) / "fallaway_store_XXXXXX";
    return ::mkdtemp(name.data()) == nullptr ? fs::path() : fs::path(name);
}

inline Id id(std::uint64_t n) {
    return fmt::format("{:016x}", n);
}

inline Dossier heron(std::uint64_t n = 1) {
    return {id(n),       "electric guitar",          "Ostrel Heron", fmt::format("OH-{:04}", n),
            "Ruta Vell", "2026-11-25T09:00:00+01:00"};
}

inline VisitCard card_of(std::string title, std::string player) {
    VisitCard card;
    card.title = std::move(title);
    card.serial = "OH-0001";
    card.player = std::move(player);
    card.scope = "full inspection";
    card.promised = "2026-11-28";
    card.verdict = "not ready";
    card.next = "string height at fret 12";
    card.minutes_total = 62.5;
    card.minutes_left = 41;
    card.readings = 7;
    return card;
}

inline Visit visit_to(const Id& dossier, std::uint64_t n) {
    return {id(n), dossier, "2026-11-25T09:30:00+01:00",          std::nullopt,
            "",    0,       card_of("Ostrel Heron", "Joon Aster")};
}

inline EntryRow entry(std::uint64_t n, std::string body = R"({"path":"/remarks","value":"buzz on string 6"})") {
    return {0, id(n), "", id(0xdef1ce), "2026-11-25T09:31:00+01:00", std::move(body)};
}

inline bool go_on(double) {
    return true;
}

class ShopFolder : public ::testing::Test {
protected:
    ShopFolder() : folder_(new_folder()) {}
    ~ShopFolder() override {
        std::error_code ignored;
        fs::remove_all(folder_, ignored);
    }

    fs::path shop() const { return folder_ / "shop"; }
    Store opened(Access access = Access::write) const { return open_at(shop(), access); }
    static Store open_at(const fs::path& place, Access access = Access::write) {
        auto store = Store::open(place, access, access == Access::write);
        if (!store) throw std::runtime_error(store.error().code + ": " + store.error().message);
        return std::move(*store);
    }
    // With one dossier (1), one visit (2) and its first entry (0x10).
    Store begun() const {
        Store store = opened();
        EXPECT_TRUE(store.add_dossier(heron()));
        EXPECT_TRUE(store.add_visit(visit_to(id(1), 2), std::vector{entry(0x10)}));
        return store;
    }
    // "" when the check finds nothing.
    static std::string faults(const Store& store) {
        const auto found = store.check(go_on);
        if (!found) return found.error().code + ": " + found.error().message;
        return fmt::format("{}", fmt::join(*found, "\n"));
    }

    fs::path folder_;
};

template <class T>
std::string code(const Result<T>& result) {
    return result ? "" : result.error().code;
}

}  // namespace fallaway::store
