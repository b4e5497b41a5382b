// The record behind the verdict: every reading, what was taken for granted, what is still to be read.
#include <algorithm>

#include <fmt/format.h>

#include "bench/report/html_sections.h"
#include "bench/report/outline.h"
#include "bench/report/table.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

Markup paragraph(const std::string& words, const std::string& style = "") {
    return words.empty() ? Markup{} : tag("p", {{"class", style}}, text(words));
}

std::string line_state(const judgement::Line& line) {
    if (line.stale) return "old";
    if (line.disputed) return "two";
    return breaks_its_limit(line.standing) ? "over" : "";
}

std::string taken_with(const judgement::Line& line) {
    std::vector<std::string> parts;
    if (!line.tool.empty()) parts.push_back(line.tool_assumed ? fmt::format("[{}]", line.tool) : line.tool);
    if (!line.by.empty()) parts.push_back(line.by);
    parts.push_back(stage_words(line.stage));
    return capital(join(parts, ", "));
}

// Lines of one checkpoint that differ in nothing but place and value.
bool reads_alike(const judgement::Line& a, const judgement::Line& b) {
    return a.standing == b.standing && a.limit == b.limit && a.stale == b.stale && a.disputed == b.disputed &&
           taken_with(a) == taken_with(b) && a.advice == b.advice && a.remark == b.remark;
}

using LineGroup = std::vector<const judgement::Line*>;

std::vector<LineGroup> alike(const std::vector<judgement::Line>& lines) {
    std::vector<LineGroup> groups;
    for (const judgement::Line& line : lines) {
        const auto home =
            std::ranges::find_if(groups, [&](const LineGroup& g) { return reads_alike(*g.front(), line); });
        home == groups.end() ? groups.push_back({&line}) : home->push_back(&line);
    }
    return groups;
}

// The place of a line, without a fret that its question names.
std::string place_within(const std::string& question, evidence::Place at) {
    if (at.fret && question.find(fmt::format("fret {}", *at.fret)) != std::string::npos) at.fret.reset();
    return at == evidence::Place{} ? "" : describe(at);
}

Markup found_cell(const std::string& question, const LineGroup& group) {
    Markup out;
    for (const judgement::Line* line : group) {
        out += reading(line->found, line_state(*line), place_within(question, line->at));
    }
    const judgement::Line& first = *group.front();
    if (first.stale) out += paragraph(first.stale_because, "quiet");
    if (first.disputed) out += paragraph("two say different: keep which?", "quiet");
    return out + paragraph(first.advice.empty() ? "" : "Would decide it: " + first.advice, "quiet") +
           paragraph(first.remark, "quiet");
}

Markup limit_cell(const judgement::Line& line) {
    Markup out = paragraph(line.limit) + paragraph(standing_words(line.standing), "quiet");
    if (line.p_conform) out += paragraph(fmt::format("within the limit: {}", chance(*line.p_conform)), "quiet");
    return out;
}

void add_answer(const judgement::Answer& answer, std::vector<TableRow>& rows) {
    for (const LineGroup& group : alike(answer.lines)) {
        const bool first_of_answer = group.front() == &answer.lines.front();
        Markup question = paragraph(answer.question);
        if (first_of_answer) question += paragraph(answer.because, "quiet");
        rows.push_back({{question, found_cell(answer.question, group), limit_cell(*group.front()),
                         tag("span", {{"class", "quiet"}}, text(taken_with(*group.front())))}});
    }
}

std::string section_title(const Sheet& sheet, const std::string& id) {
    for (const evidence::Section& section : sheet.catalogue.procedure.sections) {
        if (section.id == id) return section.title;
    }
    return capital(id);
}

}  // namespace

