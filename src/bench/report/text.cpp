// The report as plain text: the verdict first, then what it rests on.
#include <fmt/format.h>

#include "bench/report/intonation_rows.h"
#include "bench/report/outline.h"
#include "bench/report/report.h"
#include "bench/report/text_layout.h"
#include "bench/report/words.h"

namespace fallaway::report {
namespace {

using judgement::Assessment;

class TextReport {
public:
    TextReport(const Sheet& sheet, bool colour)
        : sheet_(sheet), assessment_(sheet.assessment), layout_{.colour = colour} {}

    std::string write() {
        title();
        verdict();
        complaints();
        findings();
        neck();
        claims();
        card();
        changes();
        price();
        intonation();
        strings();
        assumed();
        list("Not looked at", assessment_.not_looked_at);
        list("Not judged", assessment_.not_judged);
        next_readings();
        list("Take care", assessment_.cautions);
        remarks();
        foot();
        return std::move(out_);
    }

private:
    void say(std::string_view first, std::string_view text) { out_ += hanging(first, text, layout_.width); }

    void heading(std::string_view words) {
        out_ += fmt::format("\n{}\n", inked(words, Ink::bold, layout_.colour));
    }

    // The unit stands at the head of the column.
    static std::string bare_mm(const metrology::Uncertain& length) {
        const FigureParts parts = parts_of(model::in_mm(length));
        return fmt::format("{} {}", parts.value, parts.u);
    }

    void neck() {
        const auto& neck = assessment_.neck;
        if (!neck || neck->readings == 0) return;
        heading(fmt::format("The neck, from {}", counted(std::size_t(neck->readings), "reading")));
        std::vector<Row> rows = {
            {{"string"}, {"slot, mm"}, {"over fret 1"}, {"over 12"}, {"over the last"}, {"least room"}}};
        for (const model::StringSurvey& string : neck->strings) {
            const std::string held =
                string.least_held == 0 ? "open" : fmt::format("held at {}", string.least_held);
            rows.push_back({{fmt::format("{}", string.string)},
                            {bare_mm(string.slot)},
                            {bare_mm(string.over_first)},
                            {bare_mm(string.over_twelfth)},
                            {bare_mm(string.over_last)},
                            {fmt::format("{}, {}, over {}", bare_mm(string.least), held, string.least_over)}});
        }
        out_ += aligned(std::move(rows), 2, {6, 15, 15, 15, 15, 0}, layout_);
        say("  ", fmt::format("Relief {}, deepest over fret {}; fallaway {}", model::in_mm(neck->relief).text,
                              neck->relief_at, model::in_mm(neck->fallaway).text));
    }

    void intonation() {
        const auto& intonation = assessment_.intonation;
        if (!intonation) return;
        heading("Intonation");
        std::vector<Row> rows = {{{"string"}, {"read, cents"}, {"12 after"}, {"saddle"}, {"screw"}, {""}}};
        for (const IntonationRow& row : rows_of(*intonation)) {
            rows.push_back({{row.string}, {row.read}, {row.after}, {row.saddle}, {row.screw}, {row.note}});
        }
        out_ += aligned(std::move(rows), 2, {6, 20, 12, 24, 11, 0}, layout_);
        say("  ", fmt::format("Saddle screw: {}.", screw_words(*intonation)));
        const std::string caution = intonation_caution(*intonation);
        if (!caution.empty()) say("  ", caution);
    }

    void strings() {
        const auto& fitted = assessment_.strings;
        if (fitted.strings.empty()) return;
        heading("Strings");
        std::vector<Row> rows = {{{"string"}, {"note"}, {"gauge"}, {"kind"}, {"pull"}, {"of its strength"}}};
        for (const StringRow& row : rows_of(fitted)) {
            rows.push_back({{row.string}, {row.note}, {row.gauge}, {row.kind}, {row.pull}, {row.strength}});
        }
        out_ += aligned(std::move(rows), 2, {6, 6, 20, 22, 14, 0}, layout_);
        for (const std::string& line : pull_words(fitted)) say("  ", line);
    }

    void list(std::string_view words, const std::vector<std::string>& lines) {
        if (lines.empty()) return;
        heading(words);
        for (const std::string& line : lines) say("  ", capital(line));
    }

