// `fallaway serve`: the page and its API over a shop. Routes: docs/api.md.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

#include "science/base/result.h"

namespace fallaway::serve {

struct ServeOptions {
    std::filesystem::path folder;  // of the shop; made when it is not there
    std::uint16_t port = 4117;     // 0: any free one
    std::string open_to;           // address of this machine in the shop's network; "" loopback alone
    bool demo = false;             // fills an empty shop with the demo visits
    bool json = false;             // the line that tells where the page is, as JSON
    std::string version;
};

// Serves until SIGINT or SIGTERM. `say` gets what a person should read, one line at a time, among them the
// address.
Result<void> serve(const ServeOptions& options, const std::function<void(const std::string&)>& say);

}  // namespace fallaway::serve
