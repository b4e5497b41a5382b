// WebSockets, frame by frame.
#include <zlib.h>

#include <condition_variable>
#include <mutex>

#include "raw_client.h"
#include "shop/net/answer.h"

namespace fallaway::net {
namespace {

// What the far side of the tests' links does: sends back what it gets, and remembers its links.
struct Desk {
    std::mutex mutex;
    std::condition_variable changed;
    std::vector<std::shared_ptr<LiveLink>> links;
    int gone = 0;

    std::shared_ptr<LiveLink> link() {
        std::unique_lock lock(mutex);
        changed.wait(lock, [&] { return !links.empty(); });
        return links.back();
    }
    // False when it took too long.
    bool wait_gone(int count) {
        std::unique_lock lock(mutex);
        return changed.wait_for(lock, std::chrono::milliseconds(kPatienceMs), [&] { return gone >= count; });
    }
};

class EchoSession final : public LiveSession {
public:
    EchoSession(Desk& desk, std::shared_ptr<LiveLink> link) : desk_(desk), link_(std::move(link)) {}
    ~EchoSession() override {
        const std::lock_guard lock(desk_.mutex);
        ++desk_.gone;
        desk_.changed.notify_all();
    }
    void received(std::string text) override {
        if (text == "break") throw std::runtime_error("broken");
        if (text == "leave") return link_->close(1000, "as asked");
        link_->send("you said " + text);
    }

private:
    Desk& desk_;
    std::shared_ptr<LiveLink> link_;
};

Handlers echoing(Desk& desk) {
    Handlers handlers;
    handlers.http = [](const Request&) { return Response{.body = "plain"}; };
    handlers.may_live = [](const Request& request) {
        return request.path == std::vector<std::string>{"api", "live"}
                   ? Response{.status = 101}
                   : refusal(404, {"not found", "", "nothing here"});
    };
    handlers.live = [&desk](const Request& request, std::shared_ptr<LiveLink> link) {
        const std::lock_guard lock(desk.mutex);
        desk.links.push_back(link);
        desk.changed.notify_all();
        if (request.query.count("greet") > 0) link->send("welcome");
        return std::make_unique<EchoSession>(desk, link);
    };
    return handlers;
}

class Live : public testing::Test {
protected:
    void start(Limits limits = {}) { running.emplace(echoing(desk), limits); }
    // A client past the handshake.
    std::unique_ptr<RawClient> joined(std::string_view more = "", std::string_view target = "/api/live") {
        auto client = std::make_unique<RawClient>(running->port());
        client->ask("GET", target, live_headers(*client, more));
        const RawAnswer answer = client->answer(true);
        EXPECT_EQ(answer.status, 101);
        EXPECT_EQ(answer.header("Sec-WebSocket-Accept"), "s3pPLMBiTxaQ9kYGzzhZRbK+xOo=");  // RFC 6455, section 1.3
        return client;
    }
    void expect_closed_with(RawClient& client, int code) {
        const Frame frame = next_frame(client);
        EXPECT_EQ(frame.opcode, 8);
        EXPECT_EQ(frame.close_code(), code);
    }