    void title() {
        if (sheet_.bench.demo) out_ += fmt::format("{}\n", kDemoMark);
        for (const std::string& line : wrap(instrument_name(sheet_.bench.instrument), layout_.width)) {
            out_ += inked(line, Ink::bold, layout_.colour) + '\n';
        }
        const std::string facts = instrument_facts(sheet_.bench.instrument);
        if (!facts.empty()) say("", facts);
        std::vector<Row> rows;
        for (const TitleCell& cell : title_cells(sheet_)) rows.push_back({{cell.label}, {cell.value}});
        out_ += aligned(std::move(rows), 2, {20, 0}, layout_);
    }

    void verdict() {
        const bool ready = assessment_.verdict == judgement::Verdict::ready;
        out_ += fmt::format(
            "\n{}\n", inked(capital(name_of(assessment_.verdict)), ready ? Ink::bold : Ink::red, layout_.colour));
        for (const std::string& reason : assessment_.reasons) say("  ", capital(reason));
    }

    void complaints() {
        if (assessment_.complaints.empty()) return;
        heading("What the player says");
        for (const judgement::ComplaintLine& line : assessment_.complaints) {
            const bool placed = line.at != evidence::Place{};
            const std::string place = placed ? fmt::format(" ({})", describe(line.at)) : "";
            say("  ", fmt::format("“{}”{}: {}", line.text, place, complaint_ending(line)));
            for (const std::string& sentence : line.evidence) say("      ", sentence);
            if (!line.remark.empty()) say("      ", line.remark);
        }
    }

    void findings() {
        if (assessment_.findings.empty()) return;
        heading("Findings");
        for (const evidence::Severity severity : kSeverities) {
            const std::vector<FindingGroup> groups = grouped(assessment_.findings, severity);
            if (groups.empty()) continue;
            out_ += fmt::format("  {}\n", inked(severity_heading(severity), Ink::bold, layout_.colour));
            for (const FindingGroup& group : groups) finding(group);
        }
        say("  ", std::string(kPlusMinus));
        say("  ", "A limit whose source is not named is common practice.");
    }

    void finding(const FindingGroup& group) {
        const judgement::Finding& first = group.first();
        const std::string limit = limit_words(group);
        const Ink ink = breaks_its_limit(first.standing) ? Ink::red : Ink::normal;
        out_ += aligned(
            {{{group.place}, {group.title}, {found_words(group), ink}, {limit.empty() ? "" : "limit " + limit}}},
            4, {16, 27, 26, 0}, layout_, true);
        const std::string standing = standing_words(first.standing);
        if (first.p_conform && group.members.size() == 1) {
            say("        ", fmt::format("{}; within the limit: {}", standing, chance(*first.p_conform)));
        }
        if (!first.why.empty()) say("        ", first.why);
        if (!first.remedy.empty()) say("        What mends it: ", first.remedy);
        if (first.accepted) {
            say("        ", (first.acceptance_lapsed ? "no longer accepted, the value has changed: " : "") +
                                acceptance_words(*first.accepted));
        }
        if (!first.limit_source.empty() && !first.limit_source.starts_with("common practice")) {
            say("        ", "limit from: " + first.limit_source);
        }
        std::vector<std::string> ids;
        for (const judgement::Finding* member : group.members) ids.push_back(member->id);
        say("        ", "id: " + join(ids, ", "));
        if (!first.remark.empty()) say("        ", first.remark);
    }

    void claims() {
        if (assessment_.claims.empty()) return;
        heading("Promised and found");
        std::vector<Row> rows;
        for (const judgement::ClaimLine& claim : assessment_.claims) {
            const bool bad = claim.outcome == judgement::ClaimOutcome::contradicted;
            const std::string source = claim.source.empty() ? "" : fmt::format(", {}", claim.source);
            std::string outcome(name_of(claim.outcome));
            if (claim.outcome == judgement::ClaimOutcome::not_established && !claim.advice.empty()) {
                outcome += ": " + claim.advice;
            }
            const bool placed = claim.at != evidence::Place{};
            rows.push_back({{capital(claim.name) + (placed ? ", " + describe(claim.at) : "")},
                            {claim.promised + source},
                            {claim.found.text.empty() ? "nothing read" : claim.found.text},
                            {outcome, bad ? Ink::red : Ink::normal}});
        }
        out_ += aligned(std::move(rows), 2, {20, 26, 22, 0}, layout_);
    }

