#include "science/strings/screw_thread.h"

#include <array>

#include <fmt/format.h>

#include "science/base/quantity_text.h"
#include "science/base/quote.h"

namespace fallaway::strings {
namespace {

struct MetricRow {
    std::string_view name;
    double pitch_mm;
};

// ISO 261:1998, the sizes met on an instrument: coarse by the bare name, fine with the pitch.
constexpr std::array kMetric{
    MetricRow{"M1.6", 0.35},    MetricRow{"M2", 0.4},         MetricRow{"M2.5", 0.45},
    MetricRow{"M3", 0.5},       MetricRow{"M3.5", 0.6},       MetricRow{"M4", 0.7},
    MetricRow{"M5", 0.8},       MetricRow{"M6", 1.0},         MetricRow{"M8", 1.25},
    MetricRow{"M1.6x0.2", 0.2}, MetricRow{"M2x0.25", 0.25},   MetricRow{"M2.5x0.35", 0.35},
    MetricRow{"M3x0.35", 0.35}, MetricRow{"M3.5x0.35", 0.35}, MetricRow{"M4x0.5", 0.5},
    MetricRow{"M5x0.5", 0.5},   MetricRow{"M6x0.75", 0.75},   MetricRow{"M8x1", 1.0}};

struct UnifiedRow {
    std::string_view name;
    int per_inch;
};

// ASME B1.1, coarse and fine series up to 3/8 in.
constexpr std::array kUnified{
    UnifiedRow{"0-80", 80},   UnifiedRow{"1-64", 64},    UnifiedRow{"1-72", 72},    UnifiedRow{"2-56", 56},
    UnifiedRow{"2-64", 64},   UnifiedRow{"3-48", 48},    UnifiedRow{"3-56", 56},    UnifiedRow{"4-40", 40},
    UnifiedRow{"4-48", 48},   UnifiedRow{"5-40", 40},    UnifiedRow{"5-44", 44},    UnifiedRow{"6-32", 32},
    UnifiedRow{"6-40", 40},   UnifiedRow{"8-32", 32},    UnifiedRow{"8-36", 36},    UnifiedRow{"10-24", 24},
    UnifiedRow{"10-32", 32},  UnifiedRow{"12-24", 24},   UnifiedRow{"12-28", 28},   UnifiedRow{"1/4-20", 20},
    UnifiedRow{"1/4-28", 28}, UnifiedRow{"5/16-18", 18}, UnifiedRow{"5/16-24", 24}, UnifiedRow{"3/8-16", 16},
    UnifiedRow{"3/8-24", 24}};

}  // namespace

Result<Thread> thread_named(std::string_view text) {
    for (const MetricRow& row : kMetric) {
        if (row.name == text) return Thread{std::string(text), Length::mm(row.pitch_mm), "ISO 261"};
    }
    for (const UnifiedRow& row : kUnified) {
        if (row.name == text) return Thread{std::string(text), Length::inch(1.0 / row.per_inch), "ASME B1.1"};
    }
    constexpr Length kFinest = Length::mm(0.1);
    constexpr Length kCoarsest = Length::mm(3);
    const auto pitch = parse_quantity(text, Dimension::length);
    if (!pitch) {
        return fail(
            "thread", "",
            fmt::format("{}: unknown thread, expected a name such as \"M3\" or \"4-40\", or a pitch such as "
                        "\"0.5 mm\"",
                        quote(text)));
    }
    const Length travel = Length::si(pitch->si);
    if (travel < kFinest || travel > kCoarsest) {
        return fail("thread", "", fmt::format("{}: no pitch of a screw, expected 0.1 mm to 3 mm", quote(text)));
    }
    return Thread{fmt::format("pitch {}", text), travel, "as given"};
}

}  // namespace fallaway::strings