Markup readings_section(const Sheet& sheet) {
    std::vector<std::string> order;
    for (const judgement::Answer& answer : sheet.assessment.answers) {
        if (!answer.lines.empty() && std::ranges::find(order, answer.section) == order.end()) {
            order.push_back(answer.section);
        }
    }
    Markup inside;
    for (const std::string& id : order) {
        std::vector<TableRow> rows;
        for (const judgement::Answer& answer : sheet.assessment.answers) {
            if (answer.section == id) add_answer(answer, rows);
        }
        const std::string title = section_title(sheet, id);
        if (!title.empty()) inside += tag("h3", text(title));
        inside += render({title.empty() ? "Readings" : title,
                          {{"Asked", 6}, {"Read", 9}, {"Limit", 4, "named"}, {"With, by, when", 5}},
                          std::move(rows),
                          true});
    }
    return section("readings", "Everything that was read", inside);
}

Markup assumed_section(const Sheet& sheet) {
    Markup inside;
    for (const AssumptionGroup& group : grouped(sheet.assessment.assumed)) {
        std::vector<TableRow> rows;
        for (const TitleCell& cell : group.taken) {
            judgement::Figure figure;
            figure.text = cell.value;
            rows.push_back({{text(cell.label), reading(figure, "guess")}});
        }
        if (!group.unknown.empty()) rows.push_back({{text("Not known"), text(list_of(group.unknown))}});
        inside += tag("h3", text(capital(group.because)));
        inside += render({"Assumed: " + group.because, {{"What", 1}, {"Taken as", 3}}, std::move(rows)});
    }
    return section("assumed", "Assumed, not measured", inside);
}

Markup next_section(const Sheet& sheet) {
    std::vector<TableRow> rows;
    for (const judgement::NextReading& next : sheet.assessment.next) {
        const std::string needs = next.needs.empty() ? "" : "Needs " + list_of(next.needs);
        const Markup tick = tag("span", {{"class", "tick"}, {"aria-hidden", "true"}}, {});
        rows.push_back({{tag("p", tick + text(next.what)) + paragraph(needs, "quiet"),
                         text(minutes_text(next.minutes)), text(capital(next.why))}});
    }
    if (rows.empty()) return {};
    return section("next", "Next readings, the most telling first",
                   render({"Next readings", {{"What", 6}, {"Takes", 1}, {"Why", 4}}, std::move(rows)}));
}

Markup remarks_section(const Sheet& sheet) {
    std::vector<TableRow> rows;
    for (const evidence::Remark& remark : sheet.bench.remarks) {
        std::vector<std::string> from;
        if (remark.by) from.push_back(*remark.by);
        if (remark.when) from.push_back(readable_moment(*remark.when));
        const bool placed = remark.at != evidence::Place{};
        rows.push_back({{text(placed ? capital(describe(remark.at)) : "Whole instrument"), text(remark.text),
                         tag("span", {{"class", "quiet"}}, text(join(from, ", ")))}});
    }
    if (rows.empty()) return {};
    return section("remarks", "Remarks",
                   render({"Remarks", {{"Where", 2}, {"Remark", 6}, {"By, when", 2}}, std::move(rows)}));
}

Markup list_section(const std::string& id, const std::string& heading, const std::vector<std::string>& lines) {
    if (lines.empty()) return {};
    Markup items;
    for (const std::string& line : lines) items += tag("li", text(line));
    return section(id, heading, tag("ul", {{"class", lines.size() > 3 ? "columns" : ""}}, items));
}

Markup photos_section(const Sheet& sheet) {
    std::vector<std::string> lines;
    for (const evidence::Photo& photo : sheet.bench.photos) {
        std::vector<std::string> words{photo.path};
        if (photo.what) words.push_back(*photo.what);
        if (photo.at != evidence::Place{}) words.push_back(describe(photo.at));
        if (photo.by) words.push_back(*photo.by);
        lines.push_back(join(words, ", "));
    }
    return list_section("photos", "Photos", lines);
}

Markup cautions_section(const Sheet& sheet) {
    if (sheet.assessment.cautions.empty()) return {};
    Markup items;
    for (const std::string& line : sheet.assessment.cautions) items += tag("li", text(line));
    return section("care", "Take care", tag("ul", {{"class", "care"}}, items));
}

}  // namespace fallaway::report
