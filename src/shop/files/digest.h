// Content hashes.
#pragma once

#include <string>
#include <string_view>

namespace fallaway::files {

// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
std::string sha256_hex(std::string_view bytes);

}  // namespace fallaway::files
