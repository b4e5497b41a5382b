// A shop's own certificate authority, its leaf certificates, random tokens and hashes. OpenSSL stays in this room.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "science/base/result.h"

namespace fallaway::net {

struct Certificate {
    std::string pem;      // certificate
    std::string key_pem;  // private key, PKCS#8
};

// An authority for this shop alone: EC P-256, path length 0, ten years, name constraints on nothing but the
// addresses of private networks and .local names. `days_now`: days since 1970 UTC, for the validity.
Result<Certificate> make_authority(std::string_view shop_name, std::int64_t days_now);

// A leaf for the addresses and names, 90 days, signed by the authority.
Result<Certificate> make_leaf(const Certificate& authority, std::span<const std::string> hosts,
                              std::int64_t days_now);

// Does the leaf cover these hosts, come from this authority, and hold for 14 days more?
bool still_good(const Certificate& leaf, const Certificate& authority, std::span<const std::string> hosts,
                std::int64_t days_now);

std::string fingerprint(std::string_view certificate_pem);  // SHA-256, "AB:CD:..." for people to compare

// SHA-256 stands in shop/files/digest.h.
std::string random_hex(int bytes);     // from the system's own source
std::string random_code(int letters);  // letters and digits that are not taken for one another
bool equal_in_constant_time(std::string_view a, std::string_view b);

// Version-4-or-higher QR code as SVG (one path, "currentColor"), error correction M.
Result<std::string> qr_svg(std::string_view text);

}  // namespace fallaway::net
