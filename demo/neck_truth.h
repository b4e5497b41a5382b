// The true neck of an invented instrument, from which its readings follow: a neck of science/neck whose every
// unknown has a value. Heights are the forms that a survey fits, read at the truth; work moves it by
// science/neck's moves. SI throughout; strings and frets count as in a bench file: string 1 is the thinnest, fret
// 0 the nut.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "science/neck/beam.h"
#include "science/neck/moves.h"
#include "science/neck/neck_model.h"
#include "science/neck/readings.h"
#include "science/numeric/random.h"

namespace fallaway::demo {

// Largest of the gaps under a string held on two frets, and where it stands.
struct Dip {
    double depth = 0;
    int fret = 0;
};

class NeckTruth {
public:
    // A faultless neck of no relief, its strings on the crowns of a zero-fret and level with the board. The wood's
    // sizes are those a caliper reads; it bends as science/neck's usual neck does.
    NeckTruth(const neck::Layout& layout, const neck::NeckBeam& wood);

    const neck::Layout& layout() const { return model_.layout(); }
    const neck::NeckModel& model() const { return model_; }

    void set(neck::What what, double value) { set(what, 0, value); }
    // `at`: string or fret.
    void set(neck::What what, int at, double value);
    // Every crown a little off, with this standard deviation, tilted across by half as much under the outer
    // strings.
    void scatter_crowns(double sd, numeric::Random& random);
    // The saddle that gives this open height over fret 12, its crown as it is.
    void set_height_at_12(int string, double height);

    // Relief bends the neck under all strings; nut and saddle are one string's.
    void bend(double more_relief);
    void move(int string, const neck::Moves& nut_or_saddle);

    double value(const neck::Form& form) const;
    double of(neck::What what, int at = 0) const;
    double width_at(double x) const;
    double thickness_at(double x) const;
    double radius_at(double x) const;
    double fret_place(int fret) const;  // on the centre line

    double open_height(int string, int fret) const { return fretted_height(string, 0, fret); }
    double fretted_height(int string, int held, int over) const;
    double gap(int string, int from, int to, int over) const;  // under a straight line over two crowns
    Dip relief(int string, int from, int to) const;            // where a leaf finds it deepest
    double nut_gap(int string) const;                          // over fret 1, held at fret 2; 0 when it touches
    double rock(int string, int fret) const;                   // crown over the line of its neighbours
    double crown_height(int string, int fret) const;           // over the wood
    double over_wire(int string) const;                        // over a piece of its wire laid against the nut
    // Held at the last fret, over a pole at x whose top stands so high over the body's plane: that of the
    // straight board beyond the joint.
    double pickup_gap(int string, double x, double top) const;

private:
    std::size_t index_of(neck::What what, int at) const;

    neck::NeckModel model_;
    neck::ProfileShapes shapes_;
    neck::MoveMap moves_;
    neck::NeckBeam wood_;
    std::vector<double> state_;
};

// One string as it is strung: where it lies, how its slot and height are.
struct StringTruth {
    double slot = 0;          // floor over a zero-fret of the same wire
    double height_at_12 = 0;  // open
};
void string_up(NeckTruth& neck, std::span<const StringTruth> strings);

// What an ear hears: the lowest excursion of an ideal string pulled up by `swing` at `pick` from the saddle,
// against every crown ahead of the finger. It chokes at a swing of 0.25 mm, buzzes at 0.41, rattles at 0.47:
// chosen for these players' hands.
std::string_view heard(const NeckTruth& neck, int string, int fret, double pick);

// What a hand says, erring as science/neck lets it: edges as the bench file's words mean them.
std::string_view rocker_word(const NeckTruth& neck, int string, int fret, numeric::Random& random);
std::string_view tap_word(const NeckTruth& neck, int string, numeric::Random& random);
std::string_view wire_word(const NeckTruth& neck, int string, numeric::Random& random);

}  // namespace fallaway::demo
