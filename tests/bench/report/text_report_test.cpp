#include <cstdlib>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "bench/report/text_layout.h"
#include "bench/report/words.h"
#include "report_fixture.h"

namespace fallaway::report {
namespace {

constexpr int kWidest = 100;  // of the command line's text output

int widest_line(const std::string& report) {
    std::istringstream lines(report);
    int widest = 0;
    for (std::string line; std::getline(lines, line);) widest = std::max(widest, columns(line));
    return widest;
}

std::string golden(const std::string& name, const std::string& actual) {
    const std::string path = std::string(FALLAWAY_SOURCE_DIR) + "/tests/bench/report/golden/" + name;
    if (std::getenv("FALLAWAY_UPDATE")) std::ofstream(path) << actual;
    std::ostringstream bytes;
    bytes << std::ifstream(path).rdbuf();
    return bytes.str();
}

TEST(TextReport, SmallVisitReadsAsReviewed) {
    const std::string report = text_report(small_visit().sheet(), false);
    EXPECT_EQ(report, golden("small_visit.txt", report))
        << "FALLAWAY_UPDATE=1 writes it anew; read the difference";
}

TEST(TextReport, IsNeverWiderThanAHundredColumns) {
    Visit visit = small_visit();
    const std::string word(230, 'x');
    visit.bench.instrument.model = word;
    visit.bench.wants->player = "Ångström " + word;
    visit.assessment.reasons = {word, "日本語の長い文 " + word};
    visit.assessment.findings[0].title = word;
    visit.assessment.findings[1].found = in_words(word);
    visit.assessment.claims[0].promised = word;
    visit.assessment.complaints[0].text = word;
    visit.assessment.assumed[0].text = word;
    visit.assessment.next[0].what = word;
    visit.assessment.not_looked_at = {word};
    EXPECT_LE(widest_line(text_report(visit.sheet(), false)), kWidest);
}

TEST(TextReport, ColourTakesNoRoomAndSaysNothingAlone) {
    const Visit visit = small_visit();
    std::string coloured = text_report(visit.sheet(), true);
    EXPECT_NE(coloured.find("\x1b["), std::string::npos);
    EXPECT_EQ(coloured.find("\x1b[32m"), std::string::npos) << "there is no green";
    for (const std::string_view code : {"\x1b[1m", "\x1b[31m", "\x1b[0m"}) {
        for (auto i = coloured.find(code); i != std::string::npos; i = coloured.find(code))
            coloured.erase(i, code.size());
    }
    EXPECT_EQ(coloured, text_report(visit.sheet(), false));
}

TEST(TextReport, LetsNoForeignCodeThrough) {
    Visit visit = small_visit();
    visit.assessment.reasons = {"red \x1b[31m alarm"};
    visit.bench.instrument.model = "Heron\x1b]0;x\x07";
    EXPECT_EQ(text_report(visit.sheet(), false).find('\x1b'), std::string::npos);
}

TEST(TextReport, KindAloneGivesAVerdictAndNoEmptyHeadings) {
    Visit visit;
    visit.assessment.scope = "quick look";
    const std::string report = text_report(visit.sheet(), false);
    EXPECT_NE(report.find("\nCannot tell yet\n"), std::string::npos);
    for (const std::string_view heading : {"Findings", "Promised", "Price", "Before", "Next", "Assumed", "card"}) {
        EXPECT_EQ(report.find(heading), std::string::npos) << heading;
    }
}

TEST(Layout, WrapsWholeWordsAndCutsOnlyWhatCannotFit) {
    EXPECT_EQ(wrap("one two three", 7), (std::vector<std::string>{"one two", "three"}));
    EXPECT_EQ(wrap("abcdefgh ij", 3), (std::vector<std::string>{"abc", "def", "gh", "ij"}));
    EXPECT_EQ(wrap("", 5), (std::vector<std::string>{""}));
}

TEST(Layout, CountsColumnsNotBytes) {
    EXPECT_EQ(columns("±"), 1);
    EXPECT_EQ(columns("e\u0301"), 1);  // combining acute
    EXPECT_EQ(columns("弦"), 2);       // East Asian wide, EastAsianWidth.txt
    EXPECT_EQ(columns("\xff"), 1);
}

// Weekdays from a printed calendar; 29 Feb 2024 and 1 Jan 2000 as the corners.
TEST(Words, NamesTheDay) {
    EXPECT_EQ(readable_day("2026-11-28"), "Sat 28 Nov 2026");
    EXPECT_EQ(readable_day("2024-02-29"), "Thu 29 Feb 2024");
    EXPECT_EQ(readable_day("2000-01-01"), "Sat 1 Jan 2000");
    EXPECT_EQ(readable_day("next week"), "next week");
    EXPECT_EQ(readable_day("2026-13-01"), "2026-13-01");
    EXPECT_EQ(readable_moment({"2026-11-24T09:10:00+01:00", 0}), "Tue 24 Nov 2026, 09:10");
}

TEST(Words, ChancesAreNeverCertain) {
    EXPECT_EQ(chance(0.914), "91 in 100");
    EXPECT_EQ(chance(0.999), "over 99 in 100");
    EXPECT_EQ(chance(0), "under 1 in 100");
}

TEST(Words, TakesFiguresApart) {
    const FigureParts parts = parts_of(millimetres(1.95, 0.04));
    EXPECT_EQ(parts.value, "1.95");
    EXPECT_EQ(parts.u, "±0.04");
    EXPECT_EQ(parts.unit, "mm");
    EXPECT_EQ(parts_of(in_words("just moves")).value, "just moves");
}

}  // namespace
}  // namespace fallaway::report
