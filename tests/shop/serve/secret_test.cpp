// The shop's own authority on the disk.
#include "shop/serve/secret.h"

#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace fallaway::serve {
namespace {

namespace fs = std::filesystem;
constexpr std::int64_t kToday = 20'785;  // 2026-11-28
const std::vector<std::string> kHere = {"192.168.7.20"};
const std::vector<std::string> kElsewhere = {"192.168.7.21"};

class SecretTest : public testing::Test {
protected:
    SecretTest() : folder_(fs::temp_directory_path() / ("fallaway_secret_" + std::to_string(::getpid()))) {
        fs::create_directories(folder_);
    }
    ~SecretTest() override { fs::remove_all(folder_); }

    Papers papers(const std::vector<std::string>& hosts, std::int64_t day) {
        const auto got = papers_of(folder_, "Vell's bench", hosts, day);
        EXPECT_TRUE(got) << (got ? "" : got.error().message);
        return got.value_or(Papers{});
    }
    fs::perms mode(const char* name) { return fs::status(folder_ / "secret" / name).permissions(); }

    fs::path folder_;
};

TEST_F(SecretTest, isReadableByItsOwnerAlone) {
    papers(kHere, kToday);
    const auto owner_file = fs::perms::owner_read | fs::perms::owner_write;
    EXPECT_EQ(fs::status(folder_ / "secret").permissions(), fs::perms::owner_all);
    EXPECT_EQ(mode("authority.pem"), owner_file);
    EXPECT_EQ(mode("leaf.pem"), owner_file);
}

TEST_F(SecretTest, staysTheSameWhileItIsGood) {
    const Papers first = papers(kHere, kToday);
    const Papers second = papers(kHere, kToday + 10);
    EXPECT_EQ(first.authority.pem, second.authority.pem);
    EXPECT_EQ(first.authority.key_pem, second.authority.key_pem);
    EXPECT_EQ(first.leaf.pem, second.leaf.pem);
}

TEST_F(SecretTest, renewsTheLeafForAnotherAddressAndBeforeItsEnd) {
    const Papers first = papers(kHere, kToday);
    const Papers moved = papers(kElsewhere, kToday);
    EXPECT_EQ(first.authority.pem, moved.authority.pem);
    EXPECT_NE(first.leaf.pem, moved.leaf.pem);
    EXPECT_TRUE(net::still_good(moved.leaf, moved.authority, kElsewhere, kToday));
    const Papers later = papers(kElsewhere, kToday + 80);
    EXPECT_NE(later.leaf.pem, moved.leaf.pem);
    EXPECT_EQ(later.authority.pem, moved.authority.pem);
}

TEST_F(SecretTest, aSpoiledAuthorityIsNotReplacedUnasked) {
    papers(kHere, kToday);
    std::ofstream(folder_ / "secret" / "authority.pem") << "nothing";
    const auto got = papers_of(folder_, "", kHere, kToday);
    ASSERT_FALSE(got);
    EXPECT_EQ(got.error().code, "damaged");
}

}  // namespace
}  // namespace fallaway::serve
