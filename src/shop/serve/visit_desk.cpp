// Visits, dossiers, media: what people work with.
#include <algorithm>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/app/upkeep.h"
#include "shop/files/api.h"
#include "shop/serve/request_text.h"
#include "shop/serve/route.h"

namespace fallaway::serve::visit_desk {
namespace {

constexpr std::int64_t kListPage = 200;    // lines, when nobody says how many
constexpr std::int64_t kMostLines = 1000;  // in one answer

std::string_view word(const net::Request& request, const std::string& name) {
    const auto found = request.query.find(name);
    return found == request.query.end() ? std::string_view() : found->second;
}

Result<int> number(const net::Request& request, const std::string& name, std::int64_t usual, std::int64_t most) {
    const std::string_view text = word(request, name);
    if (text.empty()) return static_cast<int>(usual);
    const auto number = whole_number(text);
    if (number && *number <= most) return static_cast<int>(*number);
    return fail("range", name, fmt::format("{}: expected a whole number, 0 to {}", quote(text), most));
}

// Nobody can take back what nobody wrote.
std::optional<net::Response> nameless(const Call& call) {
    if (!call.asker.device.empty()) return std::nullopt;
    return refuse(Error{"missing", "X-Device", "missing, expected 16 lower-case hexadecimal digits"});
}

// A result with one error or with many, as an answer.
template <class Found>
net::Response answered(const Call& call, const Found& found) {
    return found ? json(files::api::encode(*found)) : refuse(call, found.error());
}

std::string file_name(Desk& desk, const Call& call, std::string_view ending) {
    const auto row = desk.shop.store().visit(call.parts[0]);
    return app::plain_name(row ? row->card.title : "") + std::string(ending);
}

}  // namespace

net::Response list(Desk& desk, const Call& call) {
    const auto limit = number(call.request, "limit", kListPage, kMostLines);
    const auto offset = number(call.request, "offset", 0, 1'000'000'000);
    if (!limit) return refuse(limit.error());
    if (!offset) return refuse(offset.error());
    return answered(call, desk.shop.find_visits(word(call.request, "q"), *limit, *offset));
}

net::Response names(Desk& desk, const Call& call) {
    return answered(call, desk.shop.find_names(word(call.request, "q")));
}

net::Response open(Desk& desk, const Call& call) {
    if (const auto refused = nameless(call)) return *refused;
    const auto asked = files::api::decode_new_visit(call.request.body);
    if (!asked) return refuse(asked.error());
    return answered(call, desk.shop.open_visit(*asked));
}

net::Response import(Desk& desk, const Call& call) {
    if (const auto refused = nameless(call)) return *refused;
    const std::string_view id = word(call.request, "id");
    if (!id.empty() && !is_id(id)) {
        return refuse(
            Error{"syntax", "id", fmt::format("{}: expected 16 lower-case hexadecimal digits", quote(id))});
    }
    return answered(call, desk.shop.import_bench(call.request.body, id));
}

net::Response view(Desk& desk, const Call& call) {
    return answered(call, desk.shop.view(call.parts[0], call.asker.device));
}

net::Response add(Desk& desk, const Call& call) {
    if (const auto refused = nameless(call)) return *refused;
    auto asked = files::api::decode_new_entries(call.request.body);
    if (!asked) return refuse(asked.error());
    return answered(call, desk.shop.add(call.parts[0], std::move(asked->entries), call.asker.device));
}

net::Response try_out(Desk& desk, const Call& call) {
    auto asked = files::api::decode_new_entries(call.request.body);
    if (!asked) return refuse(asked.error());
    return answered(call, desk.shop.try_out(call.parts[0], std::move(asked->entries), call.asker.device));
}

net::Response undo(Desk& desk, const Call& call) {
    if (const auto refused = nameless(call)) return *refused;
    const auto asked = files::api::decode_undo(call.request.body);
    if (!asked) return refuse(asked.error());
    return answered(call, desk.shop.undo(call.parts[0], asked->id, call.asker.device));
}

net::Response close(Desk& desk, const Call& call) {
    const auto asked = files::api::decode_close(call.request.body);
    if (!asked) return refuse(asked.error());
    return answered(call, desk.shop.close(call.parts[0], asked->closed));
}

net::Response history(Desk& desk, const Call& call) {
    return answered(call, desk.shop.history(call.parts[0]));
}

net::Response bench(Desk& desk, const Call& call) {
    const auto file = desk.shop.bench_file(call.parts[0]);
    if (!file) return refuse(call, file.error());
    net::Response response = json(*file);
    response.headers = {
        {"Content-Disposition", fmt::format("attachment; filename=\"{}\"", file_name(desk, call, ".json"))}};
    return response;
}

net::Response report(Desk& desk, const Call& call) {
    const auto html = desk.shop.report(call.parts[0]);
    if (!html) return refuse(call, html.error());
    net::Response response;
    response.type = "text/html";
    response.body = *html;
    // The report is one file with its style inside, and no script: it may do less than the page, not more.
    response.headers = {
        {"Content-Security-Policy",
         "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'; "
         "frame-ancestors 'none'; sandbox allow-popups"},
        {"Content-Disposition", fmt::format("inline; filename=\"{}\"", file_name(desk, call, ".html"))}};
    return response;
}

net::Response dossier(Desk& desk, const Call& call) {
    return answered(call, desk.shop.dossier(call.parts[0]));
}

net::Response put_dossier(Desk& desk, const Call& call) {
    const auto asked = files::api::decode_owner(call.request.body);
    if (!asked) return refuse(asked.error());
    if (const auto done = desk.shop.set_owner(call.parts[0], asked->owner); !done)
        return refuse(call, done.error());
    return dossier(desk, call);
}

net::Response put_medium(Desk& desk, const Call& call) {
    const auto header = call.request.headers.find("content-type");
    std::string type = header == call.request.headers.end() ? "" : header->second;
    type = type.substr(0, type.find(';'));
    return answered(call, desk.shop.add_medium(call.request.body, type));
}

net::Response medium(Desk& desk, const Call& call) {
    auto found = desk.shop.medium(call.parts[0]);
    if (!found) return refuse(call, found.error());
    net::Response response;
    response.body = std::move(found->first);
    response.type = std::move(found->second);
    response.cache_for_ever = true;
    response.etag = call.parts[0].substr(0, call.parts[0].find('.'));
    response.headers = {{"Content-Security-Policy", "default-src 'none'; sandbox"}};
    return response;
}

}  // namespace fallaway::serve::visit_desk
