// Catalogue, checkpoints and the neck in plan, as far as pages need them while the real server is away.
import { readFileSync } from "node:fs";
import { join } from "node:path";

const placeParts = {
  kString: "string",
  kFret: "fret",
  kSide: "side",
  kPressed: "pressed",
  kPickup: "pickup",
  kSwitch: "switch",
  kControl: "control",
  kSpot: "spot",
};
const examples = {
  length: "1.60 mm",
  interval: "-3 cents",
  angle: "10 deg",
  count: "22",
  mass: "3.4 kg",
  force: "2 N",
  time: "17 h",
  level: "3 dB",
  resistance: "8.42 kohm",
  temperature: "21 degC",
  ratio: "90 %",
};

/** The table of observables, read out of its C++ source. */
function observablesOf(house) {
  const text = readFileSync(join(house, "src/bench/evidence/observable.cpp"), "utf8");
  const words = new Map(
    [...text.matchAll(/(k\w+) = \{((?:"[^"]*",? ?)+)\};/g)].map(([, name, list]) => [
      name,
      JSON.parse(`[${list}]`),
    ]),
  );
  const row = /\{"([^"]+)", "([^"]+)",\s*D::(\w+), (\{\}|k\w+), (0|k[\w |]+),\s*(0|k[\w |]+),\s*"([^"]*)"/g;
  const parts = (mask) => (mask === "0" ? [] : mask.split("|").map((one) => placeParts[one.trim()]));
  return [...text.matchAll(row)].map(([, name, says, dimension, list, needs, allows, tool]) => ({
    name,
    says,
    ...(list === "{}" ? { dimension } : { words: words.get(list) }),
    needs: parts(needs),
    allows: parts(allows),
    ...(tool ? { default_tool: tool } : {}),
    example: list === "{}" ? examples[dimension] : words.get(list)[0],
  }));
}

export function catalogueOf(house) {
  const data = (name) => JSON.parse(readFileSync(join(house, "data", name), "utf8"));
  const works = [
    ...readFileSync(join(house, "src/bench/evidence/work_kinds.cpp"), "utf8").matchAll(/^\s+\{"([^"]+)",/gm),
  ];
  return {
    schema: "fallaway/catalogue/1",
    procedure: data("procedures/inspection.json"),
    tools: data("tools.json").tools.map(({ id, name, dimension }) => ({ id, name, dimension })),
    claims: data("claims.json").claims.map(({ id, name, dimension, uncheckable, words }) => ({
      id,
      name,
      dimension,
      words: words !== undefined || dimension === undefined,
      checkable: !uncheckable,
    })),
    observables: observablesOf(house),
    work: works.map(([, name]) => ({ name })),
  };
}

export function instrumentOf(bench) {
  const { kind, strings, frets, fretted = true, hand } = bench.instrument;
  const bass = kind === "electric bass";
  const notes =
    bench.wants?.tuning ??
    (Array.isArray(strings)
      ? strings.map((one) => one.note ?? "")
      : bass
        ? ["G2", "D2", "A1", "E1"]
        : ["E4", "B3", "G3", "D3", "A2", "E2"]);
  return {
    strings: notes.length,
    frets: typeof frets === "number" ? frets : bass ? 20 : 22,
    fretted,
    left: hand === "left",
    notes,
  };
}

function placesOf(checkpoint, instrument, bench) {
  const observable = checkpoint.reads?.[0];
  if (!observable) return [{ at: {}, observable: "" }];
  const fret = checkpoint.fret === undefined ? {} : { fret: checkpoint.fret };
  const at = {
    string: () =>
      Array.from({ length: instrument.strings }, (_, nth) => ({ string: instrument.strings - nth, ...fret })),
    fret: () => Array.from({ length: instrument.frets }, (_, nth) => ({ fret: nth + 1 })),
    edge: () => [
      { side: "bass", ...fret },
      { side: "treble", ...fret },
    ],
    pickup: () => (bench.instrument.pickups ?? [{ name: "bridge" }]).map((one) => ({ pickup: one.name })),
    "switch position": () => (bench.instrument.switch_positions ?? ["bridge"]).map((one) => ({ switch: one })),
  }[checkpoint.each];
  return (at ? at() : [fret]).map((one) => ({ at: one, observable }));
}

export function checkpointsOf(catalogue, bench, assessment) {
  const instrument = instrumentOf(bench);
  const answers = new Map(assessment.answers.map((answer) => [answer.checkpoint, answer]));
  return catalogue.procedure.checkpoints
    .filter((one) => answers.has(one.id))
    .map((one) => {
      const answer = answers.get(one.id);
      return {
        id: one.id,
        in_scope: answer.in_scope,
        done: answer.state !== "not looked at",
        minutes: one.minutes ?? 0.5,
        places: placesOf(one, instrument, bench),
      };
    });
}

export function neckOf(bench, instrument) {
  const long = bench.instrument.kind === "electric bass" ? 864 : 635;
  const wide = bench.instrument.kind === "electric bass" ? [38, 62] : [42.7, 57];
  const times = 3;
  const width = long * 1.02;
  const height = wide[1] * times * 1.1;
  const half = (x) => (wide[0] + ((wide[1] - wide[0]) * x) / (long * 0.75)) * times * 0.5;
  const end = long * (1 - 2 ** (-(instrument.frets + 0.6) / 12));
  const place = (fret) => long * (1 - 2 ** (-fret / 12));
  const mid = height / 2;
  const frets = Array.from({ length: instrument.frets + 1 }, (_, fret) => ({
    fret,
    x1: place(fret),
    y1: mid - half(place(fret)),
    x2: place(fret),
    y2: mid + half(place(fret)),
  }));
  const strings = Array.from({ length: instrument.strings }, (_, nth) => {
    const part = instrument.strings === 1 ? 0 : (nth / (instrument.strings - 1)) * 2 - 1;
    return {
      string: nth + 1,
      note: (instrument.notes[nth] ?? "").replace(/\d/, ""),
      x1: 0,
      y1: mid + part * half(0) * 0.84,
      x2: width,
      y2: mid + part * half(long) * 0.84,
      thick: 0.25 + 0.18 * nth,
    };
  });
  const edge = [
    { x: 0, y: mid - half(0) },
    { x: end, y: mid - half(end) },
    { x: end, y: mid + half(end) },
    { x: 0, y: mid + half(0) },
  ];
  return {
    width,
    height,
    times_wider: times,
    left: instrument.left,
    fretted: instrument.fretted,
    frets,
    strings,
    edge,
  };
}
