#include "bench/report/words.h"

#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace fallaway::report {
namespace {

std::optional<int> whole_number(std::string_view digits) {
    int value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
    return value;
}

// 0 is Sunday. T. Sakamoto, comp.lang.c 1993.
int weekday(int year, int month, int day) {
    constexpr std::array<int, 12> kShift{0, 3, 2, 5, 0, 3, 5, 1, 4, 6, 2, 4};
    if (month < 3) --year;
    return (year + year / 4 - year / 100 + year / 400 + kShift[month - 1] + day) % 7;
}

}  // namespace

std::string capital(std::string_view text) {
    std::string out(text);
    if (!out.empty() && out[0] >= 'a' && out[0] <= 'z') out[0] = static_cast<char>(out[0] - 'a' + 'A');
    return out;
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
    return fmt::format("{}", fmt::join(parts, between));
}

std::string list_of(const std::vector<std::string>& parts) {
    if (parts.size() < 2) return join(parts, "");
    const std::vector<std::string> head(parts.begin(), parts.end() - 1);
    return fmt::format("{} and {}", join(head, ", "), parts.back());
}

std::string counted(std::size_t n, std::string_view one) {
    return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s");
}

std::string readable_day(std::string_view date) {
    constexpr std::array<std::string_view, 7> kDays{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
    constexpr std::array<std::string_view, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const std::string as_it_stands(date);
    if (date.size() > 10 && date[10] != 'T' && date[10] != 't' && date[10] != ' ') return as_it_stands;
    if (date.size() < 10 || date[4] != '-' || date[7] != '-') return as_it_stands;
    const auto year = whole_number(date.substr(0, 4));
    const auto month = whole_number(date.substr(5, 2));
    const auto day = whole_number(date.substr(8, 2));
    if (!year || !month || !day || *year < 1 || *month < 1 || *month > 12 || *day < 1 || *day > 31) {
        return as_it_stands;
    }
    return fmt::format("{} {} {} {}", kDays[weekday(*year, *month, *day)], *day, kMonths[*month - 1], *year);
}

std::string readable_moment(const evidence::Moment& moment) {
    const std::string day = readable_day(moment.typed);
    if (day == moment.typed || moment.typed.size() < 16) return day;
    return fmt::format("{}, {}", day, moment.typed.substr(11, 5));
}

std::string chance(double p) {
    const long in_100 = std::lround(p * 100);
    if (in_100 < 1) return "under 1 in 100";
    if (in_100 > 99) return "over 99 in 100";
    return fmt::format("{} in 100", in_100);
}

std::string minutes_text(double minutes) {
    return minutes < 10 ? fmt::format("{:.2g} min", minutes) : fmt::format("{:.0f} min", minutes);
}

std::string hands_words(evidence::Hands hands) {
    switch (hands) {
        case evidence::Hands::look_only:
            return "look only";
        case evidence::Hands::adjust:
            return "may adjust";
        case evidence::Hands::work:
            return "may work";
    }
    return "";
}

std::string stage_words(evidence::Stage stage) {
    switch (stage) {
        case evidence::Stage::arrival:
            return "on arrival";
        case evidence::Stage::before:
            return "before the work";
        case evidence::Stage::after:
            return "after the work";
        case evidence::Stage::handover:
            return "at handover";
    }
    return "";
}

std::string standing_words(judgement::Standing standing) {
    switch (standing) {
        case judgement::Standing::kept:
            return "within its limit";
        case judgement::Standing::broken:
            return "outside its limit";
        case judgement::Standing::not_judged:
            return "";
        default:
            return std::string(name_of(standing));
    }
}

bool breaks_its_limit(judgement::Standing standing) {
    return standing == judgement::Standing::outside || standing == judgement::Standing::broken ||
           standing == judgement::Standing::fails;
}

FigureParts parts_of(const judgement::Figure& figure) {
    FigureParts parts;
    std::string rest = figure.text;
    if (figure.unit) {
        const std::string tail = fmt::format(" {}", figure.unit->symbol);
        if (rest.ends_with(tail)) {
            parts.unit = std::string(figure.unit->symbol);
            rest.resize(rest.size() - tail.size());
        }
    }
    const auto sign = rest.find(" ± ");
    if (sign != std::string::npos && rest.find(" ± ", sign + 1) == std::string::npos) {
        parts.u = "±" + rest.substr(sign + std::string_view(" ± ").size());
        rest.resize(sign);
    }
    parts.value = rest;
    return parts;
}

std::string acceptance_words(const evidence::Acceptance& acceptance) {
    std::string out = fmt::format("accepted by {}", acceptance.by);
    if (acceptance.when) out += ", " + readable_moment(*acceptance.when);
    return acceptance.why.empty() ? out : fmt::format("{}: {}", out, acceptance.why);
}

}  // namespace fallaway::report
