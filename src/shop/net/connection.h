// One HTTP/1.1 connection: request after request, answered in order, until one side has had enough. Only
// server.cpp includes this.
#pragma once

#include <boost/asio/ssl/stream_base.hpp>
#include <boost/asio/write.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/string_body.hpp>
#include <boost/beast/ssl/ssl_stream.hpp>
#include <boost/beast/websocket/rfc6455.hpp>

#include <algorithm>
#include <array>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "science/base/quote.h"
#include "shop/net/answer.h"
#include "shop/net/core.h"
#include "shop/net/field_text.h"
#include "shop/net/target.h"

namespace fallaway::net {

namespace beast = boost::beast;
namespace http = beast::http;

using Parser = http::request_parser<http::string_body>;
using Head = http::request<http::string_body>;

inline std::string_view view(beast::string_view text) {
    return {text.data(), text.size()};
}

// Header lines that a handler gets to see.
inline std::map<std::string, std::string> kept_headers(const Head& head) {
    static constexpr std::array<std::string_view, 6> kKept = {"content-type", "cookie",   "accept-language",
                                                              "user-agent",   "x-device", "x-file-name"};
    std::map<std::string, std::string> kept;
    for (const auto& field : head) {
        const std::string name = lower(view(field.name_string()));
        if (std::ranges::find(kKept, name) == kKept.end()) continue;
        const auto [place, fresh] = kept.try_emplace(name, view(field.value()));
        if (!fresh && name == "cookie") place->second.append("; ").append(view(field.value()));
    }
    return kept;
}

inline Result<void> check_host(const Head& head, const Site& site) {
    std::vector<std::string_view> hosts;
    const auto lines = head.equal_range(http::field::host);
    for (auto line = lines.first; line != lines.second; ++line) hosts.push_back(view(line->value()));
    return check_host(hosts, site);
}

inline Result<void> check_sender(const Head& head, const Site& site, bool live) {
    Sender sender{
        view(head.method_string()), {}, view(head["Sec-Fetch-Site"]), view(head["Sec-Fetch-Mode"]), live};
    if (const auto origin = head.find(http::field::origin); origin != head.end())
        sender.origin = view(origin->value());
    return check_sender(sender, site);
}

// What the server itself has against a request of which only the head is known; nothing when it may go on.
inline std::optional<Response> objection(const Head& head, const Place& place, bool live, bool has_body) {
    static constexpr std::array<std::string_view, 5> kMethods = {"GET", "HEAD", "POST", "PUT", "DELETE"};
    if (head.count(http::field::transfer_encoding) > 0 && head.count(http::field::content_length) > 0) {
        return refusal(400, {"syntax", "Content-Length", "Content-Length beside Transfer-Encoding, expected one"});
    }
    if (const auto host = check_host(head, place.site); !host) {
        return refusal(host.error().code == "host" ? 421 : 400, host.error());
    }
    const std::string_view method = view(head.method_string());
    const auto known = std::span(kMethods).first(place.plain_notice ? 2 : kMethods.size());
    if (std::ranges::find(known, method) == known.end()) {
        const std::string names = fmt::format("{}", fmt::join(known, ", "));
        Response response = refusal(405, {"method", "", fmt::format("{}: expected {}", quote(method), names)});
        response.headers = {{"Allow", names}};
        return response;
    }
    if (const auto sender = check_sender(head, place.site, live); !sender) return refusal(403, sender.error());
    if (place.plain_notice && has_body) return refusal(413, {"size", "", "a body, expected none here"});
    return std::nullopt;
}

// A request that a handler let in as a WebSocket.
struct Admitted {
    Head head;
    Request request;
};

template <class Stream>
class Connection final : public Open, public std::enable_shared_from_this<Connection<Stream>> {
public:
    static constexpr bool kTls = !std::is_same_v<Stream, beast::tcp_stream>;

    Connection(Core& core, const Place& place, const Seat& seat, Stream stream)
        : core_(core), place_(place), seat_(seat), stream_(std::move(stream)), timer_(*core.io) {}

    // Until the connection is over, or is to go on as a WebSocket; then the stream is taken over.
    asio::awaitable<std::optional<Admitted>> serve() {
        const Listed listed(core_, *this);
        bool more = true;
        if constexpr (kTls) {
            ErrorCode error;
            arm(core_.limits.header_seconds);
            waiting_ = true;
            co_await stream_.async_handshake(asio::ssl::stream_base::server, told(error));
            waiting_ = false;
            more = !error;
        }
        while (more) {
            more = co_await first_byte();
            if (more) more = co_await exchange();
        }
        timer_.cancel();
        if (!admitted_) co_await farewell();
        co_return std::move(admitted_);
    }

    Stream& stream() { return stream_; }

