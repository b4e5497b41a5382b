// Numbers of strings that can be picked, and tunings offered for them by the names of their notes, string 1 first.
// Common practice, no source.

import type { Kind } from "../api/types";

export const stringNumbers: Record<Kind, readonly number[]> = {
  "electric guitar": [4, 5, 6, 7, 8, 12],
  "electric bass": [4, 5, 6, 8, 12],
};
export const mostStrings = 18; // as in a bench file

export interface Tuning {
  says: string;
  notes: string[];
}

const usual: Record<Kind, Record<number, string>> = {
  "electric guitar": {
    4: "E4 B3 G3 D3",
    5: "D4 B3 G3 D3 G2",
    6: "E4 B3 G3 D3 A2 E2",
    7: "E4 B3 G3 D3 A2 E2 B1",
    8: "E4 B3 G3 D3 A2 E2 B1 F#1",
    12: "E4 E4 B3 B3 G4 G3 D4 D3 A3 A2 E3 E2",
  },
  "electric bass": {
    4: "G2 D2 A1 E1",
    5: "G2 D2 A1 E1 B0",
    6: "C3 G2 D2 A1 E1 B0",
    8: "G3 G2 D3 D2 A2 A1 E2 E1",
    12: "G3 G3 G2 D3 D3 D2 A2 A2 A1 E2 E2 E1",
  },
};

const letters = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"];
const flats: Record<string, string> = { "A#": "Bb", "D#": "Eb", "G#": "Ab" };

function moved(note: string, semitones: number): string {
  const [, letter = "C", octave = "0"] = /^([A-G]#?)(-?\d+)$/.exec(note) ?? [];
  const number = Number(octave) * 12 + letters.indexOf(letter) + semitones;
  const name = letters[((number % 12) + 12) % 12] ?? "C";
  return `${flats[name] ?? name}${Math.floor(number / 12)}`;
}

/** The tunings offered; none for a number of strings that has no usual one. */
export function tuningsFor(kind: Kind, strings: number): Tuning[] {
  const notes = usual[kind][strings]?.split(" ");
  if (!notes) return [];
  // Strings of one course go down together.
  const course = strings < 8 || (strings === 8 && kind === "electric guitar") ? 1 : kind === "electric bass" ? strings / 4 : 2;
  const all = (down: number) => notes.map((note) => moved(note, -down));
  const lowest = notes.map((note, i) => (i >= strings - course ? moved(note, -2) : note));
  const offered: Tuning[] = [
    { says: "usual", notes },
    { says: "lowest a tone down", notes: lowest },
    { says: "half a tone down", notes: all(1) },
    { says: "a tone down", notes: all(2) },
  ];
  if (strings === 6 && kind === "electric guitar") offered.push({ says: "a fourth down", notes: all(5) });
  if (strings === 4 && kind === "electric bass") offered.push({ says: "a fourth down", notes: all(5) });
  return offered;
}

type Strings = Record<string, unknown>[];
const asStrings = (known: unknown): Strings => (Array.isArray(known) ? (known as Strings) : []);

/** A list of strings of another number: what is known of one goes with its note ("E2"), else with its place. */
export function stringsCounted(kind: Kind, known: unknown, count: number): Strings {
  const left = asStrings(known).map((string, i, list) => ({
    string,
    note: string["note"] ?? usual[kind][list.length]?.split(" ")[i],
  }));
  const notes = usual[kind][count]?.split(" ");
  return Array.from({ length: count }, (_, i) => {
    if (!notes) return withoutNote(left[i]?.string);
    const at = left.findIndex((one) => one.note === notes[i]);
    return at < 0 ? {} : (left.splice(at, 1)[0]?.string ?? {});
  });
}

function withoutNote(string: Record<string, unknown> = {}): Record<string, unknown> {
  const { note: _note, ...rest } = string;
  return rest;
}

/** The same strings tuned to these notes. */
export function stringsTuned(known: unknown, notes: readonly string[]): Strings {
  const list = asStrings(known);
  return notes.map((note, i) => ({ ...list[i], note }));
}

/** Why notes are no tuning of so many strings; "" when they are. */
export function tuningFault(notes: readonly string[], strings: number): string {
  const strange = notes.find((note) => !/^[A-G][#b]?(-1|\d)$/.test(note));
  if (strange !== undefined) return `“${strange}” is no note. Expected are notes such as E4 or F#2.`;
  if (notes.length === strings) return "";
  return `${notes.length} notes, and the instrument has ${strings} strings.`;
}
