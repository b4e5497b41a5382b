// The opened listener, seen by a client that trusts the shop's authority and nobody else.
#include <openssl/err.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>

#include <chrono>

#include "raw_client.h"
#include "shop/net/certificate.h"

namespace fallaway::net {
namespace {

std::int64_t today() {
    using namespace std::chrono;
    return floor<days>(system_clock::now()).time_since_epoch().count();
}

// TLS over a RawClient's socket.
class TlsClient {
public:
    TlsClient(std::uint16_t port, const std::string& trusted_pem, int most_version = TLS1_3_VERSION)
        : raw_(port), context_(SSL_CTX_new(TLS_client_method())) {
        BIO* bio = BIO_new_mem_buf(trusted_pem.data(), static_cast<int>(trusted_pem.size()));
        X509* trusted = PEM_read_bio_X509(bio, nullptr, nullptr, nullptr);
        X509_STORE_add_cert(SSL_CTX_get_cert_store(context_), trusted);
        X509_free(trusted);
        BIO_free(bio);
        SSL_CTX_set_verify(context_, SSL_VERIFY_PEER, nullptr);
        SSL_CTX_set_max_proto_version(context_, most_version);
        timeval patience{kPatienceMs / 1000, 0};
        ::setsockopt(raw_.fd(), SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        ssl_ = SSL_new(context_);
        SSL_set_fd(ssl_, raw_.fd());
    }
    ~TlsClient() {
        SSL_free(ssl_);
        SSL_CTX_free(context_);
    }
    TlsClient(const TlsClient&) = delete;
    TlsClient& operator=(const TlsClient&) = delete;

    void expect_address(const char* ip) { X509_VERIFY_PARAM_set1_ip_asc(SSL_get0_param(ssl_), ip); }
    void expect_name(const char* name) { SSL_set1_host(ssl_, name); }
    void offer_ciphers(const char* list) { SSL_set_cipher_list(ssl_, list); }
    bool shake_hands() { return SSL_connect(ssl_) == 1; }
    long verdict() const { return SSL_get_verify_result(ssl_); }

    bool send(std::string_view bytes) { return SSL_write(ssl_, bytes.data(), static_cast<int>(bytes.size())) > 0; }
    // Until `end` has come, or the connection has ended.
    std::string read_until(std::string_view end) {
        std::string text;
        char chunk[4096];
        while (text.find(end) == text.npos) {
            const int got = SSL_read(ssl_, chunk, sizeof chunk);
            if (got <= 0) break;
            text.append(chunk, static_cast<std::size_t>(got));
        }
        return text;
    }
    // The far end has said that no more comes.
    bool sees_end() {
        char chunk[4096];
        int got = 0;
        while ((got = SSL_read(ssl_, chunk, sizeof chunk)) > 0) {
        }
        const bool told = SSL_get_error(ssl_, got) == SSL_ERROR_ZERO_RETURN;
        if (told) SSL_shutdown(ssl_);
        return told;
    }
    RawClient& raw() { return raw_; }

private:
    RawClient raw_;
    SSL_CTX* context_;
    SSL* ssl_ = nullptr;
};

class GreetingSession final : public LiveSession {
public:
    void received(std::string) override {}
};

class Tls : public testing::Test {
protected:
    void start(std::int64_t made_on, Limits limits = {}) {
        authority = *make_authority("bench", made_on);
        const Certificate leaf =
            *make_leaf(authority, std::vector<std::string>{"127.0.0.1", "bench.local"}, made_on);
        Listener listener;
        listener.certificate = leaf.pem;
        listener.key = leaf.key_pem;
        listener.hosts = {"bench.local"};
        listener.loopback = false;
        Handlers handlers;
        handlers.http = [](const Request& request) {
            return Response{.type = "text/plain", .body = request.tls && !request.loopback ? "over TLS" : "plain"};
        };
        handlers.may_live = [](const Request&) { return Response{.status = 101}; };
        handlers.live = [](const Request&, std::shared_ptr<LiveLink> link) {
            link->send("welcome");
            return std::make_unique<GreetingSession>();
        };
        running.emplace(handlers, limits, std::vector{listener});
    }
    std::string request(std::string_view more = "") const {
        return fmt::format("GET / HTTP/1.1\r\nHost: 127.0.0.1:{0}\r\nOrigin: https://127.0.0.1:{0}\r\n{1}\r\n",
                           running->port(), more);
    }

