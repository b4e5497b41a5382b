// Shops with damage at random places: never a crash, and an entry is either as it was written or found to be
// wrong.
#include <cstdio>

#include "science/numeric/random.h"
#include "shop/files/file_io.h"
#include "shop_fixture.h"

namespace fallaway::store {
namespace {

constexpr std::uint64_t kSeed = 20261125;
constexpr int kSpoiled = 400;
constexpr std::size_t kPage = 4096;

using Spoiled = ShopFolder;

std::size_t below(numeric::Random& random, std::size_t n) {
    return std::size_t(random.uniform() * double(n));
}

// One letter, a run of noise, a page of noise, a page of nothing, or two pages exchanged.
std::string spoil(std::string bytes, numeric::Random& random) {
    const std::size_t page = kPage * below(random, bytes.size() / kPage);
    const std::size_t at = below(random, bytes.size() - 64);
    switch (below(random, 5)) {
        case 0:
            bytes[at] = char(bytes[at] ^ char(1 << below(random, 8)));
            break;
        case 1:
            for (std::size_t i = 0; i < 64; ++i) bytes[at + i] = char(random.next());
            break;
        case 2:
            for (std::size_t i = 0; i < kPage; ++i) bytes[page + i] = char(random.next());
            break;
        case 3:
            bytes.replace(page, kPage, kPage, '\0');
            break;
        case 4: {
            const std::size_t other = kPage * below(random, bytes.size() / kPage);
            const std::string held = bytes.substr(page, kPage);
            bytes.replace(page, kPage, bytes.substr(other, kPage));
            bytes.replace(other, kPage, held);
            break;
        }
    }
    return bytes;
}

// Every way into the store; what they answer is of no interest, only that they do.
void use(Store& store) {
    (void)store.find_visits("heron", 10);
    (void)store.find_dossiers("heron", 10);
    (void)store.people();
    (void)store.devices();
    (void)store.append(id(2), std::vector{entry(0x7777)}, card_of("x", "y"));
    (void)store.put_person({"Pell Audry", true, "", ""});
}

TEST_F(Spoiled, AreDamagedOrWhole) {
    std::vector<EntryRow> written;
    {
        Store store = begun();
        ASSERT_TRUE(store.put_person({"Ruta Vell", true, "", ""}));
        for (std::uint64_t n = 0; n < 60; ++n) {
            ASSERT_TRUE(
                store.append(id(2), std::vector{entry(0x100 + n, std::string(500, char('a' + n % 26)))}, {}));
        }
        written = *store.entries(id(2));
    }
    const std::string whole = *files::read_file(shop() / "shop.sqlite");
    numeric::Random random(kSeed);
    int refused = 0;
    int found = 0;
    int harmless = 0;
    for (int n = 0; n < kSpoiled; ++n) {
        const std::string bytes = spoil(whole, random);
        if (bytes == whole) continue;
        const fs::path place = folder_ / fmt::format("{}", n);
        fs::create_directories(place);
        ASSERT_TRUE(files::write_file(place / "shop.sqlite", bytes));
        auto store = Store::open(place, Access::write);
        if (!store) {
            EXPECT_TRUE(code(store) == "damaged" || code(store) == "newer") << n << ": " << store.error().message;
            ++refused;
        } else {
            const auto faults = store->check(go_on);
            ASSERT_TRUE(faults) << n << ": " << faults.error().code << ", " << faults.error().message;
            const auto entries = store->entries(id(2));
            if (!faults->empty()) {
                ++found;
            } else {
                EXPECT_EQ(entries, written) << n << ": changed and nobody saw";
                ++harmless;
            }
            use(*store);
        }
        fs::remove_all(place);
    }
    std::printf("seed %llu: %d spoiled shops: %d refused, %d faults found, %d without effect on an entry\n",
                (unsigned long long)kSeed, kSpoiled, refused, found, harmless);
    EXPECT_GT(refused, 0);  // opening reads a few pages only, so most damage is left to the check
    EXPECT_GT(found, kSpoiled / 4);
}

}  // namespace
}  // namespace fallaway::store
