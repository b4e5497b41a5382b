// The routes of the API: one table (routes.cpp), held against docs/api.md by a test.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "shop/app/shop.h"
#include "shop/net/server.h"
#include "shop/serve/access.h"
#include "shop/serve/hub.h"
#include "shop/serve/page_files.h"

namespace fallaway::serve {

// How this shop is reached over its network; "" all when it is not opened.
struct Opened {
    std::string address;  // "192.168.1.20"
    std::string page;     // "https://192.168.1.20:4117/"
    std::string trust;    // "http://192.168.1.20:4118/"
};

// What all handlers work with.
struct Desk {
    app::Shop& shop;
    Access& access;
    Hub& hub;
    Opened opened;
    PageFiles page;
    net::Response catalogue;  // made once
};

// One request on its way: who asks, and what stood in the place of each {...} of the pattern.
struct Call {
    const net::Request& request;
    Asker asker;
    std::vector<std::string> parts;
};

enum class Door {
    members,  // loopback and paired devices
    anyone,
};

struct Route {
    std::string_view method;
    std::string_view pattern;  // "/api/visits/{id}/entries"; {id} is 16 hexadecimal digits, others any segment
    net::Response (*handler)(Desk& desk, const Call& call);
    Door door = Door::members;
};

std::span<const Route> routes();

// The answer to any request that is no WebSocket and not for the notice listener.
net::Response answer(Desk& desk, const net::Request& request);
// Status 101, or why not.
net::Response may_live(Desk& desk, const net::Request& request);

// Handlers, by theme.
namespace shop_desk {
net::Response get(Desk&, const Call&);
net::Response put_name(Desk&, const Call&);
net::Response put_person(Desk&, const Call&);
net::Response put_tool(Desk&, const Call&);
net::Response put_rate(Desk&, const Call&);
net::Response drop_rate(Desk&, const Call&);
net::Response put_limit(Desk&, const Call&);
net::Response drop_limit(Desk&, const Call&);
net::Response catalogue(Desk&, const Call&);
net::Response list_sums(Desk&, const Call&);
net::Response run_sum(Desk&, const Call&);
}  // namespace shop_desk
namespace visit_desk {
net::Response list(Desk&, const Call&);
net::Response names(Desk&, const Call&);
net::Response open(Desk&, const Call&);
net::Response import(Desk&, const Call&);
net::Response view(Desk&, const Call&);
net::Response add(Desk&, const Call&);
net::Response try_out(Desk&, const Call&);
net::Response undo(Desk&, const Call&);
net::Response close(Desk&, const Call&);
net::Response history(Desk&, const Call&);
net::Response bench(Desk&, const Call&);
net::Response report(Desk&, const Call&);
net::Response dossier(Desk&, const Call&);
net::Response put_dossier(Desk&, const Call&);
net::Response put_medium(Desk&, const Call&);
net::Response medium(Desk&, const Call&);
}  // namespace visit_desk
namespace device_desk {
net::Response make_code(Desk&, const Call&);
net::Response pair(Desk&, const Call&);
net::Response list(Desk&, const Call&);
net::Response take_out(Desk&, const Call&);
}  // namespace device_desk

// Answers, for handlers.
net::Response json(std::string body);
net::Response refuse(const Error& error);
net::Response refuse(const std::vector<Error>& errors);
// The same of what the shop said: an id of the address that stands for nothing is "not found".
net::Response refuse(const Call& call, const Error& error);
net::Response refuse(const Call& call, std::vector<Error> errors);

}  // namespace fallaway::serve
