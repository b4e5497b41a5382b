#include <gtest/gtest.h>

#include "bench/report/markup.h"
#include "report_fixture.h"

namespace fallaway::report {
namespace {

constexpr std::string_view kNasty = "</style><script>alert('1')</script> & \"odd\" \x1b[31m\xff";

TEST(HtmlReport, ClosesEveryTagAndHasOneHeadingOfTheFirstRank) {
    const std::string page = html_report(small_visit().sheet());
    EXPECT_EQ(tag_fault(page), "");
    EXPECT_EQ(count_of(page, "<h1"), 1u);
    EXPECT_EQ(count_of(page, "<main"), 1u);
    EXPECT_NE(page.find("<html lang=\"en\">"), std::string::npos);
}

TEST(TagChecker, SeesFaults) {
    EXPECT_NE(tag_fault("<p><b></p></b>"), "");
    EXPECT_NE(tag_fault("<p>"), "");
    EXPECT_NE(tag_fault("</p>"), "");
    EXPECT_EQ(tag_fault("<!doctype html><p><br></p>"), "");
}

TEST(HtmlReport, AsksForNothingAndRunsNothing) {
    const std::string page = html_report(small_visit().sheet());
    for (const std::string_view forbidden :
         {"<script", "http:", "https:", "src=", "@import", "<link", "javascript:"}) {
        EXPECT_EQ(page.find(forbidden), std::string::npos) << forbidden;
    }
    EXPECT_EQ(page.find("url("), std::string::npos);
}

TEST(HtmlReport, ListsPhotosByPathAndWhatIsSeen) {
    Visit visit = small_visit();
    EXPECT_EQ(html_report(visit.sheet()).find("Photos"), std::string::npos);
    visit.bench.photos.emplace_back();
    visit.bench.photos[0].path = "media/horn.jpg";
    visit.bench.photos[0].what = "chip in the finish";
    visit.bench.photos[0].at.string = 2;
    visit.bench.photos[0].by = "Ruta Vell";
    EXPECT_NE(html_report(visit.sheet()).find("<li>media/horn.jpg, chip in the finish, string 2, Ruta Vell</li>"),
              std::string::npos);
}

TEST(HtmlReport, EscapesWhatPeopleTyped) {
    Visit visit = small_visit();
    const std::string nasty(kNasty);
    visit.bench.instrument.model = nasty;
    visit.bench.wants->player = nasty;
    visit.bench.remarks = {{nasty, {}, nasty, {}}};
    visit.bench.photos.emplace_back();
    visit.bench.photos[0].path = nasty;
    visit.bench.photos[0].what = nasty;
    visit.bench.job.emplace();
    visit.bench.job->shop = nasty;
    visit.assessment.reasons = {nasty};
    visit.assessment.complaints[0].text = nasty;
    visit.assessment.findings[0].title = nasty;
    visit.assessment.answers[0].lines[0].found = in_words(nasty);
    visit.assessment.claims[0].promised = nasty;
    const std::string page = html_report(visit.sheet());
    EXPECT_EQ(tag_fault(page), "");
    EXPECT_EQ(page.find("<script"), std::string::npos);
    EXPECT_EQ(count_of(page, "</style>"), 1u);
    EXPECT_EQ(page.find('\x1b'), std::string::npos);
    EXPECT_EQ(page.find('\xff'), std::string::npos);
    EXPECT_NE(page.find("&lt;script&gt;alert(&#39;1&#39;)&lt;/script&gt; &amp; &quot;odd&quot;"),
              std::string::npos);
}

TEST(HtmlReport, MarksADemoOnScreenAndPaper) {
    Visit visit = small_visit();
    constexpr std::string_view kMark = "Demo: invented instrument and values";
    const std::string page = html_report(visit.sheet());
    EXPECT_EQ(count_of(page, kMark), 2u);                                      // top and end of the page
    EXPECT_NE(page.find("Demo\\3a  invented instrument"), std::string::npos);  // foot of every sheet of paper
    visit.bench.demo = false;
    EXPECT_EQ(count_of(html_report(visit.sheet()), "Demo"), 0u);
}

TEST(HtmlReport, LeavesOutWhatThereIsNothingToSayAbout) {
    Visit visit;
    visit.assessment.scope = "quick look";
    const std::string page = html_report(visit.sheet());
    EXPECT_EQ(tag_fault(page), "");
    EXPECT_EQ(count_of(page, "<h2"), 1u) << "only the verdict";
    EXPECT_NE(page.find("Cannot tell yet"), std::string::npos);
    EXPECT_NE(page.find("Electric guitar, six strings"), std::string::npos);
    EXPECT_EQ(page.find("<svg"), std::string::npos);
    EXPECT_EQ(page.find("<table"), std::string::npos);
}

TEST(HtmlReport, PutsVerdictAndWhatWasMissedBeforeEverythingElse) {
    const std::string page = html_report(small_visit().sheet());
    const auto verdict = page.find("Set up first</h2>");
    const auto missed = page.find("Not looked at</h2>");
    const auto player = page.find("What the player says</h2>");
    ASSERT_NE(verdict, std::string::npos);
    EXPECT_LT(verdict, missed);
    EXPECT_LT(missed, player);
}

TEST(HtmlReport, TellsStringsOfOneFindingInOneRow) {
    const std::string page = html_report(small_visit().sheet());
    EXPECT_NE(page.find("<p>Strings 5, 6</p>"), std::string::npos);
    EXPECT_EQ(count_of(page, "Saddle down, then read."), 1u);
}

TEST(Markup, TypesetsNumbersAndLeavesNamesAlone) {
    EXPECT_EQ(typeset("-3 cents"), "−3 cents");
    EXPECT_EQ(typeset("from -3 to (-4)"), "from −3 to (−4)");
    EXPECT_EQ(typeset("1.95 ± 0.04 mm"), "1.95 ±0.04 mm");
    EXPECT_EQ(typeset("1.95 +/- 0.04 mm"), "1.95 ±0.04 mm");
    EXPECT_EQ(typeset("OH-0412, 10-46, set-up"), "OH-0412, 10-46, set-up");
}

TEST(Markup, DropsWhatDisturbsAPage) {
    EXPECT_EQ(plain("a\nb\x07"
                    "c"),
              "a bc");
    EXPECT_EQ(plain("a\u202Eb"), "ab");
    EXPECT_EQ(plain("\xC0\x80"), "\uFFFD\uFFFD");  // an overlong NUL
    EXPECT_EQ(css_string("a\"b\\</"), "a\\22 b\\5c \\3c \\2f ");
}

}  // namespace
}  // namespace fallaway::report