    void wind_down() override {
        if (waiting_) socket().cancel();
    }
    void cut_off() override { socket().close(); }

private:
    beast::tcp_stream& socket() { return beast::get_lowest_layer(stream_); }

    // Until it is armed again, whatever is read or written after so many seconds is broken off.
    void arm(int seconds) {
        late_ = false;
        timer_.expires_after(std::chrono::seconds(seconds));
        watch();
    }

    void watch() {
        timer_.async_wait([weak = this->weak_from_this()](ErrorCode error) {
            const auto self = weak.lock();
            if (error || !self || self->timer_.expiry() > asio::steady_timer::clock_type::now()) return;
            self->late_ = true;
            self->socket().cancel();
            // The next step of the same operation may just have begun: see to that too.
            self->timer_.expires_after(std::chrono::milliseconds(50));
            self->watch();
        });
    }

    // Waits for the next request. False: none will come.
    asio::awaitable<bool> first_byte() {
        if (core_.stopping) co_return false;
        if (buffer_.size() > 0) co_return true;
        ErrorCode error;
        arm(core_.limits.idle_seconds);
        waiting_ = true;
        const std::size_t got = co_await stream_.async_read_some(buffer_.prepare(kChunk), told(error));
        waiting_ = false;
        buffer_.commit(got);
        co_return !error;
    }

    // One request and its answer. False: it was the last.
    asio::awaitable<bool> exchange() {
        Parser parser;
        parser.header_limit(static_cast<std::uint32_t>(core_.limits.header_bytes));
        parser.body_limit(std::numeric_limits<std::uint64_t>::max());  // known once the head is
        asked_ = {};
        asked_.tls = kTls;
        linger_ = false;
        ErrorCode error;
        arm(core_.limits.header_seconds);
        co_await http::async_read_header(stream_, buffer_, parser, told(error));
        if (!error) {
            Request request;
            std::optional<Response> response = judged(parser, request);
            if (response) co_return co_await answer(std::move(*response));
            error = co_await read_body(parser, request);
            if (!error) co_return co_await pass_on(parser, request);
        }
        std::optional<Response> response = complaint(error);
        asked_.keep_alive = false;
        linger_ = response.has_value();
        if (!response) co_return false;
        co_return co_await answer(std::move(*response));
    }

    // From the head alone: the answer when there is something against the request, else the request without body.
    std::optional<Response> judged(const Parser& parser, Request& request) {
        const Head& head = parser.get();
        note(head);
        const bool room = seat_.within_limits();
        std::optional<Response> response;
        if (!room) {
            response = refusal(503, {"busy", "", "too many connections at once, expected fewer"});
            response->headers = {{"Retry-After", "5"}};
        }
        if (!response) response = objection(head, place_, asks_for_live(head), has_body(parser));
        if (!response) response = take_apart(head, request);
        if (!response) return std::nullopt;
        linger_ = !room || has_body(parser);
        asked_.keep_alive = asked_.keep_alive && !linger_;
        return response;
    }

    static bool has_body(const Parser& parser) {
        return !parser.is_done() && parser.content_length().value_or(1) > 0;
    }

    bool asks_for_live(const Head& head) const {
        return beast::websocket::is_upgrade(head) && !place_.plain_notice;
    }

    void note(const Head& head) {
        asked_.head = head.method() == http::verb::head;
        asked_.keep_alive = head.keep_alive();
        if (host_is_ours(view(head[http::field::host]), place_.site)) asked_.host = view(head[http::field::host]);
        if (asked_.head || head.method() == http::verb::get) asked_.if_none_match = view(head["If-None-Match"]);
        asked_.accept_encoding = view(head["Accept-Encoding"]);
    }

    std::optional<Response> take_apart(const Head& head, Request& request) {
        auto target = parse_target(view(head.target()));
        if (!target) return refusal(400, target.error());
        request.method = asked_.head ? "GET" : std::string(view(head.method_string()));
        request.path = std::move(target->path);
        request.query = std::move(target->query);
        request.headers = kept_headers(head);
        request.loopback = place_.loopback;
        request.tls = kTls;
        request.peer = seat_.peer();
        return std::nullopt;
    }

    asio::awaitable<ErrorCode> read_body(Parser& parser, const Request& request) {
        ErrorCode error;
        if (parser.is_done()) co_return error;
        most_ = core_.handlers.body_limit ? core_.handlers.body_limit(request) : core_.limits.body_bytes;
        parser.body_limit(most_);
        if (parser.content_length() && *parser.content_length() > most_) co_return http::error::body_limit;
        arm(core_.limits.body_seconds);
        if (lower(view(parser.get()[http::field::expect])) == "100-continue") {
            co_await asio::async_write(stream_, asio::buffer(kContinue.data(), kContinue.size()), told(error));
        }
        if (!error) co_await http::async_read(stream_, buffer_, parser, told(error));
        co_return error;
    }

