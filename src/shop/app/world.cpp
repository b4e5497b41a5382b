#include <array>
#include <chrono>
#include <ctime>
#include <random>

#include <fmt/format.h>

#include "shop/app/shop.h"

namespace fallaway::app {
namespace {

std::tm local_now() {
    const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
    std::tm parts{};
    ::localtime_r(&now, &parts);
    return parts;
}

std::string moment_now() {
    const std::tm parts = local_now();
    const long minutes = parts.tm_gmtoff / 60;
    const long size = minutes < 0 ? -minutes : minutes;
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{}{:02}:{:02}", parts.tm_year + 1900, parts.tm_mon + 1,
                       parts.tm_mday, parts.tm_hour, parts.tm_min, parts.tm_sec, minutes < 0 ? '-' : '+',
                       size / 60, size % 60);
}

std::string day_today() {
    return moment_now().substr(0, 10);
}

// From the system's own source (random_device reads it), not from a generator with a seed: nobody may guess an id.
std::string fresh_id() {
    std::random_device source;
    return fmt::format("{:08x}{:08x}", source(), source());
}

}  // namespace

World real_world() {
    return {moment_now, day_today, fresh_id};
}

}  // namespace fallaway::app
