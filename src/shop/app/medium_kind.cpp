#include "shop/app/medium_kind.h"

#include <algorithm>
#include <array>
#include <string>

#include <fmt/format.h>

namespace fallaway::app {
namespace {

using namespace std::string_view_literals;

// The marks in front: ISO/IEC 10918-1 B.1.1.3, PNG (W3C) 5.2, RIFF with its form at byte 8 (WebP container
// specification; RFC 2361), RFC 9639 section 6, RFC 3533 section 6.
struct Begins {
    std::string_view type;
    std::string_view with;
    std::string_view at_eight;
};
constexpr std::array kBegins = {
    Begins{"image/jpeg", "\xFF\xD8\xFF"sv, ""}, Begins{"image/png", "\x89PNG\r\n\x1A\n"sv, ""},
    Begins{"image/webp", "RIFF"sv, "WEBP"sv},   Begins{"audio/wav", "RIFF"sv, "WAVE"sv},
    Begins{"audio/flac", "fLaC"sv, ""},         Begins{"audio/ogg", "OggS"sv, ""},
};

constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kEndings = {{
    {".jpg", "image/jpeg"},
    {".jpeg", "image/jpeg"},
    {".png", "image/png"},
    {".webp", "image/webp"},
    {".wav", "audio/wav"},
    {".flac", "audio/flac"},
    {".ogg", "audio/ogg"},
}};

}  // namespace

std::string_view media_type_of(std::string_view file_name) {
    std::string lower(file_name);
    for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    for (const auto& [ending, type] : kEndings) {
        if (lower.ends_with(ending)) return type;
    }
    return "";
}

Result<void> check_begins_as(std::string_view bytes, std::string_view type) {
    const auto mark = std::ranges::find(kBegins, type, &Begins::type);
    if (mark == kBegins.end()) return {};  // the store refuses the type itself
    const bool fits = bytes.starts_with(mark->with) &&
                      (mark->at_eight.empty() || (bytes.size() >= 12 && bytes.substr(8, 4) == mark->at_eight));
    if (fits) return {};
    return fail("type", "type", fmt::format("\"{}\": these bytes do not begin as that type does", type));
}

}  // namespace fallaway::app