    Desk desk;
    std::optional<Running> running;
};

TEST_F(Live, CarriesTextBothWays) {
    start();
    const auto client = joined("", "/api/live?greet=1");
    EXPECT_EQ(next_frame(*client).payload, "welcome");
    for (const std::size_t size : {0, 1, 125, 126, 1000, 65535, 65536, 200'000}) {
        const std::string text(size, 'a');
        client->send(frame(1, text));
        const Frame back = next_frame(*client);
        EXPECT_EQ(back.opcode, 1);
        EXPECT_EQ(back.payload, "you said " + text);
    }
    client->send(frame(9, "are you there"));
    const Frame pong = next_frame(*client);
    EXPECT_EQ(pong.opcode, 10);
    EXPECT_EQ(pong.payload, "are you there");
    client->send(frame(8, std::string("\x03\xE8", 2)));
    expect_closed_with(*client, 1000);
    EXPECT_TRUE(client->sees_end());
    client->finish_sending();
    EXPECT_TRUE(desk.wait_gone(1));
}

TEST_F(Live, KeepsTheOrderOfManyMessages) {
    start();
    const auto client = joined();
    const auto link = desk.link();
    for (int i = 0; i < 2000; ++i) link->send(std::to_string(i));
    for (int i = 0; i < 2000; ++i) ASSERT_EQ(next_frame(*client).payload, std::to_string(i));
    link->close(1000, "done");
    expect_closed_with(*client, 1000);
}

TEST_F(Live, IsOnlyForOurPages) {
    start();
    const auto status = [&](std::string_view target, std::string_view origin) {
        RawClient client(running->port());
        std::string headers = live_headers(client);
        headers.replace(0, headers.find("\r\n") + 2, origin);
        client.ask("GET", target, headers);
        return client.answer(true).status;
    };
    EXPECT_EQ(status("/api/live", ""), 403);
    EXPECT_EQ(status("/api/live", "Origin: null\r\n"), 403);
    EXPECT_EQ(status("/api/live", "Origin: http://rebind.example\r\n"), 403);
    EXPECT_EQ(status("/api/live", "Sec-Fetch-Site: same-origin\r\n"), 403);
    EXPECT_EQ(status("/api/live", fmt::format("Origin: http://127.0.0.1:{}\r\n", running->port())), 101);
    EXPECT_EQ(status("/elsewhere", fmt::format("Origin: http://127.0.0.1:{}\r\n", running->port())), 404);
    RawClient eager(running->port());
    eager.ask("GET", "/api/live", live_headers(eager), frame(1, "too early"));
    EXPECT_EQ(eager.answer(true).status, 400);
}

TEST_F(Live, ClosesOnWhatItDoesNotTake) {
    Limits limits;
    limits.live_frame_bytes = 1000;
    start(limits);
    const std::pair<std::string, int> cases[] = {
        {frame(1, std::string(1001, 'x')), 1009},
        {std::string("\x81\xFF\x7F\xFF\xFF\xFF\xFF\xFF\xFF\xFF\x12\x34\x56\x78"), 1009},  // claims 2^63 - 1 bytes
        {std::string("\x01\xFE\x02\x58", 4) + std::string(604, '\0') + frame(0, std::string(600, 'x')),
         1009},  // in two parts
        {frame(2, "binary"), 1003},
        {frame(1, "unmasked", false), 1002},
        {frame(3, "no such kind"), 1002},
        {frame(0, "goes on from nothing"), 1002},
        {frame(9, std::string(126, 'p')), 1002},  // a ping above 125 bytes
        {frame(1, "\xC0\x80"), 1007},
        {frame(1, "compressed, not agreed on", true, true), 1002},
        {frame(1, "break"), 1011},
        {frame(1, "leave"), 1000},
    };
    int count = 0;
    for (const auto& [bytes, code] : cases) {
        SCOPED_TRACE(code);
        const auto client = joined();
        client->send(bytes);
        expect_closed_with(*client, code);
        client->send(frame(8, std::string("\x03\xE8", 2)));
        EXPECT_TRUE(client->sees_end());
        client->finish_sending();
        EXPECT_TRUE(desk.wait_gone(++count));
    }
    const auto client = joined();  // the server is none the worse
    client->send(frame(1, std::string(1000, 'x')));
    EXPECT_EQ(next_frame(*client).payload.size(), 1009u);
}

std::string deflated(const std::string& text) {
    z_stream stream{};
    deflateInit2(&stream, 9, Z_DEFLATED, -15, 8, Z_DEFAULT_STRATEGY);
    std::string out(deflateBound(&stream, text.size()) + 16, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
    stream.avail_in = static_cast<uInt>(text.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data());
    stream.avail_out = static_cast<uInt>(out.size());
    deflate(&stream, Z_SYNC_FLUSH);
    out.resize(stream.total_out - 4);  // RFC 7692, section 7.2.1
    deflateEnd(&stream);
    return out;
}

// The messages of one server, whose window goes on from one to the next.
class Inflater {
public:
    Inflater() { inflateInit2(&stream_, -15); }
    ~Inflater() { inflateEnd(&stream_); }
    std::string operator()(std::string bytes) {
        bytes += std::string("\x00\x00\xFF\xFF", 4);
        std::string out(1 << 20, '\0');
        stream_.next_in = reinterpret_cast<Bytef*>(bytes.data());
        stream_.avail_in = static_cast<uInt>(bytes.size());
        stream_.next_out = reinterpret_cast<Bytef*>(out.data());
        stream_.avail_out = static_cast<uInt>(out.size());
        inflate(&stream_, Z_SYNC_FLUSH);
        EXPECT_EQ(stream_.avail_in, 0u);
        return out.substr(0, out.size() - stream_.avail_out);
    }

private:
    z_stream stream_{};
};

TEST_F(Live, CompressesWhereAgreed) {
    Limits limits;
    limits.live_frame_bytes = 100'000;
    start(limits);
    const std::string_view offer = "Sec-WebSocket-Extensions: permessage-deflate; client_no_context_takeover\r\n";
    const auto client = joined(offer);
    Inflater inflated;
    for (int i = 0; i < 50; ++i) {
        std::string text;
        for (int k = 0; k < i * 40; ++k)
            text += fmt::format("{{\"string\":{},\"height\":{}}}", k % 6, k * i % 113);
        if (text.size() > limits.live_frame_bytes) text.resize(limits.live_frame_bytes);
        client->send(frame(1, deflated(text), true, true));
        const Frame back = next_frame(*client);
        ASSERT_EQ(back.opcode, 1);
        ASSERT_EQ(back.compressed ? inflated(back.payload) : back.payload, "you said " + text);
        EXPECT_LT(back.payload.size(), text.size() / 3 + 300);
    }
    // The limit holds for what comes out, not for what came in.
    const std::string bomb = deflated(std::string(50'000'000, 'x'));
    ASSERT_LT(bomb.size(), limits.live_frame_bytes);
    client->send(frame(1, bomb, true, true));
    expect_closed_with(*client, 1009);
}

TEST_F(Live, CutsOffWhoDoesNotRead) {
    Limits limits;
    limits.live_backlog_bytes = 1 << 20;
    start(limits);
    const auto client = joined();
    const auto link = desk.link();
    // Far more than the sockets of both sides take in, which is a few megabytes.
    for (int i = 0; i < 200; ++i) link->send(std::string(1 << 19, static_cast<char>('a' + i % 26)));
    EXPECT_TRUE(desk.wait_gone(1));
    EXPECT_TRUE(client->sees_end());
    link->send("nobody there");  // without harm
    link->close(1000, "");
}

TEST_F(Live, GivesUpDeadPeers) {
    Limits limits;
    limits.idle_seconds = 1;
    start(limits);
    const auto dead = joined();
    const auto alive = joined();
    int pings = 0;
    while (pings < 3) {  // more than the idle time together
        const Frame ping = next_frame(*alive);
        ASSERT_EQ(ping.opcode, 9);
        alive->send(frame(10, ping.payload));
        ++pings;
    }
    EXPECT_TRUE(desk.wait_gone(1));
    EXPECT_TRUE(dead->sees_end());
    alive->send(frame(1, "here"));
    Frame back = next_frame(*alive);
    while (back.opcode == 9) back = next_frame(*alive);
    EXPECT_EQ(back.payload, "you said here");
}

TEST_F(Live, WaitsNoLongerForACloseThanItMust) {
    Limits limits;
    limits.header_seconds = 1;
    start(limits);
    const auto silent = joined();   // never answers the close
    const auto talking = joined();  // sends something else instead
    silent->send(frame(2, "binary"));
    talking->send(frame(1, "leave") + frame(1, "one more") + frame(2, "and another"));
    expect_closed_with(*silent, 1003);
    expect_closed_with(*talking, 1000);
    EXPECT_TRUE(desk.wait_gone(2));
}

TEST_F(Live, EndsWhenTheServerStops) {
    start();
    const auto client = joined();
    const auto link = desk.link();
    link->send("before");
    running->server().stop();
    EXPECT_EQ(next_frame(*client).payload, "before");
    expect_closed_with(*client, 1001);
    client->send(frame(8, std::string("\x03\xE9", 2)));
    EXPECT_TRUE(client->sees_end());
    client->finish_sending();
    running->stop();
    EXPECT_EQ(desk.gone, 1);
    running.reset();
    link->send("to a server that is no more");  // without harm
}

}  // namespace
}  // namespace fallaway::net
