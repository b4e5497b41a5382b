#include <qrencode.h>

#include <cerrno>
#include <memory>
#include <stdexcept>

#include <fmt/format.h>

#include "shop/net/certificate.h"

namespace fallaway::net {
namespace {

constexpr int kLeastVersion = 4;
constexpr int kQuietZone = 4;  // modules, ISO/IEC 18004

struct FreeCode {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

Result<std::string> qr_svg(std::string_view text) {
    if (text.empty()) return fail("missing", "", "no text, expected some for the QR code");
    const auto* bytes = reinterpret_cast<const unsigned char*>(text.data());
    const std::unique_ptr<QRcode, FreeCode> code(
        QRcode_encodeData(static_cast<int>(text.size()), bytes, kLeastVersion, QR_ECLEVEL_M));
    if (!code && errno == ERANGE) {
        return fail("size", "", fmt::format("{} bytes, more than a QR code holds", text.size()));
    }
    if (!code) throw std::runtime_error("libqrencode: making a code failed");
    // One bar for each run of dark modules in a row.
    std::string bars;
    for (int y = 0; y < code->width; ++y) {
        const unsigned char* row = code->data + static_cast<std::ptrdiff_t>(y) * code->width;
        for (int x = 0; x < code->width;) {
            int end = x;
            while (end < code->width && (row[end] & 1) != 0) ++end;
            if (end > x) bars += fmt::format("M{} {}h{}v1h-{}z", x + kQuietZone, y + kQuietZone, end - x, end - x);
            x = end > x ? end : x + 1;
        }
    }
    const int size = code->width + 2 * kQuietZone;
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" shape-rendering=\"crispEdges\">"
        "<path fill=\"currentColor\" d=\"{}\"/></svg>",
        size, size, bars);
}

}  // namespace fallaway::net
