#include "shop/store/text_fold.h"

#include <locale.h>
#include <wctype.h>

#include <string>

#include <gtest/gtest.h>

namespace fallaway::store {
namespace {

std::string utf8(char32_t letter) {
    if (letter < 0x80) return {char(letter)};
    if (letter < 0x800) return {char(0xC0 | letter >> 6), char(0x80 | (letter & 0x3F))};
    return {char(0xE0 | letter >> 12), char(0x80 | (letter >> 6 & 0x3F)), char(0x80 | (letter & 0x3F))};
}

TEST(Fold, LowersLettersWithAccents) {
    EXPECT_EQ(fold("OSTREL Heron"), "ostrel heron");
    EXPECT_EQ(fold("ÉCLAT ÅÄÖ ŁÓDŹ ŽIŽEK ĲSSEL Ÿ"), "éclat åäö łódź žižek ĳssel ÿ");
    EXPECT_EQ(fold("STRAẞE Straße"), "straße straße");
    EXPECT_EQ(fold("ΌΔΟΣ ὁδος λόγος"), "όδοσ ὁδοσ λόγοσ");
    EXPECT_EQ(fold("ЖУК Ёлка"), "жук ёлка");
    EXPECT_EQ(fold("東京 × ÷ 🎸"), "東京 × ÷ 🎸");
    EXPECT_EQ(fold("a\tb\nc\u00A0d\u3000e"), "a b c d e");
}

TEST(Fold, LeavesWhatIsNoUtf8) {
    for (const std::string broken : {"\xC3", "A\xFFZ", "\xE2\x82", "\xF0\x9F\x8E", "\x80X", "\xC3\x28"}) {
        const std::string low = fold(broken);
        EXPECT_EQ(low.size(), broken.size());
    }
    EXPECT_EQ(fold("A\xFFZ"), "a\xFFz");
}

// The C library knows the same pairs from the same table of Unicode. It parts from simple case folding at the
// sigma at the end of a word, which it takes for a lower-case letter already.
TEST(Fold, AgreesWithTheCLibraryLetterByLetter) {
    const locale_t unicode = ::newlocale(LC_CTYPE_MASK, "C.UTF-8", nullptr);
    ASSERT_NE(unicode, nullptr) << "the locale C.UTF-8 of the C library";
    struct Block {
        char32_t first, last;
    };
    int changed = 0;
    for (const auto [first, last] : {Block{0x21, 0x17F}, Block{0x1CD, 0x1EF}, Block{0x1F8, 0x21F},
                                     Block{0x386, 0x3CF}, Block{0x400, 0x52F}, Block{0x1E00, 0x1EFF}}) {
        for (char32_t letter = first; letter <= last; ++letter) {
            if (letter == 0xA0 || letter == 0x3C2 || (letter >= 0x80 && letter < 0xA0)) continue;
            if (letter == 0x3CF) continue;  // Ϗ, a sign for "and"
            const auto low = char32_t(::towlower_l(wint_t(letter), unicode));
            EXPECT_EQ(fold(utf8(letter)), utf8(low)) << std::hex << std::uint32_t(letter);
            changed += low != letter;
        }
    }
    EXPECT_GT(changed, 400);
    ::freelocale(unicode);
}

TEST(Words, ArePartedByBlanks) {
    EXPECT_EQ(words_of("  two  words "), (std::vector<std::string>{"two", "words"}));
    EXPECT_TRUE(words_of("   ").empty());
    EXPECT_TRUE(words_of("").empty());
}

}  // namespace
}  // namespace fallaway::store
