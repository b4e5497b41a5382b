// Any bytes, read as a quantity of every dimension: refused with a message, or read as finite numbers that
// keep the text and mean the same when read again.
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "science/base/quantity_text.h"

namespace {

void require(bool holds, const char* what) {
    if (holds) return;
    std::fprintf(stderr, "broken: %s\n", what);
    std::abort();
}

void check(std::string_view text, fallaway::Dimension dimension) {
    const auto q = fallaway::parse_quantity(text, dimension);
    if (!q) {
        require(!q.error().code.empty() && q.error().message.starts_with('"'), "an error quotes the text");
        return;
    }
    require(q->typed == text, "the text is kept");
    require(std::isfinite(q->si), "the value is finite");
    require(std::isfinite(q->step_si) && q->step_si > 0, "the step is finite and positive");
    require(!q->u_si || (std::isfinite(*q->u_si) && *q->u_si >= 0), "the uncertainty is finite, not negative");
    require(q->unit != nullptr && q->unit->dimension == dimension, "the unit is of the dimension");
    require(fallaway::parse_quantity(q->typed, dimension) == q, "read again, it means the same");
    const std::string printed = fallaway::format_with_u(q->si, q->u_si.value_or(0), *q->unit, q->decimals);
    require(printed.size() > 200 || fallaway::parse_quantity(printed, dimension), "what is printed can be read");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    for (int i = 0; i <= static_cast<int>(fallaway::Dimension::money); ++i) {
        check(text, static_cast<fallaway::Dimension>(i));
    }
    return 0;
}
