// One WebSocket. Only server.cpp includes this.
#pragma once

#include <boost/asio/post.hpp>
#include <boost/beast/core/buffers_to_string.hpp>
#include <boost/beast/websocket/ssl.hpp>
#include <boost/beast/websocket/stream.hpp>

#include <deque>
#include <optional>

#include "shop/net/connection.h"

namespace fallaway::net {

namespace websocket = beast::websocket;

// The near end of a link, told on the thread of run().
class Wire {
public:
    virtual ~Wire() = default;
    virtual void push(std::string text) = 0;
    virtual void finish(int code, std::string reason) = 0;
};

// Outlives its connection without harm: then nothing happens.
class Link final : public LiveLink {
public:
    Link(std::shared_ptr<asio::io_context> io, std::weak_ptr<Wire> wire)
        : io_(std::move(io)), wire_(std::move(wire)) {}

    void send(std::string text) override {
        asio::post(*io_, [wire = wire_, text = std::move(text)]() mutable {
            if (const auto near = wire.lock()) near->push(std::move(text));
        });
    }
    void close(int code, std::string_view reason) override {
        asio::post(*io_, [wire = wire_, code, reason = std::string(reason)]() mutable {
            if (const auto near = wire.lock()) near->finish(code, std::move(reason));
        });
    }

private:
    std::shared_ptr<asio::io_context> io_;
    std::weak_ptr<Wire> wire_;
};

template <class Stream>
class Live final : public Open, public Wire, public std::enable_shared_from_this<Live<Stream>> {
public:
    Live(Core& core, Stream stream)
        : core_(core), socket_(std::move(stream)), over_(*core.io, asio::steady_timer::time_point::max()) {
        websocket::permessage_deflate deflate;
        deflate.server_enable = true;
        socket_.set_option(deflate);
        // Pings go out after half of the idle time; a peer that answers none is given up.
        socket_.set_option(websocket::stream_base::timeout{std::chrono::seconds(core.limits.header_seconds),
                                                           std::chrono::seconds(core.limits.idle_seconds), true});
        socket_.set_option(websocket::stream_base::decorator(
            [](websocket::response_type& response) { response.set(http::field::server, ""); }));
        socket_.auto_fragment(false);
        socket_.write_buffer_bytes(kWriteBufferBytes);
        socket_.read_message_max(core.limits.live_frame_bytes);
    }

    // The whole life of the WebSocket, session included.
    asio::awaitable<void> serve(const Admitted& admitted) {
        const Listed listed(core_, *this);
        ErrorCode error;
        co_await socket_.async_accept(admitted.head, told(error));
        if (!error && ending_) error = asio::error::operation_aborted;
        if (error) co_return;
        accepted_ = true;
        const std::shared_ptr<LiveLink> link = std::make_shared<Link>(core_.io, this->weak_from_this());
        std::unique_ptr<LiveSession> session;
        bool fault = false;
        try {
            const auto& make = core_.handlers.live;
            const Request& request = admitted.request;
            session = co_await on_worker(core_, [&make, &request, &link] { return make(request, link); });
        } catch (const std::exception&) {
            fault = true;
        }
        if (fault || !session) finish(websocket::close_code::internal_error, "a fault of this program");
        co_await receive(session.get());
        co_await on_worker(core_, [&session] { session.reset(); });
        cut_off();
    }

    void push(std::string text) override {
        if (ending_) return;
        backlog_ += text.size();
        // Nothing can be told to somebody who does not read.
        if (backlog_ > core_.limits.live_backlog_bytes) return cut_off();
        queue_.push_back(std::move(text));
        if (!writing_) write_next();
    }

    void finish(int code, std::string reason) override {
        if (ending_) return;
        ending_.emplace(static_cast<websocket::close_code>(code), reason.substr(0, kMostReasonBytes));
        if (accepted_ && !writing_) close_now();
    }

    void wind_down() override { finish(websocket::close_code::going_away, "the shop is closing down"); }
    void cut_off() override {
        if (!ending_) ending_.emplace();
        beast::get_lowest_layer(socket_).close();
        end();
    }

private:
    // Message after message, until the socket is closed. While our own close is under way no read may begin: Beast
    // reads on to the peer's close itself, and takes a read beside it amiss when the peer stays silent.
    asio::awaitable<void> receive(LiveSession* session) {
        ErrorCode error;
        while (!ending_) {
            beast::flat_buffer buffer;
            co_await socket_.async_read(buffer, told(error));
            if (error) co_return;
            if (ending_) break;
            if (!socket_.got_text()) {
                finish(websocket::close_code::unknown_data, "text messages only");
                continue;
            }
            std::string text = beast::buffers_to_string(buffer.data());
            bool fault = false;
            try {
                co_await on_worker(core_, [session, &text] { session->received(std::move(text)); });
            } catch (const std::exception&) {
                fault = true;
            }
            if (fault) finish(websocket::close_code::internal_error, "a fault of this program");
        }
        co_await over_.async_wait(told(error));
    }

    void write_next() {
        writing_ = true;
        socket_.async_write(
            asio::buffer(queue_.front()),
            [self = this->shared_from_this()](ErrorCode error, std::size_t) { self->written(error); });
    }

    void written(ErrorCode error) {
        writing_ = false;
        backlog_ -= queue_.front().size();
        queue_.pop_front();
        if (error) return end();
        if (!queue_.empty()) {
            write_next();
        } else if (ending_) {
            close_now();
        }
    }

    void close_now() {
        socket_.async_close(*ending_, [self = this->shared_from_this()](ErrorCode) { self->end(); });
    }

    void end() { over_.expires_at(asio::steady_timer::time_point::min()); }

    // A compressed message goes out in frames of this size.
    static constexpr std::size_t kWriteBufferBytes = 16u << 10;
    static constexpr std::size_t kMostReasonBytes = 120;  // RFC 6455, section 5.5: 125 with the code

    Core& core_;
    websocket::stream<Stream> socket_;
    asio::steady_timer over_;        // rings when the close is through, or nothing can be sent any more
    std::deque<std::string> queue_;  // the first is being written while `writing_`
    std::size_t backlog_ = 0;
    bool accepted_ = false;
    bool writing_ = false;
    std::optional<websocket::close_reason> ending_;  // once set, nothing new goes out
};

}  // namespace fallaway::net
