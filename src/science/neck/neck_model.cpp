#include "science/neck/neck_model.h"

#include <algorithm>
#include <cmath>

#include "science/neck/beam.h"

namespace fallaway::neck {
namespace {

constexpr int kActionFret = 12;

}  // namespace

NeckModel::NeckModel(const Layout& layout, const Prior& prior) : layout_(layout), shapes_(layout) {
    const int strings = int(layout.strings.size());
    const int first = layout.zero_fret ? 0 : 1;
    const int crowns = layout.frets + 1 - first;
    const auto slot = layout.zero_fret ? Guess{} : prior.slot;
    // A single string has no sides.
    const auto tilt = strings > 1 ? prior.tilt : Guess{};
    know(What::relief, 0, 1, {prior.relief});
    know(What::skew, 0, 1, {prior.skew});
    know(What::kink, 0, 1, {prior.kink});
    know(What::hump, 0, 1, {prior.hump});
    know(What::crown, first, crowns, {prior.crown});
    know(What::tilt, first, crowns, {tilt});
    know(What::slot, 0, strings, {slot});
    know(What::action, 0, strings, prior.actions.empty() ? std::vector{prior.action} : prior.actions);
    const std::size_t n = unknowns_.size();
    prior_.covariance.resize(n * n);
    for (std::size_t i = 0; i < n; ++i) prior_.covariance[i * n + i] = sds_[i] * sds_[i];
}

// One guess for all, or one each; the last stands for those that follow.
void NeckModel::know(What what, int first, int count, const std::vector<Guess>& guesses) {
    Block block{first, std::vector<Slot>(std::size_t(count))};
    for (int i = 0; i < count; ++i) {
        const Guess& guess = guesses[std::min(std::size_t(i), guesses.size() - 1)];
        block.slots[std::size_t(i)].known = guess.mean;
        if (!(guess.sd > 0)) continue;
        block.slots[std::size_t(i)].index = unknowns_.size();
        unknowns_.push_back({what, first + i});
        prior_.mean.push_back(guess.mean);
        sds_.push_back(guess.sd);
    }
    blocks_.push_back(std::move(block));
}

void NeckModel::add(Form& form, What what, int at, double factor) const {
    const Block& block = blocks_[std::size_t(what)];
    const int i = at - block.first;
    if (i < 0 || i >= int(block.slots.size())) return;
    const Slot& slot = block.slots[std::size_t(i)];
    if (slot.index) {
        form.weights[*slot.index] += factor;
    } else {
        form.constant += factor * slot.known;
    }
}

Form NeckModel::unknown(const Unknown& unknown) const {
    Form form{std::vector<double>(unknowns_.size())};
    add(form, unknown.what, unknown.at, 1);
    return form;
}

double NeckModel::place(int string, int fret) const {
    return string == kCentre ? centre_place(layout_, fret) : fret_place(layout_, string, fret);
}

// 2 y/W: 1 under the outer treble string, -1 under the outer bass string.
double NeckModel::side(int string, int fret) const {
    if (string == kCentre || layout_.strings.size() < 2) return 0;
    const auto y = [&](int s) { return string_y(layout_, s, fret_place(layout_, s, fret)); };
    const double spread = std::abs(y(0) - y(int(layout_.strings.size()) - 1));
    return spread > 0 ? 2 * y(string) / spread : 0;
}

Form NeckModel::smooth_crown(int string, double x) const {
    const bool centre = string == kCentre;
    const double along = centre ? x : layout_.strings[std::size_t(string)].x_nut + x;
    const Shapes shapes = shapes_.at(along);
    Form form{std::vector<double>(unknowns_.size())};
    form.constant = layout_.crown_height - (centre ? 0 : board_drop(layout_, string, x));
    add(form, What::relief, 0, shapes.bow);
    add(form, What::skew, 0, shapes.skew);
    add(form, What::kink, 0, shapes.past_joint);
    add(form, What::hump, 0, shapes.hump);
    return form;
}

void NeckModel::add_crown_error(Form& form, int string, int fret) const {
    add(form, What::crown, fret, 1);
    add(form, What::tilt, fret, side(string, fret));
}

Form NeckModel::crown(int string, int fret) const {
    Form form = smooth_crown(string, place(string, fret));
    add_crown_error(form, string, fret);
    return form;
}

Form NeckModel::nut(int string) const {
    if (layout_.zero_fret) return crown(string, 0);
    Form form = smooth_crown(string, 0);
    add(form, What::slot, string, 1);
    return form;
}

Form NeckModel::saddle(int string) const {
    const double x = fret_place(layout_, string, kActionFret);
    const double stretch = speaking_length(layout_, string) / x;
    Form at_action = smooth_crown(string, x);
    add(at_action, What::action, string, 1);
    return stretch * at_action + (1 - stretch) * nut(string);
}

Form NeckModel::line(const Form& p, double x_p, const Form& q, double x_q, double x) const {
    const double share = (x - x_p) / (x_q - x_p);
    return (1 - share) * p + share * q;
}

Form NeckModel::open_height(int string, int over) const {
    return line(nut(string), 0, saddle(string), speaking_length(layout_, string), place(string, over)) -
           crown(string, over);
}

Form NeckModel::fretted_height(int string, int held, int over) const {
    if (held == 0) return open_height(string, over);
    return line(crown(string, held), place(string, held), saddle(string), speaking_length(layout_, string),
                place(string, over)) -
           crown(string, over);
}

Form NeckModel::height_behind(int string, int held, int over) const {
    return line(nut(string), 0, crown(string, held), place(string, held), place(string, over)) -
           crown(string, over);
}

Form NeckModel::gap(int string, int from, int to, int over) const {
    return line(crown(string, from), place(string, from), crown(string, to), place(string, to),
                place(string, over)) -
           crown(string, over);
}

Form NeckModel::rock(int string, int fret) const {
    return -1 * gap(string, fret - 1, fret + 1, fret);
}

Form NeckModel::crown_height(int string, int fret) const {
    Form form{std::vector<double>(unknowns_.size()), layout_.crown_height};
    add_crown_error(form, string, fret);
    return form;
}

Form NeckModel::over_wire(int string, double x) const {
    return line(nut(string), 0, saddle(string), speaking_length(layout_, string), x) - smooth_crown(string, x);
}

int NeckModel::deepest_fret(int from, int to) const {
    const auto bow = [&](int fret) { return shapes_.at(centre_place(layout_, fret)).bow; };
    const double x_from = centre_place(layout_, from);
    const double x_to = centre_place(layout_, to);
    int deepest = from + 1;
    double most = -1;
    for (int fret = from + 1; fret < to; ++fret) {
        const double share = (centre_place(layout_, fret) - x_from) / (x_to - x_from);
        const double gap = (1 - share) * bow(from) + share * bow(to) - bow(fret);
        if (gap <= most) continue;
        most = gap;
        deepest = fret;
    }
    return deepest;
}

}  // namespace fallaway::neck
