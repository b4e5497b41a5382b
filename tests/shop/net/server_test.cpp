#include "shop/net/server.h"

#include <csignal>
#include <future>

#include "raw_client.h"
#include "shop/net/answer.h"

namespace fallaway::net {
namespace {

// Tells what it was asked; "/zip" has a packed form and a tag, "/fault" throws.
Response echo(const Request& request) {
    if (!request.path.empty() && request.path[0] == "fault") throw std::runtime_error("the handler broke");
    Response response;
    response.type = "text/plain";
    response.body = request.method;
    for (const std::string& segment : request.path) response.body += "|" + segment;
    for (const auto& [name, value] : request.query) response.body += "?" + name + "=" + value;
    for (const auto& [name, value] : request.headers) response.body += ";" + name + "=" + value;
    if (!request.body.empty()) response.body += "#" + request.body;
    if (!request.path.empty() && request.path[0] == "zip") {
        response.body = std::string(5000, 'z');
        response.gzip = gzip(response.body);
        response.etag = "00ff";
    }
    return response;
}

Handlers echoing() {
    Handlers handlers;
    handlers.http = echo;
    return handlers;
}

std::string post_headers(const RawClient& client, std::size_t length) {
    return fmt::format("{}Content-Length: {}\r\n", client.origin(), length);
}

void expect_error(const RawAnswer& answer, int status, std::string_view code) {
    EXPECT_EQ(answer.status, status) << answer.head;
    EXPECT_EQ(answer.header("Content-Type"), "application/json; charset=utf-8");
    EXPECT_NE(answer.body.find("\"error\""), std::string::npos);
    EXPECT_NE(answer.body.find(fmt::format("\"code\": \"{}\"", code)), std::string::npos) << answer.body;
    EXPECT_NE(answer.body.find("\"message\""), std::string::npos);
    EXPECT_NE(answer.header("Content-Security-Policy"), "");
    EXPECT_EQ(answer.header("X-Content-Type-Options"), "nosniff");
}

TEST(Server, KeepsTheConnectionAlive) {
    Running running(echoing());
    RawClient client(running.port());
    for (int i = 0; i < 3; ++i) {
        ASSERT_TRUE(client.ask("GET", fmt::format("/visits/{}?q=a+b", i),
                               "X-Device: 0123\r\nCookie: a=1\r\nCookie: b=2\r\nX-Other: no\r\n"));
        const RawAnswer answer = client.answer();
        EXPECT_EQ(answer.status, 200);
        EXPECT_EQ(answer.body, fmt::format("GET|visits|{}?q=a b;cookie=a=1; b=2;x-device=0123", i));
        EXPECT_EQ(answer.header("Server"), "");
    }
    client.ask("GET", "/", "Connection: close\r\n");
    EXPECT_EQ(client.answer().header("Connection"), "close");
    EXPECT_TRUE(client.sees_end());
}

TEST(Server, AnswersPipelinedRequestsInOrder) {
    Running running(echoing());
    RawClient client(running.port());
    std::string all;
    for (int i = 0; i < 50; ++i) {
        const std::string body = std::string(static_cast<std::size_t>(i % 7), 'b');
        all += fmt::format("POST /{} HTTP/1.1\r\nHost: {}\r\n{}\r\n{}", i, client.host(),
                           post_headers(client, body.size()), body);
    }
    ASSERT_TRUE(client.send(all));
    for (int i = 0; i < 50; ++i) {
        const std::string body = i % 7 == 0 ? "" : "#" + std::string(static_cast<std::size_t>(i % 7), 'b');
        ASSERT_EQ(client.answer().body, fmt::format("POST|{}{}", i, body));
    }
}

TEST(Server, AnswersAHeadWithoutBody) {
    Running running(echoing());
    RawClient client(running.port());
    client.ask("HEAD", "/abc");
    const RawAnswer answer = client.answer(true);
    EXPECT_EQ(answer.status, 200);
    EXPECT_EQ(answer.header("Content-Length"), "7");  // "GET|abc"
    client.ask("GET", "/abc");
    EXPECT_EQ(client.answer().body, "GET|abc");  // nothing of the other's body came between
}

TEST(Server, SendsPackedOrNothing) {
    Running running(echoing());
    RawClient client(running.port());
    client.ask("GET", "/zip", "Accept-Encoding: br, gzip\r\n");
    const RawAnswer packed = client.answer();
    EXPECT_EQ(packed.header("Content-Encoding"), "gzip");
    EXPECT_EQ(packed.body, gzip(std::string(5000, 'z')));
    client.ask("GET", "/zip");
    EXPECT_EQ(client.answer().body, std::string(5000, 'z'));
    client.ask("GET", "/zip", fmt::format("If-None-Match: {}\r\n", packed.header("ETag")));
    EXPECT_EQ(client.answer(true).status, 304);
    client.ask("GET", "/zip", "If-None-Match: \"other\"\r\n");
    EXPECT_EQ(client.answer().status, 200);
}

TEST(Server, TurnsAHandlersExceptionInto500) {
    Running running(echoing());
    RawClient client(running.port());
    client.ask("GET", "/fault");
    const RawAnswer answer = client.answer();
    expect_error(answer, 500, "fault");
    EXPECT_NE(answer.body.find("the handler broke"), std::string::npos);
    client.ask("GET", "/");
    EXPECT_EQ(client.answer().status, 200);
}

struct HeadCase {
    std::string_view method;
    std::string_view target;
    std::string headers;  // "{port}" stands for the port
    int status;
    std::string_view code;
};

TEST(Server, RefusesFromTheHeadAlone) {
    const std::string ours = "Host: 127.0.0.1:{port}\r\n";
    const std::string from_us = "Origin: http://127.0.0.1:{port}\r\n";
    const HeadCase cases[] = {
        {"GET", "/", "Host: rebind.example:{port}\r\n", 421, "host"},
        {"GET", "/", "Host: 127.0.0.1\r\n", 421, "host"},
        {"GET", "/", "Host: localhost:{port}\r\n", 421, "host"},  // this listener has not been given the name
        {"GET", "/", "", 400, "syntax"},
        {"GET", "/", ours + "Host: rebind.example\r\n", 400, "syntax"},
        {"POST", "/", ours + "Origin: http://rebind.example\r\nContent-Length: 0\r\n", 403, "forbidden"},
        {"POST", "/", ours + "Content-Length: 0\r\n", 403, "forbidden"},
        {"POST", "/", ours + "Origin: null\r\nContent-Length: 0\r\n", 403, "forbidden"},
        {"DELETE", "/", ours, 403, "forbidden"},
        {"GET", "/", ours + "Origin: https://127.0.0.1:{port}\r\n", 403, "forbidden"},
        {"GET", "/", ours + "Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: no-cors\r\n", 403, "forbidden"},
        {"OPTIONS", "/", ours + "Origin: http://rebind.example\r\nAccess-Control-Request-Method: PUT\r\n", 405,
         "method"},
        {"OPTIONS", "*", ours, 405, "method"},
        {"TRACE", "/", ours, 405, "method"},
        {"PATCH", "/", ours + from_us, 405, "method"},
        {"get", "/", ours + from_us, 405, "method"},
        {"CONNECT", "rebind.example:443", ours, 405, "method"},
        {"GET", "/../../etc/passwd", ours, 400, "syntax"},
        {"GET", "/media/%2e%2e/%2e%2e/etc/passwd", ours, 400, "syntax"},
        {"GET", "/media/..%2fshop.db", ours, 400, "syntax"},
        {"GET", "http://127.0.0.1/", ours, 400, "syntax"},
        {"GET", "/a%00b", ours, 400, "syntax"},
        {"PUT", "/", ours + from_us + "Content-Length: 5\r\nTransfer-Encoding: chunked\r\n", 400, "syntax"},
        {"PUT", "/", ours + from_us + "Content-Length: 5\r\nContent-Length: 6\r\n", 400, "syntax"},
        {"PUT", "/", ours + from_us + "Content-Length: -5\r\n", 400, "syntax"},
        {"GET", "/", ours + "Bad Name: x\r\n", 400, "syntax"},
        {"GET", "/", ours + "X: a\r\n folded\r\n: y\r\n", 400, "syntax"},
    };
    Handlers handlers;
    handlers.http = [](const Request&) -> Response { throw std::logic_error("must not be called"); };
    Running running(handlers);
    for (const HeadCase& c : cases) {
        RawClient client(running.port());
        std::string headers = c.headers;
        for (std::size_t at = 0; (at = headers.find("{port}")) != headers.npos;) {
            headers.replace(at, 6, std::to_string(running.port()));
        }
        client.send(fmt::format("{} {} HTTP/1.1\r\n{}\r\n", c.method, c.target, headers));
        SCOPED_TRACE(fmt::format("{} {} {}", c.method, c.target, headers));
        expect_error(client.answer(), c.status, c.code);
    }
    RawClient client(running.port());
    client.ask("OPTIONS", "/");
    EXPECT_EQ(client.answer().header("Allow"), "GET, HEAD, POST, PUT, DELETE");
    client.send("\x16\x03\x01\x02\x01\r\n\r\n");  // the beginning of TLS
    expect_error(client.answer(), 400, "syntax");
    EXPECT_TRUE(client.sees_end());
}

TEST(Server, TakesBodiesUpToTheirLimit) {
    Limits limits;
    limits.body_bytes = 1000;
    Handlers handlers = echoing();
    handlers.body_limit = [](const Request& request) -> std::size_t {
        return !request.path.empty() && request.path[0] == "media" ? 100'000 : 1000;
    };
    Running running(handlers, limits);
    const auto put = [&](std::string_view target, std::size_t size) {
        RawClient client(running.port());
        client.ask("PUT", target, post_headers(client, size), std::string(size, 'x'));
        RawAnswer answer = client.answer();
        if (answer.status != 200) {
            client.finish_sending();
            EXPECT_TRUE(client.sees_end());
        }
        return answer;
    };
    EXPECT_EQ(put("/a", 1000).body.size(), 6 + 1000u);  // "PUT|a#"
    expect_error(put("/a", 1001), 413, "size");
    expect_error(put("/a", 3'000'000), 413, "size");  // more than the sockets hold: it is read and dropped
    EXPECT_EQ(put("/media", 100'000).status, 200);
    expect_error(put("/media", 100'001), 413, "size");
}

TEST(Server, CountsChunkedBodies) {
    Limits limits;
    limits.body_bytes = 10;
    Running running(echoing(), limits);
    const auto put = [&](std::string_view chunks) {
        RawClient client(running.port());
        client.ask("PUT", "/a", client.origin() + "Transfer-Encoding: chunked\r\n", chunks);
        return client.answer();
    };
    EXPECT_EQ(put("5\r\n12345\r\n5;x=y\r\n67890\r\n0\r\n\r\n").body, "PUT|a#1234567890");
    expect_error(put("5\r\n12345\r\n6\r\n678901\r\n0\r\n\r\n"), 413, "size");
    expect_error(put("fffffff0\r\n12345"), 413, "size");
    expect_error(put("fffffffffffffffffff0\r\n12345"), 400, "syntax");
    expect_error(put("x\r\n12345"), 400, "syntax");
}

TEST(Server, HonoursExpectContinue) {
    Limits limits;
    limits.body_bytes = 10;
    Running running(echoing(), limits);
    RawClient client(running.port());
    client.ask("PUT", "/a", post_headers(client, 4) + "Expect: 100-continue\r\n");
    EXPECT_EQ(client.answer().status, 100);
    client.send("body");
    EXPECT_EQ(client.answer().body, "PUT|a#body");
    client.ask("PUT", "/a", post_headers(client, 11) + "Expect: 100-continue\r\n");
    expect_error(client.answer(), 413, "size");  // before a byte of it was sent
}

TEST(Server, RefusesLongHeaders) {
    Limits limits;
    limits.header_bytes = 2000;
    Running running(echoing(), limits);
    const auto ask = [&](std::size_t bytes) {
        RawClient client(running.port());
        client.ask("GET", "/", "X-Long: " + std::string(bytes, 'x') + "\r\n");
        return client.answer();
    };
    EXPECT_EQ(ask(1800).status, 200);
    expect_error(ask(2000), 431, "size");
    expect_error(ask(100'000), 431, "size");
    RawClient client(running.port());
    client.ask("GET", "/" + std::string(3000, 'a'));
    expect_error(client.answer(), 431, "size");
}

TEST(Server, CutsOffTheSlow) {
    Limits limits;
    limits.header_seconds = 1;
    limits.body_seconds = 1;
    limits.idle_seconds = 1;
    Running running(echoing(), limits);
    RawClient silent(running.port());
    RawClient slow_head(running.port());
    RawClient slow_body(running.port());
    slow_head.send("GET / HTTP/1.1\r\nHost: 127");
    slow_body.ask("PUT", "/a", post_headers(slow_body, 100), "only a part");
    expect_error(slow_head.answer(), 408, "late");
    expect_error(slow_body.answer(), 408, "late");
    EXPECT_TRUE(slow_head.sees_end());
    EXPECT_TRUE(slow_body.sees_end());
    EXPECT_TRUE(silent.sees_end());
    EXPECT_EQ(silent.arrived(), "");
}

TEST(Server, CutsOffWhoDripsBytes) {
    Limits limits;
    limits.header_seconds = 1;
    Running running(echoing(), limits);
    RawClient client(running.port());
    client.send("GET / HTTP/1.1\r\nX: ");
    // One byte whenever 20 ms pass without an answer: the time counts from the first, not from the last.
    int drops = 0;
    pollfd ready{client.fd(), POLLIN, 0};
    while (::poll(&ready, 1, 20) == 0 && drops < 500) drops += client.send("x") ? 1 : 500;
    EXPECT_LT(drops, 500);
    expect_error(client.answer(), 408, "late");
}

TEST(Server, BoundsConnections) {
    Limits limits;
    limits.connections = 20;
    limits.connections_of_peer = 8;
    Running running(echoing(), limits);
    std::vector<std::unique_ptr<RawClient>> clients;
    for (int i = 0; i < 8; ++i) {
        clients.push_back(std::make_unique<RawClient>(running.port()));
        clients.back()->ask("GET", "/");
        ASSERT_EQ(clients.back()->answer().status, 200);
    }
    {
        RawClient above(running.port());
        above.ask("GET", "/");
        const RawAnswer answer = above.answer();
        expect_error(answer, 503, "busy");
        EXPECT_EQ(answer.header("Retry-After"), "5");
        above.finish_sending();
        EXPECT_TRUE(above.sees_end());
    }
    clients[0]->ask("GET", "/", "Connection: close\r\n");  // one goes, one may come
    EXPECT_EQ(clients[0]->answer().status, 200);
    EXPECT_TRUE(clients[0]->sees_end());
    RawClient next(running.port());
    next.ask("GET", "/");
    EXPECT_EQ(next.answer().status, 200);
}

TEST(Server, ServesManyAtOnce) {
    Running running(echoing());
    std::vector<std::unique_ptr<RawClient>> clients;
    for (int i = 0; i < 120; ++i) clients.push_back(std::make_unique<RawClient>(running.port()));
    for (int round = 0; round < 3; ++round) {
        for (std::size_t i = 0; i < clients.size(); ++i) clients[i]->ask("GET", fmt::format("/{}", i));
        for (std::size_t i = 0; i < clients.size(); ++i)
            ASSERT_EQ(clients[i]->answer().body, fmt::format("GET|{}", i));
    }
}

TEST(Server, IsNotBlockedByOneSlowHandler) {
    std::promise<void> entered, release;
    std::shared_future<void> released = release.get_future().share();
    Handlers handlers;
    handlers.http = [&entered, released](const Request& request) {
        if (request.path.size() == 1) {
            entered.set_value();
            released.wait();
        }
        return echo(request);
    };
    Running running(handlers);
    RawClient slow(running.port());
    slow.ask("GET", "/slow");
    entered.get_future().wait();
    RawClient quick(running.port());
    quick.ask("GET", "/");
    EXPECT_EQ(quick.answer().body, "GET");
    release.set_value();
    EXPECT_EQ(slow.answer().body, "GET|slow");
}

TEST(Server, AnswersWhatIsUnderWayWhenStopped) {
    std::promise<void> entered, release;
    std::shared_future<void> released = release.get_future().share();
    Handlers handlers;
    handlers.http = [&entered, released](const Request& request) {
        entered.set_value();
        released.wait();
        return echo(request);
    };
    Running running(handlers);
    RawClient idle(running.port());
    RawClient busy(running.port());
    busy.ask("GET", "/last");
    entered.get_future().wait();
    running.server().stop();
    EXPECT_TRUE(idle.sees_end());
    RawClient late(running.port());
    EXPECT_FALSE(late.connected());
    release.set_value();
    const RawAnswer answer = busy.answer();
    EXPECT_EQ(answer.body, "GET|last");
    EXPECT_EQ(answer.header("Connection"), "close");
    EXPECT_TRUE(busy.sees_end());
    running.stop();
}

TEST(Server, OfAPlainNoticeOnlyReads) {
    Listener notice;
    notice.loopback = false;
    notice.plain_notice = true;
    Handlers handlers = echoing();
    handlers.may_live = [](const Request&) { return Response{.status = 101}; };
    handlers.live = [](const Request&, std::shared_ptr<LiveLink>) { return std::unique_ptr<LiveSession>(); };
    Running running(handlers, {}, {Listener{}, notice});
    RawClient client(running.port(1));
    client.ask("GET", "/authority.crt");
    EXPECT_EQ(client.answer().body, "GET|authority.crt");
    client.ask("POST", "/", post_headers(client, 0));
    const RawAnswer post = client.answer();
    expect_error(post, 405, "method");
    EXPECT_EQ(post.header("Allow"), "GET, HEAD");
    client.ask("GET", "/", live_headers(client));  // no WebSocket here: a plain answer
    EXPECT_EQ(client.answer().status, 200);
    client.ask("GET", "/", "Content-Length: 3\r\n", "abc");
    expect_error(client.answer(), 413, "size");
}

TEST(Server, TellsWhatItCannotListenOn) {
    Running running(echoing());
    Listener taken;
    taken.port = running.port();
    const auto busy = Server::listen({taken}, echoing(), {});
    ASSERT_FALSE(busy);
    EXPECT_EQ(busy.error().code, "address");
    EXPECT_NE(busy.error().message.find(std::to_string(running.port())), std::string::npos);
    Listener nowhere;
    nowhere.address = "bench";
    EXPECT_EQ(Server::listen({nowhere}, echoing(), {}).error().code, "address");
    nowhere.address = "192.0.2.1";  // RFC 5737: nobody's
    EXPECT_EQ(Server::listen({nowhere}, echoing(), {}).error().code, "address");
    Listener keyless;
    keyless.certificate = "no certificate";
    EXPECT_EQ(Server::listen({keyless}, echoing(), {}).error().code, "certificate");
}

TEST(Server, StopsOnASignal) {
    auto stopped = std::make_shared<std::promise<void>>();
    on_stop_signal([stopped] { stopped->set_value(); });
    std::raise(SIGTERM);
    EXPECT_EQ(stopped->get_future().wait_for(std::chrono::milliseconds(kPatienceMs)), std::future_status::ready);
}

}  // namespace
}  // namespace fallaway::net
