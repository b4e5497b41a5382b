// Readings brought to standard conditions.
#pragma once

namespace fallaway::metrology {

// Temperature coefficient of the resistance of annealed copper at 20 C, per kelvin (IEC 60028).
inline constexpr double kCopperPerKelvin = 0.00393;

// Resistance that a copper winding of `ohms` at `celsius` has at 20 C. Linear, so good within 50 K of it.
inline double copper_at_20c(double ohms, double celsius) {
    return ohms / (1 + kCopperPerKelvin * (celsius - 20));
}

}  // namespace fallaway::metrology
