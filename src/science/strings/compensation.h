// Where nut and saddle should stand so that fretted notes come out true, and what is left then.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/strings/intonation.h"

namespace fallaway::strings {

// Least squares of the first-order model in closed form (Anderson & Beausoleil 2024): with s_m = sum w (gamma -
// 1)^m and Q_m = sum w (gamma - 1)^m Q,
//   dS = L [eps + (kappa/2)(s0 Q1 - s1 Q0)/(s0 s2 - s1^2)],  dN = -L (kappa/2)(s2 Q0 - s1 Q1)/(s0 s2 - s1^2).
// Setbacks from the exact scale. `fret`, `stretch` (Q) and `weight` in step; an empty weight is 1 for all. Errors:
// code "range", path "frets": not in step, fewer than two frets that count.
Result<Moves> closed_form_setbacks(double scale, double kappa, double eps, std::span<const double> fret,
                                   std::span<const double> stretch, std::span<const double> weight = {});

// How a player uses one fret.
struct FretWish {
    int fret = 0;
    double weight = 1;  // 0 and up
    double target = 0;  // cents above the due pitch
};

// How far a part can still go from where it stands, m; low <= 0 <= high.
struct Travel {
    double low = 0;
    double high = 0;
};
inline constexpr Travel kFreeTravel{-0.02, 0.02};

struct Task {
    std::vector<FretWish> wishes;  // empty: every fret of the path alike, target 0
    Travel saddle = kFreeTravel;
    std::optional<Travel> nut;    // absent: the nut is not touched
    double u_saddle_placing = 0;  // m: how closely the saddle is put where it should go
    double u_nut_placing = 0;
    double u_tuner = 0.5;  // cents, of one reading (strobe grade .3 to .5, others 1 to 2: common practice)
};

enum class Limit : std::uint8_t { none, low, high };  // the end of the travel that holds a part back

struct FretCents {
    int fret = 0;
    double weight = 0;
    double target = 0;
    Estimate before;
    Estimate after;  // u with placing in
    double u_reading =
        0;  // of a reading afterwards: `after`, the open string tuned and the note read with the tuner
};

struct Compensation {
    Estimate saddle;  // m, from where it stands; + back, away from the nut
    Estimate nut;     // m; + away from the saddle, 0 when not touched
    Limit saddle_limit = Limit::none;
    Limit nut_limit = Limit::none;
    std::vector<FretCents> frets;  // those of the path
    double rms_before = 0;         // weighted, about the targets, cents; as the model has it
    double rms_after = 0;
    double rms_expected = 0;  // after, with every u counted in
};

// Minimises sum w (cents - target)^2 of the full model within the travels, by Gauss-Newton steps each solved
// exactly within the box, from the closed form. u of a move: how it changes with each independent cause of doubt
// in response and path. Errors: code "range", path "wishes/1/fret" (on the path), "wishes/1/weight",
// "wishes/1/target", "wishes" (nothing counts; one fret only and both parts free), "saddle", "nut"; code "fit"
// when it does not settle.
Result<Compensation> compensate(const StringPath& path, const Response& response, const Task& task);

struct BothWays {
    Compensation saddle_only;
    std::optional<Compensation> with_nut;  // absent when the nut must not be touched
};
Result<BothWays> compensate_both_ways(const StringPath& path, const Response& response, const Task& task);

}  // namespace fallaway::strings
