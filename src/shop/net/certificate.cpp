#include "shop/net/certificate.h"

#include <openssl/bio.h>
#include <openssl/crypto.h>
#include <openssl/ec.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/rand.h>
#include <openssl/x509.h>
#include <openssl/x509v3.h>

#include <algorithm>
#include <array>
#include <memory>
#include <new>
#include <stdexcept>

#include <fmt/format.h>

#include "science/base/quote.h"

namespace fallaway::net {
namespace {

constexpr std::int64_t kAuthorityDays = 3650;
constexpr std::int64_t kLeafDays = 90;
constexpr std::int64_t kLeafReserveDays = 14;  // renewed once less than this is left
constexpr std::int64_t kClockSlackDays = 1;    // a tablet's clock may be behind
constexpr int kSerialBytes = 16;
constexpr std::size_t kMostNameCharacters = 64;  // RFC 5280, appendix A.1

// RFC 1918, 3927, 4193, 4291 for addresses; RFC 6762, 6761, 8375 and common practice for names.
constexpr const char* kPrivatePlaces =
    "critical,permitted;IP:10.0.0.0/255.0.0.0,permitted;IP:172.16.0.0/255.240.0.0,"
    "permitted;IP:192.168.0.0/255.255.0.0,permitted;IP:169.254.0.0/255.255.0.0,permitted;IP:127.0.0.0/255.0.0.0,"
    "permitted;IP:fc00::/fe00::,permitted;IP:fe80::/ffc0::,"
    "permitted;IP:::1/ffff:ffff:ffff:ffff:ffff:ffff:ffff:ffff,"
    "permitted;DNS:local,permitted;DNS:lan,permitted;DNS:localhost,permitted;DNS:home.arpa";

template <auto release>
struct Release {
    template <class T>
    void operator()(T* held) const {
        release(held);
    }
};
using Bio = std::unique_ptr<BIO, Release<BIO_free>>;
using Key = std::unique_ptr<EVP_PKEY, Release<EVP_PKEY_free>>;
using X509Held = std::unique_ptr<X509, Release<X509_free>>;
using Extension = std::unique_ptr<X509_EXTENSION, Release<X509_EXTENSION_free>>;
using Number = std::unique_ptr<BIGNUM, Release<BN_free>>;
using Store = std::unique_ptr<X509_STORE, Release<X509_STORE_free>>;
using StoreContext = std::unique_ptr<X509_STORE_CTX, Release<X509_STORE_CTX_free>>;

// What OpenSSL only refuses when memory or its random source fails.
void must(bool done, const char* what) {
    if (!done) throw std::runtime_error(fmt::format("OpenSSL: {} failed", what));
}

std::vector<unsigned char> random_bytes(std::size_t count) {
    std::vector<unsigned char> bytes(count);
    must(RAND_bytes(bytes.data(), static_cast<int>(count)) == 1, "RAND_bytes");
    return bytes;
}

template <class Write>
std::string pem_text(Write write) {
    const Bio bio(BIO_new(BIO_s_mem()));
    must(bio && write(bio.get()) == 1, "writing PEM");
    char* data = nullptr;
    const long size = BIO_get_mem_data(bio.get(), &data);
    return std::string(data, static_cast<std::size_t>(size));
}

Bio reader(std::string_view text) {
    return Bio(BIO_new_mem_buf(text.data(), static_cast<int>(text.size())));
}

X509Held read_certificate(std::string_view pem) {
    return X509Held(PEM_read_bio_X509(reader(pem).get(), nullptr, nullptr, nullptr));
}

Key read_key(std::string_view pem) {
    // A key under a password is none of ours; without the callback OpenSSL would ask at the terminal.
    const auto no_password = [](char*, int, int, void*) { return -1; };
    return Key(PEM_read_bio_PrivateKey(reader(pem).get(), nullptr, no_password, nullptr));
}

void add_extension(X509* certificate, X509* issuer, int kind, const std::string& value) {
    X509V3_CTX context;
    X509V3_set_ctx(&context, issuer, certificate, nullptr, nullptr, 0);
    const Extension extension(X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str()));
    must(extension && X509_add_ext(certificate, extension.get(), -1) == 1, "adding an extension");
}

void name(X509_NAME* subject, const char* field, const std::string& text) {
    const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
    must(X509_NAME_add_entry_by_txt(subject, field, MBSTRING_UTF8, bytes, static_cast<int>(text.size()), -1, 0) ==
             1,
         "naming a certificate");
}

// Begins a certificate: version 3, serial, validity, key. The serial's first bits are 01, so it is positive and
// keeps its length.
X509Held begin(EVP_PKEY* key, std::int64_t first_day, std::int64_t last_day) {
    X509Held certificate(X509_new());
    must(certificate && X509_set_version(certificate.get(), X509_VERSION_3) == 1, "making a certificate");
    auto serial = random_bytes(kSerialBytes);
    serial[0] = static_cast<unsigned char>((serial[0] & 0x3F) | 0x40);
    const Number number(BN_bin2bn(serial.data(), kSerialBytes, nullptr));
    must(number && BN_to_ASN1_INTEGER(number.get(), X509_get_serialNumber(certificate.get())), "setting a serial");
    constexpr std::int64_t kDaySeconds = 86400;
    must(ASN1_TIME_set(X509_getm_notBefore(certificate.get()), first_day * kDaySeconds) &&
             ASN1_TIME_set(X509_getm_notAfter(certificate.get()), last_day * kDaySeconds) &&
             X509_set_pubkey(certificate.get(), key) == 1,
         "setting validity and key");
    return certificate;
}

Certificate sign(X509* certificate, EVP_PKEY* own_key, EVP_PKEY* signing_key) {
    must(X509_sign(certificate, signing_key, EVP_sha256()) > 0, "signing");
    return {pem_text([&](BIO* bio) { return PEM_write_bio_X509(bio, certificate); }), pem_text([&](BIO* bio) {
                return PEM_write_bio_PKCS8PrivateKey(bio, own_key, nullptr, nullptr, 0, nullptr, nullptr);
            })};
}

// The authority vouches for the leaf on that day, its constraints on names and the leaf's purpose included.
bool vouched_for(X509* leaf, X509* authority, std::int64_t day) {
    const Store store(X509_STORE_new());
    const StoreContext context(X509_STORE_CTX_new());
    must(store && context && X509_STORE_add_cert(store.get(), authority) == 1 &&
             X509_STORE_CTX_init(context.get(), store.get(), leaf, nullptr) == 1,
         "preparing a check");
    X509_VERIFY_PARAM* wanted = X509_STORE_CTX_get0_param(context.get());
    X509_VERIFY_PARAM_set_time(wanted, day * 86400);
    X509_VERIFY_PARAM_set_purpose(wanted, X509_PURPOSE_SSL_SERVER);
    return X509_verify_cert(context.get()) == 1;
}

bool is_address(const std::string& host) {
    const std::unique_ptr<ASN1_OCTET_STRING, Release<ASN1_OCTET_STRING_free>> address(a2i_IPADDRESS(host.c_str()));
    return address != nullptr;
}

bool covers(X509* leaf, const std::string& host) {
    return is_address(host) ? X509_check_ip_asc(leaf, host.c_str(), 0) == 1
                            : X509_check_host(leaf, host.data(), host.size(), 0, nullptr) == 1;
}

// Letters, digits, "-" and inner dots: nothing that the list of names would read as its own sign.
bool is_host_name(const std::string& host) {
    const auto is_fit = [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.';
    };
    return !host.empty() && host.size() <= 253 && std::ranges::all_of(host, is_fit) && host.front() != '.' &&
           host.back() != '.' && host.find("..") == host.npos;
}

// As much of the text as a name in a certificate may hold, cut between characters.
std::string cut(std::string_view text) {
    std::size_t end = 0;
    for (std::size_t characters = 0; end < text.size() && characters < kMostNameCharacters; ++characters) {
        do ++end;
        while (end < text.size() && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80);
    }
    return std::string(text.substr(0, end));
}

}  // namespace

