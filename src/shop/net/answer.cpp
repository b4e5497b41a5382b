#include "shop/net/answer.h"

#include <zlib.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <stdexcept>

#include <fmt/format.h>

#include "shop/files/error_json.h"
#include "shop/net/field_text.h"

namespace fallaway::net {
namespace {

using Header = std::pair<std::string, std::string>;

constexpr int kGzipFormat = 15 + 16;  // zlib: window of 32 kB, gzip's header and trailer
constexpr int kMemoryLevel = 8;

std::string_view reason_of(int status) {
    static constexpr std::pair<int, std::string_view> kReasons[] = {{200, "OK"},
                                                                    {201, "Created"},
                                                                    {204, "No Content"},
                                                                    {303, "See Other"},
                                                                    {304, "Not Modified"},
                                                                    {400, "Bad Request"},
                                                                    {401, "Unauthorized"},
                                                                    {403, "Forbidden"},
                                                                    {404, "Not Found"},
                                                                    {405, "Method Not Allowed"},
                                                                    {408, "Request Timeout"},
                                                                    {409, "Conflict"},
                                                                    {413, "Content Too Large"},
                                                                    {415, "Unsupported Media Type"},
                                                                    {421, "Misdirected Request"},
                                                                    {429, "Too Many Requests"},
                                                                    {431, "Request Header Fields Too Large"},
                                                                    {500, "Internal Server Error"},
                                                                    {503, "Service Unavailable"},
                                                                    {507, "Insufficient Storage"}};
    for (const auto& [number, reason] : kReasons) {
        if (number == status) return reason;
    }
    return "";
}

std::string with_charset(std::string type) {
    const bool text = type.starts_with("text/") || type == "application/json" || type.ends_with("+json");
    return text && type.find("charset") == type.npos ? type + "; charset=utf-8" : type;
}

// `host` is named for browsers to which 'self' does not cover WebSockets.
std::string content_security_policy(const Asked& asked) {
    const std::string live =
        asked.host.empty() ? "" : fmt::format(" {}://{}", asked.tls ? "wss" : "ws", asked.host);
    return fmt::format(
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; "
        "connect-src 'self'{}; manifest-src 'self'; media-src 'self' blob:; base-uri 'none'; form-action 'none'; "
        "frame-ancestors 'none'",
        live);
}

std::vector<Header> headers_of_every_answer(const Asked& asked) {
    std::vector<Header> headers = {
        {"Content-Security-Policy", content_security_policy(asked)},
        {"X-Content-Type-Options", "nosniff"},
        {"Referrer-Policy", "no-referrer"},
        {"Cross-Origin-Opener-Policy", "same-origin"},
        {"Cross-Origin-Resource-Policy", "same-origin"},
        {"Permissions-Policy",
         "camera=(self), microphone=(self), accelerometer=(), autoplay=(), display-capture=(), "
         "encrypted-media=(), "
         "fullscreen=(), geolocation=(), gyroscope=(), magnetometer=(), midi=(), payment=(), "
         "publickey-credentials-get=(), screen-wake-lock=(), usb=(), xr-spatial-tracking=()"},
        {"X-Frame-Options", "DENY"},
    };
    if (asked.tls) headers.emplace_back("Strict-Transport-Security", "max-age=31536000");
    return headers;
}

bool breaks_the_message(const Header& header) {
    const auto is_no_token = [](char c) { return is_control(c) || c < 0 || c == ' ' || c == ':'; };
    return header.first.empty() || std::ranges::any_of(header.first, is_no_token) ||
           std::ranges::any_of(header.second, [](char c) { return is_control(c); });
}

void set(std::vector<Header>& headers, Header header) {
    const std::string name = lower(header.first);
    const auto same = std::ranges::find_if(headers, [&](const Header& h) { return lower(h.first) == name; });
    if (same == headers.end() || name == "set-cookie") {
        headers.push_back(std::move(header));
    } else {
        *same = std::move(header);
    }
}

}  // namespace

Response refusal(int status, const Error& error) {
    Response response;
    response.status = status;
    response.body = files::error_json({error});
    return response;
}

bool etag_matches(std::string_view if_none_match, std::string_view etag) {
    while (!if_none_match.empty()) {
        std::string_view tag = trimmed(take_until(if_none_match, ','));
        if (tag == "*") return true;
        if (tag.starts_with("W/")) tag.remove_prefix(2);
        if (tag.size() >= 2 && tag.front() == '"' && tag.back() == '"' && tag.substr(1, tag.size() - 2) == etag) {
            return true;
        }
    }
    return false;
}

bool accepts_gzip(std::string_view accept_encoding) {
    bool any = false;
    while (!accept_encoding.empty()) {
        std::string_view rest = take_until(accept_encoding, ',');
        const std::string coding = lower(trimmed(take_until(rest, ';')));
        const std::string weight = lower(trimmed(rest));
        const bool wanted = !weight.starts_with("q=0") || weight.find_first_of("123456789") != weight.npos;
        if (coding == "gzip" || coding == "x-gzip") return wanted;
        if (coding == "*") any = wanted;
    }
    return any;
}

std::string gzip(std::string_view bytes) {
    z_stream stream{};
    if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, kGzipFormat, kMemoryLevel, Z_DEFAULT_STRATEGY) !=
        Z_OK) {
        throw std::bad_alloc();
    }
    std::string out(deflateBound(&stream, bytes.size()), '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));  // zlib reads it only
    stream.avail_in = static_cast<uInt>(bytes.size());
    stream.next_out = reinterpret_cast<Bytef*>(out.data());
    stream.avail_out = static_cast<uInt>(out.size());
    const int outcome = deflate(&stream, Z_FINISH);
    out.resize(stream.total_out);
    deflateEnd(&stream);
    if (outcome != Z_STREAM_END) throw std::logic_error("gzip: the bound of zlib was too small");
    return out.size() < bytes.size() ? out : "";
}

