// How sharp a fretted note is, and why: the string is stretched on its way over the crown, its stiffness shortens
// it at both ends, and its lengths are what they are.
//
// Full model (Anderson & Beausoleil 2024, JASA 156, 683), against the open string, with gamma = 2^(fret/12):
//   cents = 1200 log2(L0/(gamma Lk)) + 600 log2(1 + Q) + 600 log2(1 + kappa Q)
//         + 1200 log2[(1 + e + q e^2)/(1 + eps + q eps^2)],   q = 1 + pi^2/2, e = eps (L0/Lk)/sqrt(1 + kappa Q)
// L0 open length, Lk crown to saddle, Q = (nut to press point + press point to crown + Lk - L0)/L0.
// kappa = E A/T and eps = sqrt(E I/(T L0^2)) of the open string (pull.h).
//
// x from the front edge of the nut along the string, z up from any straight line, heights of the string's
// underside.
#pragma once

#include <array>
#include <cmath>
#include <span>
#include <vector>

#include "science/base/result.h"
#include "science/strings/pull.h"

namespace fallaway::strings {

inline constexpr int kMostFrets = 36;

// A straight piece of string: how far it goes along the board and how far up. Where only its length is known, the
// length is the run and the rise 0.
struct Leg {
    double run = 0;   // m
    double rise = 0;  // m

    double length() const { return std::hypot(run, rise); }
};

// Where the string goes when it is pressed at one fret, in metres, to far below a micrometre: computed from
// heights (path_of), never measured.
struct FrettedPath {
    int fret = 0;  // 1..kMostFrets
    Leg to_press;  // from the nut to where the finger presses
    Leg to_crown;  // from there to the top of the crown
    Leg to_saddle;
};

struct StringPath {
    Leg open;  // nut to saddle
    std::vector<FrettedPath> frets;
    // One entry for each independent cause of doubt about the heights: what one standard uncertainty of it adds to
    // the stretched length at every fret, m. Empty: heights taken as exact.
    std::vector<std::vector<double>> doubts;
};

struct Crown {
    int fret = 0;
    double x = 0;       // m
    double z = 0;       // m, of the top
    double behind = 0;  // m, how far from the top towards the nut the finger presses; usual_press_distance
    double below = 0;   // m, how far the string is pushed under the line saddle-crown carried on to that point
};

// String and crowns of one string in one state.
struct Heights {
    double nut_z = 0;
    double saddle_x = 0;  // where the string really leaves the saddle
    double saddle_z = 0;
    std::vector<Crown> crowns;
    double u_nut_z = 0;  // standard uncertainties of the heights over the crowns, m
    double u_saddle_z = 0;
    double u_crown_z = 0;  // of each crown by itself
};
// Errors: code "range", path "saddle_x", "crowns/3/x" and so on, with the value and what was expected.
Result<StringPath> path_of(const Heights& heights);

// A finger presses 8 mm behind the crown, or at 0.4 of the gap to the fret before if that is less: common
// practice, no source. gap in m. Where it presses matters for the first fret only (Anderson & Beausoleil 2024).
double usual_press_distance(double gap);

// Flat crowns at the exact places of `scale`: nut `nut_over` over their plane, saddle `saddle_over_nut` over the
// nut, pressed `behind` (m) behind every crown.
Heights flat_heights(double scale, double nut_over, double saddle_over_nut, int frets, double behind = 0);

// How one string answers to being pressed, with what is not known about it. `saddle_behind` and `nut_behind` say
// how much further back than the path has it the string really ends; they are known by fretted cents alone.
struct Response {
    double kappa = 0;
    double eps = 0;
    double saddle_behind = 0;  // m
    double nut_behind = 0;     // m
    // Of the four above in this order, row-major.
    std::array<double, 16> covariance{};

    Estimate kappa_estimate() const;
    Estimate eps_estimate() const;
};
// Before anything was heard: from the string alone, with 15 % of doubt on eps for ends that are neither clamp nor
// pin (the model runs some tenths of a millimetre of saddle over trade figures; common practice, no source).
Response response_of(const Pull& pull);

// Moves from where nut and saddle stand: + is away from the other end.
struct Moves {
    double saddle = 0;  // m
    double nut = 0;     // m
};

// The path when the moves are made.
StringPath moved(StringPath path, const Moves& moves);

// Cents above the due pitch of each fret of the path, the open string in tune after the moves. Finite for finite
// paths, kappa >= 0, |eps| < 0.1.
std::vector<double> fretted_cents(const StringPath& path, const Response& response, const Moves& moves = {});
// With what the response and the heights leave open.
std::vector<Estimate> expected_cents(const StringPath& path, const Response& response, const Moves& moves = {});

// By how much the string is longer when pressed than open, m.
double stretched_by(const StringPath& path, std::size_t place);

// The responses and paths one standard uncertainty away, one for each independent cause: the columns of a square
// root of the covariance, and the doubts of the path.
struct Variation {
    Response response;
    StringPath path;
};
std::vector<Variation> variations(const StringPath& path, const Response& response);

// First order, for flat crowns: Q = [gamma b + (gamma - 1) c]^2/(2 (gamma - 1) L^2), nut b over the crowns, saddle
// c over the nut; cents = (1200/ln 2) [(gamma - 1)(eps - dS/L) + dN/L + kappa Q/2].
double flat_stretch(double scale, double nut_over, double saddle_over_nut, double fret);
double first_order_cents(double scale, double kappa, double eps, double stretch, double fret,
                         const Moves& setbacks = {});
// Cents at a fret for each metre that the saddle goes back, the open string tuned again: -(1200/ln 2)(gamma -
// 1)/L.
double cents_per_metre(double scale, double fret);
// Saddle move that flattens a note by `cents`, first order: cents L ln 2/(1200 (gamma - 1)), fret > 0.
double saddle_move_for(double cents, double scale, double fret);

}  // namespace fallaway::strings
