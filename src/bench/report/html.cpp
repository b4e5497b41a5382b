// The page: title block, verdict, figures, sections, and the foot.
#include <fmt/format.h>

#include "bench/report/figures.h"
#include "bench/report/html_sections.h"
#include "bench/report/outline.h"
#include "bench/report/report.h"
#include "bench/report/style.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

constexpr std::size_t kNotLookedAtBeside = 7;  // more than this many are listed further down

Markup head(const Sheet& sheet) {
    const std::string name = describe(sheet.bench.instrument);
    const std::string title = fmt::format("{}: {}", name, name_of(sheet.assessment.verdict));
    std::string foot = name;
    if (sheet.bench.wants && sheet.bench.wants->player) foot += ", " + *sheet.bench.wants->player;
    if (sheet.bench.demo) foot += fmt::format(". {}", kDemoMark);
    return tag("head",
               void_tag("meta", {{"charset", "utf-8"}}) +
                   void_tag("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}}) +
                   void_tag("meta", {{"name", "color-scheme"}, {"content", "light dark"}}) +
                   tag("title", text(title)) + tag("style", Markup{style_sheet(foot)}));
}

Markup title_block(const Sheet& sheet) {
    const std::string facts = instrument_facts(sheet.bench.instrument);
    Markup name = facts.empty() ? Markup{} : tag("p", {{"class", "quiet"}}, text(facts));
    name += tag("h1", text(instrument_name(sheet.bench.instrument)));
    Markup cells;
    for (const TitleCell& cell : title_cells(sheet)) {
        cells += tag("div", tag("dt", text(cell.label)) + tag("dd", text(cell.value)));
    }
    const Markup block =
        tag("div", {{"class", "block"}}, tag("div", {{"class", "name"}}, name) + tag("dl", cells));
    const Markup demo = sheet.bench.demo ? tag("p", {{"class", "demo"}}, text(kDemoMark)) : Markup{};
    return tag("header", demo + block);
}

Markup items(const std::vector<std::string>& lines, std::size_t most) {
    Markup out;
    for (std::size_t i = 0; i < lines.size() && i < most; ++i) out += tag("li", text(capital(lines[i])));
    return out;
}

// What was not looked at stands beside the verdict, in the same size: neither is read without the other.
Markup verdict(const Sheet& sheet) {
    const judgement::Assessment& assessment = sheet.assessment;
    Markup said = tag("h2", {{"id", "verdict-heading"}}, text(capital(name_of(assessment.verdict))));
    if (!assessment.reasons.empty()) {
        said += tag("ol", items(assessment.reasons, assessment.reasons.size()));
    }
    Markup out = tag("section", {{"aria-labelledby", "verdict-heading"}}, said);
    const std::vector<std::string>& missed = assessment.not_looked_at;
    if (!missed.empty()) {
        Markup beside = tag("h2", {{"id", "missed-heading"}}, text("Not looked at"));
        beside += tag("ul", items(missed, kNotLookedAtBeside));
        if (missed.size() > kNotLookedAtBeside) {
            const std::string more = fmt::format("and {} more", missed.size() - kNotLookedAtBeside);
            beside += tag("p", tag("a", {{"href", "#missed"}}, text(more)));
        }
        out += tag("section", {{"class", "aside"}, {"aria-labelledby", "missed-heading"}}, beside);
    }
    return tag("div", {{"class", "verdict"}}, out);
}

Markup drawings(const Sheet& sheet) {
    Markup inside;
    const auto ring = ring_figure(sheet);
    const auto neck = neck_figure(sheet);
    const auto survey = survey_figure(sheet);
    if (ring) inside += section("heard", "Ring map", svg::figure(*ring));
    if (neck) inside += section("plan", "The neck from above", svg::figure(*neck));
    if (survey) {
        inside += section("survey-of-tops", "Survey of the fret tops",
                          svg::figure(*survey) + strings_over_crowns(*sheet.assessment.neck));
    }
    return inside;
}

Markup missed_in_full(const Sheet& sheet) {
    const std::vector<std::string>& missed = sheet.assessment.not_looked_at;
    return missed.size() > kNotLookedAtBeside ? list_section("missed", "Not looked at", missed) : Markup{};
}

Markup signatures() {
    return tag("div", {{"class", "sign"}},
               tag("p", text("For the shop, day")) + tag("p", text("For the owner, day")));
}

Markup foot(const Sheet& sheet) {
    std::string words = fmt::format("Fallaway {}", sheet.version);
    if (!sheet.assessment.procedure.empty()) words += fmt::format(", procedure {}", sheet.assessment.procedure);
    if (sheet.bench.demo) words += fmt::format(". {}", kDemoMark);
    return tag("footer", tag("p", text(words)));
}

}  // namespace

std::string html_report(const Sheet& sheet) {
    const Markup main = verdict(sheet) + complaints_section(sheet) + drawings(sheet) + findings_section(sheet) +
                        changes_section(sheet) + intonation_section(sheet) + strings_section(sheet) +
                        claims_section(sheet) + card_section(sheet) + price_section(sheet) + next_section(sheet) +
                        cautions_section(sheet) + missed_in_full(sheet) +
                        list_section("not-judged", "Not judged", sheet.assessment.not_judged) +
                        assumed_section(sheet) + readings_section(sheet) + remarks_section(sheet) +
                        photos_section(sheet) + signatures();
    const Markup page = tag("div", {{"class", "page"}}, title_block(sheet) + tag("main", main) + foot(sheet));
    return "<!doctype html>\n" + tag("html", {{"lang", "en"}}, head(sheet) + tag("body", page)).bytes + "\n";
}

}  // namespace fallaway::report
