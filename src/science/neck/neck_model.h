// The unknowns of one neck, and every height on it as a linear form of them:
//
//   crown of fret k under string i   c_ki = F(x_k) - S(y_i(x_k); R) + h + e_k + t_k 2 y/W
//   zero-fret height at the nut      z0_i = F(0) - S(y_i(0); R) + h
//   nut slot                         n_i  = z0_i + d_i          (on a zero-fret: z0_i + e_0 + t_0 2 y/W)
//   saddle                           s_i  from the open string's height a_i over the smooth board at fret 12
//
// F is the sum of the shapes of profile.h, each times its measure; W is the spread of the outer strings at that
// place. The open string is the straight line from n_i to s_i. Once the layout is given all is linear.
// On a fretless board the marks take the place of crowns; e_k is how far the board is off its smooth profile
// there.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "science/neck/layout.h"
#include "science/neck/profile.h"
#include "science/numeric/linear_gaussian.h"

namespace fallaway::neck {

using Form = numeric::LinearForm;  // of a model's unknowns; metres, rad for the kink alone

// In place of a string's number: along the board's centre line.
inline constexpr int kCentre = -1;

struct Guess {
    double mean = 0;
    double sd = 0;  // 0: known
};

// What is believed of an instrument nobody has read yet. Metres; kink in rad. Common practice, no source.
struct Prior {
    Guess relief{0.20e-3, 0.10e-3};
    Guess skew;
    Guess kink{0, 0.002};
    Guess hump;
    Guess crown{0, 0.03e-3};         // e_k, each fret by itself
    Guess tilt;                      // t_k, treble side up, under the outer string
    Guess slot{0.05e-3, 0.05e-3};    // d_i; no slots on a zero-fret
    Guess action{1.70e-3, 0.30e-3};  // a_i
    std::vector<Guess> actions;      // string by string; empty: `action` for all
};

enum class What { relief, skew, kink, hump, crown, tilt, slot, action };

struct Unknown {
    What what = What::relief;
    int at = 0;  // fret of a crown or tilt, string of a slot or action

    friend bool operator==(const Unknown&, const Unknown&) = default;
};

class NeckModel {
public:
    // The layout has 1..36 frets and a string at least (check() in readings.h). What is known is no unknown.
    NeckModel(const Layout& layout, const Prior& prior);

    const Layout& layout() const { return layout_; }
    const std::vector<Unknown>& unknowns() const { return unknowns_; }
    // Independent normals, in the order of unknowns().
    const numeric::Gaussian& prior() const { return prior_; }

    // The unknown itself, or the constant it is known to be: 0 where there is none such.
    Form unknown(const Unknown& unknown) const;

    // Heights over the chord plane of the smooth board, m. `string` may be kCentre where a line on the board is
    // meant; x is along the string from its own nut. smooth_crown: where a faultless crown would stand.
    Form smooth_crown(int string, double x) const;
    Form crown(int string, int fret) const;  // fret 1.. ; 0 on a zero-fret
    Form nut(int string) const;
    Form saddle(int string) const;

    // Places along the string (or the centre line) from its nut, m.
    double place(int string, int fret) const;

    // Heights as they are read. Positive is clear.
    Form open_height(int string, int over) const;
    Form fretted_height(int string, int held, int over) const;  // held 0: open
    Form height_behind(int string, int held, int over) const;   // between nut and finger
    Form gap(int string, int from, int to, int over) const;     // under a straight line over two crowns
    Form rock(int string, int fret) const;                      // the middle of three crowns over its neighbours
    Form crown_height(int string, int fret) const;              // of the crown over the wood
    Form over_wire(int string, double x) const;                 // open string over a loose piece of wire at x

    // The fret over which the default shape lies deepest under a line over two crowns; the lower of equals.
    // to >= from + 2.
    int deepest_fret(int from, int to) const;

private:
    void know(What what, int first, int count, const std::vector<Guess>& guesses);
    void add(Form& form, What what, int at, double factor) const;
    void add_crown_error(Form& form, int string, int fret) const;
    Form line(const Form& p, double x_p, const Form& q, double x_q, double x) const;
    double side(int string, int fret) const;

    struct Slot {
        std::optional<std::size_t> index;
        double known = 0;
    };
    struct Block {
        int first = 0;
        std::vector<Slot> slots;
    };

    Layout layout_;
    ProfileShapes shapes_;
    std::vector<Block> blocks_;  // by What
    std::vector<Unknown> unknowns_;
    std::vector<double> sds_;
    numeric::Gaussian prior_;
};

}  // namespace fallaway::neck
