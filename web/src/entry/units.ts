// Units a person may pick for a field, and how a typed figure is kept: always as text with its unit, never converted.
// Names of dimensions are those of the catalogue.

export interface Unit {
  id: string; // as picked and remembered: "mm", "in", "64ths"
  says: string; // on the key
  spoken: string; // read aloud
}

interface Kind {
  says: string; // "length"
  example: string; // what is expected, in an error
  negative: boolean; // may be below zero
  units: Unit[]; // the first is the usual one
  also: Record<string, string>; // further spellings, lower case where capitals mean nothing
}

const unit = (id: string, spoken: string, says = id): Unit => ({ id, says, spoken });

const mm = unit("mm", "millimetres");
const inch = unit("in", "inches");
const sixtyFourths = unit("64ths", "sixty-fourths of an inch");

const kinds: Record<string, Kind> = {
  length: {
    says: "a length",
    example: "1.7 mm",
    negative: true,
    units: [mm, inch, sixtyFourths],
    also: {
      millimetre: "mm",
      millimetres: "mm",
      inch: "in",
      inches: "in",
      '"': "in",
      "″": "in",
      cm: "cm",
      um: "um",
      µm: "um",
      μm: "um",
      m: "m",
      thou: "thou",
      mil: "thou",
      mils: "thou",
    },
  },
  interval: {
    says: "a pitch difference",
    example: "-3 cents",
    negative: true,
    units: [unit("cents", "cents")],
    also: { cent: "cents", ct: "cents", c: "cents", "¢": "cents" },
  },
  angle: {
    says: "an angle",
    example: "9.5 deg",
    negative: true,
    units: [unit("deg", "degrees"), unit("turn", "of a turn")],
    also: { "°": "deg", degree: "deg", degrees: "deg", turns: "turn" },
  },
  resistance: {
    says: "a resistance",
    example: "8.42 kohm",
    negative: false,
    units: [unit("kohm", "kilo-ohms", "k ohm"), unit("ohm", "ohms")],
    also: { k: "kohm", kohms: "kohm", kω: "kohm", "k ohm": "kohm", ohms: "ohm", ω: "ohm", r: "ohm" },
  },
  mass: {
    says: "a weight",
    example: "3.60 kg",
    negative: false,
    units: [unit("kg", "kilograms"), unit("g", "grams"), unit("lb", "pounds")],
    also: { lbs: "lb", oz: "oz" },
  },
  force: {
    says: "a force",
    example: "4 N",
    negative: true,
    units: [unit("N", "newtons")],
    also: { n: "N", lbf: "lbf", kgf: "kgf" },
  },
  time: {
    says: "a time",
    example: "12 h",
    negative: false,
    units: [unit("s", "seconds"), unit("min", "minutes"), unit("h", "hours"), unit("d", "days")],
    also: {},
  },
  level: {
    says: "a level",
    example: "32 dB",
    negative: true,
    units: [unit("dB", "decibels")],
    also: { db: "dB" },
  },
  ratio: { says: "a share", example: "92 %", negative: false, units: [unit("%", "percent")], also: {} },
  count: { says: "a count", example: "22", negative: false, units: [unit("", "")], also: {} },
  temperature: {
    says: "a temperature",
    example: "21.5 degC",
    negative: true,
    units: [unit("degC", "degrees Celsius", "°C"), unit("degF", "degrees Fahrenheit", "°F")],
    also: { "°c": "degC", c: "degC", "°f": "degF", f: "degF" },
  },
  money: {
    says: "an amount of money",
    example: "45 EUR",
    negative: false,
    units: [unit("EUR", "euros")],
    also: { "€": "EUR" },
  },
  humidity: {
    says: "a humidity",
    example: "48 %RH",
    negative: false,
    units: [unit("%RH", "percent", "%")],
    also: { "%": "%RH", "%rh": "%RH" },
  },
};

const unknownKind: Kind = {
  says: "a quantity",
  example: "1.7 mm",
  negative: true,
  units: [unit("", "")],
  also: {},
};

export function kindOf(dimension: string): Kind {
  return kinds[dimension] ?? unknownKind;
}

export function unitsFor(dimension: string): Unit[] {
  return kindOf(dimension).units;
}

/** Usual unit of an observable where its dimension leaves a choice. */
export function usualUnit(what: string, dimension: string): string {
  if (what === "rest in the room") return "h";
  if (what === "ground resistance") return "ohm";
  if (what === "tuner lash") return "turn";
  return unitsFor(dimension)[0]?.id ?? "";
}

/** The unit that a typed suffix means for this dimension; "" when none was typed, null when it belongs elsewhere. */
export function unitFromSuffix(suffix: string, dimension: string): string | null {
  if (suffix === "") return "";
  const kind = kindOf(dimension);
  // Capital M is mega, small m is milli: only here a capital decides.
  if (dimension === "resistance" && /^M(ohms?|Ω|Ω)?$/.test(suffix)) return "Mohm";
  const low = suffix.toLowerCase();
  for (const one of kind.units) {
    if (one.id !== "" && one.id.toLowerCase() === low) return one.id;
  }
  return kind.also[low] ?? null;
}

/** What a unit that does not fit here measures: "kg is a weight". Null for letters that are no unit at all. */
export function meaningElsewhere(suffix: string): string | null {
  for (const [dimension, kind] of Object.entries(kinds)) {
    if (unitFromSuffix(suffix, dimension)) return kind.says;
  }
  return null;
}

export function spokenUnit(id: string): string {
  for (const kind of Object.values(kinds)) {
    const found = kind.units.find((one) => one.id === id);
    if (found) return found.spoken;
  }
  return id;
}

const mmOf: Record<string, number> = {
  mm: 1,
  cm: 10,
  m: 1000,
  um: 0.001,
  in: 25.4,
  thou: 0.0254,
  "64ths": 25.4 / 64,
};

/** Lengths only, for showing the other unit beside what was typed: exact factors, 1 in = 25.4 mm. Null elsewhere. */
export function toMm(value: number, unitId: string): number | null {
  const factor = mmOf[unitId];
  return factor === undefined ? null : value * factor;
}
