// A string that resists bending: what its ends and its overtones do to pitch, and what pushing it aside does.
//
// Everywhere eps = sqrt(E I / (T L^2)) of the length that sounds; equation E I y'''' - T y'' + mu y_tt = 0
// (Fletcher 1964, JASA 36, 203). Ranges: 0 <= eps <= 0.1, kappa > 0; NaN outside.
#pragma once

#include <cstdint>
#include <span>

#include "science/base/result.h"
#include "science/strings/estimate.h"

namespace fallaway::strings {

enum class Ends : std::uint8_t {
    pinned_pinned,
    clamped_pinned,  // a fret and a saddle
    clamped_clamped
};

// f/f0 - 1 of the fundamental against the same string without stiffness, to second order:
//   pinned-pinned    pi^2 eps^2/2
//   clamped-pinned   eps + (1 + pi^2/2) eps^2   (Anderson & Beausoleil 2024, JASA 156, 683)
//   clamped-clamped  2 eps + (4 + pi^2/2) eps^2 (Fletcher 1964)
// Off the exact root by less than 4 % of itself at eps 0.05, 0.1 % at 0.005.
double end_correction(Ends ends, double eps);

// The same from the root of the characteristic equation, for partial n = 1..60: f_n/(n f0) - 1. With k the wave
// number times length and p = sqrt(k^2 + 1/eps^2), f_n/f0 = k sqrt(1 + eps^2 k^2)/pi and
//   pinned-pinned    k = n pi
//   clamped-pinned   p sin k = k cos k tanh p
//   clamped-clamped  2 k p (1/cosh p - cos k) + (p^2 - k^2) sin k tanh p = 0
double exact_end_correction(Ends ends, double eps, int partial = 1);

// A string's kappa in place, from how its pitch rises as it is drawn longer: R = d ln f/d ln L, kappa = 2 R + 1;
// and for a plain round string eps = sqrt(kappa) radius/(2 L), E = kappa T/(pi radius^2) (Anderson & Beausoleil
// 2024).
double kappa_of_stretching(double r);
double eps_of_round(double kappa, double radius, double length);
double modulus_of_round(double kappa, double tension, double radius);  // Pa

double inharmonicity_of(double eps);    // B = pi^2 eps^2
double eps_of_inharmonicity(double b);  // its inverse, B >= 0
// Partials of a stiff string: f_n = n f0 sqrt(1 + B n^2).
double partial_frequency(double f0, double b, int n);
// B from how sharp partial n is against n times the fundamental heard: B = (r - 1)/(n^2 - r), r = 2^(cents/600).
// Errors: code "range", path "partial" (2..60), "cents" (so sharp that no B gives it, or below 0).
Result<double> inharmonicity_from_partial(double cents, int n);
// Pressed at a fret the sounding length shrinks to 2^(-fret/12): B grows with its inverse square.
double fretted_inharmonicity(double b, double fret);

struct Partial {
    int n = 1;
    double hz = 0;
    double u_hz = 0;  // > 0
};
struct PartialFit {
    Estimate f0;               // Hz
    Estimate inharmonicity;    // B
    double scatter_cents = 0;  // rms of the partials about the law
    double chi_squared = 0;    // of partials - 2 degrees of freedom
    int dof = 0;
    double chance = 1;  // that a string true to the law scatters at least so
};
// (f_n/n)^2 = f0^2 (1 + B n^2), a straight line in n^2, weighted by u. Tune by the partial that is heard, never by
// a high one: f0 and B together. Errors: code "range", path "partials": fewer than 3, two of the same n only, a
// value not above 0.
Result<PartialFit> fit_partials(std::span<const Partial> partials);

// A string pushed aside by `aside` where it is pressed, `sounding` from there to the saddle and `behind` from the
// nut to there: strain s = [sqrt(l^2 + y^2) + sqrt(l2^2 + y^2)]/(l + l2) - 1,
// f'/f = sqrt((1 + kappa s)(1 + s)) l/sqrt(l^2 + y^2), force T (1 + kappa s)(y/sqrt(l^2 + y^2) + y/sqrt(l2^2 +
// y^2)). Friction at nut and saddle, and string drawn in from behind them, are left out: a bend on a guitar with a
// long free end needs more way for the same pitch.
struct PushedAside {
    double sounding = 0;  // m, > 0
    double behind = 0;    // m, > 0
    double kappa = 0;
    double tension = 0;  // N at rest
};
double bend_cents(const PushedAside& string, double aside);
double bend_force(const PushedAside& string, double aside);  // N
// How far aside for so many cents. Error: code "range", path "cents": below 0, or not within half the sounding
// length.
Result<double> aside_for_cents(const PushedAside& string, double cents);

}  // namespace fallaway::strings
