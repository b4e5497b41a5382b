// The media a shop keeps, and what their files are called.
#pragma once

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "shop/store/store.h"

namespace fallaway::store {

struct MediumKind {
    std::string_view type;
    std::string_view ending;
};
inline constexpr std::array kMediumKinds = {MediumKind{"image/jpeg", ".jpg"},  MediumKind{"image/png", ".png"},
                                            MediumKind{"image/webp", ".webp"}, MediumKind{"audio/wav", ".wav"},
                                            MediumKind{"audio/flac", ".flac"}, MediumKind{"audio/ogg", ".ogg"}};

inline bool is_hash(std::string_view text) {
    return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

inline bool is_medium_name(std::string_view name) {
    return is_hash(name.substr(0, 64)) &&
           std::any_of(kMediumKinds.begin(), kMediumKinds.end(),
                       [&](const auto& kind) { return kind.ending == name.substr(64); });
}

// "<hash>.jpg"
inline std::string medium_name(const Medium& medium) {
    return medium.hash + std::string(ending_of(medium.type));
}

}  // namespace fallaway::store