Outgoing compose(Response response, const Asked& asked, std::string_view date) {
    if (std::ranges::any_of(response.headers, breaks_the_message) || breaks_the_message({"x", response.type}) ||
        breaks_the_message({"x", response.etag})) {
        response = refusal(500, {"fault", "", "an answer with control characters in its headers was held back"});
    }
    std::vector<Header> headers = headers_of_every_answer(asked);
    headers.emplace_back("Date", date);
    const bool cacheable = response.status == 200;
    headers.emplace_back("Cache-Control", cacheable && response.cache_for_ever
                                              ? "private, max-age=31536000, immutable"
                                              : "no-cache");
    // One tag for both encodings, so it is a weak one.
    if (!response.etag.empty()) headers.emplace_back("ETag", fmt::format("W/\"{}\"", response.etag));
    if (!response.gzip.empty()) headers.emplace_back("Vary", "Accept-Encoding");
    if (cacheable && !response.etag.empty() && etag_matches(asked.if_none_match, response.etag)) {
        response.status = 304;
    }
    const bool bare = response.status == 304 || response.status == 204;
    if (bare) {
        response.body.clear();
    } else {
        headers.emplace_back("Content-Type", with_charset(std::move(response.type)));
        if (!response.gzip.empty() && accepts_gzip(asked.accept_encoding)) {
            response.body = std::move(response.gzip);
            headers.emplace_back("Content-Encoding", "gzip");
        }
    }
    for (Header& header : response.headers) set(headers, std::move(header));
    if (!bare) set(headers, {"Content-Length", fmt::format("{}", response.body.size())});
    if (!asked.keep_alive) set(headers, {"Connection", "close"});

    Outgoing out;
    out.head = fmt::format("HTTP/1.1 {} {}\r\n", response.status, reason_of(response.status));
    for (const Header& header : headers) out.head += fmt::format("{}: {}\r\n", header.first, header.second);
    out.head += "\r\n";
    if (!asked.head) out.body = std::move(response.body);
    return out;
}

std::string http_date(std::int64_t seconds_since_1970) {
    using namespace std::chrono;
    static constexpr std::array kDays = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    static constexpr std::array kMonths = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                           "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const sys_seconds moment{seconds(seconds_since_1970)};
    const auto day = floor<days>(moment);
    const year_month_day date(day);
    const hh_mm_ss time(moment - day);
    return fmt::format("{}, {:02} {} {} {:02}:{:02}:{:02} GMT", kDays[weekday(day).c_encoding()],
                       static_cast<unsigned>(date.day()), kMonths[static_cast<unsigned>(date.month()) - 1],
                       static_cast<int>(date.year()), time.hours().count(), time.minutes().count(),
                       time.seconds().count());
}

}  // namespace fallaway::net