Result<Certificate> make_authority(std::string_view shop_name, std::int64_t days_now) {
    const Key key(EVP_EC_gen("P-256"));
    must(key != nullptr, "making a key");
    const X509Held authority = begin(key.get(), days_now - kClockSlackDays, days_now + kAuthorityDays);
    X509_NAME* subject = X509_get_subject_name(authority.get());
    if (!shop_name.empty()) {
        const std::string cut_name = cut(shop_name);
        const auto* bytes = reinterpret_cast<const unsigned char*>(cut_name.data());
        if (X509_NAME_add_entry_by_txt(subject, "O", MBSTRING_UTF8, bytes, static_cast<int>(cut_name.size()), -1,
                                       0) != 1) {
            return fail("syntax", "shop name", fmt::format("{}: expected UTF-8 text", quote(shop_name)));
        }
    }
    // Two authorities of one shop must not share a name: a tablet that trusts the old one would mix them up.
    name(subject, "CN", "Fallaway shop authority " + random_hex(4));
    must(X509_set_issuer_name(authority.get(), subject) == 1, "naming an issuer");
    add_extension(authority.get(), authority.get(), NID_basic_constraints, "critical,CA:TRUE,pathlen:0");
    add_extension(authority.get(), authority.get(), NID_key_usage, "critical,keyCertSign,cRLSign");
    add_extension(authority.get(), authority.get(), NID_subject_key_identifier, "hash");
    add_extension(authority.get(), authority.get(), NID_name_constraints, kPrivatePlaces);
    return sign(authority.get(), key.get(), key.get());
}

