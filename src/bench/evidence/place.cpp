#include "bench/evidence/place.h"

#include <vector>

#include <fmt/format.h>

namespace fallaway::evidence {

std::string describe(const Place& place) {
    std::vector<std::string> parts;
    if (place.string) parts.push_back(fmt::format("string {}", *place.string));
    if (place.fret && *place.fret > 0) parts.push_back(fmt::format("fret {}", *place.fret));
    if (place.fret && *place.fret == 0) parts.push_back(place.string ? "open" : "nut");
    if (place.side) parts.push_back(fmt::format("{} side", *place.side));
    if (place.switch_position) parts.push_back(fmt::format("switch position {}", *place.switch_position));
    if (place.pickup) parts.push_back(fmt::format("{} pickup", *place.pickup));
    if (place.control) parts.push_back(fmt::format("{} control", *place.control));
    if (place.pressed) parts.push_back(fmt::format("held at fret {}", *place.pressed));
    if (place.capo) parts.push_back(fmt::format("capo at fret {}", *place.capo));
    if (place.spot) parts.push_back(*place.spot);
    return parts.empty() ? "whole instrument" : fmt::format("{}", fmt::join(parts, ", "));
}

std::string key_of(const Place& place) {
    std::vector<std::string> parts;
    if (place.string) parts.push_back(fmt::format("s{}", *place.string));
    if (place.fret) parts.push_back(fmt::format("f{}", *place.fret));
    if (place.side) parts.push_back(*place.side);
    if (place.switch_position) parts.push_back(fmt::format("switch:{}", *place.switch_position));
    if (place.pickup) parts.push_back(fmt::format("pickup:{}", *place.pickup));
    if (place.control) parts.push_back(fmt::format("control:{}", *place.control));
    if (place.pressed) parts.push_back(fmt::format("p{}", *place.pressed));
    if (place.capo) parts.push_back(fmt::format("c{}", *place.capo));
    if (place.spot) parts.push_back(fmt::format("spot:{}", *place.spot));
    return fmt::format("{}", fmt::join(parts, "."));
}

}  // namespace fallaway::evidence
