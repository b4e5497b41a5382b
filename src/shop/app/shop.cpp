#include "shop/app/shop.h"

#include <algorithm>
#include <set>
#include <sstream>

#include <fmt/format.h>

#include "bench/evidence/validation.h"
#include "shop/app/shop_inside.h"
#include "shop/app/visit_view.h"
#include "shop/files/catalogue_codec.h"
#include "shop/files/digest.h"
#include "shop/files/embedded.h"
#include "shop/files/moment_text.h"

namespace fallaway::app {
namespace {

constexpr std::string_view kLimitPrefix = "limit ";
constexpr std::string_view kProcedureFile = "data/procedures/inspection.json";

template <class T, class Wire, class Make>
std::vector<Wire> all_of(const Result<std::vector<T>>& rows, Make make) {
    std::vector<Wire> out;
    if (!rows) return out;
    for (const T& row : *rows) out.push_back(make(row));
    return out;
}

// Does every word of the query begin a word of the name, or stand inside one? Plain letters in either case.
bool holds_words(std::string_view name, std::string_view query) {
    const auto lower = [](std::string_view text) {
        std::string out(text);
        for (char& c : out) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        return out;
    };
    const std::string in = lower(name);
    std::istringstream words(lower(query));
    for (std::string word; words >> word;) {
        if (in.find(word) == std::string::npos) return false;
    }
    return true;
}

Error missing(std::string_view field, std::string_view expected) {
    return {"missing", "/" + std::string(field), fmt::format("missing, expected {}", expected)};
}

}  // namespace

std::string id_from(std::string_view text) {
    return files::sha256_hex(text).substr(0, 16);
}

Shop::Shop(std::unique_ptr<Inside> inside) : inside_(std::move(inside)) {}
Shop::~Shop() = default;

Result<std::unique_ptr<Shop>> Shop::open(const std::filesystem::path& folder, store::Access access, bool create,
                                         std::string version, World world) {
    auto store = store::Store::open(folder, access, create);
    if (!store) return tl::unexpected(store.error());
    const std::string procedure(files::embedded(kProcedureFile).value_or(""));
    const std::string hash = files::sha256_hex(procedure);
    if (access == store::Access::write) {
        if (const auto kept = store->keep_procedure(hash, procedure); !kept) return tl::unexpected(kept.error());
    }
    auto inside = std::make_unique<Inside>(std::move(*store), access, std::move(version), std::move(world), hash);
    return std::unique_ptr<Shop>(new Shop(std::move(inside)));
}

void Shop::on_change(std::function<void(const std::string&)> told) {
    inside_->told = std::move(told);
}

store::Store& Shop::store() {
    return inside_->store;
}

const evidence::Catalogue& Shop::catalogue() const {
    return *inside_->catalogue;
}

files::api::Shop Shop::shop() const {
    const auto& store = inside_->store;
    files::api::Shop shop;
    shop.version = inside_->version;
    if (const auto name = store.setting("name"); name && *name) shop.name = **name;
    if (const auto demo = store.setting("demo"); demo && *demo) shop.demo = **demo == "yes";
    shop.today = inside_->world.today();
    shop.people = all_of<store::Person, files::api::Person>(store.people(), [](const store::Person& p) {
        return files::api::Person{p.name, p.technician, p.contact, p.remark};
    });
    shop.tools = all_of<store::ShopTool, files::api::Tool>(store.tools(), [](const store::ShopTool& t) {
        return files::api::Tool{t.id,     t.kind,   t.calibrated, t.due, t.certificate_u, t.certificate_k,
                                t.remark, t.retired};
    });
    shop.rates = all_of<store::Rate, files::api::Rate>(store.rates(), [](const store::Rate& r) {
        return files::api::Rate{r.work, r.amount, r.remark};
    });
    if (const auto overrides = store.overrides()) {
        for (const auto& item : *overrides) {
            if (!item.name.starts_with(kLimitPrefix)) continue;
            if (auto limit = files::api::decode_limit(item.body)) shop.limits.push_back(std::move(*limit));
        }
    }
    return shop;
}

ResultAll<void> Shop::put_person(const files::api::Person& person) {
    if (person.name.empty()) return tl::unexpected(one(missing("name", "a name")));
    const auto put = inside_->store.put_person({person.name, person.technician, person.contact, person.remark});
    if (!put) return tl::unexpected(one(put.error()));
    inside_->tell("");
    return {};
}

ResultAll<void> Shop::put_tool(const files::api::Tool& tool) {
    const auto& kinds = inside_->catalogue->tools;
    const auto named = [&](const std::string& id) {
        return std::ranges::any_of(kinds, [&](const auto& kind) { return kind.id == id; });
    };
    std::vector<Error> errors;
    if (tool.id.empty()) errors.push_back(missing("id", "what the tool is called, such as \"blue caliper\""));
    if (!named(tool.kind)) {
        errors.push_back(
            {"unknown", "/kind", fmt::format("\"{}\": no kind of tool that is known here", tool.kind)});
    }
    if (named(tool.id) && tool.id != tool.kind) {
        errors.push_back({"conflict", "/id", fmt::format("\"{}\": is the name of a kind of tool", tool.id)});
    }
    for (const auto& [key, day] : {std::pair("/calibrated", &tool.calibrated), std::pair("/due", &tool.due)}) {
        if (day->empty()) continue;
        if (auto parsed = files::parse_day(*day); !parsed) {
            errors.push_back(std::move(parsed.error()));
            errors.back().path = key;
        }
    }
    if (!errors.empty()) return tl::unexpected(std::move(errors));
    const auto put = inside_->store.put_tool({tool.id, tool.kind, tool.calibrated, tool.due, tool.certificate_u,
                                              tool.certificate_k, tool.remark, tool.retired});
    if (!put) return tl::unexpected(one(put.error()));
    inside_->tell("");
    return {};
}

ResultAll<void> Shop::put_rate(const files::api::Rate& rate) {
    if (rate.work.empty()) return tl::unexpected(one(missing("work", "a kind of work, such as \"set-up\"")));
    const auto put = inside_->store.put_rate({rate.work, rate.amount, rate.remark});
    if (!put) return tl::unexpected(one(put.error()));
    inside_->tell("");
    return {};
}

Result<void> Shop::drop_rate(std::string_view work) {
    auto dropped = inside_->store.drop_rate(work);
    if (dropped) inside_->tell("");
    return dropped;
}

ResultAll<void> Shop::put_limit(const evidence::LimitOverride& limit) {
    // Held against an instrument of no particular kind: what is wrong with it would be wrong in every visit.
    evidence::Bench probe;
    probe.limits = {limit};
    auto errors = evidence::validate(probe, *inside_->catalogue);
    for (Error& error : errors) {
        if (error.path.starts_with("/limits/0")) error.path.erase(0, std::string_view("/limits/0").size());
    }
    if (!errors.empty()) return tl::unexpected(std::move(errors));
    const auto put = inside_->store.put_override(
        {std::string(kLimitPrefix) + limit.checkpoint, files::api::encode_limit(limit)});
    if (!put) return tl::unexpected(one(put.error()));
    inside_->tell("");
    return {};
}

Result<void> Shop::drop_limit(std::string_view checkpoint) {
    auto dropped = inside_->store.drop_override(std::string(kLimitPrefix) + std::string(checkpoint));
    if (dropped) inside_->tell("");
    return dropped;
}

Result<void> Shop::put_name(std::string_view name) {
    auto put = inside_->store.put_setting("name", name);
    if (put) inside_->tell("");
    return put;
}

Result<files::api::Visits> Shop::find_visits(std::string_view query, int limit, int offset) const {
    const auto found = inside_->store.find_visits(query, limit, offset);
    if (!found) return tl::unexpected(found.error());
    files::api::Visits visits{inside_->world.today(), {}, found->total};
    for (const store::Visit& visit : found->visits) visits.visits.push_back(line_of(visit));
    return visits;
}

Result<files::api::Names> Shop::find_names(std::string_view query) const {
    constexpr int kSome = 8;  // that a person can take in at a glance
    constexpr int kLookThrough = 200;
    files::api::Names names;
    const auto dossiers = inside_->store.find_dossiers(query, kSome);
    if (!dossiers) return tl::unexpected(dossiers.error());
    for (const store::Dossier& dossier : *dossiers) {
        files::api::KnownInstrument known{dossier.id, dossier.title, dossier.serial, dossier.kind, dossier.owner,
                                          0,          std::nullopt};
        if (const auto visits = inside_->store.visits_of(dossier.id)) {
            known.visits = static_cast<int>(visits->size());
            if (!visits->empty()) known.last = {visits->front().id, visits->front().opened.substr(0, 10)};
        }
        names.dossiers.push_back(std::move(known));
    }
    const auto visits = inside_->store.find_visits(query, kLookThrough);
    const auto people = inside_->store.people();
    if (!visits) return tl::unexpected(visits.error());
    if (!people) return tl::unexpected(people.error());
    std::set<std::string> met;
    const auto offer = [&](const std::string& player) {
        if (player.empty() || names.players.size() >= kSome || !met.insert(player).second) return;
        const auto wants = inside_->wants_of(player);
        names.players.push_back({player, wants ? wants_line(*wants) : ""});
    };
    for (const store::Visit& visit : visits->visits) offer(visit.card.player);
    for (const store::Person& person : *people) {
        if (!person.technician && holds_words(person.name, query)) offer(person.name);
    }
    return names;
}

}  // namespace fallaway::app
