#include "stories.h"

namespace fallaway::demo {
namespace {

constexpr const char* kStory = R"json({
  "fallaway": 1,
  "demo": true,
  "job": {
    "id": "2026-141", "owner": "Maren Tolk", "shop": "Vell and Aster", "technicians": ["Ruta Vell", "Joon Aster"],
    "received": "2026-11-16", "purpose": "customer"
  },
  "instrument": {
    "kind": "electric guitar", "hand": "right", "fretted": true,
    "maker": "Ostrel", "model": "Heron", "serial": "OH-0412", "year": "2019, as claimed",
    "strings": [
      {"note": "E4", "gauge": "0.010 in", "wrap": "plain"},
      {"note": "B3", "gauge": "0.013 in", "wrap": "plain"},
      {"note": "G3", "gauge": "0.017 in", "wrap": "plain"},
      {"note": "D3", "gauge": "0.026 in", "core": "hex", "wrap": "round"},
      {"note": "A2", "gauge": "0.036 in", "core": "hex", "wrap": "round"},
      {"note": "E2", "gauge": "0.046 in", "core": "hex", "wrap": "round"}
    ],
    "scale": "635 mm", "frets": 22, "zero_fret": false, "radius": {"nut": "254 mm", "end": "406 mm"},
    "fretwire": {"height": "1.2 mm", "width": "2.7 mm", "material": "nickel silver"},
    "bridge": {"type": "fixed", "height_screw": "M3", "length_screw": "M3"},
    "truss_rod": {"type": "double", "access": "head", "key": "4 mm hex"},
    "neck_joint": "bolt-on", "board_finish": "bare", "board_wood": "rosewood",
    "pickups": [{"name": "bridge", "type": "humbucker"}, {"name": "neck", "type": "single coil"}],
    "switch_positions": ["bridge", "both", "neck"], "controls": ["volume", "tone"], "battery": false, "headless": false
  },
  "wants": {
    "player": "Maren Tolk",
    "complaints": [
      {"text": "B buzzes around the eighth", "at": {"string": 2, "fret": 8}},
      {"text": "open G pings and dies", "at": {"string": 3, "fret": 0}},
      {"text": "the edge of the neck feels like a saw since the heating is on", "at": {"fret": 7, "side": "bass"}},
      {"text": "bridge pickup is weaker than I hoped for", "at": {"pickup": "bridge"}}
    ],
    "tuning": ["E4", "B3", "G3", "D3", "A2", "E2"], "strings": "10-46",
    "height_bass": "1.9 mm", "height_treble": "1.6 mm", "hand": "medium", "rattle": "hard only",
    "untouchables": ["the nut stays if it can be saved", "no lacquer work"],
    "money_limit": "260 EUR", "promised": "2026-11-28",
    "remark": "plays rhythm, mostly below fret 12, often with a slide on the third string"
  },
  "hands": "work",
  "scope": "full inspection",
  "claims": [
    {"id": "c-scale", "what": "scale", "value": "635 mm", "source": "advert", "text": "635 mm scale"},
    {"id": "c-frets", "what": "fret count", "value": "22", "source": "advert", "text": "22 frets",
     "found": "22 counted", "outcome": "confirmed", "by": "Ruta Vell"},
    {"id": "c-nut", "what": "nut width", "value": "42.7 mm", "source": "advert", "text": "42.7 mm at the nut"},
    {"id": "c-radius", "what": "radius", "at": {"fret": 1}, "value": "254 mm", "source": "advert",
     "text": "compound radius 254 to 406 mm"},
    {"id": "c-radius-end", "what": "radius", "at": {"fret": 22}, "value": "406 mm", "source": "advert"},
    {"id": "c-weight", "what": "weight", "value": "3.4 kg", "source": "advert", "text": "only 3.4 kilos"},
    {"id": "c-bridge-ohms", "what": "winding ohms", "at": {"pickup": "bridge"}, "value": "8.4 kohm",
     "source": "advert", "text": "8.4 kohm humbucker at the bridge"},
    {"id": "c-neck-ohms", "what": "winding ohms", "at": {"pickup": "neck"}, "value": "6.2 kohm", "source": "advert"},
    {"id": "c-bridge-type", "what": "pickup type", "at": {"pickup": "bridge"}, "value": "humbucker",
     "source": "advert", "found": "two coils under one cover, both sound when tapped", "outcome": "confirmed",
     "by": "Joon Aster"},
    {"id": "c-volume", "what": "pot value", "at": {"control": "volume"}, "value": "500 kohm",
     "source": "seller by letter", "text": "new 500 kohm pots last year"},
    {"id": "c-tone", "what": "pot value", "at": {"control": "tone"}, "value": "500 kohm", "source": "seller by letter"},
    {"id": "c-board", "what": "fingerboard wood", "value": "rosewood", "source": "advert",
     "found": "open pores, purple brown under the loupe, in two places", "outcome": "confirmed", "by": "Ruta Vell"},
    {"id": "c-body", "what": "body wood", "value": "ash", "source": "advert",
     "found": "paint in the cavities as well; no bare grain to be seen", "outcome": "not established",
     "by": "Ruta Vell", "remark": "weight neither proves nor excludes it"},
    {"id": "c-repairs", "what": "repairs", "value": "none", "source": "seller by letter", "text": "no repairs, no breaks",
     "found": "no line, step or glue at head, heel and nut under raking light", "outcome": "confirmed",
     "by": "Ruta Vell"},
    {"id": "c-case", "what": "accessory", "value": "hard case", "source": "advert",
     "found": "hard case with a broken latch", "outcome": "confirmed", "by": "Joon Aster"},
    {"id": "c-origin", "what": "origin", "value": "made in one small workshop", "source": "seller by letter"}
  ],
  "tools": [],
  "room": [
    {"when": "2026-11-16T15:40:00+01:00", "temperature": "22.5 degC", "humidity": "34 %RH",
     "remark": "inside the case at hand-in; the owner's flat read 33 %RH all week"},
    {"when": "2026-11-17T09:10:00+01:00", "temperature": "21.4 degC", "humidity": "34 %RH",
     "remark": "inside the case when it was opened; the room read 46 %RH"},
    {"when": "2026-11-18T09:30:00+01:00", "temperature": "21.0 degC", "humidity": "44 %RH"},
    {"when": "2026-11-20T09:15:00+01:00", "temperature": "21.2 degC", "humidity": "46 %RH"},
    {"when": "2026-11-21T09:35:00+01:00", "temperature": "21.1 degC", "humidity": "47 %RH"}
  ],
  "readings": [],
  "ratings": [],
  "work": [],
  "accepted": [
    {"finding": "claim:c-bridge-ohms", "value": "7.151 ± 0.046 kohm", "by": "Maren Tolk", "when": "2026-11-21T12:15:00+01:00",
     "why": "I like how it sounds; the seller gives 60 EUR back for the advert, and the rest I decide when I have your price"},
    {"finding": "finish-marks@spot:lower edge", "by": "Maren Tolk", "when": "2026-11-21T12:15:00+01:00",
     "why": "it was in the pictures"}
  ],
  "card": {
    "by": "Pell Audry", "date": "2026-10-30",
    "lines": [
      {"what": "string height", "at": {"string": 6, "fret": 12}, "value": "2.0 mm", "tool": "steel rule 0.5 mm"},
      {"what": "string height", "at": {"string": 1, "fret": 12}, "value": "1.5 mm", "tool": "steel rule 0.5 mm"},
      {"what": "relief", "at": {"string": 6, "pressed": 22}, "value": "0.25 mm", "tool": "feeler leaves"},
      {"what": "nut width", "value": "42.75 mm", "tool": "digital caliper"},
      {"what": "pot resistance", "at": {"control": "volume"}, "value": "500 kohm",
       "remark": "by what the seller said; the cavity was not opened"},
      {"what": "weight", "value": "3.45 kg", "tool": "hanging scale"},
      {"what": "rocker", "at": {"fret": 9, "side": "treble"}, "value": "no click"},
      {"what": "fret-crown", "step": 3}
    ]
  },
  "price": {
    "asked": "1180 EUR",
    "like": [
      {"price": "1090 EUR", "where": "own log 2026-03"}, {"price": "1240 EUR", "where": "own log 2026-05"},
      {"price": "1150 EUR", "where": "own log 2026-06"}, {"price": "980 EUR", "where": "own log 2026-08, refretted"},
      {"price": "1210 EUR", "where": "own log 2026-09"}, {"price": "1130 EUR", "where": "Pell Audry's list 2026-10"}
    ],
    "repairs": "185 EUR"
  },
  "remarks": []
})json";

}  // namespace

Json heron_story() {
    return Json::parse(kStory);
}

}  // namespace fallaway::demo
