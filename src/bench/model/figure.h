// A value with its text for people: what lists, figures and reports print.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "science/base/quantity_text.h"
#include "science/metrology/uncertainty.h"

namespace fallaway::model {

// A value as it is printed everywhere: "1.95 ± 0.04 mm". Words have no unit and no u.
struct Figure {
    std::string text;            // value with its u, or the words
    const Unit* unit = nullptr;  // null for words, ratings and counts
    std::optional<metrology::Uncertain> si;

    friend bool operator==(const Figure&, const Figure&) = default;
};

// A value for a bench, u to one digit.
Figure in_unit(const metrology::Uncertain& value, std::string_view unit, Dimension dimension);
Figure in_mm(const metrology::Uncertain& length);
Figure in_cents(const metrology::Uncertain& interval);

}  // namespace fallaway::model
