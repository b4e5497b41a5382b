// Spoiled files: the demo bench files with random damage go through the whole job. Whatever the damage, the answer
// is either a list of errors that say where and what, or an assessment whose reports can be written.
#include <chrono>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

#include "bench/judgement/judge.h"
#include "bench/report/report.h"
#include "science/numeric/random.h"
#include "shop/files/assessment_json.h"
#include "shop/files/bench_codec.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/embedded.h"

namespace fallaway {
namespace {

constexpr std::uint64_t kSeed = 20261125;
constexpr auto kTime = std::chrono::seconds(60);

std::size_t below(numeric::Random& random, std::size_t n) {
    return std::size_t(random.uniform() * double(n));
}

// One to four wounds: bytes changed, cut out, doubled or swapped with a piece from elsewhere in the file.
std::string spoil(std::string text, numeric::Random& random) {
    const std::size_t wounds = 1 + below(random, 4);
    for (std::size_t i = 0; i < wounds && text.size() > 8; ++i) {
        const std::size_t at = below(random, text.size() - 4);
        const std::size_t length = 1 + below(random, std::min<std::size_t>(40, text.size() - at - 1));
        switch (below(random, 5)) {
            case 0:
                text[at] = char(below(random, 256));
                break;
            case 1:
                text.erase(at, length);
                break;
            case 2:
                text.insert(at, text.substr(at, length));
                break;
            case 3:
                text.replace(at, length, text.substr(below(random, text.size() - length), length));
                break;
            case 4:
                text[at] = "0123456789.-+eE\"{}[],:nul"[below(random, 25)];
                break;
        }
    }
    return text;
}

TEST(SpoiledFiles, AreRefusedWithReasonsOrAssessed) {
    const auto& catalogue = files::built_in_catalogue();
    const auto end = std::chrono::steady_clock::now() + kTime;
    numeric::Random random(kSeed);
    std::size_t tried = 0;
    std::size_t refused = 0;
    while (std::chrono::steady_clock::now() < end) {
        for (const auto path : files::embedded_paths("demo/")) {
            const std::string text = spoil(std::string(*files::embedded(path)), random);
            ++tried;
            const auto bench = files::decode_bench(text, catalogue);
            if (!bench) {
                ++refused;
                ASSERT_FALSE(bench.error().empty()) << text;
                for (const Error& error : bench.error())
                    ASSERT_FALSE(error.message.empty() || error.code.empty()) << text;
                continue;
            }
            const auto assessment = judgement::assess(*bench, catalogue);
            const report::Sheet sheet{*bench, catalogue, assessment, "soak"};
            ASSERT_FALSE(report::text_report(sheet, false).empty());
            ASSERT_FALSE(report::html_report(sheet).empty());
            ASSERT_FALSE(files::assessment_json(*bench, assessment, "soak").empty());
            ASSERT_EQ(files::decode_bench(files::encode_bench(*bench), catalogue), bench) << text;
        }
    }
    std::printf("seed %llu: %zu spoiled files, %zu refused, %zu assessed\n", (unsigned long long)kSeed, tried,
                refused, tried - refused);
    EXPECT_GT(refused, 0u);
    EXPECT_GT(tried - refused, 0u);
}

}  // namespace
}  // namespace fallaway
