// The colour tokens of the page. Ink is evidence, blue is where you are, red is what to change or what breaks a
// limit; nothing marks "good". Contrast is computed from this table by a test.
#pragma once

#include <array>
#include <cstdint>
#include <string_view>

namespace fallaway::report {

struct Colour {
    std::string_view name;
    std::uint32_t light;  // 0xRRGGBB
    std::uint32_t dark;
};

inline constexpr std::array<Colour, 11> kColours{{
    {"paper", 0xEBEFEC, 0x0F161B},     // the bench behind
    {"sheet", 0xFAFBF8, 0x172128},     // drawn areas
    {"ink", 0x13202A, 0xEAF0EE},       // measured, text, numbers
    {"ink2", 0x3D4B54, 0xBCC8CC},      // captions, uncertainty, assumed numbers
    {"graphite", 0x56646C, 0x9DABB1},  // dashed and construction lines
    {"line", 0x6E7B80, 0x80919A},      // edges, fret lines
    {"rule", 0xBCC6C5, 0x34434B},      // faint separators, carries no meaning
    {"blue", 0x164A94, 0xA3C9F7},      // where you are, focus
    {"red", 0x8E2219, 0xFFA892},       // to change, outside a limit
    {"bluewash", 0xDDE7F3, 0x1D3450},  // ground of the active field
    {"redwash", 0xF7E3DD, 0x46261F},   // ground of a refused field
}};

}  // namespace fallaway::report
