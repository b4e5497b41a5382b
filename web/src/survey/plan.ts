// The fingerboard as a survey sheet: where frets, strings and lines of equal height lie on the page. Pure: drawing units
// of the server's neck and points in frets and strings in, pixels out. Head left, string 1 on top; a left-handed neck is
// mirrored, its figures never are. The report draws the same by the same rules (src/bench/report/survey_figure.cpp).

import type { Corner, Neck, Survey, SurveyLine } from "../api/types";
import { knownTo, noteName, signedMm } from "./told";

export type Point = [number, number];

export interface Stroke {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

export interface PlanLine {
  points: Point[];
  ticks: Stroke[]; // on the lower side
  zero: boolean;
  sure: boolean;
}

export interface PlanLayout {
  width: number;
  height: number;
  left: boolean; // mirrored
  board: Point[];
  frets: (Stroke & { fret: number })[]; // 0 is the nut
  strings: (Stroke & { string: number; name: string; thick: number })[];
  names: { x: number; anchor: "start" | "end" };
  numbers: { fret: number; x: number }[]; // those that there is room for
  numbersY: number;
  lines: PlanLine[];
  heights: { x: number; y: number; width: number; text: string; zero: boolean }[];
  chain: { y: number; from: number; to: number; marks: { fret: number; x: number; says: string }[] };
  cut: { top: number; bottom: number }; // how far a section's line reaches
  at(fret: number, string: number): Point;
  nearest(point: Point): { fret: number; string: number };
}

const headRoom = 40; // px for the names of the strings
const endRoom = 14;
const topRoom = 58; // fret numbers, and the letter of a section
const pastLast = 14; // drawing units of board beyond the last fret
const tickEvery = 22;
const tick = 6;
const glyph = 8.2; // px, mean width of a figure at 15 px, on the wide side

export function planOf(neck: Neck, survey: Survey, width: number, text = 1): PlanLayout {
  const along = neck.frets.flatMap((line) => [line.x1, line.x2]);
  const start = Math.min(...along);
  const scale = (width - (headRoom + endRoom) * text) / (Math.max(...along) + pastLast - start);
  const lift = topRoom * text - Math.min(...outline(neck).map((corner) => corner.y)) * scale;
  const page = (x: number, y: number): Point => {
    const px = headRoom * text + (x - start) * scale;
    return [neck.left ? width - px : px, lift + y * scale];
  };
  const at = (fret: number, string: number): Point => page(...placeOf(neck, fret, string));
  const board = outline(neck).map((corner) => page(corner.x, corner.y));
  const bottom = Math.max(...board.map(([, y]) => y));
  const lines = survey.contours.map((contour) => lineOf(contour, survey, at, neck.left));
  const frets = neck.frets.map((line) => ({ fret: line.fret, ...stroke(page(line.x1, line.y1), page(line.x2, line.y2)) }));
  const strings = neck.strings.map((line) => ({
    string: line.string,
    name: noteName(line.note),
    thick: line.thick,
    ...stroke(page(line.x1, line.y1), at(neck.frets.length - 1, line.string)),
  }));
  return {
    width,
    height: bottom + 82 * text,
    left: neck.left,
    board,
    frets,
    strings,
    names: neck.left ? { x: width - 8 * text, anchor: "end" } : { x: 8 * text, anchor: "start" },
    numbers: numbersOf(frets, text),
    numbersY: 15 * text,
    lines,
    heights: heightsOf(survey.contours, lines, text),
    chain: chainOf(survey, frets, bottom + 50 * text, text),
    cut: { top: 26 * text, bottom: bottom + 30 * text },
    at,
    nearest: (point) => nearest(neck, at, point),
  };
}

const stroke = ([x1, y1]: Point, [x2, y2]: Point): Stroke => ({ x1, y1, x2, y2 });

/** The corners as the server gives them, the end a little past the last fret. */
function outline(neck: Neck): Corner[] {
  const [a, b, c, d] = neck.edge;
  if (!a || !b || !c || !d || neck.edge.length !== 4) return neck.edge;
  const beyond = (from: Corner, to: Corner): Corner => {
    const part = pastLast / Math.max(1, to.x - from.x);
    return { x: to.x + pastLast, y: to.y + (to.y - from.y) * part };
  };
  return [a, beyond(a, b), beyond(d, c), d];
}

/** In drawing units: straight between the true places of two frets and between two strings. */
function placeOf(neck: Neck, fret: number, string: number): Point {
  const last = neck.frets.length - 1;
  const below = Math.min(Math.max(0, Math.floor(fret)), last);
  const above = Math.min(below + 1, last);
  const from = crossing(neck, below, string);
  const to = crossing(neck, above, string);
  const part = fret - below;
  return [from[0] + (to[0] - from[0]) * part, from[1] + (to[1] - from[1]) * part];
}

function crossing(neck: Neck, fret: number, string: number): Point {
  const line = neck.frets[fret];
  const low = neck.strings[Math.min(Math.max(0, Math.floor(string) - 1), neck.strings.length - 1)];
  const high = neck.strings[Math.min(Math.max(0, Math.ceil(string) - 1), neck.strings.length - 1)];
  if (!line || !low || !high) return [0, 0];
  const part = string - Math.floor(string);
  const acrossAt = (x: number) => yOn(low, x) + (yOn(high, x) - yOn(low, x)) * part;
  // A fret may lie aslant: where it meets the string is found by going along it twice.
  let x = (line.x1 + line.x2) / 2;
  for (let turn = 0; turn < 2; ++turn) {
    const down = line.y2 === line.y1 ? 0 : (acrossAt(x) - line.y1) / (line.y2 - line.y1);
    x = line.x1 + (line.x2 - line.x1) * down;
  }
  return [x, acrossAt(x)];
}

const yOn = (line: Stroke, x: number): number =>
  line.x2 === line.x1 ? line.y1 : line.y1 + ((line.y2 - line.y1) * (x - line.x1)) / (line.x2 - line.x1);

function nearest(neck: Neck, at: (fret: number, string: number) => Point, [x, y]: Point) {
  const count = neck.strings.length;
  const closest = (many: number, far: (index: number) => number) =>
    Array.from({ length: many }, (_, index) => index + 1).reduce((best, one) => (far(one) < far(best) ? one : best), 1);
  const fret = closest(neck.frets.length - 1, (one) => Math.abs(at(one, (count + 1) / 2)[0] - x));
  return { fret, string: closest(count, (one) => Math.abs(at(fret, one)[1] - y)) };
}

/** Height of the fret tops over the wanted shape, mm, straight between crossings. */
export function sheetAt(survey: Survey, fret: number, string: number): number {
  const { crowns } = survey;
  const across = crowns[0]?.off_mm.length ?? 0;
  const f = Math.min(Math.max(1, fret), crowns.length);
  const s = Math.min(Math.max(1, string), across);
  const f0 = Math.min(Math.floor(f), crowns.length - 1);
  const s0 = Math.min(Math.floor(s), across - 1);
  const z = (i: number, j: number) => crowns[i - 1]?.off_mm[j - 1] ?? 0;
  const [u, v] = [f - f0, s - s0];
  return (1 - u) * ((1 - v) * z(f0, s0) + v * z(f0, s0 + 1)) + u * ((1 - v) * z(f0 + 1, s0) + v * z(f0 + 1, s0 + 1));
}

function lineOf(
  contour: SurveyLine,
  survey: Survey,
  at: (fret: number, string: number) => Point,
  mirrored: boolean,
): PlanLine {
  const points = contour.frets.map((fret, i) => at(fret, contour.strings[i] ?? 1));
  const zero = Math.abs(contour.level_mm) < 1e-6;
  const ticks = contour.level_mm < 0 && !zero ? ticksOf(contour, survey, points, mirrored) : [];
  return { points, ticks, zero, sure: contour.sure };
}

function ticksOf(contour: SurveyLine, survey: Survey, points: Point[], mirrored: boolean): Stroke[] {
  const ticks: Stroke[] = [];
  let walked = tickEvery / 2;
  for (let i = 0; i + 1 < points.length; ++i) {
    const [a, b] = [points[i] as Point, points[i + 1] as Point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length < 1e-6) continue;
    const side = lowerLeft(contour, survey, i, mirrored) ? 1 : -1;
    const normal: Point = [(-side * (b[1] - a[1])) / length, (side * (b[0] - a[0])) / length];
    for (; walked < length; walked += tickEvery) {
      const x = a[0] + ((b[0] - a[0]) * walked) / length;
      const y = a[1] + ((b[1] - a[1]) * walked) / length;
      ticks.push(stroke([x, y], [x + tick * normal[0], y + tick * normal[1]]));
    }
    walked -= length;
  }
  return ticks;
}

/** Does the sheet fall towards (-dy, dx) of the way from point i to the next, as the page has it? */
function lowerLeft(contour: SurveyLine, survey: Survey, i: number, mirrored: boolean): boolean {
  const [f1, f2] = [contour.frets[i] ?? 0, contour.frets[i + 1] ?? 0];
  const [s1, s2] = [contour.strings[i] ?? 0, contour.strings[i + 1] ?? 0];
  const [fret, string] = [(f1 + f2) / 2, (s1 + s2) / 2];
  const step = 0.05;
  const alongSlope = sheetAt(survey, fret + step, string) - sheetAt(survey, fret - step, string);
  const acrossSlope = sheetAt(survey, fret, string + step) - sheetAt(survey, fret, string - step);
  const falls = -(s2 - s1) * alongSlope + (f2 - f1) * acrossSlope < 0;
  return mirrored ? !falls : falls;
}

/** Every second fret and the octaves, none over another. */
function numbersOf(frets: readonly (Stroke & { fret: number })[], text: number) {
  const wanted = frets.filter((one) => one.fret > 0).map((one) => ({ fret: one.fret, x: one.x1 }));
  const kept: { fret: number; x: number }[] = [];
  const fits = (one: { x: number }) => kept.every((other) => Math.abs(other.x - one.x) > 22 * text);
  const rank = (fret: number) => (fret % 12 === 0 ? 0 : fret === 1 ? 1 : fret % 2 === 1 && fret % 12 !== 11 && fret % 12 !== 1 ? 2 : 3);
  for (const one of [...wanted].sort((a, b) => rank(a.fret) - rank(b.fret) || a.fret - b.fret)) {
    if (fits(one)) kept.push(one);
  }
  return kept.sort((a, b) => a.fret - b.fret);
}

/** A height is written once on each line that has room for it, the longest lines first. */
function heightsOf(contours: readonly SurveyLine[], lines: readonly PlanLine[], text: number) {
  const written: PlanLayout["heights"] = [];
  const lengths = lines.map((line) => lengthOf(line.points));
  const order = lines.map((_, i) => i).sort((a, b) => (lengths[b] ?? 0) - (lengths[a] ?? 0));
  for (const i of order) {
    const says = signedMm(contours[i]?.level_mm ?? 0);
    const width = (says.length * glyph + 8) * text;
    // A steep line gives up no more of itself than the height of the figures.
    if ((lengths[i] ?? 0) < 2.2 * (isSteep(lines[i]?.points ?? []) ? 22 * text : width)) continue;
    const spot = [0.5, 0.35, 0.65, 0.22, 0.78]
      .map((part) => pointAt(lines[i]?.points ?? [], part * (lengths[i] ?? 0)))
      .find(([x, y]) =>
        written.every(
          (other) => Math.abs(other.x - x) > (other.width + width) / 2 + 2 || Math.abs(other.y - y) > 22 * text,
        ),
      );
    if (spot) written.push({ x: spot[0], y: spot[1], width, text: says, zero: lines[i]?.zero ?? false });
  }
  return written;
}

function isSteep(points: readonly Point[]): boolean {
  const span = (axis: 0 | 1) => Math.max(...points.map((one) => one[axis])) - Math.min(...points.map((one) => one[axis]));
  return span(1) > span(0);
}

const lengthOf = (points: readonly Point[]): number =>
  points.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - (points[i]?.[0] ?? x), y - (points[i]?.[1] ?? y)), 0);

function pointAt(points: readonly Point[], way: number): Point {
  let left = way;
  for (let i = 0; i + 1 < points.length; ++i) {
    const [a, b] = [points[i] as Point, points[i + 1] as Point];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (left <= length && length > 0)
      return [a[0] + ((b[0] - a[0]) * left) / length, a[1] + ((b[1] - a[1]) * left) / length];
    left -= length;
  }
  return points.at(-1) ?? [0, 0];
}

/** How well each fret top is known. Every fret has its stroke; words stand where they do not run into one another. */
function chainOf(survey: Survey, frets: PlanLayout["frets"], y: number, text: number): PlanLayout["chain"] {
  let free: number | undefined;
  const marks = survey.crowns.map((crown) => {
    const x = frets.find((one) => one.fret === crown.fret)?.x2 ?? 0;
    const words = crown.assumed ? `[${knownTo(crown.off.u)}]` : knownTo(crown.off.u);
    const fits = free === undefined || Math.abs(x - free) > (words.length * glyph + 8) * text;
    if (fits) free = x;
    return { fret: crown.fret, x, says: fits ? words : "" };
  });
  return { y, from: marks[0]?.x ?? 0, to: marks.at(-1)?.x ?? 0, marks };
}
