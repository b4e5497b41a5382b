#include "shop/files/moment_text.h"

#include <chrono>
#include <optional>

#include <fmt/format.h>

#include "science/base/quote.h"

namespace fallaway::files {
namespace {

// Takes exactly `digits` digits.
std::optional<int> take_number(std::string_view& text, int digits) {
    if (text.size() < static_cast<std::size_t>(digits)) return std::nullopt;
    int value = 0;
    for (const char c : text.substr(0, digits)) {
        if (c < '0' || c > '9') return std::nullopt;
        value = 10 * value + (c - '0');
    }
    text.remove_prefix(digits);
    return value;
}

bool take(std::string_view& text, std::string_view either) {
    if (text.empty() || either.find(text.front()) == std::string_view::npos) return false;
    text.remove_prefix(1);
    return true;
}

std::optional<std::chrono::year_month_day> take_date(std::string_view& text) {
    const auto year = take_number(text, 4);
    if (!year || !take(text, "-")) return std::nullopt;
    const auto month = take_number(text, 2);
    if (!month || !take(text, "-")) return std::nullopt;
    const auto day = take_number(text, 2);
    if (!day) return std::nullopt;
    return std::chrono::year{*year} / *month / *day;
}

struct Clock {
    int hour = 0;
    int minute = 0;
    int second = 0;
};

std::optional<Clock> take_clock(std::string_view& text) {
    const auto hour = take_number(text, 2);
    if (!hour || !take(text, ":")) return std::nullopt;
    const auto minute = take_number(text, 2);
    if (!minute || !take(text, ":")) return std::nullopt;
    const auto second = take_number(text, 2);
    if (!second) return std::nullopt;
    if (take(text, ".")) {
        if (!take(text, "0123456789")) return std::nullopt;
        while (take(text, "0123456789")) {
        }
    }
    return Clock{*hour, *minute, *second};
}

// Seconds east of Greenwich; the whole rest of the text.
std::optional<int> take_offset(std::string_view& text) {
    if (take(text, "Zz")) return text.empty() ? std::optional(0) : std::nullopt;
    const bool west = text.starts_with('-');
    if (!take(text, "+-")) return std::nullopt;
    const auto hours = take_number(text, 2);
    if (!hours || !take(text, ":")) return std::nullopt;
    const auto minutes = take_number(text, 2);
    if (!minutes || !text.empty() || *hours > 23 || *minutes > 59) return std::nullopt;
    const int seconds = 60 * (60 * *hours + *minutes);
    return west ? -seconds : seconds;
}

tl::unexpected<Error> refuse(std::string_view text, std::string code, std::string_view what) {
    return fail(std::move(code), "", fmt::format("{}: {}", quote(text), what));
}

constexpr std::string_view kMomentForm = "expected a moment with its offset such as \"2026-11-24T09:10:00+01:00\"";

}  // namespace

Result<std::string> parse_day(std::string_view text) {
    std::string_view rest = text;
    const auto date = take_date(rest);
    if (!date || !rest.empty()) return refuse(text, "syntax", "expected a day such as \"2026-11-28\"");
    if (!date->ok()) return refuse(text, "range", "no such day in the calendar");
    return std::string(text);
}

Result<evidence::Moment> parse_moment(std::string_view text) {
    std::string_view rest = text;
    const auto date = take_date(rest);
    if (!date || !take(rest, "Tt")) return refuse(text, "syntax", kMomentForm);
    const auto clock = take_clock(rest);
    if (!clock) return refuse(text, "syntax", kMomentForm);
    if (rest.empty()) return refuse(text, "syntax", fmt::format("the offset is missing, {}", kMomentForm));
    const auto offset = take_offset(rest);
    if (!offset) return refuse(text, "syntax", kMomentForm);
    if (!date->ok()) return refuse(text, "range", "no such day in the calendar");
    if (clock->second == 60) return refuse(text, "range", "a leap second is not kept, write second 59");
    if (clock->hour > 23 || clock->minute > 59 || clock->second > 59) {
        return refuse(text, "range", "no such time of day, expected 00:00:00 to 23:59:59");
    }
    const std::int64_t days = std::chrono::sys_days(*date).time_since_epoch().count();
    const std::int64_t second_of_day = 60 * (60 * clock->hour + clock->minute) + clock->second;
    return evidence::Moment{std::string(text), 86400 * days + second_of_day - *offset};
}

}  // namespace fallaway::files
