#include "shop/net/answer.h"

#include <gtest/gtest.h>
#include <zlib.h>

namespace fallaway::net {
namespace {

std::string unzipped(const std::string& bytes) {
    z_stream stream{};
    EXPECT_EQ(inflateInit2(&stream, 15 + 16), Z_OK);  // gzip's own header and trailer, nothing else
    std::string out(1 << 20, '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
    stream.avail_in = static_cast<uInt>(bytes.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data());
    stream.avail_out = static_cast<uInt>(out.size());
    EXPECT_EQ(inflate(&stream, Z_FINISH), Z_STREAM_END);
    out.resize(stream.total_out);
    inflateEnd(&stream);
    return out;
}

bool has(const Outgoing& out, const std::string& line) {
    return out.head.find("\r\n" + line + "\r\n") != out.head.npos;
}

TEST(Answer, MatchesTags) {
    EXPECT_TRUE(etag_matches("\"a1\"", "a1"));
    EXPECT_TRUE(etag_matches("W/\"a1\"", "a1"));
    EXPECT_TRUE(etag_matches("\"b\", W/\"c\" ,\t\"a1\"", "a1"));
    EXPECT_TRUE(etag_matches("*", "a1"));
    for (const std::string_view none :
         {"", "a1", "\"a\"", "\"A1\"", "\"a1", "a1\"", "w/\"a1\"", "\"\"", "\"", ",", "W/"}) {
        EXPECT_FALSE(etag_matches(none, "a1")) << none;
    }
}

TEST(Answer, WeighsEncodings) {
    for (const std::string_view yes : {"gzip", "GZip", "x-gzip", "deflate, gzip;q=1.0, *;q=0.5",
                                       "br;q=1, gzip;q=0.001", "*", "gzip ; q=0.5", "identity;q=0, *;q=0.1"}) {
        EXPECT_TRUE(accepts_gzip(yes)) << yes;
    }
    for (const std::string_view no : {"", "identity", "br", "gzip;q=0", "gzip;q=0.000", "gzip;Q=0.0", "*;q=0",
                                      "gzip;q=0, *", "gzipped", "deflate"}) {
        EXPECT_FALSE(accepts_gzip(no)) << no;
    }
}

TEST(Answer, PacksWithoutLoss) {
    std::string text;
    for (int i = 0; i < 3000; ++i) text += "string height " + std::to_string(i * i % 977) + " um\n";
    const std::string packed = gzip(text);
    EXPECT_LT(packed.size(), text.size() / 2);
    EXPECT_EQ(unzipped(packed), text);
    EXPECT_EQ(gzip(text), packed);
    EXPECT_EQ(gzip(""), "");
    EXPECT_EQ(gzip("short"), "");  // would only grow
}

TEST(Answer, CarriesItsHeaders) {
    Response response;
    response.body = "{}";
    const Outgoing out = compose(response, {.host = "localhost:8080"}, "Sat, 28 Nov 2026 09:10:00 GMT");
    EXPECT_TRUE(out.head.starts_with("HTTP/1.1 200 OK\r\n"));
    EXPECT_TRUE(out.head.ends_with("\r\n\r\n"));
    EXPECT_TRUE(has(out, "Content-Type: application/json; charset=utf-8"));
    EXPECT_TRUE(has(out, "Content-Length: 2"));
    EXPECT_TRUE(has(out, "Date: Sat, 28 Nov 2026 09:10:00 GMT"));
    EXPECT_TRUE(has(out, "Cache-Control: no-cache"));
    EXPECT_TRUE(has(out, "X-Content-Type-Options: nosniff"));
    EXPECT_TRUE(has(out, "Referrer-Policy: no-referrer"));
    EXPECT_TRUE(has(out, "Cross-Origin-Opener-Policy: same-origin"));
    EXPECT_TRUE(has(out, "Cross-Origin-Resource-Policy: same-origin"));
    EXPECT_TRUE(has(out, "X-Frame-Options: DENY"));
    EXPECT_NE(out.head.find("default-src 'none'; script-src 'self'; style-src 'self';"), std::string::npos);
    EXPECT_NE(out.head.find("connect-src 'self' ws://localhost:8080;"), std::string::npos);
    EXPECT_NE(out.head.find("camera=(self), microphone=(self)"), std::string::npos);
    EXPECT_EQ(out.head.find("Strict-Transport-Security"), std::string::npos);
    EXPECT_EQ(out.head.find("\r\nServer:"), std::string::npos);
    EXPECT_EQ(out.head.find("\r\nConnection:"), std::string::npos);

    const Outgoing over_tls = compose(response, {.tls = true, .keep_alive = false, .host = "bench.local"}, "");
    EXPECT_TRUE(has(over_tls, "Strict-Transport-Security: max-age=31536000"));
    EXPECT_TRUE(has(over_tls, "Connection: close"));
    EXPECT_NE(over_tls.head.find("connect-src 'self' wss://bench.local;"), std::string::npos);
}

TEST(Answer, LetsAResponseReplaceAHeader) {
    Response response;
    response.type = "text/html";
    response.headers = {{"content-security-policy", "sandbox"}, {"Set-Cookie", "a=1"}, {"Set-Cookie", "b=2"}};
    const Outgoing out = compose(response, {}, "");
    EXPECT_TRUE(has(out, "content-security-policy: sandbox"));
    EXPECT_EQ(out.head.find("default-src"), std::string::npos);
    EXPECT_TRUE(has(out, "Set-Cookie: a=1"));
    EXPECT_TRUE(has(out, "Set-Cookie: b=2"));
    EXPECT_TRUE(has(out, "Content-Type: text/html; charset=utf-8"));
}

TEST(Answer, HoldsBackHeadersThatBreakTheMessage) {
    for (const auto& header : std::vector<std::pair<std::string, std::string>>{{"X-A", "a\r\nSet-Cookie: b=1"},
                                                                               {"X-A", "a\nb"},
                                                                               {"X A", "b"},
                                                                               {"X-A:", "b"},
                                                                               {"", "b"},
                                                                               {"X\r\n", "b"}}) {
        Response response;
        response.headers = {header};
        const Outgoing out = compose(response, {}, "");
        EXPECT_TRUE(out.head.starts_with("HTTP/1.1 500 ")) << header.first;
        EXPECT_EQ(out.head.find("Set-Cookie"), std::string::npos);
    }
    Response response;
    response.type = "text/html\r\nX: y";
    EXPECT_TRUE(compose(response, {}, "").head.starts_with("HTTP/1.1 500 "));
}

TEST(Answer, SendsNoBodyTwice) {
    Response response;
    response.body = std::string(4000, 'x');
    response.gzip = gzip(response.body);
    response.etag = "0a";
    const Outgoing first = compose(response, {.accept_encoding = "gzip, br"}, "");
    EXPECT_TRUE(has(first, "ETag: W/\"0a\""));
    EXPECT_TRUE(has(first, "Content-Encoding: gzip"));
    EXPECT_TRUE(has(first, "Vary: Accept-Encoding"));
    EXPECT_EQ(first.body, response.gzip);
    const Outgoing plain = compose(response, {}, "");
    EXPECT_EQ(plain.body, response.body);
    EXPECT_TRUE(has(plain, "Vary: Accept-Encoding"));
    EXPECT_EQ(plain.head.find("Content-Encoding"), std::string::npos);
    const Outgoing again = compose(response, {.if_none_match = "W/\"0a\""}, "");
    EXPECT_TRUE(again.head.starts_with("HTTP/1.1 304 Not Modified\r\n"));
    EXPECT_EQ(again.body, "");
    EXPECT_EQ(again.head.find("Content-Length"), std::string::npos);
    EXPECT_TRUE(has(again, "ETag: W/\"0a\""));
    response.status = 404;  // only a success can be unchanged
    EXPECT_TRUE(compose(response, {.if_none_match = "W/\"0a\""}, "").head.starts_with("HTTP/1.1 404 "));
}

TEST(Answer, OfAHeadIsTheHead) {
    Response response;
    response.body = "12345";
    const Outgoing out = compose(response, {.head = true}, "");
    EXPECT_EQ(out.body, "");
    EXPECT_TRUE(has(out, "Content-Length: 5"));
    response.cache_for_ever = true;
    EXPECT_TRUE(has(compose(response, {}, ""), "Cache-Control: private, max-age=31536000, immutable"));
    response.status = 204;
    EXPECT_EQ(compose(response, {}, "").head.find("Content-Length"), std::string::npos);
}

TEST(Answer, DatesAsTheStandardDoes) {
    EXPECT_EQ(http_date(784111777), "Sun, 06 Nov 1994 08:49:37 GMT");  // RFC 9110, section 5.6.7
    EXPECT_EQ(http_date(0), "Thu, 01 Jan 1970 00:00:00 GMT");
    EXPECT_EQ(http_date(1709251199), "Thu, 29 Feb 2024 23:59:59 GMT");
}

TEST(Answer, RefusesInTheOneShape) {
    const Response response = refusal(400, {"syntax", "/a", "\"x\": expected y"});
    EXPECT_EQ(response.status, 400);
    EXPECT_NE(response.body.find("\"code\": \"syntax\""), std::string::npos);
    EXPECT_NE(response.body.find("\"path\": \"/a\""), std::string::npos);
    EXPECT_NE(response.body.find(R"("message": "\"x\": expected y")"), std::string::npos);
}

}  // namespace
}  // namespace fallaway::net
