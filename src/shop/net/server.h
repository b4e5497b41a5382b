// HTTP/1.1 and WebSocket behind an interface of our own. Nobody else includes Boost or OpenSSL.
//
// What the server itself sees to, before a handler is called: limits of header, body, frame and time; a Host that
// is not one of ours (421); an Origin, where one is sent or the method changes something, that is not ours (403);
// targets with anything but plain path segments (400); a HEAD as a GET without its body; keep-alive; the security
// headers of `headers_of_every_answer`; If-None-Match against `etag` (304); gzip where the answer has it ready and
// the client takes it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "science/base/result.h"

namespace fallaway::net {

struct Request {
    std::string method;                          // "GET", "POST", "PUT", "DELETE"
    std::vector<std::string> path;               // decoded segments: {"api", "visits", "0123456789abcdef"}
    std::map<std::string, std::string> query;    // decoded; the first of equal names
    std::map<std::string, std::string> headers;  // lower-case names, those the server keeps: content-type, cookie,
                                                 // accept-language, user-agent, x-device, x-file-name
    std::string body;
    bool loopback = false;  // came over the loopback listener
    bool tls = false;
    std::string peer;  // address, for rate limits
};

struct Response {
    int status = 200;
    std::string type = "application/json";  // Content-Type; charset is added to text and JSON
    std::string body;
    std::string gzip;  // the same body compressed ahead, "" when there is none
    std::string etag;  // without quotes, "" none
    std::vector<std::pair<std::string, std::string>> headers;  // further ones: Set-Cookie, Content-Disposition
    bool cache_for_ever = false;  // content-addressed assets; else "no-cache", which asks again by ETag
};

// The far end of one WebSocket. Any thread may send; messages keep their order; a client that does not read is cut
// off once `live_backlog_bytes` wait for it. Copies are the same connection.
class LiveLink {
public:
    virtual ~LiveLink() = default;
    virtual void send(std::string text) = 0;
    virtual void close(int code, std::string_view reason) = 0;
};

// Made for each WebSocket, told what arrives, one message after the other, destroyed when it is gone; all of it on
// worker threads.
class LiveSession {
public:
    virtual ~LiveSession() = default;
    virtual void received(std::string text) = 0;
};

struct Limits {
    std::size_t header_bytes = 16u << 10;
    std::size_t body_bytes = 1u << 20;          // 413 above
    std::size_t live_frame_bytes = 256u << 10;  // close code 1009 above
    std::size_t live_backlog_bytes = 8u << 20;
    int header_seconds = 10;  // a slow client is cut off
    int body_seconds = 120;
    int idle_seconds = 75;
    int connections = 512;
    int connections_of_peer = 128;
};

struct Handlers {
    // All called from worker threads; an exception becomes a 500, or closes the WebSocket with 1011.
    std::function<Response(const Request&)> http;
    // A response with status 101 lets the WebSocket in; anything else is the answer.
    std::function<Response(const Request&)> may_live;
    std::function<std::unique_ptr<LiveSession>(const Request&, std::shared_ptr<LiveLink>)> live;
    // Larger bodies where they are needed ("/api/media"); absent: limits.body_bytes everywhere. Called from the
    // thread of run(), so it must answer at once, and not throw.
    std::function<std::size_t(const Request&)> body_limit;  // head only, no body yet
};

// A listener. Loopback listeners speak plain HTTP; opened ones need `certificate` and `key` (PEM texts).
struct Listener {
    std::string address = "127.0.0.1";
    std::uint16_t port = 0;   // 0: any free one
    std::string certificate;  // PEM, leaf first; "" plain HTTP
    std::string key;
    std::vector<std::string> hosts;  // names and addresses that a Host may hold, without port; `address` need not
                                     // be among them
    bool loopback = true;
    bool plain_notice = false;  // the one plain page that tells a tablet how to trust us: only GET, no bodies
};

class Server {
public:
    // Listens; Error code "address" when an address or port cannot be had, "certificate" when a listener's
    // certificate and key do not fit.
    static Result<std::unique_ptr<Server>> listen(std::vector<Listener> listeners, Handlers handlers,
                                                  Limits limits, int worker_threads = 2);
    virtual ~Server() = default;
    virtual std::vector<std::uint16_t> ports() const = 0;  // of each listener, in order
    virtual void run() = 0;                                // returns after stop()
    // Any thread, also from a signal's thread: no new connections, requests under way are answered (5 s at most),
    // WebSockets close with 1001.
    virtual void stop() = 0;
};

// SIGINT and SIGTERM call `then` once, on a thread of our own; a second one ends the program at once.
void on_stop_signal(std::function<void()> then);

}  // namespace fallaway::net
