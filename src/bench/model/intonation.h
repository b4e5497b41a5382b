// Where each saddle should go, from how sharp or flat the fretted notes were heard, the strings on the instrument
// and the heights of the neck. Values for people are cents and metres of saddle; + is sharp, and back.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "bench/model/neck_survey.h"
#include "bench/model/strings_fitted.h"
#include "science/strings/screw_thread.h"

namespace fallaway::model {

// Less than this nobody should promise to be heard (docs/strings.md).
inline constexpr double kLeastHeard = 2;  // cents

struct FretHeard {
    int fret = 12;
    Uncertain cents;
};

struct FretLeft {
    int fret = 1;
    Uncertain now;    // cents
    Uncertain after;  // cents, the saddle moved and the open string tuned again
};

struct StringIntonation {
    int string = 1;
    std::vector<FretHeard> heard;
    std::string refused;  // why these cents set no saddle; "" when they do

    // When nothing was heard: how far behind the bare scale the saddle will want to stand, m.
    std::optional<Uncertain> setback;

    // When something was heard and the string is sound.
    std::optional<Uncertain> move;  // m
    std::optional<double> turns;    // of the bridge's own screw, in whole eighths; absent: thread not told
    std::vector<FretLeft> frets;    // those that count alike, 1 to 12
    Uncertain twelfth_now;          // cents over fret 12, or the last one
    Uncertain twelfth_after;
    double u_reading = 0;  // cents: what a tuner may read afterwards lies about twelfth_after with this u
    double rms_now = 0;    // cents, over these frets
    double rms_after = 0;
    int worst_fret = 0;  // after the move
    Uncertain worst;
    bool heard_gain = false;           // the worst fret comes out better by kLeastHeard or more
    std::vector<std::string> remarks;  // "slot first", travel
};

struct Intonation {
    std::optional<strings::Thread> screw;  // of the saddles' length screws, where the instrument tells it
    std::vector<StringIntonation> strings;
};

// Strings that could not be reckoned are left out. Absent on a fretless instrument, and where no string is left.
// A saddle whose cents were never heard is taken to stand anywhere within some millimetres: one fret tells its
// move, more frets tell whether the string is sound.
std::optional<Intonation> intonation_of(const evidence::Bench& bench, const CurrentReadings& readings,
                                        const NeckSurvey& neck, const FittedStrings& fitted);

}  // namespace fallaway::model
