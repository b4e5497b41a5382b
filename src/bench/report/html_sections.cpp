#include "bench/report/html_sections.h"

#include <algorithm>

#include <fmt/format.h>

#include "bench/report/figures.h"
#include "bench/report/outline.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

constexpr std::string_view kCommonPractice = "common practice, no source";

Markup paragraph(const std::string& words, const std::string& style = "") {
    return words.empty() ? Markup{} : tag("p", {{"class", style}}, text(words));
}

Markup facts(const std::vector<TitleCell>& cells) {
    Markup out;
    for (const TitleCell& cell : cells) {
        if (!cell.value.empty()) out += tag("div", tag("dt", text(cell.label)) + tag("dd", text(cell.value)));
    }
    return out.empty() ? out : tag("dl", {{"class", "facts"}}, out);
}

std::string finding_state(const judgement::Finding& finding) {
    if (finding.accepted) return "taken";
    return breaks_its_limit(finding.standing) ? "over" : "";
}

bool one_limit(const FindingGroup& group) {
    return std::ranges::all_of(group.members, [&](const auto* f) { return f->limit == group.first().limit; });
}

Markup found_cell(const FindingGroup& group) {
    Markup out;
    for (const judgement::Finding* member : group.members) {
        if (member->found.text.empty()) continue;
        Markup line = reading(member->found, finding_state(*member), mark_within(group, *member));
        if (!one_limit(group) && !member->limit.empty()) {
            line += tag("span", {{"class", "u"}}, text("limit " + member->limit));
        }
        out += tag("p", line);
    }
    const judgement::Finding& first = group.first();
    if (first.accepted) out += paragraph(acceptance_words(*first.accepted), "quiet");
    if (first.acceptance_lapsed) out += paragraph("no longer accepted: the value has changed", "quiet");
    return out;
}

Markup limit_cell(const FindingGroup& group) {
    const judgement::Finding& first = group.first();
    Markup out;
    if (one_limit(group)) out += paragraph(first.limit);
    if (!first.limit.empty() || first.p_conform) out += paragraph(standing_words(first.standing), "quiet");
    if (first.p_conform && group.members.size() == 1) {
        out += paragraph(fmt::format("within the limit: {}", chance(*first.p_conform)), "quiet");
    }
    return out + paragraph(first.limit_source == kCommonPractice ? "" : first.limit_source, "quiet");
}

Markup finding_row_text(const FindingGroup& group) {
    const judgement::Finding& first = group.first();
    Markup out = paragraph(first.why);
    if (!first.remedy.empty()) {
        const Markup tick = tag("span", {{"class", "tick"}, {"aria-hidden", "true"}}, {});
        out += tag("p", tick + tag("strong", text(first.remedy)));
    }
    return out + paragraph(first.remark, "quiet");
}

Markup outcome(std::string_view words, bool against) {
    return tag("span", {{"class", against ? "outcome against" : "outcome"}}, text(words));
}

Markup promised_cell(const judgement::ClaimLine& claim) {
    const std::string from = claim.source.empty() ? "" : fmt::format("{}", claim.source);
    const std::string within = claim.tolerance.empty() ? "" : fmt::format("within {}", claim.tolerance);
    return paragraph(claim.promised) +
           paragraph(join({from, within}, from.empty() || within.empty() ? "" : ", "), "quiet");
}

Markup complaint_row(const judgement::ComplaintLine& complaint) {
    Markup said = tag("blockquote", text(fmt::format("“{}”", complaint.text)));
    if (complaint.at != evidence::Place{}) said += paragraph(capital(describe(complaint.at)), "quiet");
    return said;
}

Markup complaint_answer(const judgement::ComplaintLine& complaint) {
    Markup out = tag("p", outcome(capital(complaint_ending(complaint)), complaint.ending && !complaint.shown));
    for (const std::string& sentence : complaint.evidence) out += paragraph(sentence);
    return out + paragraph(complaint.remark, "quiet");
}

Markup work_table(const std::vector<evidence::Work>& work) {
    std::vector<TableRow> rows;
    for (const evidence::Work& w : work) {
        const std::string place = w.at == evidence::Place{} ? "" : capital(describe(w.at));
        const std::string when = w.when ? readable_moment(*w.when) : "";
        rows.push_back({{text(capital(w.what)), text(place), text(w.amount.value_or("")), text(w.by.value_or("")),
                         text(when), text(w.remark.value_or(""))}});
    }
    return render({"Work done",
                   {{"Work done", 3}, {"Place", 3}, {"How much", 3}, {"By", 2}, {"When", 4}, {"Remark", 4}},
                   std::move(rows)});
}

}  // namespace

Markup section(const std::string& id, const std::string& heading, const Markup& inside) {
    if (inside.empty()) return {};
    const std::string heading_id = id + "-heading";
    return tag("section", {{"class", "part"}, {"id", id}, {"aria-labelledby", heading_id}},
               tag("h2", {{"id", heading_id}}, text(heading)) + inside) +
           Markup{"\n"};
}

