import { effect, signal, type Signal } from "@preact/signals";

// What this device remembers for itself. Nothing here reaches the server but the name of who is typing, and that with
// each entry.

export type Theme = "device" | "light" | "dark";
export type LengthUnit = "mm" | "in" | "64ths";

function kept<T>(name: string, first: T, fits: (value: unknown) => boolean): Signal<T> {
  const key = `fallaway.${name}`;
  let start = first;
  try {
    const text = localStorage.getItem(key);
    const value: unknown = text === null ? first : JSON.parse(text);
    if (fits(value)) start = value as T;
  } catch {
    // Unreadable or forbidden storage: the first value stands.
  }
  const held = signal(start);
  effect(() => {
    const text = JSON.stringify(held.value);
    try {
      localStorage.setItem(key, text);
    } catch {
      // Kept for as long as the page is open.
    }
  });
  return held;
}

const oneOf =
  (...words: unknown[]) =>
  (value: unknown) =>
    words.includes(value);
const isText = (value: unknown) => typeof value === "string";
const isYesNo = (value: unknown) => typeof value === "boolean";
const isTable = (value: unknown) => typeof value === "object" && value !== null && !Array.isArray(value);

export const settings = {
  theme: kept<Theme>("theme", "device", oneOf("device", "light", "dark")),
  /** All type 1.2 times as large: read from where the instrument lies. */
  bench: kept<boolean>("bench", false, isYesNo),
  /** The side of the pad and of Next. */
  thumb: kept<"right" | "left">("thumb", "right", oneOf("right", "left")),
  readAloud: kept<boolean>("read_aloud", false, isYesNo),
  /** Who types on this device; "" as long as nobody has said. */
  person: kept<string>("person", "", isText),
  /** Unit per field, by the observable's name. */
  units: kept<Record<string, string>>("units", {}, isTable),
  /** Which string comes first, per field, by the observable's name. */
  directions: kept<Record<string, "bass first" | "treble first">>("directions", {}, isTable),
  /** Tool picked once per observable: id of a shop's tool, or a kind of tool. */
  tools: kept<Record<string, string>>("tools", {}, isTable),
  /** A key that does what Enter does, for a foot switch that sends another one; "" none. */
  nextKey: kept<string>("next_key", "", isText),
  /** The checkpoint a visit was left at, by the visit's id: reopened, it stands there again. */
  leftAt: kept<Record<string, string>>("left_at", {}, isTable),
  /** Single letters do things on the sheet: off for who speaks to the device or rests a hand on the keys. */
  letterKeys: kept<boolean>("letter_keys", true, isYesNo),
};

export const unitFor = (field: string, first: string): string => settings.units.value[field] ?? first;

export function setUnit(field: string, unit: string): void {
  settings.units.value = { ...settings.units.value, [field]: unit };
}

export const directionFor = (field: string): "bass first" | "treble first" =>
  settings.directions.value[field] ?? "bass first";

export function setDirection(field: string, direction: "bass first" | "treble first"): void {
  settings.directions.value = { ...settings.directions.value, [field]: direction };
}

/** Puts theme, size and thumb side on the document, now and at every change. */
export function applySettings(root: HTMLElement = document.documentElement): void {
  effect(() => {
    if (settings.theme.value === "device") delete root.dataset["theme"];
    else root.dataset["theme"] = settings.theme.value;
  });
  effect(() => {
    root.dataset["bench"] = settings.bench.value ? "on" : "off";
    root.dataset["thumb"] = settings.thumb.value;
  });
}
