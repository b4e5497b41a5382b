#include "bench/evidence/bench.h"

namespace fallaway::evidence {

// What a piece of work moves must be read again. What was found on arrival ("pitch on arrival") stays true for
// ever. Common practice, no source.
const std::vector<WorkKind>& work_kinds() {
    static const std::vector<WorkKind> kKinds{
        {"truss rod",
         {"relief", "relief a day later", "straightedge gap", "string height", "pickup gap", "intonation", "twist",
          "note", "dead spot", "ring time"}},
        {"saddle height",
         {"string height", "pickup gap", "saddle travel left", "intonation", "note", "dead spot", "ring time"}},
        {"saddle length", {"intonation", "saddle travel left"}},
        {"nut slot",
         {"nut gap", "nut tap", "nut wire", "string height", "string gap unevenness", "break angle", "intonation",
          "bend return", "note", "dead spot", "ring time"}},
        {"restring",
         {"string gauge", "string height", "relief", "relief a day later", "straightedge gap", "nut gap",
          "nut tap", "nut wire", "intonation", "bend return", "bridge return", "pickup gap", "string balance",
          "note", "dead spot", "ring time"}},
        {"pickup height",
         {"pickup gap", "string balance", "noise below a strum", "intonation", "note", "dead spot", "ring time"}},
        {"bridge level",
         {"string height", "pickup gap", "saddle travel left", "intonation", "bridge return", "note", "dead spot",
          "ring time"}},
        {"shim",
         {"string height", "pickup gap", "saddle travel left", "intonation", "pocket gap", "neck joint",
          "room at the edge", "board edge room", "note", "dead spot", "ring time"}},
        {"fret seating",
         {"rocker", "rocker gap", "fret height", "fret overhang", "fret end", "string height", "relief",
          "relief a day later", "straightedge gap", "note", "dead spot", "ring time"}},
        {"fret levelling",
         {"rocker", "rocker gap", "fret height", "fret end", "string height", "relief", "relief a day later",
          "straightedge gap", "nut gap", "nut tap", "nut wire", "intonation", "note", "dead spot", "ring time"}},
        {"fret ends", {"fret end", "fret overhang", "room at the edge"}},
        {"neck screws",
         {"neck joint", "pocket gap", "string height", "pickup gap", "intonation", "room at the edge",
          "board edge room", "note", "dead spot", "ring time"}},
        {"cleaning", {}},
        {"wiring",
         {"jack resistance", "pickup resistance", "pot resistance", "ground resistance", "switch sound",
          "noise below a strum", "string balance"}},
        {"hardware",
         {"tuner lash", "bend return", "bridge return", "break angle", "saddle travel left", "string height",
          "intonation", "weight", "head dive"}},
        {"conditioning",
         {"relief", "relief a day later", "straightedge gap", "string height", "fret overhang", "fret end",
          "twist", "seam opening", "note", "dead spot", "ring time"}},
        {"other", {"*"}},
    };
    return kKinds;
}

}  // namespace fallaway::evidence
