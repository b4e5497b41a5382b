// The table of routes and docs/api.md say the same; errors have their statuses.
#include <fstream>
#include <regex>
#include <set>

#include <gtest/gtest.h>

#include "shop/serve/route.h"
#include "shop/serve/status.h"

namespace fallaway::serve {
namespace {

// Lines such as "| `GET /api/visits?q=` | ...".
std::set<std::string> documented_routes() {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/docs/api.md");
    const std::regex row(R"(^\| `(GET|POST|PUT|DELETE) ([^`?]+)(\?[^`]*)?`)");
    std::set<std::string> found;
    for (std::string line; std::getline(file, line);) {
        std::smatch match;
        if (std::regex_search(line, match, row)) found.insert(match[1].str() + " " + match[2].str());
    }
    return found;
}

TEST(RoutesTest, areThoseOfTheDocument) {
    std::set<std::string> listed;
    for (const Route& route : routes()) {
        EXPECT_TRUE(listed.insert(std::string(route.method) + " " + std::string(route.pattern)).second)
            << route.pattern << " stands twice";
    }
    EXPECT_EQ(listed, documented_routes());
}

TEST(RoutesTest, onlyPairingIsOpenToStrangers) {
    for (const Route& route : routes()) {
        EXPECT_EQ(route.door == Door::anyone, route.pattern == "/api/pair") << route.pattern;
    }
}

TEST(RoutesTest, statusesAreThoseOfTheDocument) {
    std::ifstream file(FALLAWAY_SOURCE_DIR "/docs/api.md");
    const std::regex row(R"(^\| (\d{3}) \| (`[^|]+) \|)");
    const std::regex word(R"(`([^`]+)`)");
    int met = 0;
    for (std::string line; std::getline(file, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, row)) continue;
        const std::string codes = match[2];
        for (std::sregex_iterator it(codes.begin(), codes.end(), word), end; it != end; ++it, ++met) {
            EXPECT_EQ(status_of((*it)[1].str()), std::stoi(match[1])) << (*it)[1];
        }
    }
    EXPECT_GE(met, 15);
}

}  // namespace
}  // namespace fallaway::serve
