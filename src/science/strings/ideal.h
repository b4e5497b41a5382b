// One ideal string: mass, tension, stress, sag and the force on the nut. Arguments are positive and finite.
#pragma once

#include <optional>

#include "science/base/quantity.h"

namespace fallaway::strings {

// mu = rho pi d^2/4 of a plain string.
LinearDensity plain_density(Length diameter, Density density);

// T = mu (2 L f)^2 (Mersenne 1636). f is the fundamental of the open length L.
Force string_tension(LinearDensity mass, Length scale, Frequency pitch);

// sigma = rho (2 L f)^2 of a plain string: the gauge drops out.
Pressure plain_stress(Density density, Length scale, Frequency pitch);

// Pitch at which a plain string reaches `strength`: sqrt(strength/rho)/(2 L).
Frequency pitch_at_stress(Pressure strength, Density density, Length scale);

// Least tensile strength of music wire by ASTM A228, between the tabled diameters in a straight line. Absent
// outside 0.008 to 0.026 in.
std::optional<Pressure> music_wire_strength(Length diameter);

// Sag in the middle of a string that lies level: g/(32 f^2), whatever its gauge, tension and length (parabola
// mu g L^2/(8 T) with T = mu (2 L f)^2).
Length lying_sag(Frequency pitch);

// A string that drops by `drop` over `run` behind the nut turns by atan(drop/run) and presses on it with
// 2 T sin(angle/2); friction left out.
Angle break_angle(Length drop, Length run);
Force force_on_bearing(Force tension, Angle turn);

}  // namespace fallaway::strings
