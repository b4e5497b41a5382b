#include "shop/net/certificate.h"

#include <gtest/gtest.h>
#include <openssl/x509.h>
#include <qrencode.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>

#include <fmt/format.h>

namespace fallaway::net {
namespace {

constexpr std::int64_t kToday = 20'785;  // 2026-11-28
const std::vector<std::string> kHosts = {"192.168.1.20", "bench.local", "127.0.0.1", "::1", "localhost"};

TEST(Certificate, MakesALeafForPrivatePlacesOnly) {
    const auto authority = make_authority("Vell & Aster, R\u00FAta's bench", kToday);
    ASSERT_TRUE(authority);
    ASSERT_TRUE(make_leaf(*authority, kHosts, kToday)) << make_leaf(*authority, kHosts, kToday).error().message;
    for (const char* host : {"10.1.2.3", "172.31.255.254", "169.254.7.7", "fd12::1", "fe80::1", "a.b.local",
                             "shop.lan", "x.home.arpa"}) {
        EXPECT_TRUE(make_leaf(*authority, std::vector<std::string>{host}, kToday)) << host;
    }
    for (const char* host :
         {"8.8.8.8", "172.32.0.1", "192.169.0.1", "2001:db8::1", "shop.example", "local.example", "notlocal"}) {
        const auto leaf = make_leaf(*authority, std::vector<std::string>{"127.0.0.1", host}, kToday);
        ASSERT_FALSE(leaf) << host;
        EXPECT_EQ(leaf.error().code, "range");
    }
    for (const char* host :
         {"", "a,DNS:shop.example", "a b.local", "IP:10.0.0.1", "x\n.local", ".local", "a..local", "*.local"}) {
        const auto leaf = make_leaf(*authority, std::vector<std::string>{host}, kToday);
        ASSERT_FALSE(leaf) << host;
        EXPECT_EQ(leaf.error().code, "syntax");
    }
    EXPECT_EQ(make_leaf(*authority, {}, kToday).error().code, "missing");
    EXPECT_EQ(make_leaf({authority->pem, ""}, kHosts, kToday).error().code, "syntax");
    const auto other = make_authority("", kToday);
    EXPECT_EQ(make_leaf({authority->pem, other->key_pem}, kHosts, kToday).error().code, "syntax");
}

TEST(Certificate, NamesAShopOfAnyLength) {
    std::string name;
    for (int i = 0; i < 200; ++i) name += "\u00FA";
    EXPECT_TRUE(make_authority(name, kToday));
    EXPECT_EQ(make_authority("\xC3", kToday).error().code, "syntax");
}

TEST(Certificate, KnowsWhenALeafIsToBeRenewed) {
    const auto authority = make_authority("bench", kToday);
    const auto other = make_authority("bench", kToday);
    const auto leaf = make_leaf(*authority, kHosts, kToday);
    EXPECT_TRUE(still_good(*leaf, *authority, kHosts, kToday));
    EXPECT_TRUE(still_good(*leaf, *authority, std::vector<std::string>{"bench.local"}, kToday));
    EXPECT_TRUE(still_good(*leaf, *authority, kHosts, kToday + 75));
    EXPECT_FALSE(still_good(*leaf, *authority, kHosts, kToday + 77));  // 13 days left
    EXPECT_FALSE(still_good(*leaf, *authority, kHosts, kToday + 91));
    EXPECT_FALSE(still_good(*leaf, *authority, kHosts, kToday - 2));  // not yet
    EXPECT_FALSE(still_good(*leaf, *other, kHosts, kToday));
    EXPECT_FALSE(still_good(*leaf, *authority, std::vector<std::string>{"192.168.1.21"}, kToday));
    EXPECT_FALSE(still_good(*leaf, *authority, std::vector<std::string>{"other.local"}, kToday));
    EXPECT_FALSE(still_good({leaf->pem, authority->key_pem}, *authority, kHosts, kToday));
    EXPECT_FALSE(still_good({}, *authority, kHosts, kToday));
    EXPECT_FALSE(still_good({"rubbish", "rubbish"}, {"rubbish", ""}, kHosts, kToday));
    const auto renewed = make_leaf(*authority, kHosts, kToday + 80);
    EXPECT_TRUE(still_good(*renewed, *authority, kHosts, kToday + 80));
    EXPECT_NE(fingerprint(renewed->pem), fingerprint(leaf->pem));
    EXPECT_EQ(make_leaf(*authority, kHosts, kToday + 3651).error().code, "range");  // the authority is over
}

// The `openssl` program, a reader that is not ours. Exit code and output.
std::pair<int, std::string> openssl(const std::string& arguments) {
    FILE* pipe = ::popen(("openssl " + arguments + " 2>&1").c_str(), "r");
    std::string out;
    char chunk[4096];
    while (const std::size_t got = std::fread(chunk, 1, sizeof chunk, pipe)) out.append(chunk, got);
    return {::pclose(pipe), out};
}

TEST(Certificate, SatisfiesTheOpensslProgram) {
    if (openssl("version").first != 0) GTEST_SKIP() << "no openssl program here";
    const std::filesystem::path folder =
        std::filesystem::path(testing::TempDir()) / fmt::format("net-{}", random_hex(4));
    std::filesystem::create_directory(folder);
    const auto authority = make_authority("Vell's bench", kToday);
    const auto leaf = make_leaf(*authority, kHosts, kToday);
    std::ofstream(folder / "ca.pem") << authority->pem;
    std::ofstream(folder / "leaf.pem") << leaf->pem;
    std::ofstream(folder / "leaf.key") << leaf->key_pem;
    const std::string verify = fmt::format("verify -x509_strict -purpose sslserver -attime {} -CAfile {}",
                                           kToday * 86400, (folder / "ca.pem").string());
    const std::string file = " " + (folder / "leaf.pem").string();
    const auto run = openssl(verify + " -verify_ip 192.168.1.20" + file);
    EXPECT_EQ(run.first, 0) << run.second;
    EXPECT_EQ(openssl(verify + " -verify_hostname bench.local" + file).first, 0);
    EXPECT_NE(openssl(verify + " -verify_ip 192.168.1.21" + file).first, 0);
    EXPECT_NE(openssl(verify + " -verify_hostname shop.example" + file).first, 0);
    const std::string text = openssl("x509 -noout -text -in" + file).second;
    for (const char* part :
         {"prime256v1", "TLS Web Server Authentication", "IP Address:192.168.1.20, DNS:bench.local", "CA:FALSE",
          "X509v3 Authority Key Identifier", "ecdsa-with-SHA256", "Not After : Feb 26 00:00:00 2027 GMT"}) {
        EXPECT_NE(text.find(part), text.npos) << part << "\n" << text;
    }
    const std::string root = openssl("x509 -noout -text -in " + (folder / "ca.pem").string()).second;
    for (const char* part : {"CA:TRUE, pathlen:0", "Basic Constraints: critical", "Name Constraints: critical",
                             "Certificate Sign, CRL Sign", "IP:192.168.0.0/255.255.0.0", "DNS:local"}) {
        EXPECT_NE(root.find(part), root.npos) << part << "\n" << root;
    }
    EXPECT_EQ(openssl("pkey -noout -check -in " + (folder / "leaf.key").string()).first, 0);
    const std::string digest = openssl("x509 -noout -fingerprint -sha256 -in" + file).second;
    EXPECT_NE(digest.find("=" + fingerprint(leaf->pem)), digest.npos) << digest;
    std::filesystem::remove_all(folder);
}

TEST(Certificate, MakesTokensAndCodes) {
    EXPECT_EQ(random_hex(16).size(), 32u);
    EXPECT_EQ(random_hex(8).find_first_not_of("0123456789abcdef"), std::string::npos);
    std::set<std::string> seen;
    std::map<char, int> letters;
    for (int i = 0; i < 1000; ++i) {  // n = 1000 of 26^8: a repetition has a chance of 2 in a million
        const std::string code = random_code(8);
        EXPECT_EQ(code.size(), 8u);
        EXPECT_EQ(code.find_first_of("01OIL5SBZU"), std::string::npos) << code;
        seen.insert(code);
        for (const char c : code) ++letters[c];
    }
    EXPECT_EQ(seen.size(), 1000u);
    EXPECT_EQ(letters.size(), 26u);
    // 8000 letters, 308 of each expected, standard deviation 17: seven of them make 430.
    for (const auto& [letter, count] : letters) EXPECT_LT(count, 430) << letter;
    EXPECT_TRUE(equal_in_constant_time("abc", "abc"));
    EXPECT_TRUE(equal_in_constant_time("", ""));
    EXPECT_FALSE(equal_in_constant_time("abc", "abd"));
    EXPECT_FALSE(equal_in_constant_time("abc", "ab"));
    EXPECT_EQ(fingerprint("no certificate"), "");
}

// The modules that the SVG paints: rows of characters, '#' dark.
std::vector<std::string> painted(const std::string& svg, std::size_t size) {
    std::vector<std::string> rows(size, std::string(size, '.'));
    const std::size_t path = svg.find(" d=\"") + 4;
    const std::string bars = svg.substr(path, svg.find('"', path) - path);
    for (std::size_t at = 0; at < bars.size(); at = bars.find('z', at) + 1) {
        std::size_t x = 0, y = 0, wide = 0, back = 0;
        EXPECT_EQ(std::sscanf(bars.c_str() + at, "M%zu %zuh%zuv1h-%zuz", &x, &y, &wide, &back), 4);
        EXPECT_EQ(wide, back);
        for (std::size_t i = x; i < x + wide; ++i) rows.at(y).at(i) = '#';
    }
    return rows;
}

TEST(QrCode, PaintsTheModulesOfTheLibrary) {
    for (const std::string& text :
         {std::string("https://192.168.1.20:8443/pair?code=7KQ4-MX2P"), std::string(300, 'a')}) {
        const auto svg = qr_svg(text);
        ASSERT_TRUE(svg);
        QRcode* code = QRcode_encodeData(static_cast<int>(text.size()),
                                         reinterpret_cast<const unsigned char*>(text.data()), 4, QR_ECLEVEL_M);
        const auto size = static_cast<std::size_t>(code->width);
        EXPECT_GE(code->version, 4);
        EXPECT_NE(svg->find(fmt::format("viewBox=\"0 0 {0} {0}\"", size + 8)), svg->npos);
        const auto rows = painted(*svg, size + 8);
        for (std::size_t y = 0; y < size + 8; ++y) {
            for (std::size_t x = 0; x < size + 8; ++x) {
                const bool inside = x >= 4 && x < size + 4 && y >= 4 && y < size + 4;
                const bool dark = inside && (code->data[(y - 4) * size + x - 4] & 1) != 0;
                ASSERT_EQ(rows[y][x] == '#', dark) << x << "," << y;
            }
        }
        QRcode_free(code);
    }
    EXPECT_EQ(qr_svg("").error().code, "missing");
    EXPECT_EQ(qr_svg(std::string(5000, 'a')).error().code, "size");
}

}  // namespace
}  // namespace fallaway::net
