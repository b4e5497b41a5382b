// What the plain notice listener says: how a tablet comes to trust this shop, and the certificate to trust.
#pragma once

#include <string>
#include <string_view>

#include "shop/net/server.h"

namespace fallaway::serve {

struct Trust {
    std::string shop_name;
    std::string authority_pem;
    std::string page;  // address of the page itself: "https://192.168.1.20:4117/"
};

net::Response trust_answer(const Trust& trust, const net::Request& request);

}  // namespace fallaway::serve
