#include "shop/net/server.h"

#include <boost/asio/detached.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/ip/v6_only.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/ssl/context.hpp>

#include <csignal>
#include <thread>

#include "shop/net/connection.h"
#include "shop/net/core.h"
#include "shop/net/live.h"

namespace fallaway::net {
namespace {

using asio::ip::tcp;
using TlsStream = beast::ssl_stream<beast::tcp_stream>;

constexpr int kLastCallSeconds = 5;
constexpr int kRefusedAtMost = 32;  // connections above the limit that are told so; more are just closed

// TLS 1.3 brings its own; of TLS 1.2 only what is authenticated and forward secret.
constexpr const char* kTls12Ciphers =
    "ECDHE-ECDSA-AES128-GCM-SHA256:ECDHE-ECDSA-AES256-GCM-SHA384:ECDHE-ECDSA-CHACHA20-POLY1305:"
    "ECDHE-RSA-AES128-GCM-SHA256:ECDHE-RSA-AES256-GCM-SHA384:ECDHE-RSA-CHACHA20-POLY1305";

struct OpenListener {
    Place place;
    tcp::acceptor acceptor;
    std::unique_ptr<asio::ssl::context> tls;  // none: plain HTTP
};

Result<std::unique_ptr<asio::ssl::context>> tls_context(const Listener& listener) {
    if (listener.certificate.empty()) return nullptr;
    auto tls = std::make_unique<asio::ssl::context>(asio::ssl::context::tls_server);
    SSL_CTX_set_min_proto_version(tls->native_handle(), TLS1_2_VERSION);
    SSL_CTX_set_options(tls->native_handle(), SSL_OP_NO_COMPRESSION | SSL_OP_NO_RENEGOTIATION);
    SSL_CTX_set_cipher_list(tls->native_handle(), kTls12Ciphers);
    ErrorCode error;
    tls->use_certificate_chain(asio::buffer(listener.certificate), error);
    if (!error) tls->use_private_key(asio::buffer(listener.key), asio::ssl::context::pem, error);
    if (!error && SSL_CTX_check_private_key(tls->native_handle()) == 1) return tls;
    return fail("certificate", listener.address,
                fmt::format("{}: expected a certificate and its key as PEM texts", listener.address));
}

Result<OpenListener> open_listener(asio::io_context& io, const Listener& listener) {
    auto tls = tls_context(listener);
    if (!tls) return tl::unexpected(tls.error());
    ErrorCode error;
    const auto address = asio::ip::make_address(listener.address, error);
    if (error) {
        return fail("address", listener.address,
                    fmt::format("{}: expected an IP address", quote(listener.address)));
    }
    const tcp::endpoint endpoint(address, listener.port);
    tcp::acceptor acceptor(io);
    acceptor.open(endpoint.protocol(), error);
    if (!error) acceptor.set_option(tcp::acceptor::reuse_address(true), error);
    if (!error && address.is_v6()) acceptor.set_option(asio::ip::v6_only(true), error);
    if (!error) acceptor.bind(endpoint, error);
    if (!error) acceptor.listen(asio::socket_base::max_listen_connections, error);
    if (error) {
        return fail("address", listener.address,
                    fmt::format("{} port {}: {}, expected a free port on an address of this machine",
                                listener.address, listener.port, error.message()));
    }
    Site site{listener.hosts, acceptor.local_endpoint().port(), *tls != nullptr};
    if (!address.is_unspecified()) site.hosts.push_back(listener.address);
    return OpenListener{
        {std::move(site), listener.loopback, listener.plain_notice}, std::move(acceptor), std::move(*tls)};
}

template <class Stream>
asio::awaitable<void> converse(Core& core, const Place& place, const Seat& seat, Stream stream) {
    const auto connection = std::make_shared<Connection<Stream>>(core, place, seat, std::move(stream));
    const std::optional<Admitted> admitted = co_await connection->serve();
    if (!admitted) co_return;
    const auto live = std::make_shared<Live<Stream>>(core, std::move(connection->stream()));
    co_await live->serve(*admitted);
}

// The whole life of one connection.
asio::awaitable<void> attend(Core& core, const OpenListener& listener, tcp::socket socket) {
    ErrorCode error;
    const auto peer = socket.remote_endpoint(error);
    if (error) co_return;
    const Seat seat(core, peer.address().to_string());
    if (core.connections > core.limits.connections + kRefusedAtMost) co_return;
    socket.set_option(tcp::no_delay(true), error);
    beast::tcp_stream stream(std::move(socket));
    if (listener.tls) {
        co_await converse(core, listener.place, seat, TlsStream(std::move(stream), *listener.tls));
    } else {
        co_await converse(core, listener.place, seat, std::move(stream));
    }
}

asio::awaitable<void> accept_all(Core& core, OpenListener& listener) {
    while (!core.stopping) {
        ErrorCode error;
        tcp::socket socket = co_await listener.acceptor.async_accept(told(error));
        if (!error) {
            asio::co_spawn(*core.io, attend(core, listener, std::move(socket)), asio::detached);
        } else if (!core.stopping) {
            // Out of descriptors, most likely: some come free when connections end.
            asio::steady_timer pause(*core.io, std::chrono::milliseconds(100));
            co_await pause.async_wait(told(error));
        }
    }
}

class BoostServer final : public Server {
public:
    BoostServer(Handlers handlers, Limits limits, int worker_threads)
        : core_(std::move(handlers), limits, worker_threads) {}

