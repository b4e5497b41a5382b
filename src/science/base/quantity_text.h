// Quantities as text: "1.60 mm", "4/64 in", "1 3/8 in", "8k42", "-3 cents", "1.62 mm +/- 0.03 (k=2)".
// The grammar and every refused form are listed in docs/quantities.md and tested by table.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "science/base/dimension.h"
#include "science/base/result.h"

namespace fallaway {

// One unit of a dimension: SI value = factor * number + offset (the offset is zero but for Celsius and
// Fahrenheit). Units live in one table for the whole program, so a pointer names one for good.
struct Unit {
    std::string_view symbol;  // as printed: "mm", "kohm", "degC"
    Dimension dimension;
    double factor;
    double offset = 0;
};

// Every unit of a dimension, the one used for output first. Never empty.
std::span<const Unit> units_of(Dimension dimension);

// The unit of `dimension` that `text` names ("mm", "inch", "\"", "Ω"); null when there is none.
const Unit* find_unit(std::string_view text, Dimension dimension);

double to_si(double number, const Unit& unit);
double from_si(double si, const Unit& unit);
// A difference (an uncertainty, a step) has no offset.
double difference_to_si(double number, const Unit& unit);
double difference_from_si(double si, const Unit& unit);

// What a text says, beside what it means.
struct QuantityText {
    std::string typed;           // exactly as written; every export returns this
    double si = 0;               // value in the SI unit of the dimension
    std::optional<double> u_si;  // standard uncertainty (an expanded one already divided by its k)
    const Unit* unit = nullptr;  // as written
    double step_si = 0;          // what one in the last written digit (or one of the fraction's parts) means
    int decimals = 0;            // digits after the point as written; 0 for fractions

    friend bool operator==(const QuantityText&, const QuantityText&) = default;
};

// Reads a quantity of the given dimension. Errors: "unit" (missing, unknown or of another dimension),
// "syntax", "range" (negative where the kind cannot be, below absolute zero, over 100 %RH, not finite).
// The path of the error is empty: the caller knows where the text stood.
Result<QuantityText> parse_quantity(std::string_view text, Dimension expected);

// "1.60 mm". `decimals` counts digits after the point in that unit (below 0 taken as 0). The value is first
// brought to 15 significant digits, then rounded half away from zero; the minus is ASCII, and never "-0.00".
std::string format_quantity(double si, const Unit& unit, int decimals);

// Value and standard uncertainty rounded together (JCGM 100:2008, 7.2.6: u to two digits, the value to the
// same place): "1.620 ± 0.040 mm"; parse_quantity reads it back. With u = 0, infinite or not a number only
// the value is printed, to `decimals_without_u`.
std::string format_with_u(double si, double u_si, const Unit& unit, int decimals_without_u = 3);

// The same for a person at a bench, where digits that mean nothing are in the way: u to one digit, to two when it
// begins with 1: "1.62 ± 0.04 mm", "635.03 ± 0.16 mm". Common practice, no source.
std::string format_at_the_bench(double si, double u_si, const Unit& unit, int decimals_without_u = 3);

// Turns of a screw as they are made: "3/4" or "1 3/8", without sign; "" below half an eighth.
std::string in_eighths(double turns);

// How many decimals make the last digit of a value worth printing beside u (u to two digits).
int decimals_for_u(double u_in_unit);

}  // namespace fallaway
