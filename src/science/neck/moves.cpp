#include "science/neck/moves.h"

namespace fallaway::neck {

Moves& Moves::operator+=(const Moves& more) {
    relief += more.relief;
    nut += more.nut;
    saddle += more.saddle;
    tilt += more.tilt;
    raise += more.raise;
    return *this;
}

MoveMap::MoveMap(const Layout& layout, const NeckBeam& beam)
    : layout_(layout), bent_(layout, beam), joint_(centre_place_of_joint(layout)) {
    const double dip = bent_.deepest_dip();
    if (dip > 0) per_relief_ = 1 / dip;
}

double MoveMap::board(const Moves& moves, double x) const {
    return moves.relief * per_relief_ * bent_.at(x) + moves.tilt * (x - joint_) + moves.raise;
}

// The open string, carried by the board at the nut and by the body at the saddle.
double MoveMap::string_at(const Moves& moves, int string, double x) const {
    const double nut = board(moves, layout_.strings[static_cast<std::size_t>(string)].x_nut) + moves.nut;
    return nut + (moves.saddle - nut) * (x / speaking_length(layout_, string));
}

double MoveMap::open_height(const Moves& moves, int string, int fret) const {
    const double x = fret_place(layout_, string, fret);
    return string_at(moves, string, x) - board(moves, layout_.strings[static_cast<std::size_t>(string)].x_nut + x);
}

double MoveMap::fretted_height(const Moves& moves, int string, int held, int over) const {
    const double nut = layout_.strings[static_cast<std::size_t>(string)].x_nut;
    const double x = fret_place(layout_, string, over);
    return pickup_gap(moves, string, held, x) - board(moves, nut + x);
}

double MoveMap::pickup_gap(const Moves& moves, int string, int held, double x_pole) const {
    if (held == 0) return string_at(moves, string, x_pole);
    const double x = fret_place(layout_, string, held);
    const double crown = board(moves, layout_.strings[static_cast<std::size_t>(string)].x_nut + x);
    return crown + (moves.saddle - crown) * ((x_pole - x) / (speaking_length(layout_, string) - x));
}

double MoveMap::saddle_to_keep(const Moves& moves, int string, int fret) const {
    return -open_height(moves, string, fret) * speaking_length(layout_, string) /
           fret_place(layout_, string, fret);
}

Moves MoveMap::of_load(double newton) const {
    return per_relief_ > 0 ? Moves{.relief = newton / per_relief_} : Moves{};
}

Moves MoveMap::of_shim(double towards_nut, double towards_bridge, double pocket) const {
    return {.tilt = (towards_bridge - towards_nut) / pocket, .raise = towards_nut};
}

double wedge_for(double change, double pocket, double joint_to_saddle) {
    return change * pocket / joint_to_saddle;
}

}  // namespace fallaway::neck
