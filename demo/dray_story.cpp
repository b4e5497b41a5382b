#include "stories.h"

namespace fallaway::demo {
namespace {

constexpr const char* kStory = R"json({
  "fallaway": 1,
  "demo": true,
  "job": {
    "id": "2026-133", "owner": "Ilse Corvin", "shop": "Vell and Aster", "technicians": ["Ruta Vell", "Joon Aster"],
    "received": "2026-11-02", "purpose": "customer"
  },
  "instrument": {
    "kind": "electric bass", "hand": "right", "fretted": true,
    "maker": "Vannick", "model": "Dray", "serial": "VD-088", "year": "2022, as claimed",
    "strings": [
      {"note": "G2", "gauge": "0.045 in", "core": "hex", "wrap": "round"},
      {"note": "D2", "gauge": "0.065 in", "core": "hex", "wrap": "round"},
      {"note": "A1", "gauge": "0.085 in", "core": "hex", "wrap": "round"},
      {"note": "E1", "gauge": "0.105 in", "core": "hex", "wrap": "round"}
    ],
    "scale": "864 mm", "frets": 20, "zero_fret": false, "radius": "305 mm",
    "fretwire": {"height": "1.2 mm", "width": "2.7 mm", "material": "nickel silver"},
    "bridge": {"type": "fixed", "height_screw": "M3", "length_screw": "M4"},
    "truss_rod": {"type": "single", "access": "heel", "key": "5 mm hex"},
    "neck_joint": "bolt-on", "board_finish": "lacquered", "board_wood": "maple",
    "pickups": [{"name": "neck", "type": "single coil"}, {"name": "bridge", "type": "single coil"}],
    "switch_positions": ["neck", "both", "bridge"], "controls": ["volume", "tone"], "battery": false, "headless": false
  },
  "wants": {
    "player": "Ilse Corvin",
    "complaints": [
      {"text": "strings are miles off the neck from the fifth fret up", "at": {"fret": 12},
       "ending": {"as": "cured", "shown_by": ["height-4-after", "height-1-after", "relief-4-after"],
                  "by": "Joon Aster", "when": "2026-11-06T11:30:00+01:00",
                  "why": "relief halved with the rod, saddles lowered after it"}},
      {"text": "low F on the E string is always sharp", "at": {"string": 4, "fret": 1},
       "ending": {"as": "cured", "shown_by": ["nut-tap-4-after"],
                  "by": "Joon Aster", "when": "2026-11-06T11:30:00+01:00",
                  "why": "the slot stood too high: the string was stretched on its way down"}},
      {"text": "the D on the G string is gone at once", "at": {"string": 1, "fret": 7},
       "ending": {"as": "explained, not cured", "shown_by": ["dead-spot-after", "ring-time-7-after"],
                  "by": "Joon Aster", "when": "2026-11-06T11:30:00+01:00",
                  "why": "neck and string share this pitch; a weight on the head moves it, setting does not"}},
      {"text": "tone knob crackles a little half way", "at": {"control": "tone"},
       "ending": {"as": "left by agreement", "by": "Ilse Corvin", "when": "2026-11-06T17:10:00+01:00",
                  "why": "she leaves it at full and wants no soldering before the concert"}}
    ],
    "tuning": ["G2", "D2", "A1", "E1"], "strings": "45-105",
    "height_bass": "2.4 mm", "height_treble": "2.0 mm", "hand": "medium", "rattle": "unplugged only",
    "untouchables": ["the worn lacquer on the board"],
    "money_limit": "120 EUR", "promised": "2026-11-07"
  },
  "hands": "work",
  "scope": "set-up",
  "claims": [
    {"id": "c-scale", "what": "scale", "value": "864 mm", "source": "maker's leaflet",
     "remark": "the rule is too coarse to decide a millimetre"},
    {"id": "c-frets", "what": "fret count", "value": "20", "source": "maker's leaflet", "found": "20 counted",
     "outcome": "confirmed", "by": "Joon Aster"},
    {"id": "c-nut", "what": "nut width", "value": "41 mm", "source": "maker's leaflet"},
    {"id": "c-radius", "what": "radius", "at": {"fret": 1}, "value": "305 mm", "source": "maker's leaflet"},
    {"id": "c-weight", "what": "weight", "value": "4.1 kg", "source": "maker's leaflet"},
    {"id": "c-neck-ohms", "what": "winding ohms", "at": {"pickup": "neck"}, "value": "7.5 kohm",
     "source": "maker's leaflet"},
    {"id": "c-bridge-ohms", "what": "winding ohms", "at": {"pickup": "bridge"}, "value": "7.8 kohm",
     "source": "maker's leaflet"},
    {"id": "c-volume", "what": "pot value", "at": {"control": "volume"}, "value": "250 kohm",
     "source": "maker's leaflet"},
    {"id": "c-board", "what": "fingerboard wood", "value": "maple", "source": "maker's leaflet",
     "found": "one piece with the neck, fine even grain", "outcome": "confirmed", "by": "Ruta Vell"},
    {"id": "c-body", "what": "body wood", "value": "alder", "source": "maker's leaflet",
     "found": "sunburst over filled grain; the cavity was not opened", "outcome": "not established", "by": "Ruta Vell"},
    {"id": "c-bag", "what": "accessory", "value": "padded bag and both keys", "source": "bill of the first sale",
     "found": "bag and both keys", "outcome": "confirmed", "by": "Joon Aster"},
    {"id": "c-year", "what": "year", "value": "2022", "source": "bill of the first sale"}
  ],
  "tools": [],
  "room": [
    {"when": "2026-11-03T09:00:00+01:00", "temperature": "20.4 degC", "humidity": "48 %RH"},
    {"when": "2026-11-04T09:05:00+01:00", "temperature": "20.6 degC", "humidity": "49 %RH"},
    {"when": "2026-11-06T09:55:00+01:00", "temperature": "20.8 degC", "humidity": "47 %RH"}
  ],
  "readings": [],
  "ratings": [],
  "work": [],
  "accepted": [
    {"finding": "pot-sweep@control:tone", "value": "scratches", "by": "Ilse Corvin", "when": "2026-11-06T17:10:00+01:00",
     "why": "stays at full; to be done with the next strings"},
    {"finding": "ring-test@s1.f7:dead spot", "value": "dead spot", "by": "Ilse Corvin", "when": "2026-11-06T17:10:00+01:00",
     "why": "she plays that note on the second string"}
  ],
  "card": {
    "by": "Pell Audry", "date": "2025-05-12",
    "lines": [
      {"what": "string height", "at": {"string": 4, "fret": 12}, "value": "2.5 mm", "tool": "steel rule 0.5 mm"},
      {"what": "string height", "at": {"string": 1, "fret": 12}, "value": "2.0 mm", "tool": "steel rule 0.5 mm"},
      {"what": "nut width", "value": "41.1 mm", "tool": "digital caliper"},
      {"what": "weight", "value": "4.13 kg", "tool": "hanging scale"},
      {"what": "relief", "at": {"string": 4, "pressed": 20}, "value": "0.35 mm", "tool": "feeler leaves"}
    ]
  },
  "price": {
    "asked": "960 EUR",
    "like": [
      {"price": "890 EUR", "where": "own log 2025-11"}, {"price": "1020 EUR", "where": "own log 2026-02"},
      {"price": "940 EUR", "where": "own log 2026-04"}, {"price": "1000 EUR", "where": "own log 2026-07"},
      {"price": "920 EUR", "where": "own log 2026-10"}
    ]
  },
  "remarks": []
})json";

}  // namespace

Json dray_story() {
    return Json::parse(kStory);
}

}  // namespace fallaway::demo
