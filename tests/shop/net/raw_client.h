// A client made of bare sockets: it sends what no library would, and waits with poll(), never by sleeping.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "shop/net/server.h"

namespace fallaway::net {

inline constexpr int kPatienceMs = 10'000;  // a test that waits longer has failed

struct RawAnswer {
    int status = 0;  // 0: the connection ended before an answer
    std::string head;
    std::string body;

    std::string header(const std::string& name) const {
        const std::size_t at = head.find("\r\n" + name + ": ");
        if (at == head.npos) return "";
        const std::size_t from = at + name.size() + 4;
        return head.substr(from, head.find("\r\n", from) - from);
    }
};

class RawClient {
public:
    explicit RawClient(std::uint16_t port, const char* address = "127.0.0.1") : port_(port) {
        fd_ = ::socket(AF_INET, SOCK_STREAM, 0);
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(port);
        ::inet_pton(AF_INET, address, &to.sin_addr);
        connected_ = ::connect(fd_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0;
    }
    ~RawClient() { ::close(fd_); }
    RawClient(const RawClient&) = delete;
    RawClient& operator=(const RawClient&) = delete;

    int fd() const { return fd_; }
    bool connected() const { return connected_; }
    void finish_sending() { ::shutdown(fd_, SHUT_WR); }

    // False when the far end takes no more.
    bool send(std::string_view bytes) {
        while (!bytes.empty()) {
            const auto sent = ::send(fd_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
            if (sent <= 0) return false;
            bytes.remove_prefix(static_cast<std::size_t>(sent));
        }
        return true;
    }

    // A request with our Host; `more` is further header lines, each with its line end.
    bool ask(std::string_view method, std::string_view target, std::string_view more = "",
             std::string_view body = "") {
        return send(fmt::format("{} {} HTTP/1.1\r\nHost: {}\r\n{}\r\n{}", method, target, host(), more, body));
    }
    std::string host() const { return fmt::format("127.0.0.1:{}", port_); }
    std::string origin() const { return fmt::format("Origin: http://{}\r\n", host()); }

    // At least `count` bytes wait in `arrived` afterwards, or the far end has closed, or it took too long.
    bool await(std::size_t count) {
        while (arrived_.size() < count) {
            pollfd ready{fd_, POLLIN, 0};
            if (::poll(&ready, 1, kPatienceMs) <= 0) return false;
            char chunk[1 << 14];
            const auto got = ::recv(fd_, chunk, sizeof chunk, 0);
            if (got <= 0) {
                closed_ = true;
                return false;
            }
            arrived_.append(chunk, static_cast<std::size_t>(got));
        }
        return true;
    }

    std::string take(std::size_t count) {
        if (!await(count)) return "";
        std::string taken = arrived_.substr(0, count);
        arrived_.erase(0, count);
        return taken;
    }

    RawAnswer answer(bool of_head = false) {
        RawAnswer answer;
        std::size_t end = 0;
        while ((end = arrived_.find("\r\n\r\n")) == arrived_.npos) {
            if (!await(arrived_.size() + 1)) return answer;
        }
        answer.head = take(end + 4);
        answer.status = std::atoi(answer.head.substr(9, 3).c_str());
        const std::string length = answer.header("Content-Length");
        if (!of_head && !length.empty()) answer.body = take(static_cast<std::size_t>(std::atoll(length.c_str())));
        return answer;
    }

    // Reads on to the end. False when the far end keeps the connection open.
    bool sees_end() {
        while (!closed_ && await(arrived_.size() + 1)) {
        }
        return closed_;
    }

    std::string& arrived() { return arrived_; }

private:
    std::uint16_t port_;
    int fd_ = -1;
    bool connected_ = false;
    bool closed_ = false;
    std::string arrived_;
};

// RFC 6455, section 5.2.
struct Frame {
    int opcode = -1;  // 1 text, 2 binary, 8 close, 9 ping, 10 pong; -1: the connection ended
    std::string payload;
    bool compressed = false;

    int close_code() const {
        if (opcode != 8 || payload.size() < 2) return 0;
        return static_cast<unsigned char>(payload[0]) << 8 | static_cast<unsigned char>(payload[1]);
    }
};

inline std::string frame(int opcode, std::string_view payload, bool masked = true, bool compressed = false) {
    std::string out(1, static_cast<char>(0x80 | (compressed ? 0x40 : 0) | opcode));
    const int mask_bit = masked ? 0x80 : 0;
    const std::size_t size = payload.size();
    const int bytes = size < 126 ? 0 : size < 65536 ? 2 : 8;
    out += static_cast<char>(mask_bit | (bytes == 0 ? static_cast<int>(size) : bytes == 2 ? 126 : 127));
    for (int i = bytes - 1; i >= 0; --i) out += static_cast<char>(size >> (8 * i));
    const std::string_view mask = "\x12\x34\x56\x78";
    if (masked) out += mask;
    for (std::size_t i = 0; i < size; ++i) {
        out += static_cast<char>(masked ? payload[i] ^ mask[i % 4] : payload[i]);
    }
    return out;
}

// The next message, put together when it comes in parts.
inline Frame next_frame(RawClient& client) {
    const std::string start = client.take(2);
    if (start.size() < 2) return {};
    std::size_t size = static_cast<unsigned char>(start[1]);
    if (size >= 126) {
        const std::string more = client.take(size == 126 ? 2 : 8);
        size = 0;
        for (const char c : more) size = size << 8 | static_cast<unsigned char>(c);
    }
    Frame frame{start[0] & 0x0F, size == 0 ? "" : client.take(size), (start[0] & 0x40) != 0};
    const bool last = (start[0] & 0x80) != 0;
    if (!last) frame.payload += next_frame(client).payload;
    return frame;
}

inline std::string live_headers(const RawClient& client, std::string_view more = "") {
    return fmt::format(
        "{}Connection: Upgrade\r\nUpgrade: websocket\r\nSec-WebSocket-Version: 13\r\n"
        "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n{}",
        client.origin(), more);
}

// A server on free ports that runs for as long as this lasts.
class Running {
public:
    Running(Handlers handlers, Limits limits = {}, std::vector<Listener> listeners = {Listener{}}) {
        auto made = Server::listen(std::move(listeners), std::move(handlers), limits);
        if (!made) throw std::runtime_error(made.error().message);
        server_ = std::move(*made);
        thread_ = std::thread([this] { server_->run(); });
    }
    ~Running() { stop(); }
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;

    std::uint16_t port(std::size_t listener = 0) const { return server_->ports()[listener]; }
    Server& server() { return *server_; }
    // Until run() has returned.
    void stop() {
        server_->stop();
        if (thread_.joinable()) thread_.join();
    }

private:
    std::unique_ptr<Server> server_;
    std::thread thread_;
};

}  // namespace fallaway::net
