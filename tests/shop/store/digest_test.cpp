// SHA-256 against the examples of FIPS 180-2, appendix B, and NIST's example values for SHA-256.
#include "shop/files/digest.h"

#include <gtest/gtest.h>

namespace fallaway::files {
namespace {

TEST(Digest, AgreesWithThePublishedExamples) {
    // NIST CAVP, SHA256ShortMsg, Len = 0.
    EXPECT_EQ(sha256_hex(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    // FIPS 180-2, B.1: one block.
    EXPECT_EQ(sha256_hex("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    // FIPS 180-2, B.2: 56 bytes, whose length no longer fits into the first block.
    EXPECT_EQ(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
              "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    // FIPS 180-2, B.3: a million times "a".
    EXPECT_EQ(sha256_hex(std::string(1'000'000, 'a')),
              "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

}  // namespace
}  // namespace fallaway::files
