// What stands at the stations of the chain line under the neck: a place, its figures in a few words, and whether it is
// being taken now. Pure.

import type { VisitView } from "../api/types";
import { cellAt, type Cell } from "../visit/figures";

export interface Station {
  fret: number;
  checkpoint: string;
  place: string; // "nut", "relief", "fret 12"
  figure: string; // "3 dead", "0.26", "1.5 to 1.9", "4 of 6"; "" when nothing is taken
  tail: string; // "±0.03", "not taken", "taking now, mm"
  now: boolean;
}

/** Observables that belong to one station of the neck, and where on it when the place names no fret. */
const stationed: Record<string, { fret: number | "last"; place?: string }> = {
  "nut tap": { fret: 0, place: "nut" },
  "nut gap": { fret: 0, place: "nut" },
  "nut wire": { fret: 0, place: "nut, wire" },
  "nut width": { fret: 0, place: "nut width" },
  relief: { fret: 7, place: "relief" },
  "relief a day later": { fret: 7, place: "relief, a day later" },
  "relief drift": { fret: 7, place: "relief, drift" },
  "string height": { fret: 12 },
  intonation: { fret: 12, place: "intonation" },
  "neck thickness": { fret: 1, place: "neck" },
  "room at the edge": { fret: "last", place: "edge" },
  "board edge room": { fret: "last", place: "board edge" },
  "nut to last fret": { fret: "last", place: "nut to last fret" },
  "scale length": { fret: 12, place: "scale" },
  "fret height": { fret: 12, place: "fret height" },
};

/** The fret at which the neck is opened for an observable; null for what is not read on the neck. */
export function stationFret(observable: string, fret: number | undefined, frets: number): number | null {
  const known = stationed[observable];
  if (!known) return null;
  if (fret !== undefined) return fret;
  return known.fret === "last" ? frets : Math.min(known.fret, frets);
}

function inWords(cells: readonly Cell[]): { figure: string; tail: string } {
  const read = cells.filter((cell) => cell.state !== "blank" && cell.state !== "assumed");
  if (read.length === 0) return { figure: "", tail: "not taken" };
  if (read.length < cells.length) return { figure: `${read.length} of ${cells.length}`, tail: "" };
  const numbers = read.map((cell) => Number(cell.figure));
  if (read.length === 1) return { figure: read[0]?.figure ?? "", tail: read[0]?.u ?? "" };
  if (numbers.some(Number.isNaN)) return commonest(read);
  const [low, high] = [read[numbers.indexOf(Math.min(...numbers))], read[numbers.indexOf(Math.max(...numbers))]];
  return {
    figure: low?.figure === high?.figure ? (low?.figure ?? "") : `${low?.figure} to ${high?.figure}`,
    tail: "",
  };
}

function commonest(read: readonly Cell[]): { figure: string; tail: string } {
  const counts = new Map<string, number>();
  for (const cell of read) counts.set(cell.figure, (counts.get(cell.figure) ?? 0) + 1);
  if (counts.size === 1) return { figure: read[0]?.figure ?? "", tail: "" };
  const [word, n] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? ["", 0];
  return { figure: `${n} ${word}`, tail: "" };
}

export function stationsOf(view: VisitView, active: string | undefined): Station[] {
  const out: Station[] = [];
  for (const state of view.checkpoints) {
    if (!state.in_scope && state.id !== active) continue;
    const first = state.places[0];
    const at = first && stationFret(first.observable, first.at.fret, view.instrument.frets);
    if (!first || at === null || at === undefined) continue;
    const cells = state.places.map((place) =>
      cellAt(view, state.id, readAs(view, state.id, place.observable), place.at),
    );
    const now = state.id === active;
    const words = now ? { figure: "", tail: `taking now${unitOf(cells)}` } : inWords(cells);
    const place = stationed[first.observable]?.place ?? `fret ${at}`;
    out.push({ fret: at, checkpoint: state.id, place, now, ...words });
  }
  return onePerFret(out);
}

/** Of several at one station: what is taken now, else what has figures, else the first. */
function onePerFret(stations: readonly Station[]): Station[] {
  const weight = (one: Station) => (one.now ? 2 : one.figure !== "" ? 1 : 0);
  const best = new Map<number, Station>();
  for (const one of stations) {
    const there = best.get(one.fret);
    if (!there || weight(one) > weight(there)) best.set(one.fret, one);
  }
  return [...best.values()];
}

/** Where a checkpoint may be read in two ways, the one that was used. */
function readAs(view: VisitView, checkpoint: string, first: string): string {
  const lines = view.assessment.answers.find((one) => one.checkpoint === checkpoint)?.lines ?? [];
  return lines[0]?.observable ?? first;
}

function unitOf(cells: readonly Cell[]): string {
  const unit = cells.find((cell) => cell.unit !== "")?.unit ?? "";
  return unit === "" ? "" : `, ${unit}`;
}

export interface PlacedStation extends Station {
  x: number; // of the station on the chain line
  left: number; // of its words
  width: number;
  row: number; // 0 under the line, 1 below that
}

const glyph = 7.2; // px, mean of the face at 15 px, on the wide side so that words keep clear of one another
const gap = 12;

/**
 * Words under the line, none over another: each under its station where there is room, moved sideways by at most half
 * its width, else one row down. The station taken now is placed first, then from the nut outwards; what fits nowhere
 * keeps its stroke and loses its words.
 */
export function placeStations(
  stations: readonly Station[],
  xOf: (fret: number) => number,
  from: number,
  to: number,
  rows = 2,
): PlacedStation[] {
  const taken: { left: number; right: number; row: number }[] = [];
  const ordered = [...stations].sort((a, b) => Number(b.now) - Number(a.now) || xOf(a.fret) - xOf(b.fret));
  const placed: PlacedStation[] = [];
  for (const station of ordered) {
    const text = [station.place, station.figure, station.tail].filter((part) => part !== "").join(" ");
    const width = Math.ceil(text.length * glyph);
    const x = xOf(station.fret);
    const spot = freeSpot(x, width, from, to, taken, rows);
    if (!spot) continue;
    taken.push({ left: spot.left - gap, right: spot.left + width + gap, row: spot.row });
    placed.push({ ...station, x, width, ...spot });
  }
  return placed;
}

function freeSpot(
  x: number,
  width: number,
  from: number,
  to: number,
  taken: { left: number; right: number; row: number }[],
  rows: number,
) {
  const clamp = (left: number) => Math.max(from, Math.min(to - width, left));
  for (let row = 0; row < rows; ++row) {
    for (const shift of [0, -0.25, 0.25, -0.5, 0.5]) {
      const left = clamp(x - width / 2 + shift * width);
      if (taken.every((one) => one.row !== row || left >= one.right || left + width <= one.left))
        return { left, row };
    }
  }
  return null;
}