Markup reading(const judgement::Figure& figure, const std::string& state, const std::string& mark) {
    const FigureParts parts = parts_of(figure);
    Markup inside;
    if (!mark.empty()) inside += tag("span", {{"class", "s"}}, text(mark)) + Markup{" "};
    const std::string value = state == "guess" ? fmt::format("[{}]", parts.value) : parts.value;
    inside += tag("span", {{"class", figure.unit ? "v" : "v words"}}, text(value));
    const std::string beside = join({parts.u, parts.unit}, parts.u.empty() || parts.unit.empty() ? "" : " ");
    if (!beside.empty()) inside += Markup{" "} + tag("span", {{"class", "u"}}, text(beside));
    return tag("span", {{"class", state.empty() ? "reading" : "reading " + state}}, inside) + Markup{" "};
}

Markup complaints_section(const Sheet& sheet) {
    std::vector<TableRow> rows;
    for (const judgement::ComplaintLine& complaint : sheet.assessment.complaints) {
        rows.push_back({{complaint_row(complaint), complaint_answer(complaint)}});
    }
    Markup inside;
    if (!rows.empty()) {
        inside +=
            render({"Complaints and how they ended", {{"Said", 2}, {"What came of it", 3}}, std::move(rows)});
    }
    const std::vector<TitleCell> wished = wishes(sheet.bench);
    if (!wished.empty()) inside += tag("h3", text("Wishes")) + facts(wished);
    return section("player", "What the player says", inside);
}

Markup findings_section(const Sheet& sheet) {
    Markup inside;
    for (const evidence::Severity severity : kSeverities) {
        std::vector<TableRow> rows;
        for (const FindingGroup& group : grouped(sheet.assessment.findings, severity)) {
            const Markup what = paragraph(group.place) + tag("p", {{"class", "quiet"}}, text(group.title));
            rows.push_back({{what, found_cell(group), limit_cell(group), finding_row_text(group)}});
        }
        if (rows.empty()) continue;
        const std::string heading = severity_heading(severity);
        inside += tag("h3", text(heading));
        inside += render({heading + " findings",
                          {{"Where and what", 5}, {"Found", 5}, {"Limit", 5, "named"}, {"Why, and what to do", 9}},
                          std::move(rows),
                          true});
    }
    if (!inside.empty())
        inside +=
            paragraph("A limit with no source beside it is common practice. " + std::string(kPlusMinus), "lede");
    return section("findings", "Findings", inside);
}

Markup claims_section(const Sheet& sheet) {
    std::vector<TableRow> rows;
    for (const judgement::ClaimLine& claim : sheet.assessment.claims) {
        const bool placed = claim.at != evidence::Place{};
        const Markup name = paragraph(capital(claim.name)) + paragraph(placed ? describe(claim.at) : "", "quiet");
        const Markup found = claim.found.text.empty()
                                 ? paragraph("nothing read", "quiet")
                                 : paragraph(claim.found.text) + paragraph(claim.how, "quiet");
        Markup said =
            tag("p", outcome(name_of(claim.outcome), claim.outcome == judgement::ClaimOutcome::contradicted));
        if (claim.p_conform) said += paragraph(fmt::format("as promised: {}", chance(*claim.p_conform)), "quiet");
        said += paragraph(claim.advice, "quiet");
        rows.push_back({{name, promised_cell(claim), found, said}});
    }
    if (rows.empty()) return {};
    return section("claims", "Promised and found",
                   render({"Claims, promised and found",
                           {{"Claim", 4}, {"Promised", 5, "named"}, {"Found", 5, "named"}, {"Outcome", 6}},
                           std::move(rows)}));
}

Markup card_section(const Sheet& sheet) {
    std::vector<TableRow> rows;
    for (const judgement::CardResult& line : sheet.assessment.card) {
        const bool differs = line.outcome == judgement::CardOutcome::differs;
        rows.push_back(
            {{text(line.title), text(line.theirs), text(line.ours), outcome(name_of(line.outcome), differs)}});
    }
    if (rows.empty()) return {};
    const auto& card = sheet.bench.card;
    std::string heading = "Another inspector's card";
    if (card)
        heading = fmt::format("The card of {}{}", card->by, card->date ? ", " + readable_day(*card->date) : "");
    return section("card", heading,
                   render({heading,
                           {{"Line", 6}, {"Theirs", 4, "named"}, {"Ours", 4, "named"}, {"Outcome", 4}},
                           std::move(rows)}));
}

Markup changes_section(const Sheet& sheet) {
    Markup inside;
    if (!sheet.bench.work.empty()) inside += work_table(sheet.bench.work);
    std::size_t number = 0;
    for (const judgement::Change& change : sheet.assessment.changes) {
        inside += tag("h3", text(change.title)) + paragraph(capital(change.text), "lede");
        if (const auto figure = change_figure(change, ++number)) inside += svg::figure(*figure);
    }
    return section("changes", sheet.assessment.changes.empty() ? "Work done" : "Before and after", inside);
}

Markup price_section(const Sheet& sheet) {
    if (!sheet.assessment.price) return {};
    const judgement::PriceResult& price = *sheet.assessment.price;
    return section("price", "Price",
                   facts({{"Asked", price.asked},
                          {"Like instruments sold for", price.range},
                          {"With repairs", price.with_repairs},
                          {"Stands", price.words},
                          {"From", join(price.sources, "; ")}}));
}

}  // namespace fallaway::report
