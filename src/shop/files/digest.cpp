#include "shop/files/digest.h"

#include <array>
#include <stdexcept>

#include <fmt/format.h>
#include <openssl/evp.h>

namespace fallaway::files {

std::string sha256_hex(std::string_view bytes) {
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned length = 0;
    if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1) {
        throw std::runtime_error("SHA-256 is not to be had from OpenSSL");
    }
    std::string out;
    for (unsigned i = 0; i < length; ++i) out += fmt::format("{:02x}", digest[i]);
    return out;
}

}  // namespace fallaway::files
