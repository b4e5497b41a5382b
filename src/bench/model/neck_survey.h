// The neck of one instrument as its readings tell it: what is rebuilt from them, with uncertainty, whether they go
// together, and what to read next. Plain values in metres; texts are for people.
#pragma once

#include <string>
#include <vector>

#include "bench/model/contours.h"
#include "bench/model/figure.h"
#include "bench/model/neck_readings.h"
#include "science/metrology/uncertainty.h"
#include "science/neck/clearances.h"
#include "science/neck/suspects.h"

namespace fallaway::model {

using metrology::Uncertain;

// Figures are named here that rest on what is usual more than on readings.
using Assumed = std::vector<std::string>;

struct StringSurvey {
    int string = 1;   // as a bench file counts
    Assumed assumed;  // of "slot", "over_first", "over_twelfth", "over_last"
    Uncertain slot;   // over a zero-fret; nothing known on a zero-fret board
    Uncertain over_first;
    Uncertain over_twelfth;
    Uncertain over_last;
    Uncertain saddle;         // over the chord plane of the crowns
    Uncertain nut_over_line;  // over the straight line through the first and the last crown under it
    Uncertain saddle_over_line;
    std::vector<Uncertain> next_fret;  // room over the next crown, held at 0 (open), 1, ...
    std::vector<Uncertain> open;       // room of the open string over fret 1, 2, ...
    int least_held = 0;                // of all clearances, the one with the least room
    int least_over = 0;
    Uncertain least;
};

struct CrownSurvey {
    int fret = 1;
    bool assumed = false;              // off rests on what is usual
    Uncertain off;                     // over the wanted shape (relief and fallaway as they are), in the middle
    std::vector<Uncertain> off_under;  // the same under each string
    std::vector<Uncertain> heights;    // over the straight line from fret 1 to the last, string by string
};

// Readings that do not go together.
struct Disagreement {
    std::vector<Asked> suspects;      // the likeliest first
    std::vector<double> probability;  // 0..1, one for each suspect
    std::vector<std::string> texts;   // "String height, string 6, fret 12: 1.75 mm, expected 2.21 ± 0.05 mm"
    Asked decider;                    // what to read (again) to settle it
    bool again = false;               // the decider repeats one of them
};

struct NextOnTheNeck {
    Asked asked;
    double minutes = 0;
    double u_before = 0;  // m, of the clearances with the least room
    double u_after = 0;
};

struct NeckSurvey {
    neck::Layout layout;
    bool radius_known = false;          // false: the board's radius is the usual one
    bool fret_height_known = false;     // the same of the wire's height over the board
    int readings = 0;                   // that the fit used
    int left_out = 0;                   // suspects that it did not
    Assumed assumed;                    // of "relief", "fallaway"
    Uncertain relief;                   // deepest dip under fret 1 to the last, middle of the board
    int relief_at = 0;                  // the fret over which that is
    Uncertain fallaway;                 // how far the last crown lies below the line of frets 12 and joint
    std::vector<StringSurvey> strings;  // string 1 first
    std::vector<CrownSurvey> crowns;    // fret 1 first
    double contour_step = 0;            // m between two lines
    std::vector<Contour> contours;      // of off_under
    std::vector<Disagreement> disagreements;
    std::vector<NextOnTheNeck> next;
    std::vector<neck::Clearance> clearances;
};

// Works from no reading at all: then it says what is usual, with the spread of what is usual.
// Absent on an instrument whose layout makes no sense (frets or strings that cannot be).
std::optional<NeckSurvey> survey_neck(const evidence::Bench& bench, const CurrentReadings& readings);

}  // namespace fallaway::model
