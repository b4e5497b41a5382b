#include "shop/files/bench_codec.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "bench/evidence/observable.h"
#include "bench/evidence/validation.h"
#include "shop/files/bench_tables.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/catalogue_tables.h"

namespace fallaway::files {
namespace {

using namespace wire;
using evidence::Bench;
using evidence::Hands;

constexpr int kFormat = 1;

Field<Bench> format_field() {
    return {"fallaway",
            "version of the format",
            true,
            "1",
            "",
            [](const Json& value, const Spot& spot, Bench& bench) {
                bench.format = kFormat;
                if (value.kind == Json::Kind::number && value.text == "1") return true;
                spot.refuse("version", value, "a format that this program does not read, expected 1");
                return false;
            },
            [](const Bench& bench) { return std::optional(Json::of(bench.format)); },
            [](Definitions&) {
                return Json::record({{"const", Json::of(kFormat)}});
            }};
}

Field<Bench> instrument_field() {
    const auto codec = instrument_codec();
    return {"instrument",
            "the instrument",
            true,
            codec.says,
            "",
            [codec](const Json& value, const Spot& spot, Bench& bench) {
                BenchSession& session = BenchSession::of(spot);
                session.instrument_is_good = codec.decode(value, spot, bench.instrument);
                session.instrument = &bench.instrument;
                return session.instrument_is_good;
            },
            [codec](const Bench& bench) { return std::optional(codec.encode(bench.instrument)); },
            codec.schema};
}

// Limits further down are held against the procedure that travels with the visit.
Field<Bench> procedure_field() {
    const auto codec = procedure_codec();
    return {"procedure",
            "its text as this visit was taken under; the built-in one when left out",
            false,
            codec.says,
            "",
            [codec](const Json& value, const Spot& spot, Bench& bench) {
                const bool good = codec.decode(value, spot, bench.procedure.emplace());
                BenchSession::of(spot).procedure = good ? &*bench.procedure : nullptr;
                return good;
            },
            [codec](const Bench& bench) {
                return bench.procedure ? std::optional(codec.encode(*bench.procedure)) : std::nullopt;
            },
            codec.schema};
}

// A file of another version is not held against this one's tables.
std::vector<Error> of_one_version(std::vector<Error> faults) {
    const auto other = std::ranges::find(faults, "version", &Error::code);
    return other == faults.end() ? faults : std::vector<Error>{*other};
}

Record<Bench> make_bench_record() {
    using B = Bench;
    Record<B> record("bench", "The file as a whole");
    record.add(format_field())
        .defaulted("demo", "true: invented values, marked so on every page", &B::demo, boolean())
        .optional("job", "whose it is and why it is here", &B::job, job_codec())
        .add(instrument_field())
        .optional("wants", "what the player wishes", &B::wants, wants_codec())
        .defaulted(
            "hands", "what hands may do", &B::hands,
            choice<Hands>({{"look only", Hands::look_only}, {"adjust", Hands::adjust}, {"work", Hands::work}}))
        .defaulted("scope", "what the verdict rests on", &B::scope, scope_codec())
        .add(procedure_field())
        .defaulted("claims", "what was promised", &B::claims, list_of(claim_codec()))
        .defaulted("tools", "the tools in use", &B::tools, list_of(tool_used_codec()))
        .defaulted("room", "the air in the work room", &B::room, one_or_many(room_state_codec()))
        .defaulted("readings", "what was measured", &B::readings, list_of(reading_codec()))
        .defaulted("ratings", "what was judged", &B::ratings, list_of(rating_codec()))
        .defaulted("recordings", "sound files", &B::recordings, list_of(recording_codec()))
        .defaulted("photos", "photos", &B::photos, list_of(photo_codec()))
        .defaulted("work", "work done so far", &B::work, list_of(work_codec()))
        .defaulted("accepted", "findings taken as they are", &B::accepted, list_of(acceptance_codec()))
        .optional("card", "another inspector's card", &B::card, card_codec())
        .optional("price", "what it costs", &B::price, price_codec())
        .defaulted("limits", "the shop's own limits", &B::limits, list_of(limit_override_codec()))
        .defaulted("remarks", "anything else", &B::remarks, list_of(remark_codec()));
    return record;
}

const Record<Bench>& bench_record() {
    static const Record<Bench> kRecord = make_bench_record();
    return kRecord;
}

std::string observable_page() {
    std::string out =
        "### observables\n\nThe closed list of what a reading can be about.\n\n"
        "| what | meaning | value | place: needed | place: allowed |\n|---|---|---|---|---|\n";
    for (const auto& observable : evidence::observables()) {
        const std::string value = observable.words.empty()
                                      ? fmt::format("\"{}\"", example_of(observable.dimension))
                                      : says_words(observable.words);
        out += fmt::format("| {} | {} | {} | {} | {} |\n", observable.name, observable.says, value,
                           fmt::join(place_words(observable.needs), ", "),
                           fmt::join(place_words(observable.allows), ", "));
    }
    return out;
}

}  // namespace

std::vector<std::string> place_words(unsigned parts) {
    static constexpr std::pair<unsigned, std::string_view> kNames[] = {
        {evidence::kString, "string"},   {evidence::kFret, "fret"},     {evidence::kSide, "side"},
        {evidence::kSwitch, "switch"},   {evidence::kPickup, "pickup"}, {evidence::kControl, "control"},
        {evidence::kPressed, "pressed"}, {evidence::kCapo, "capo"},     {evidence::kSpot, "spot"}};
    std::vector<std::string> words;
    for (const auto& [bit, word] : kNames) {
        if ((parts & bit) != 0) words.emplace_back(word);
    }
    return words;
}

ResultAll<Bench> decode_bench(const Json& file, const evidence::Catalogue& catalogue) {
    BenchSession session(catalogue);
    Bench bench;
    bench_record().decode(file, Spot(session), bench);
    if (!session.faults().empty()) return tl::unexpected(of_one_version(session.take_faults()));
    auto faults = bench.procedure ? evidence::validate(bench, evidence::catalogue_of(bench, catalogue))
                                  : evidence::validate(bench, catalogue);
    if (faults.size() > kMostFaults) faults.resize(kMostFaults);
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    return bench;
}

ResultAll<Bench> decode_bench(std::string_view text, const evidence::Catalogue& catalogue) {
    const auto file = read_json(text);
    if (!file) return tl::unexpected(std::vector<Error>{file.error()});
    return decode_bench(*file, catalogue);
}

ResultAll<Bench> decode_bench(std::string_view text) {
    return decode_bench(text, built_in_catalogue());
}

Json bench_json(const Bench& bench) {
    return bench_record().encode(bench);
}

std::string encode_bench(const Bench& bench) {
    return write_json(bench_json(bench));
}

Definitions bench_definitions() {
    Definitions definitions;
    bench_record().schema(definitions);
    return definitions;
}

std::string bench_schema() {
    return write_json(Json::record({{"$schema", Json::of("https://json-schema.org/draft/2020-12/schema")},
                                    {"title", Json::of("Fallaway bench file, format 1")},
                                    {"$ref", Json::of("#/$defs/" + bench_record().name())},
                                    {"$defs", schemas_of(bench_definitions())}}));
}

std::string bench_documentation() {
    return pages_of(bench_definitions()) + observable_page();
}

}  // namespace fallaway::files