    // Of a request that could not be read to its end; nothing when there is nobody to tell.
    std::optional<Response> complaint(ErrorCode error) const {
        if (late_) return refusal(408, {"late", "", "the request did not arrive in time"});
        if (error == http::error::body_limit) {
            return refusal(413,
                           {"size", "", fmt::format("a body above {} bytes, the most that is taken here", most_)});
        }
        if (error == http::error::header_limit || error == http::error::buffer_overflow) {
            const std::size_t most = core_.limits.header_bytes;
            return refusal(431, {"size", "", fmt::format("headers above {} bytes, the most that is taken", most)});
        }
        const bool of_the_parser = error.category() == http::make_error_code(http::error::bad_method).category();
        const bool gone = error == http::error::end_of_stream || error == http::error::partial_message;
        if (!of_the_parser || gone) return std::nullopt;
        return refusal(400, {"syntax", "", fmt::format("{}, expected a request of HTTP/1.1", error.message())});
    }

    template <class Handler>
    asio::awaitable<Response> handled(const Handler& handler, const Request& request) {
        Response response;
        try {
            response = co_await on_worker(core_, [&handler, &request] { return handler(request); });
        } catch (const std::exception& thrown) {
            response = refusal(500, {"fault", "", fmt::format("a fault of this program: {}", thrown.what())});
        }
        co_return response;
    }

    asio::awaitable<bool> pass_on(Parser& parser, Request& request) {
        if (asks_for_live(parser.get())) co_return co_await admit(parser, request);
        request.body = std::move(parser.get().body());
        Response response = co_await handled(core_.handlers.http, request);
        co_return co_await answer(std::move(response));
    }

    asio::awaitable<bool> admit(Parser& parser, Request& request) {
        Response response;
        if (!core_.handlers.may_live || !core_.handlers.live) {
            response = refusal(404, {"not found", "", "no WebSocket here"});
        } else if (buffer_.size() > 0) {
            // It would be lost in the change-over.
            response = refusal(400, {"syntax", "", "bytes after the request for a WebSocket, expected none yet"});
        } else {
            response = co_await handled(core_.handlers.may_live, request);
        }
        if (response.status == 101 && !core_.stopping) {
            admitted_.emplace(Admitted{parser.release(), std::move(request)});
            co_return false;
        }
        if (response.status == 101) response = refusal(503, {"busy", "", "the shop is closing down"});
        co_return co_await answer(std::move(response));
    }

    // False: this was the last answer.
    asio::awaitable<bool> answer(Response response) {
        asked_.keep_alive = asked_.keep_alive && !core_.stopping;
        const auto now = std::chrono::system_clock::now().time_since_epoch();
        const Outgoing out = compose(std::move(response), asked_,
                                     http_date(std::chrono::duration_cast<std::chrono::seconds>(now).count()));
        const std::array<asio::const_buffer, 2> parts = {asio::buffer(out.head), asio::buffer(out.body)};
        ErrorCode error;
        arm(core_.limits.body_seconds);
        co_await asio::async_write(stream_, parts, told(error));
        linger_ = linger_ && !error;
        co_return !error && asked_.keep_alive;
    }

    // Closing with bytes unread makes the peer lose the answer (RFC 9112, section 9.6): so they are read and
    // dropped, for a while.
    asio::awaitable<void> farewell() {
        ErrorCode error;
        if (linger_) {
            arm(core_.limits.header_seconds);
            socket().socket().shutdown(asio::socket_base::shutdown_send, error);
            std::array<char, kChunk> dropped;
            waiting_ = true;
            while (!error && !late_ && !core_.stopping) {
                co_await socket().async_read_some(asio::buffer(dropped), told(error));
            }
        } else if constexpr (kTls) {
            arm(kShutdownSeconds);
            co_await stream_.async_shutdown(told(error));
        }
        timer_.cancel();
        socket().close();
    }

    static constexpr std::size_t kChunk = 4096;
    static constexpr int kShutdownSeconds = 2;
    static constexpr std::string_view kContinue = "HTTP/1.1 100 Continue\r\n\r\n";

    Core& core_;
    const Place& place_;
    const Seat& seat_;
    Stream stream_;
    beast::flat_buffer buffer_;
    asio::steady_timer timer_;
    Asked asked_;
    std::optional<Admitted> admitted_;
    std::size_t most_ = 0;  // bytes of this body
    bool waiting_ = false;  // for what no answer depends on
    bool late_ = false;     // the armed time is over
    bool linger_ = false;   // the peer may still be sending
};

}  // namespace fallaway::net