    Result<void> open(const std::vector<Listener>& listeners) {
        for (const Listener& listener : listeners) {
            auto opened = open_listener(*core_.io, listener);
            if (!opened) return tl::unexpected(opened.error());
            listeners_.push_back(std::move(*opened));
        }
        return {};
    }

    std::vector<std::uint16_t> ports() const override {
        std::vector<std::uint16_t> ports;
        for (const OpenListener& listener : listeners_) ports.push_back(listener.place.site.port);
        return ports;
    }

    void run() override {
        for (OpenListener& listener : listeners_) {
            asio::co_spawn(*core_.io, accept_all(core_, listener), asio::detached);
        }
        core_.io->run();
    }

    void stop() override {
        asio::post(*core_.io, [this] { wind_down(); });
    }

private:
    void wind_down() {
        if (core_.stopping) return;
        core_.stopping = true;
        ErrorCode ignored;
        for (OpenListener& listener : listeners_) listener.acceptor.close(ignored);
        for (Open* open : core_.open) open->wind_down();
        if (core_.connections == 0) return;
        core_.last_call.expires_after(std::chrono::seconds(kLastCallSeconds));
        core_.last_call.async_wait([this](ErrorCode error) {
            if (error) return;
            for (Open* open : core_.open) open->cut_off();
        });
    }

    Core core_;
    std::vector<OpenListener> listeners_;
};

}  // namespace

Result<std::unique_ptr<Server>> Server::listen(std::vector<Listener> listeners, Handlers handlers, Limits limits,
                                               int worker_threads) {
    auto server = std::make_unique<BoostServer>(std::move(handlers), limits, worker_threads);
    if (auto opened = server->open(listeners); !opened) return tl::unexpected(opened.error());
    return server;
}

void on_stop_signal(std::function<void()> then) {
    // The signals are caught from here on, not only once the thread runs. After the first, they end the program as
    // they would any other.
    auto io = std::make_shared<asio::io_context>(1);
    auto signals = std::make_shared<asio::signal_set>(*io, SIGINT, SIGTERM);
    signals->async_wait([signals, then = std::move(then)](ErrorCode error, int) {
        if (error) return;
        signals->clear();
        then();
    });
    std::thread([io] { io->run(); }).detach();
}

}  // namespace fallaway::net
