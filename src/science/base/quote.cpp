#include "science/base/quote.h"

#include <cstdint>

#include <fmt/format.h>

namespace fallaway {
namespace {

constexpr int kLongest = 40;

// Length of the well-formed UTF-8 character at the front (RFC 3629, section 4), 0 when there is none.
std::size_t utf8_length(std::string_view text) {
    const auto byte = [text](std::size_t i) { return static_cast<std::uint8_t>(text[i]); };
    const auto follows = [&](std::size_t i, int low = 0x80, int high = 0xBF) {
        return i < text.size() && byte(i) >= low && byte(i) <= high;
    };
    const std::uint8_t first = byte(0);
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first <= 0xDF) return follows(1) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        const bool second = follows(1, first == 0xE0 ? 0xA0 : 0x80, first == 0xED ? 0x9F : 0xBF);
        return second && follows(2) ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const bool second = follows(1, first == 0xF0 ? 0x90 : 0x80, first == 0xF4 ? 0x8F : 0xBF);
        return second && follows(2) && follows(3) ? 4 : 0;
    }
    return 0;
}

// C0 and C1 controls, line and paragraph separators, direction marks and overrides.
bool disturbs_a_terminal(std::string_view character) {
    if (character.size() == 1) return character[0] >= 0 && (character[0] < 0x20 || character[0] == 0x7F);
    if (character.size() == 2) return character < "\u00A0";
    return (character >= "\u200E" && character <= "\u200F") || (character >= "\u2028" && character <= "\u202E") ||
           (character >= "\u2066" && character <= "\u2069");
}

std::string escaped(std::string_view bytes) {
    if (bytes == "\n") return "\\n";
    if (bytes == "\t") return "\\t";
    std::string out;
    for (const char c : bytes) out += fmt::format("\\x{:02x}", static_cast<std::uint8_t>(c));
    return out;
}

}  // namespace

std::string quote(std::string_view text) {
    std::string out = "\"";
    for (int characters = 0; !text.empty(); ++characters) {
        if (characters == kLongest) return out + "...\"";
        const std::size_t length = utf8_length(text);
        const std::string_view character = text.substr(0, length == 0 ? 1 : length);
        out += length == 0 || disturbs_a_terminal(character) ? escaped(character) : std::string(character);
        text.remove_prefix(character.size());
    }
    return out + "\"";
}

}  // namespace fallaway
