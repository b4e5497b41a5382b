// The true neck of an invented instrument, from which its readings follow: nothing is read that this neck could
// not show. Formulas: fret places, board section, beam-shaped relief, open and fretted lines as in any textbook of
// plane geometry; the neck bends as a clamped beam of half-elliptic section (Euler-Bernoulli).
//
// SI. Axes: x from the front of the nut, y across (bass negative), z up from the plane that continues the straight
// board beyond the joint: saddles stay where they are when the rod moves the neck. String 1 is the thinnest.
#pragma once

#include <string_view>
#include <vector>

namespace fallaway::demo {

struct StringTruth {
    double y_nut = 0;
    double y_saddle = 0;
    double slot_excess = 0;    // slot floor over a zero fret of the same wire
    double saddle_height = 0;  // z of the string's underside at the saddle
    double setback = 0;        // saddle beyond the scale length
};

// How far a crown stands over (or under) its true place: at the bass edge, the middle and the treble edge.
struct CrownError {
    double bass = 0;
    double middle = 0;
    double treble = 0;
};

struct NeckTruth {
    double scale = 0;
    int frets = 22;
    int joint_fret = 16;
    double radius_nut = 0;  // of the board; linear along it
    double radius_last = 0;
    double width_nut = 0;
    double width_last = 0;
    double thickness_nut = 0;
    double thickness_12 = 0;
    double fret_height = 0;
    double relief = 0;                 // largest dip under a line over crowns 1 and last, centre line
    double fallaway = 0;               // slope of the board beyond the joint, positive down
    std::vector<StringTruth> strings;  // [0] is string 1
    std::vector<CrownError> crowns;    // [0] is fret 1
};

double fret_place(const NeckTruth& neck, int fret);  // 0 is the nut
double width_at(const NeckTruth& neck, double x);
double radius_at(const NeckTruth& neck, double x);
double thickness_at(const NeckTruth& neck, double x);
double crown(const NeckTruth& neck, int string, int fret);            // z of the crown's top
double fret_height_at(const NeckTruth& neck, int fret, double side);  // -1 bass edge, 1 treble edge; over the wood
double open_height(const NeckTruth& neck, int string, int fret);
double fretted_gap(const NeckTruth& neck, int string, int held, int over);  // held 0: the open string
// Gap over a crown below a string held on two frets.
double held_gap(const NeckTruth& neck, int string, int low, int high, int over);
// Largest of these gaps and where it stands.
struct Dip {
    double depth = 0;
    int fret = 0;
};
Dip relief_reading(const NeckTruth& neck, int string, int low, int high);
double nut_gap(const NeckTruth& neck, int string);               // over fret 1, held at fret 2; 0 when it touches
double rocker_gap(const NeckTruth& neck, int string, int fret);  // crown over the line of its neighbours
double pickup_gap(const NeckTruth& neck, int string, double x, double top);  // held at the last fret

// The saddle height that gives this open height over fret 12.
void set_height_at_12(NeckTruth& neck, int string, double height);

// What an ear hears: the lowest excursion of an ideal string pulled up by `swing` at `pick` from the saddle,
// against every crown ahead of the finger. It chokes at a swing of 0.25 mm, buzzes at 0.41, rattles at 0.47:
// chosen for these two players' hands.
std::string_view heard(const NeckTruth& neck, int string, int fret, double pick);

}  // namespace fallaway::demo
