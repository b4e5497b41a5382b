// What a string is made of, and what follows from it: mass, core, stiffness. SI throughout.
//
// Mass by geometry, per metre of string:
//   plain   rho pi d^2/4, exact
//   round   core + one close layer of round wire: rho_w (pi w/4) sqrt((pi (dc + w))^2 + w^2), w = (D - dc)/2; the
//           length of a helix of pitch w. On a hex core dc is the width over corners, where the wire rests.
//   ground  as round, from wire so much thicker that grinding one share of it away leaves D (kGroundShare)
//   flat    core + a ring from core to D, filled to one share (kFlatFill)
//   tape    round up to the tape, the tape a ring of nylon (kTapeThickness, kTapeFill)
// The four shares below are assumptions of ours: common practice, no source. Each is carried as u, and each wrap
// has a u of the model itself on top (construction.cpp). A mass from a table or a balance outranks all of it.
#pragma once

#include <cstdint>
#include <optional>

#include "science/base/result.h"
#include "science/strings/estimate.h"

namespace fallaway::strings {

enum class Core : std::uint8_t { round, hex };
enum class Wrap : std::uint8_t { plain, round, ground, flat, tape };  // plain: no wrap, the core is the string
enum class Material : std::uint8_t { steel, nylon };                  // of the core

// Music wire: 7800 to 7850 kg/m3 and 190 to 207 GPa are printed; the u is that of an even spread between.
inline constexpr Estimate kSteelDensity{7825, 15};
inline constexpr Estimate kSteelModulus{200e9, 5e9};
// Nickel-plated steel wrap, 7850 to 7950 kg/m3 (from memory); pure nickel is 8900.
inline constexpr Estimate kPlatedWrapDensity{7900, 30};
inline constexpr Estimate kNylonDensity{1140, 20};        // kg/m3, from memory
inline constexpr Estimate kGroundShare{0.20, 0.07};       // of the wrap wire's diameter
inline constexpr Estimate kFlatFill{0.95, 0.04};          // of the ring between core and outside
inline constexpr Estimate kTapeThickness{150e-6, 50e-6};  // m
inline constexpr Estimate kTapeFill{0.90, 0.06};

struct Make {
    Core core = Core::round;  // plain: round whatever is said
    Wrap wrap = Wrap::plain;
    Material material = Material::steel;
    Estimate outer_diameter;                // m, 0.1 mm to 6 mm
    std::optional<Estimate> core_diameter;  // m, hex: across flats. Absent: usual_core_diameter; plain: not read
    Estimate core_density = kSteelDensity;  // kg/m3
    Estimate wrap_density = kPlatedWrapDensity;
    Estimate core_modulus = kSteelModulus;  // Pa
    std::optional<Estimate> mass;           // kg/m: weighed or tabled, outranks geometry
};

struct Body {
    Make make;
    Estimate mass;           // kg/m
    Estimate geometry_mass;  // kg/m, what geometry says beside a given mass
    Estimate packing;        // mass over that of a solid core metal rod as thick as the string
    Estimate core_diameter;  // m
    Estimate core_area;      // m^2
    Estimate second_moment;  // m^4 of the core alone: a wrap hardly resists bending
    Estimate stretch;        // E A of the core, N
    Estimate bending;        // E I of the core, N m^2
};

// Hex across flats f: area sqrt(3)/2 f^2, corner to corner 2/sqrt(3) f, second moment 5 sqrt(3)/144 f^4.
// Errors (code "range"; path is the field): a size, density, modulus or mass out of range or with u below 0; a
// core with no room for its wrap.
Result<Body> body_of(const Make& make);

// Core of a round-wound steel string when nobody knows it: 0.0165 in (D/0.046 in)^0.288, through three hex cores
// across flats (.0140/.0155/.0165 in .026/.036/.046), from memory; u 10 % from .020 to .056 in, 20 % beyond.
// Mass cannot tell the core: the curve is flat. Fretted cents can (stretch_fit.h).
Estimate usual_core_diameter(double outer_diameter);

}  // namespace fallaway::strings