    Certificate authority;
    std::optional<Running> running;
};

TEST_F(Tls, IsTrustedThroughTheAuthority) {
    start(today());
    for (const int version : {TLS1_2_VERSION, TLS1_3_VERSION}) {
        TlsClient client(running->port(), authority.pem, version);
        client.expect_address("127.0.0.1");
        ASSERT_TRUE(client.shake_hands()) << X509_verify_cert_error_string(client.verdict());
        client.send(request());
        const std::string answer = client.read_until("over TLS");
        EXPECT_TRUE(answer.ends_with("over TLS")) << answer;
        EXPECT_NE(answer.find("Strict-Transport-Security: max-age="), answer.npos);
        client.send(request("Connection: close\r\n"));
        client.read_until("over TLS");
        EXPECT_TRUE(client.sees_end());
    }
    TlsClient by_name(running->port(), authority.pem);
    by_name.expect_name("bench.local");
    EXPECT_TRUE(by_name.shake_hands());
}

TEST_F(Tls, IsNotTrustedForAnythingElse) {
    start(today());
    TlsClient elsewhere(running->port(), authority.pem);
    elsewhere.expect_address("192.168.1.20");
    EXPECT_FALSE(elsewhere.shake_hands());
    EXPECT_EQ(elsewhere.verdict(), X509_V_ERR_IP_ADDRESS_MISMATCH);
    TlsClient named(running->port(), authority.pem);
    named.expect_name("shop.example");
    EXPECT_FALSE(named.shake_hands());
    EXPECT_EQ(named.verdict(), X509_V_ERR_HOSTNAME_MISMATCH);
    TlsClient stranger(running->port(), make_authority("bench", today())->pem);
    stranger.expect_address("127.0.0.1");
    EXPECT_FALSE(stranger.shake_hands());
}

TEST_F(Tls, IsNotTrustedOnceExpired) {
    start(today() - 100);
    TlsClient client(running->port(), authority.pem);
    client.expect_address("127.0.0.1");
    EXPECT_FALSE(client.shake_hands());
    EXPECT_EQ(client.verdict(), X509_V_ERR_CERT_HAS_EXPIRED);
}

TEST_F(Tls, SpeaksNothingOldOrWeak) {
    start(today());
    TlsClient old(running->port(), authority.pem, TLS1_1_VERSION);
    EXPECT_FALSE(old.shake_hands());
    TlsClient weak(running->port(), authority.pem, TLS1_2_VERSION);
    weak.offer_ciphers("ECDHE-ECDSA-AES128-SHA:AES128-SHA");
    EXPECT_FALSE(weak.shake_hands());
}

TEST_F(Tls, AnswersNoPlainText) {
    Limits limits;
    limits.header_seconds = 1;
    start(today(), limits);
    RawClient plain(running->port());
    plain.ask("GET", "/");
    EXPECT_EQ(plain.answer().status, 0);
    EXPECT_TRUE(plain.sees_end());
    RawClient silent(running->port());  // never begins
    EXPECT_TRUE(silent.sees_end());
}

TEST_F(Tls, CarriesWebSockets) {
    start(today());
    TlsClient client(running->port(), authority.pem);
    ASSERT_TRUE(client.shake_hands());
    client.send(
        request("Connection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
                "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n"));
    const std::string answer = client.read_until("welcome");
    EXPECT_TRUE(answer.starts_with("HTTP/1.1 101 ")) << answer;
    EXPECT_TRUE(answer.ends_with("welcome"));
    running->server().stop();
    EXPECT_NE(client.read_until("\x03\xE9").find("\x88"), std::string::npos);  // close frame, 1001
    client.send(frame(8, std::string("\x03\xE9", 2)));
    EXPECT_TRUE(client.sees_end());
    running->stop();
}

TEST_F(Tls, StopsInTheMiddleOfAHandshake) {
    start(today());
    TlsClient client(running->port(), authority.pem);
    ASSERT_TRUE(client.shake_hands());
    RawClient half(running->port());
    half.send("\x16\x03\x01");
    client.send(request());
    EXPECT_TRUE(client.read_until("over TLS").ends_with("over TLS"));
    running->server().stop();
    EXPECT_TRUE(half.sees_end());
    EXPECT_TRUE(client.sees_end());
    running->stop();
}

}  // namespace
}  // namespace fallaway::net