Result<Certificate> make_leaf(const Certificate& authority, std::span<const std::string> hosts,
                              std::int64_t days_now) {
    const X509Held issuer = read_certificate(authority.pem);
    const Key issuer_key = read_key(authority.key_pem);
    if (!issuer || !issuer_key || X509_check_private_key(issuer.get(), issuer_key.get()) != 1) {
        return fail("syntax", "authority",
                    "the authority's certificate and key: expected a matching pair of PEM texts");
    }
    if (hosts.empty()) return fail("missing", "hosts", "no address or name, expected at least one");
    std::string names;
    for (const std::string& host : hosts) {
        if (!is_address(host) && !is_host_name(host)) {
            return fail("syntax", "hosts", fmt::format("{}: expected an IP address or a host name", quote(host)));
        }
        names += fmt::format("{}{}:{}", names.empty() ? "" : ",", is_address(host) ? "IP" : "DNS", host);
    }
    const Key key(EVP_EC_gen("P-256"));
    must(key != nullptr, "making a key");
    const X509Held leaf = begin(key.get(), days_now - kClockSlackDays, days_now + kLeafDays);
    name(X509_get_subject_name(leaf.get()), "CN", "Fallaway shop");
    must(X509_set_issuer_name(leaf.get(), X509_get_subject_name(issuer.get())) == 1, "naming an issuer");
    add_extension(leaf.get(), issuer.get(), NID_basic_constraints, "critical,CA:FALSE");
    add_extension(leaf.get(), issuer.get(), NID_key_usage, "critical,digitalSignature");
    add_extension(leaf.get(), issuer.get(), NID_ext_key_usage, "serverAuth");
    add_extension(leaf.get(), issuer.get(), NID_subject_key_identifier, "hash");
    add_extension(leaf.get(), issuer.get(), NID_authority_key_identifier, "keyid:always");
    add_extension(leaf.get(), issuer.get(), NID_subject_alt_name, names);
    Certificate made = sign(leaf.get(), key.get(), issuer_key.get());
    if (!vouched_for(read_certificate(made.pem).get(), issuer.get(), days_now)) {
        return fail(
            "range", "hosts",
            fmt::format("{}: expected addresses of a private network, names that end in .local, .lan, .home.arpa "
                        "or localhost, and an authority that holds today",
                        quote(names)));
    }
    return made;
}

bool still_good(const Certificate& leaf, const Certificate& authority, std::span<const std::string> hosts,
                std::int64_t days_now) {
    const X509Held held = read_certificate(leaf.pem);
    const X509Held issuer = read_certificate(authority.pem);
    const Key key = read_key(leaf.key_pem);
    if (!held || !issuer || !key || X509_check_private_key(held.get(), key.get()) != 1) return false;
    return vouched_for(held.get(), issuer.get(), days_now) &&
           vouched_for(held.get(), issuer.get(), days_now + kLeafReserveDays) &&
           std::ranges::all_of(hosts, [&](const std::string& host) { return covers(held.get(), host); });
}

std::string fingerprint(std::string_view certificate_pem) {
    const X509Held certificate = read_certificate(certificate_pem);
    if (!certificate) return "";
    std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
    unsigned size = 0;
    must(X509_digest(certificate.get(), EVP_sha256(), digest.data(), &size) == 1, "hashing");
    return fmt::format("{:02X}", fmt::join(digest.begin(), digest.begin() + size, ":"));
}

std::string random_hex(int bytes) {
    return fmt::format("{:02x}", fmt::join(random_bytes(static_cast<std::size_t>(bytes)), ""));
}

std::string random_code(int letters) {
    // Of 0 O, 1 I L, 2 Z, 5 S, 8 B, U V each pair or triple leaves one at most.
    static constexpr std::string_view kLetters = "2346789ACDEFGHJKMNPQRTVWXY";
    constexpr unsigned kFair = 256 - 256 % kLetters.size();  // bytes above would favour the first letters
    std::string code;
    while (code.size() < static_cast<std::size_t>(letters)) {
        const unsigned byte = random_bytes(1)[0];
        if (byte < kFair) code += kLetters[byte % kLetters.size()];
    }
    return code;
}

bool equal_in_constant_time(std::string_view a, std::string_view b) {
    return a.size() == b.size() && CRYPTO_memcmp(a.data(), b.data(), a.size()) == 0;
}

}  // namespace fallaway::net
