// What only this shop's computer may know: the key of its authority and of its present leaf certificate, in
// <shop>/secret/, readable by its owner alone. Backups do not hold it.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>

#include "science/base/result.h"
#include "shop/net/certificate.h"

namespace fallaway::serve {

struct Papers {
    net::Certificate authority;
    net::Certificate leaf;  // for the hosts that were asked for
};

// Makes what is missing; renews the leaf when the hosts changed, and 14 days before its end.
Result<Papers> papers_of(const std::filesystem::path& shop_folder, std::string_view shop_name,
                         std::span<const std::string> hosts, std::int64_t days_now);

}  // namespace fallaway::serve
