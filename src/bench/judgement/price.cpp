#include <algorithm>

#include <fmt/format.h>

#include "bench/judgement/parts.h"
#include "science/metrology/compare.h"

namespace fallaway::judgement {
namespace {

// Words for a place among past sales; common practice, no source.
std::string words_for(const metrology::Rank& rank, double asked, double low, double high) {
    if (asked > 1.25 * high) return "far above";
    if (asked > high || rank.percentile > 0.9) return "above";
    if (asked < low || rank.percentile < 0.1) return "below";
    return "in range";
}

}  // namespace

std::optional<PriceResult> judge_price(const evidence::Bench& bench) {
    if (!bench.price || !bench.price->asked) return std::nullopt;
    const auto& price = *bench.price;
    const QuantityText& asked = *price.asked;
    PriceResult result;
    result.asked = asked.typed;
    double whole = asked.si;
    if (price.repairs) {
        whole += price.repairs->si;
        result.with_repairs = format_quantity(whole, *asked.unit, 0);
    }
    std::vector<double> past;
    for (const auto& sale : price.like) {
        past.push_back(sale.price.si);
        result.sources.push_back(sale.price.typed + ", " + sale.where);
    }
    const auto rank = metrology::rank(whole, past);
    if (!rank) return result;
    const auto [low, high] = std::ranges::minmax(past);
    result.range = fmt::format("{} to {}, {} {}", from_si(low, *asked.unit), format_quantity(high, *asked.unit, 0),
                               rank->n, rank->n == 1 ? "sale" : "sales");
    // Fewer than five sales are listed, not ranked.
    if (!rank->too_few) result.words = words_for(*rank, whole, low, high);
    return result;
}

}  // namespace fallaway::judgement