    void card() {
        if (assessment_.card.empty()) return;
        heading(sheet_.bench.card ? fmt::format("The card of {}", sheet_.bench.card->by)
                                  : "Another inspector's card");
        std::vector<Row> rows;
        for (const judgement::CardResult& line : assessment_.card) {
            rows.push_back({{line.title},
                            {"theirs " + line.theirs},
                            {line.ours.empty() ? "" : "ours " + line.ours},
                            {std::string(name_of(line.outcome))}});
        }
        out_ += aligned(std::move(rows), 2, {34, 24, 22, 0}, layout_);
    }

    void changes() {
        if (assessment_.changes.empty()) return;
        heading("Before and after");
        for (const judgement::Change& change : assessment_.changes) {
            say("  ", fmt::format("{}: {}", change.title, change.text));
            if (!change.unit) continue;
            std::vector<Row> rows;
            for (const auto& [place, values] : change.pairs) {
                rows.push_back({{capital(describe(place))},
                                {fmt::format("{} to {}", value_in(values.first, *change.unit),
                                             format_quantity(values.second, *change.unit, 2))}});
            }
            out_ += aligned(std::move(rows), 6, {24, 0}, layout_);
        }
    }

    static std::string value_in(double si, const Unit& unit) {
        const std::string full = format_quantity(si, unit, 2);
        return full.substr(0, full.size() - unit.symbol.size() - 1);
    }

    void price() {
        if (!assessment_.price) return;
        heading("Price");
        const judgement::PriceResult& price = *assessment_.price;
        std::vector<Row> rows{{{"Asked"}, {price.asked}},
                              {{"Like instruments sold"}, {price.range}},
                              {{"With repairs"}, {price.with_repairs}},
                              {{"Stands"}, {price.words}},
                              {{"Sources"}, {join(price.sources, "; ")}}};
        std::erase_if(rows, [](const Row& row) { return row[1].text.empty(); });
        if (!rows.empty()) out_ += aligned(std::move(rows), 2, {24, 0}, layout_);
    }

    void assumed() {
        if (assessment_.assumed.empty()) return;
        heading("Assumed, not measured");
        for (const AssumptionGroup& group : grouped(assessment_.assumed)) {
            std::vector<Row> rows;
            for (const TitleCell& cell : group.taken) rows.push_back({{cell.label}, {"[" + cell.value + "]"}});
            if (!group.unknown.empty()) rows.push_back({{"Not known"}, {list_of(group.unknown)}});
            say("  ", capital(group.because) + ":");
            out_ += aligned(std::move(rows), 4, {24, 0}, layout_);
        }
    }

    void next_readings() {
        if (assessment_.next.empty()) return;
        heading("Next readings, the most telling first");
        std::vector<Row> rows;
        for (const judgement::NextReading& next : assessment_.next) {
            const std::string needs = next.needs.empty() ? "" : fmt::format(" ({})", list_of(next.needs));
            rows.push_back({{minutes_text(next.minutes)}, {next.what + needs}, {next.why}});
        }
        out_ += aligned(std::move(rows), 2, {8, 52, 0}, layout_);
    }

    void remarks() {
        std::vector<std::string> lines;
        for (const evidence::Remark& remark : sheet_.bench.remarks) {
            const bool placed = remark.at != evidence::Place{};
            const std::string place = placed ? capital(describe(remark.at)) + ": " : "";
            lines.push_back(place + remark.text + (remark.by ? fmt::format(" ({})", *remark.by) : ""));
        }
        list("Remarks", lines);
    }

    void foot() {
        out_ += '\n';
        if (!assessment_.procedure.empty()) say("", fmt::format("Procedure {}", assessment_.procedure));
        say("", fmt::format("Fallaway {}", sheet_.version));
    }

    const Sheet& sheet_;
    const Assessment& assessment_;
    Layout layout_;
    std::string out_;
};

}  // namespace

std::string text_report(const Sheet& sheet, bool colour) {
    return TextReport(sheet, colour).write();
}

}  // namespace fallaway::report
