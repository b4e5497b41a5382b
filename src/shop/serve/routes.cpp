#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "science/base/quote.h"
#include "shop/files/error_json.h"
#include "shop/net/answer.h"
#include "shop/serve/request_text.h"
#include "shop/serve/route.h"
#include "shop/serve/status.h"

namespace fallaway::serve {
namespace {

constexpr std::array kRoutes = {
    Route{"GET", "/api/shop", shop_desk::get},
    Route{"PUT", "/api/shop", shop_desk::put_name},
    Route{"PUT", "/api/people", shop_desk::put_person},
    Route{"PUT", "/api/tools", shop_desk::put_tool},
    Route{"PUT", "/api/rates", shop_desk::put_rate},
    Route{"DELETE", "/api/rates/{work}", shop_desk::drop_rate},
    Route{"PUT", "/api/limits", shop_desk::put_limit},
    Route{"DELETE", "/api/limits/{checkpoint}", shop_desk::drop_limit},
    Route{"GET", "/api/catalogue", shop_desk::catalogue},
    Route{"GET", "/api/visits", visit_desk::list},
    Route{"POST", "/api/visits", visit_desk::open},
    Route{"GET", "/api/names", visit_desk::names},
    Route{"POST", "/api/import", visit_desk::import},
    Route{"GET", "/api/visits/{id}", visit_desk::view},
    Route{"POST", "/api/visits/{id}/entries", visit_desk::add},
    Route{"POST", "/api/visits/{id}/try", visit_desk::try_out},
    Route{"POST", "/api/visits/{id}/undo", visit_desk::undo},
    Route{"POST", "/api/visits/{id}/close", visit_desk::close},
    Route{"GET", "/api/visits/{id}/history", visit_desk::history},
    Route{"GET", "/api/visits/{id}/bench", visit_desk::bench},
    Route{"GET", "/api/visits/{id}/report", visit_desk::report},
    Route{"GET", "/api/dossiers/{id}", visit_desk::dossier},
    Route{"PUT", "/api/dossiers/{id}", visit_desk::put_dossier},
    Route{"PUT", "/api/media", visit_desk::put_medium},
    Route{"GET", "/media/{hash}.{ending}", visit_desk::medium},
    Route{"GET", "/api/sums", shop_desk::list_sums},
    Route{"POST", "/api/sums/{name}", shop_desk::run_sum},
    Route{"POST", "/api/pairing", device_desk::make_code},
    Route{"POST", "/api/pair", device_desk::pair, Door::anyone},
    Route{"GET", "/api/devices", device_desk::list},
    Route{"DELETE", "/api/devices/{id}", device_desk::take_out},
};

constexpr std::string_view kMedia = "/api/media";
constexpr std::size_t kWorthPacking = 2048;  // bytes; on a wireless line packing then saves more than it costs

// Does the path fit the pattern? Then what stood in the place of each {...}.
std::optional<std::vector<std::string>> parts_of(std::string_view pattern, const std::vector<std::string>& path) {
    std::vector<std::string> parts;
    std::size_t at = 0;
    while (!pattern.empty()) {
        pattern.remove_prefix(1);  // the slash
        const std::string_view segment = pattern.substr(0, pattern.find('/'));
        pattern.remove_prefix(segment.size());
        if (at == path.size()) return std::nullopt;
        const std::string& met = path[at++];
        const bool open = segment.front() == '{';
        if (segment == "{id}" ? !is_id(met) : !open && segment != met) return std::nullopt;
        if (open) parts.push_back(met);
    }
    if (at != path.size()) return std::nullopt;
    return parts;
}

net::Response with_wait(net::Response response, int seconds) {
    response.headers.emplace_back("Retry-After", fmt::format("{}", seconds));
    return response;
}

net::Response too_many(int seconds) {
    return with_wait(refuse(Error{"many", "", fmt::format("too many requests; the next in {} s", seconds)}),
                     seconds);
}

net::Response login() {
    return refuse(Error{"login", "", "this device is not paired with the shop; open /pair"});
}

// What changes something says what it sends, so that no form of another site can pass for it.
std::optional<Error> wrong_type(const Route& route, const net::Request& request) {
    if (route.method == "GET" || route.method == "DELETE" || route.pattern == kMedia) return std::nullopt;
    const auto header = request.headers.find("content-type");
    const std::string type = header == request.headers.end() ? "" : header->second;
    if (type.substr(0, type.find(';')) == "application/json") return std::nullopt;
    return Error{"type", "Content-Type", fmt::format("{}: expected application/json", quote(type))};
}

net::Response no_route(const std::vector<std::string_view>& methods, const net::Request& request) {
    if (methods.empty()) {
        const std::string path = fmt::format("/{}", fmt::join(request.path, "/"));
        return refuse(Error{"not found", "", fmt::format("{}: no such address here", quote(path))});
    }
    const std::string allowed = fmt::format("{}", fmt::join(methods, ", "));
    net::Response response =
        refuse(Error{"method", "", fmt::format("{}: expected {}", quote(request.method), allowed)});
    response.headers = {{"Allow", allowed}};
    return response;
}

bool is_of_api(const net::Request& request) {
    return !request.path.empty() && (request.path.front() == "api" || request.path.front() == "media");
}

net::Response api_answer(Desk& desk, const net::Request& request, const std::optional<Asker>& asker) {
    std::vector<std::string_view> methods;
    for (const Route& route : kRoutes) {
        auto parts = parts_of(route.pattern, request.path);
        if (!parts) continue;
        methods.push_back(route.method);
        if (route.method != request.method) continue;
        if (route.door == Door::members && !asker) return login();
        if (const auto wrong = wrong_type(route, request)) return refuse(*wrong);
        const Call call{request, asker.value_or(Asker{}), std::move(*parts)};
        if (route.method != "GET") desk.access.remember_local(call.asker);
        return route.handler(desk, call);
    }
    // A stranger learns not even which addresses there are.
    return asker ? no_route(methods, request) : login();
}

}  // namespace

std::span<const Route> routes() {
    return kRoutes;
}

net::Response json(std::string body) {
    net::Response response;
    response.body = std::move(body);
    return response;
}

net::Response refuse(const std::vector<Error>& errors) {
    net::Response response;
    response.status = errors.empty() ? 500 : status_of(errors.front().code);
    response.body = files::error_json(errors);
    if (response.status == 503) response = with_wait(std::move(response), 1);
    return response;
}

net::Response refuse(const Error& error) {
    return refuse(std::vector{error});
}

net::Response refuse(const Call& call, std::vector<Error> errors) {
    for (Error& error : errors) {
        const bool of_body = error.path.starts_with('/');
        if (!call.parts.empty() && error.code == "missing" && !of_body) error.code = "not found";
    }
    return refuse(errors);
}

net::Response refuse(const Call& call, const Error& error) {
    return refuse(call, std::vector{error});
}

net::Response answer(Desk& desk, const net::Request& request) {
    const auto asker = desk.access.asker(request);
    if (const int seconds = desk.access.must_wait(request, asker); seconds > 0) return too_many(seconds);
    if (!is_of_api(request)) {
        if (request.method == "GET") return desk.page.answer(request.path);
        return no_route({"GET"}, request);
    }
    net::Response response = api_answer(desk, request, asker);
    const bool text = response.type == "application/json" || response.type == "text/html";
    if (!request.loopback && text && response.gzip.empty() && response.body.size() > kWorthPacking) {
        response.gzip = net::gzip(response.body);
    }
    return response;
}

net::Response may_live(Desk& desk, const net::Request& request) {
    const auto asker = desk.access.asker(request);
    if (const int seconds = desk.access.must_wait(request, asker); seconds > 0) return too_many(seconds);
    if (!asker) return login();
    if (request.path != std::vector<std::string>{"api", "live"}) return no_route({}, request);
    if (asker->device.empty()) {
        return refuse(Error{"missing", "device", "missing, expected 16 lower-case hexadecimal digits"});
    }
    const auto visit = request.query.find("visit");
    if (visit != request.query.end()) {
        if (!is_id(visit->second) || !desk.shop.store().visit(visit->second)) {
            return refuse(Error{"not found", "visit", fmt::format("{}: no such visit", quote(visit->second))});
        }
    }
    if (const auto since = request.query.find("since");
        since != request.query.end() && !whole_number(since->second)) {
        return refuse(Error{"syntax", "since", fmt::format("{}: expected a whole number", quote(since->second))});
    }
    net::Response response;
    response.status = 101;
    return response;
}

}  // namespace fallaway::serve
