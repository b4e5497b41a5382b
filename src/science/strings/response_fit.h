// What fretted notes tell about a string, and when not to believe them.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/strings/intonation.h"

namespace fallaway::strings {

// Why a string must be changed, or its data looked at, before it is set.
enum class Refusal : std::uint8_t {
    none,
    inharmonicity_high,  // an old wound string stiffens unevenly (Houtsma 1982, JASA 71, S9)
    inharmonicity_low,   // softer than its core can be: not the string that was told
    partials_scatter,    // its overtones follow no law: dirt, a flat spot, a false string
    cents_off_model      // no stretch and stiffness near the expected ones gives these cents
};

struct StringCheck {
    Refusal reason = Refusal::none;
    double found = 0;  // B; cents rms; chi-squared
    double limit = 0;  // of the same figure

    bool refused() const { return reason != Refusal::none; }
};

// More rms scatter of the partials than this, in cents, and the string is not set: common practice, no source.
inline constexpr double kMostScatter = 3;
// B further than this many standard uncertainties from the expected one.
inline constexpr double kMostDeviates = 3;
// Cents less likely than this on a sound string.
inline constexpr double kLeastChance = 0.001;

struct Overtones {
    std::optional<Estimate> inharmonicity;  // B of the open string, as heard
    std::optional<double> scatter_cents;    // rms about the law (fit_partials)
};
// Against B = pi^2 eps^2 of what is expected. The first reason found, in the order of the list above.
StringCheck check_overtones(const Response& expected, const Overtones& heard);

struct HeardCents {
    int fret = 0;      // 0: the open string against its own due pitch
    double cents = 0;  // above the due pitch
    double u = 0;      // > 0: of tuner and hand, cents
};

struct Listening {
    std::vector<HeardCents> cents;
    Overtones overtones;
    double u_open = 0.5;           // cents: how well the open string was tuned before
    double u_saddle_place = 5e-4;  // m: how well the path knows where the string ends
    double u_nut_place = 0;        // m
};

struct ResponseFit {
    StringCheck check;
    std::optional<Response> response;  // absent when refused
    Estimate open;                     // cents: by how much the open string was off
    double chi_squared = 0;            // of as many degrees of freedom as cents were heard
    int dof = 0;
    double chance = 1;              // that a sound string gives a chi-squared at least so large
    std::vector<double> left_over;  // heard less fitted, cents, in the order given
};

// The most likely response (log kappa and log eps normal about `prior`, places and open string normal about 0) by
// least squares of heard cents and prior together; covariance from the curvature at the best point. A later call
// may take an earlier response as prior, with u_saddle_place and u_nut_place 0. Errors: code "range", path
// "cents/2/fret" (0..kMostFrets and a fret of the path), "cents/2/u", "cents" (no fret), "prior"
// (kappa or eps not above 0); code "fit" when no best point is found.
Result<ResponseFit> fit_response(const StringPath& path, const Response& prior, const Listening& heard);

}  // namespace fallaway::strings
