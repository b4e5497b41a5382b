import { arrival } from "./arrival";
import { bridge } from "./bridge";
import type { Drawing } from "./drawing";
import { electrics } from "./electrics";
import { frets } from "./frets";
import { neck } from "./neck";
import { nut } from "./nut";
import { shape } from "./shape";
import { wood } from "./wood";

export const drawings = { ...arrival, ...wood, ...nut, ...neck, ...frets, ...bridge, ...electrics, ...shape };
export type DrawingName = keyof typeof drawings;

/** Which figure shows how a checkpoint is answered; tests/how holds it against data/procedures/inspection.json. */
const shows: Record<string, DrawingName> = {
  "arrive-carton": "carton",
  "arrive-rest": "rest",
  "arrive-first-tune": "openPitch",
  "id-claim-list": "promises",
  "id-label": "marks",
  "id-originality": "changedParts",
  "id-scale": "scale",
  "id-weight": "weight",
  "left-parts": "leftHanded",
  "wood-body": "bodyWood",
  "wood-neck-grain": "neckGrain",
  "wood-board-kind": "boardWood",
  "wood-board": "boardCracks",
  "wood-heat": "heatShade",
  "wood-joints": "seam",
  binding: "binding",
  inlays: "inlays",
  "headstock-break": "headBreak",
  "finish-marks": "finishMark",
  "finish-sticky": "tacky",
  "sand-neck": "rakingNeck",
  "sand-cutaway": "rakingCutaway",
  "neck-joint": "neckJoint",
  "pocket-gap": "pocket",
  "neck-screws": "neckScrews",
  "nut-seat": "nutSeat",
  "nut-material": "nutMaterial",
  "nut-width": "nutWidth",
  "nut-height": "nutTap",
  "nut-wire": "nutWire",
  "open-height": "openHeight",
  "nut-slots": "slotShape",
  "nut-spacing": "nutSpacing",
  "bend-return": "bendReturn",
  "break-angle": "breakAngle",
  tuners: "tuners",
  "headless-tuning": "headless",
  "back-bow": "backBow",
  relief: "relief",
  "rod-access": "rodAccess",
  "rod-answers": "rodAnswers",
  twist: "twist",
  "board-end": "boardEnd",
  "board-radius": "boardRadius",
  "fan-lines": "fan",
  "fret-count": "fretCount",
  "fret-wire": "fretWire",
  "fret-seat": "fretSeat",
  "fret-level": "rocker",
  "fret-height": "fretHeight",
  "fret-height-all": "fretHeightAll",
  "fret-crown": "fretCrown",
  "fret-ends": "fretEnds",
  "fret-overhang": "overhang",
  "edge-room": "edgeRoom",
  "fretless-board": "fretlessBoard",
  "ring-test": "ringTest",
  "ring-time": "ringTime",
  "bridge-fixings": "bridgeFixings",
  "saddle-room": "saddleRoom",
  "saddle-burrs": "saddleBurrs",
  "pivot-springs": "pivotSprings",
  "bridge-return": "diveReturn",
  "string-age": "stringAge",
  "string-gauge": "stringGauge",
  "action-12": "action",
  intonation: "intonation",
  "pickup-gap": "pickupGap",
  "pole-alignment": "poles",
  "jack-ground": "ground",
  "dc-ohms": "ohms",
  "inside-ohms": "insideOhms",
  "switch-map": "tapPickup",
  "pot-sweep": "sweep",
  "phase-hum": "phase",
  "jack-hold": "jackHold",
  "wiring-work": "cavity",
  battery: "battery",
  "neck-carve": "neckCarve",
  "edge-feel": "edgeFeel",
  "upper-reach": "upperReach",
  "head-dive": "headDive",
  "strap-buttons": "strapButtons",
  "loose-hardware": "looseHardware",
  "play-trial": "play",
  "noise-floor": "noiseFloor",
  accessories: "accessories",
  outline: "outline",
  "price-fair": "price",
  "relief-later": "reliefLater",
  "room-balance": "reliefLater",
  "second-look": "secondLook",
};

/** Undefined for a checkpoint of the shop's own that no figure was drawn for. */
export function drawingFor(checkpoint: string): Drawing | undefined {
  const name = shows[checkpoint];
  return name === undefined ? undefined : drawings[name];
}
