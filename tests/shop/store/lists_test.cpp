// Names, lists, settings, devices and media of a shop.
#include <fstream>

#include "shop/files/digest.h"
#include "shop/files/file_io.h"
#include "shop_fixture.h"

namespace fallaway::store {
namespace {

using Lists = ShopFolder;
using Media = ShopFolder;

TEST_F(Lists, ComeBackAsTheyWereWritten) {
    const Person ruta{"Ruta Vell", true, "012 345", "mornings"};
    const Person joon{"Joon Aster", false, "", ""};
    const ShopTool caliper{"blue caliper", "caliper", "2026-01-10", "2027-01-10", "0.02 mm", 2, "", false};
    const ShopTool gauge{"old gauge", "feeler gauge", "", "", "", 1.73, "worn", true};
    const Rate hour{"hour at the bench", "60 EUR", ""};
    const Override limit{"limit action-12", R"({"high":"1.9 mm"})"};
    {
        Store store = opened();
        ASSERT_TRUE(store.put_person({"Ruta Vell", false, "", ""}));
        ASSERT_TRUE(store.put_person(ruta));
        ASSERT_TRUE(store.put_person(joon));
        ASSERT_TRUE(store.put_tool(gauge));
        ASSERT_TRUE(store.put_tool(caliper));
        ASSERT_TRUE(store.put_rate(hour));
        ASSERT_TRUE(store.put_override(limit));
        ASSERT_TRUE(store.put_setting("name", "Bench"));
        ASSERT_TRUE(store.put_setting("name", "The Bench"));
        ASSERT_TRUE(store.keep_procedure("aa", "{}"));
    }
    Store store = opened();
    EXPECT_EQ(store.people(), (std::vector{joon, ruta}));
    EXPECT_EQ(store.tools(), (std::vector{caliper, gauge}));
    EXPECT_EQ(store.rates(), std::vector{hour});
    EXPECT_EQ(store.overrides(), std::vector{limit});
    EXPECT_EQ(store.setting("name").value(), "The Bench");
    EXPECT_EQ(store.setting("address").value(), std::nullopt);
    EXPECT_EQ(store.procedure("aa"), "{}");
    EXPECT_EQ(faults(store), "");
}

TEST_F(Lists, WhatIsTakenOutIsGone) {
    Store store = opened();
    ASSERT_TRUE(store.put_rate({"set-up", "90 EUR", ""}));
    ASSERT_TRUE(store.put_override({"procedure", "{}"}));
    EXPECT_TRUE(store.drop_rate("set-up"));
    EXPECT_TRUE(store.drop_override("procedure"));
    EXPECT_TRUE(store.rates()->empty());
    EXPECT_TRUE(store.overrides()->empty());
    EXPECT_EQ(code(store.drop_rate("set-up")), "missing");
    EXPECT_EQ(code(store.drop_override("procedure")), "missing");
}

TEST_F(Lists, AProcedureStaysWhatItIs) {
    Store store = opened();
    ASSERT_TRUE(store.keep_procedure("aa", "{}"));
    EXPECT_TRUE(store.keep_procedure("aa", "{}"));
    EXPECT_EQ(code(store.keep_procedure("aa", "[]")), "conflict");
    EXPECT_EQ(store.procedure("aa"), "{}");
    EXPECT_EQ(code(store.procedure("bb")), "missing");
}

TEST_F(Lists, ATokenLetsOneDeviceIn) {
    Store store = opened();
    const Device here{id(1), "this machine", "", "2026-11-25T09:00:00Z", "2026-11-25T00:00:00Z", false};
    Device tablet{id(2), "bench tablet", std::string(64, 'a'), "2026-11-25T09:01:00Z", "2026-11-25T00:00:00Z",
                  false};
    ASSERT_TRUE(store.put_device(here));
    ASSERT_TRUE(store.put_device(tablet));
    EXPECT_EQ(store.devices(), (std::vector{here, tablet}));
    EXPECT_EQ(store.device_of_token(tablet.token_hash).value(), tablet);
    EXPECT_EQ(store.device_of_token("").value(), std::nullopt);  // no token, no device
    EXPECT_EQ(store.device_of_token("b").value(), std::nullopt);
    Device other = tablet;
    other.id = id(3);
    EXPECT_EQ(code(store.put_device(other)), "conflict");
    tablet.revoked = true;
    ASSERT_TRUE(store.put_device(tablet));
    EXPECT_EQ(store.device_of_token(tablet.token_hash).value(), std::nullopt);
    EXPECT_EQ(store.devices()->size(), 2u);
}

TEST_F(Media, AreKeptByTheirBytes) {
    Store store = opened();
    const std::string bytes("\x89PNG\0\r\n", 7);
    const std::string hash = files::sha256_hex(bytes);
    const Medium expected{hash, "image/png", 7, "2026-11-25T09:00:00Z"};
    EXPECT_EQ(store.add_medium(bytes, "image/png", "2026-11-25T09:00:00Z"), expected);
    EXPECT_EQ(store.add_medium(bytes, "image/png", "2026-11-25T10:00:00Z"), expected);  // the same once more
    EXPECT_EQ(store.medium(hash), expected);
    EXPECT_EQ(store.medium_bytes(hash), bytes);
    EXPECT_EQ(*files::read_file(shop() / "media" / hash.substr(0, 2) / (hash + ".png")), bytes);
    EXPECT_EQ(code(store.add_medium(bytes, "image/jpeg", "2026-11-25T09:00:00Z")), "conflict");
    EXPECT_EQ(code(store.medium(std::string(64, '0'))), "missing");
    EXPECT_EQ(code(store.medium_bytes("../../shop.sqlite")), "missing");
    EXPECT_EQ(faults(store), "");
}

TEST_F(Media, OfKindsThatAreKept) {
    Store store = opened();
    const char* const kinds[][2] = {{"image/jpeg", ".jpg"}, {"image/png", ".png"},   {"image/webp", ".webp"},
                                    {"audio/wav", ".wav"},  {"audio/flac", ".flac"}, {"audio/ogg", ".ogg"}};
    for (const auto& [type, ending] : kinds) {
        EXPECT_EQ(ending_of(type), ending);
        EXPECT_TRUE(store.add_medium(type, type, "2026-11-25T09:00:00Z")) << type;
    }
    for (const char* type : {"", "text/html", "image/svg+xml", "image/jpeg; charset=x", "IMAGE/PNG"}) {
        EXPECT_EQ(code(store.add_medium("x", type, "2026-11-25T09:00:00Z")), "type") << type;
    }
    EXPECT_EQ(code(store.add_medium("", "image/png", "2026-11-25T09:00:00Z")), "size");
    EXPECT_EQ(code(store.add_medium(std::string(kLargestMedium + 1, 'x'), "image/png", "2026-11-25T09:00:00Z")),
              "size");
    EXPECT_EQ(faults(store), "");
}

TEST_F(Media, TheCheckSeesWhatIsWrong) {
    Store store = opened();
    const auto spoiled = store.add_medium("one", "image/png", "2026-11-25T09:00:00Z");
    const auto lost = store.add_medium("two", "audio/wav", "2026-11-25T09:00:00Z");
    ASSERT_TRUE(spoiled && lost);
    const auto file = [&](const Medium& medium) {
        return shop() / "media" / medium.hash.substr(0, 2) / (medium.hash + std::string(ending_of(medium.type)));
    };
    std::ofstream(file(*spoiled)) << "eno";
    fs::remove(file(*lost));
    const auto found = store.check(go_on);
    ASSERT_TRUE(found);
    ASSERT_EQ(found->size(), 2u);
    EXPECT_NE(faults(store).find(spoiled->hash), std::string::npos);
    EXPECT_NE(faults(store).find(lost->hash), std::string::npos);
    // The photo sent again mends it.
    EXPECT_TRUE(store.add_medium("two", "audio/wav", "2026-11-26T09:00:00Z"));
    EXPECT_EQ(store.check(go_on)->size(), 1u);
}

}  // namespace
}  // namespace fallaway::store
