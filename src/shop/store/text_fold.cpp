#include "shop/store/text_fold.h"

#include <cstdint>

namespace fallaway::store {
namespace {

// Every `step`-th code point from `first` to `last` folds to the one `shift` further on.
struct Run {
    char32_t first;
    char32_t last;
    int step;
    int shift;
};

constexpr Run kRuns[] = {
    {0x41, 0x5A, 1, 32},         // A-Z
    {0xC0, 0xD6, 1, 32},         // À-Ö
    {0xD8, 0xDE, 1, 32},         // Ø-Þ
    {0x100, 0x12E, 2, 1},        // Ā-Į
    {0x130, 0x130, 1, -199},     // İ, found as a plain i
    {0x132, 0x136, 2, 1},        // Ĳ-Ķ
    {0x139, 0x147, 2, 1},        // Ĺ-Ň
    {0x14A, 0x176, 2, 1},        // Ŋ-Ŷ
    {0x178, 0x178, 1, -121},     // Ÿ
    {0x179, 0x17D, 2, 1},        // Ź-Ž
    {0x1CD, 0x1DB, 2, 1},        // Ǎ-Ǜ
    {0x1DE, 0x1EE, 2, 1},        // Ǟ-Ǯ
    {0x1F8, 0x21E, 2, 1},        // Ǹ-Ȟ, with Ș and Ț
    {0x222, 0x232, 2, 1},        // Ȣ-Ȳ
    {0x386, 0x386, 1, 38},       // Ά
    {0x388, 0x38A, 1, 37},       // Έ-Ί
    {0x38C, 0x38C, 1, 64},       // Ό
    {0x38E, 0x38F, 1, 63},       // Ύ, Ώ
    {0x391, 0x3A1, 1, 32},       // Α-Ρ
    {0x3A3, 0x3AB, 1, 32},       // Σ-Ϋ
    {0x3C2, 0x3C2, 1, 1},        // ς, the sigma at the end of a word
    {0x400, 0x40F, 1, 80},       // Ѐ-Џ
    {0x410, 0x42F, 1, 32},       // А-Я
    {0x460, 0x480, 2, 1},        // Ѡ-Ҁ
    {0x48A, 0x4BE, 2, 1},        // Ҋ-Ҿ
    {0x4C0, 0x4C0, 1, 15},       // Ӏ
    {0x4C1, 0x4CD, 2, 1},        // Ӂ-Ӎ
    {0x4D0, 0x52E, 2, 1},        // Ӑ-Ԯ
    {0x1E00, 0x1E94, 2, 1},      // Ḁ-Ẕ
    {0x1E9E, 0x1E9E, 1, -7615},  // ẞ
    {0x1EA0, 0x1EFE, 2, 1},      // Ạ-Ỿ
};

char32_t folded(char32_t letter) {
    if (letter == 0xA0 || letter == 0x202F || letter == 0x3000 || (letter >= 0x2000 && letter <= 0x200A))
        return ' ';
    if (letter >= '\t' && letter <= '\r') return ' ';
    for (const Run& run : kRuns) {
        if (letter < run.first) break;
        if (letter <= run.last) {
            return (letter - run.first) % char32_t(run.step) == 0 ? char32_t(std::int32_t(letter) + run.shift)
                                                                  : letter;
        }
    }
    return letter;
}

struct Decoded {
    char32_t letter;
    std::size_t bytes;  // 0: no UTF-8 here
};

Decoded decode(std::string_view text) {
    const auto lead = static_cast<unsigned char>(text[0]);
    if (lead < 0x80) return {lead, 1};
    const std::size_t bytes = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return {0, 0};
    char32_t letter = lead & (0xFFu >> (bytes + 1));
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto next = static_cast<unsigned char>(text[i]);
        if ((next & 0xC0) != 0x80) return {0, 0};
        letter = letter << 6 | (next & 0x3Fu);
    }
    return {letter, bytes};
}

// Folded letters all lie below U+2000.
void append(std::string& out, char32_t letter) {
    if (letter < 0x80) {
        out += char(letter);
    } else if (letter < 0x800) {
        out += char(0xC0 | letter >> 6);
        out += char(0x80 | (letter & 0x3F));
    } else {
        out += char(0xE0 | letter >> 12);
        out += char(0x80 | (letter >> 6 & 0x3F));
        out += char(0x80 | (letter & 0x3F));
    }
}

}  // namespace

std::string fold(std::string_view text) {
    std::string out;
    out.reserve(text.size());
    while (!text.empty()) {
        const auto [letter, bytes] = decode(text);
        const std::size_t length = bytes == 0 ? 1 : bytes;
        const char32_t low = bytes == 0 ? letter : folded(letter);
        if (low == letter) {
            out += text.substr(0, length);
        } else {
            append(out, low);
        }
        text.remove_prefix(length);
    }
    return out;
}

std::vector<std::string> words_of(std::string_view folded) {
    std::vector<std::string> words;
    while (!folded.empty()) {
        const std::size_t end = std::min(folded.find(' '), folded.size());
        if (end > 0) words.emplace_back(folded.substr(0, end));
        folded.remove_prefix(std::min(end + 1, folded.size()));
    }
    return words;
}

}  // namespace fallaway::store
