#include "shop/serve/serve.h"

#include <chrono>
#include <optional>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/app/shop.h"
#include "shop/files/digest.h"
#include "shop/files/embedded.h"
#include "shop/net/answer.h"
#include "shop/net/server.h"
#include "shop/serve/request_text.h"
#include "shop/serve/route.h"
#include "shop/serve/secret.h"
#include "shop/serve/trust_page.h"

namespace fallaway::serve {
namespace {

constexpr int kWorkers = 4;  // two that compute, two that wait for the disk
constexpr std::size_t kLargestImport = 4u << 20;
constexpr std::string_view kLoopback = "127.0.0.1";

double seconds_of_uptime() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

std::int64_t days_since_1970() {
    return std::chrono::duration_cast<std::chrono::hours>(std::chrono::system_clock::now().time_since_epoch())
               .count() /
           24;
}

// A shop without a single visit gets the demo's; ids follow from the files, so nothing comes twice.
Result<void> fill_with_demo(app::Shop& shop) {
    const auto there = shop.find_visits("", 1, 0);
    if (!there) return tl::unexpected(there.error());
    if (there->total > 0) return {};
    for (const std::string_view path : files::embedded_paths("demo/")) {
        const std::string id = files::sha256_hex(path).substr(0, 16);
        const auto opened = shop.import_bench(*files::embedded(path), id);
        if (!opened) return tl::unexpected(opened.error().front());
    }
    return shop.store().put_setting("demo", "yes");
}

// Visits that were written and not judged before the program ended; those that the list shows first, so that
// nobody who is at work waits for ten thousand.
void catch_up(const app::Shop& shop, Hub& hub) {
    constexpr int kSoon = 200;
    const auto found = shop.find_visits("", kSoon, 0);
    if (!found) return;
    for (const auto& line : found->visits) {
        if (line.verdict.empty()) hub.changed(line.id);
    }
}

std::string url(std::string_view scheme, const std::string& address, unsigned port) {
    const bool v6 = address.find(':') != std::string::npos;
    return v6 ? fmt::format("{}://[{}]:{}/", scheme, address, port)
              : fmt::format("{}://{}:{}/", scheme, address, port);
}

// The listeners of a run: loopback, and when opened the network's with the notice beside it.
struct Doors {
    std::vector<net::Listener> listeners;
    std::optional<Trust> trust;
};

Result<Doors> doors_of(const ServeOptions& options, const std::string& shop_name) {
    Doors doors;
    net::Listener own;
    own.address = kLoopback;
    own.port = options.port;
    own.hosts = {"localhost"};
    doors.listeners.push_back(own);
    if (options.open_to.empty()) return doors;
    if (options.open_to == "0.0.0.0" || options.open_to == "::" || options.open_to == kLoopback) {
        return fail("address", "--open-to",
                    fmt::format("{}: expected the one address of this machine in the shop's network, such as "
                                "192.168.1.20",
                                quote(options.open_to)));
    }
    if (options.port == 0 || options.port == 65535) {
        return fail("range", "--port",
                    "an opened shop needs a port of its own, 1 to 65534: tablets come back to it");
    }
    const std::vector<std::string> hosts = {options.open_to};
    auto papers = papers_of(options.folder, shop_name, hosts, days_since_1970());
    if (!papers) return tl::unexpected(papers.error());
    net::Listener network;
    network.address = options.open_to;
    network.port = options.port;
    network.loopback = false;
    network.certificate = papers->leaf.pem + papers->authority.pem;
    network.key = papers->leaf.key_pem;
    doors.listeners.push_back(network);
    net::Listener notice;
    notice.address = options.open_to;
    notice.port = static_cast<std::uint16_t>(options.port + 1);
    notice.loopback = false;
    notice.plain_notice = true;
    doors.listeners.push_back(notice);
    doors.trust = Trust{shop_name, papers->authority.pem, url("https", options.open_to, options.port)};
    return doors;
}

net::Response made_catalogue(const app::Shop& shop) {
    net::Response response = json(files::api::encode_catalogue(shop.catalogue()));
    response.gzip = net::gzip(response.body);
    response.etag = files::sha256_hex(response.body).substr(0, 32);
    return response;
}

net::Handlers handlers_of(Desk& desk, const std::optional<Trust>& trust) {
    net::Handlers handlers;
    handlers.http = [&desk, trust](const net::Request& request) {
        const bool notice = !request.loopback && !request.tls;
        return notice && trust ? trust_answer(*trust, request) : answer(desk, request);
    };
    handlers.may_live = [&desk](const net::Request& request) { return may_live(desk, request); };
    handlers.live = [&desk](const net::Request& request,
                            std::shared_ptr<net::LiveLink> link) -> std::unique_ptr<net::LiveSession> {
        const auto asker = desk.access.asker(request);
        if (!asker) return nullptr;  // taken out since it was let in
        const auto text = [&](const char* name) {
            const auto found = request.query.find(name);
            return found == request.query.end() ? std::string() : found->second;
        };
        return desk.hub.join({asker->device, asker->name}, text("visit"), whole_number(text("since")).value_or(0),
                             std::move(link));
    };
    handlers.body_limit = [](const net::Request& request) -> std::size_t {
        const auto is = [&](std::string_view name) {
            return request.path.size() == 2 && request.path[0] == "api" && request.path[1] == name;
        };
        if (is("media")) return store::kLargestMedium;
        return is("import") ? kLargestImport : net::Limits{}.body_bytes;
    };
    return handlers;
}

void tell(const ServeOptions& options, const Opened& opened, const std::string& own,
          const std::string& fingerprint, const std::function<void(const std::string&)>& say) {
    if (options.json) {
        files::Json line = files::Json::record({{"schema", files::Json::of("fallaway/serving/1")},
                                                {"address", files::Json::of(std::string_view(own))}});
        if (!opened.page.empty()) {
            line.add("opened", files::Json::of(std::string_view(opened.page)));
            line.add("trust", files::Json::of(std::string_view(opened.trust)));
            line.add("fingerprint", files::Json::of(std::string_view(fingerprint)));
        }
        say(files::write_json_line(line));
        return;
    }
    say(fmt::format("The page: {}", own));
    if (!opened.page.empty()) {
        say(fmt::format("In the shop's network: {}", opened.page));
        say(fmt::format("How a tablet comes to trust it: {}", opened.trust));
        say(fmt::format("Fingerprint to compare there: {}", fingerprint));
    }
    say(fmt::format("The shop: {}", options.folder.string()));
    say("Stop with ctrl-C.");
}

}  // namespace

Result<void> serve(const ServeOptions& options, const std::function<void(const std::string&)>& say) {
    auto opened_shop = app::Shop::open(options.folder, store::Access::write, true, options.version);
    const bool fixed = !opened_shop && opened_shop.error().code == "read only";
    // A shop on a disk that cannot be written may still be looked at.
    if (fixed) opened_shop = app::Shop::open(options.folder, store::Access::read, false, options.version);
    if (!opened_shop) return tl::unexpected(opened_shop.error());
    app::Shop& shop = **opened_shop;
    if (options.demo && !fixed) {
        if (auto filled = fill_with_demo(shop); !filled) return filled;
    }
    auto doors = doors_of(options, shop.shop().name);
    if (!doors) return tl::unexpected(doors.error());

    Opened opened;
    if (doors->trust) {
        opened = {options.open_to, doors->trust->page, url("http", options.open_to, options.port + 1u)};
    }
    const app::World world = app::real_world();
    Access access(shop, world.now, seconds_of_uptime);
    Hub hub(shop);
    shop.on_change([&hub](const std::string& visit) { hub.changed(visit); });
    catch_up(shop, hub);
    Desk desk{shop, access, hub, opened, PageFiles::of_this_program(), made_catalogue(shop)};
    {
        auto server =
            net::Server::listen(doors->listeners, handlers_of(desk, doors->trust), net::Limits{}, kWorkers);
        if (!server) return tl::unexpected(server.error());
        const std::string own = url("http", std::string(kLoopback), (*server)->ports().front());
        const std::string print = doors->trust ? net::fingerprint(doors->trust->authority_pem) : "";
        net::on_stop_signal([&server] { (*server)->stop(); });
        tell(options, opened, own, print, say);
        if (fixed && !options.json)
            say("This folder cannot be written: the shop can be read, nothing can be entered.");
        (*server)->run();
    }
    // The lines are gone; nothing may reach the hub any more.
    shop.on_change(nullptr);
    return {};
}

}  // namespace fallaway::serve
