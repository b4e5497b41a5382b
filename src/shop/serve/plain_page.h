// A page in our look without script: for what must be read before, or without, the page itself.
#pragma once

#include <string_view>

#include "shop/net/server.h"

namespace fallaway::serve {

// `title` is escaped, `body` is HTML.
net::Response plain_page(std::string_view title, std::string_view body);

}  // namespace fallaway::serve
