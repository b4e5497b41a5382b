#include "shop/serve/page_files.h"

#include <gtest/gtest.h>

#include "shop/files/digest.h"
#include "shop/net/answer.h"

namespace fallaway::serve {
namespace {

const std::string kScript(5000, 'x');

PageFiles small_page() {
    return PageFiles({{"index.html", "<!doctype html><title>Fallaway</title>"},
                      {"assets/main-3fk2.js", kScript},
                      {"assets/face-77ab.woff2", "wOF2"},
                      {"manifest.webmanifest", "{}"}});
}

TEST(PageFilesTest, filesComeWithTypeTagAndGzip) {
    const net::Response script = small_page().answer({"assets", "main-3fk2.js"});
    EXPECT_EQ(script.status, 200);
    EXPECT_EQ(script.type, "text/javascript");
    EXPECT_EQ(script.body, kScript);
    EXPECT_EQ(script.gzip, net::gzip(kScript));
    EXPECT_EQ(script.etag, files::sha256_hex(kScript).substr(0, 32));
    EXPECT_TRUE(script.cache_for_ever);
    EXPECT_EQ(small_page().answer({"assets", "face-77ab.woff2"}).type, "font/woff2");
    EXPECT_EQ(small_page().answer({"manifest.webmanifest"}).type, "application/manifest+json");
}

TEST(PageFilesTest, everyPathOfThePageGivesTheIndex) {
    const PageFiles page = small_page();
    const net::Response index = page.answer({});
    EXPECT_EQ(index.type, "text/html");
    EXPECT_FALSE(index.cache_for_ever);
    EXPECT_EQ(page.answer({"visits", "0123456789abcdef", "action-12"}).body, index.body);
    EXPECT_EQ(page.answer({"pair"}).body, index.body);
}

// The page must not get the index where it asked for a script: a browser would keep it.
TEST(PageFilesTest, whatNamesAFileThatIsNotThereIs404) {
    EXPECT_EQ(small_page().answer({"assets", "main-0000.js"}).status, 404);
    EXPECT_EQ(small_page().answer({"favicon.ico"}).status, 404);
    EXPECT_EQ(small_page().answer({"assets"}).status, 404);
}

TEST(PageFilesTest, withoutFilesItTellsHowToBuildThem) {
    const net::Response answer = PageFiles({}).answer({});
    EXPECT_EQ(answer.status, 200);
    EXPECT_EQ(answer.type, "text/html");
    EXPECT_NE(answer.body.find("./dev setup web"), std::string::npos);
}

}  // namespace
}  // namespace fallaway::serve
