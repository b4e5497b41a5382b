// The instrument's past as a table and as a line: figures out of texts as typed, days to scale. Pure.

import type { Dossier } from "../api/types";

export interface Parsed {
  /** In `unit`; lengths always in mm, so that stays read in inches stand on the same line. */
  value: number;
  unit: string;
  /** Standard uncertainty in the same unit, where the text states one. */
  u?: number;
}

const mmIn: Record<string, number> = { mm: 1, cm: 10, m: 1000, um: 0.001, in: 25.4, '"': 25.4 };
const figure = /^([+\u2212-]?)(?:(\d+) )?(\d+\/\d+|\d*\.?\d+)\s*(?:(?:±|\+\/-)\s*(\d*\.?\d+)\s*)?([^\d\s±][^±]*?)?\s*(?:(?:±|\+\/-)\s*(\d*\.?\d+)\s*\S*)?$/;

/** "1.95 mm", "0.260 ± 0.006 mm", "1.60 mm ± 0.04", "4/64 in", "17.5 h". Undefined for words. */
export function parseFigure(text: string): Parsed | undefined {
  const found = figure.exec(text.trim());
  if (!found) return undefined;
  const [, sign, whole, main, uBefore, unitText, uAfter] = found;
  const [top, below] = (main as string).split("/").map(Number);
  const size = (whole === undefined ? 0 : Number(whole)) + (below === undefined ? (top as number) : (top as number) / below);
  if (!Number.isFinite(size)) return undefined;
  const unit = (unitText ?? "").trim();
  const factor = mmIn[unit];
  const u = uBefore ?? uAfter;
  const value = (sign === "-" || sign === "\u2212" ? -size : size) * (factor ?? 1);
  return { value, unit: factor === undefined ? unit : "mm", ...(u === undefined ? {} : { u: Number(u) * (factor ?? 1) }) };
}

export type Row = Dossier["rows"][number];
export type Value = Row["values"][number];

export const rowKey = (row: Pick<Row, "what" | "at">): string => `${row.what}|${row.at}`;

const stageOrder = ["arrival", "before", "after", "hand-over"];

/** By day, then in the order of a stay. */
export function inOrder(values: readonly Value[]): Value[] {
  return [...values].sort((a, b) => a.day.localeCompare(b.day) || stageOrder.indexOf(a.stage) - stageOrder.indexOf(b.stage));
}

export interface Cell {
  /** The last of the stay, as it was typed. */
  last: string;
  /** What it was before, with the stage; "" when it was read once. */
  before: string;
}

/** What one stay says of a row; undefined: not read then. */
export function cellOf(row: Row, visit: string): Cell | undefined {
  const here = inOrder(row.values.filter((value) => value.visit === visit && value.text !== ""));
  const last = here.at(-1);
  if (!last) return undefined;
  const first = here.find((value) => value.stage !== last.stage && value.text !== last.text);
  return { last: last.text, before: first ? `${first.stage === "arrival" ? "on arrival" : first.stage} ${first.text}` : "" };
}

export interface Section {
  what: string;
  rows: Row[];
}

/** Rows under what they read, in the order they came; those that the search leaves out are gone. */
export function sectionsOf(rows: readonly Row[], search: string): Section[] {
  const words = search.toLowerCase().split(/\s+/).filter((word) => word !== "");
  const sections = new Map<string, Section>();
  for (const row of rows) {
    const text = `${row.what} ${row.at}`.toLowerCase();
    if (!row.values.some((value) => value.text !== "") || !words.every((word) => text.includes(word))) continue;
    const section = sections.get(row.what);
    if (section) section.rows.push(row);
    else sections.set(row.what, { what: row.what, rows: [row] });
  }
  return [...sections.values()];
}

export interface DayPoint extends Parsed {
  day: string;
  stage: string;
  text: string;
  /** Days since the first point. */
  after: number;
}

const dayNumber = (day: string): number => Math.floor(Date.parse(`${day.slice(0, 10)}T00:00:00Z`) / 86_400_000);

/** The figures of a row that share a unit, by day; words and other units are left out and counted. */
export function pointsOf(row: Row): { points: DayPoint[]; left: number } {
  const read = inOrder(row.values).flatMap((value) => {
    const parsed = parseFigure(value.text);
    return parsed ? [{ ...parsed, day: value.day, stage: value.stage, text: value.text, after: dayNumber(value.day) }] : [];
  });
  const unit = mostCommon(read.map((point) => point.unit));
  const points = read.filter((point) => point.unit === unit && Number.isFinite(point.after));
  const first = points[0]?.after ?? 0;
  const filled = row.values.filter((value) => value.text !== "").length;
  return { points: points.map((point) => ({ ...point, after: point.after - first })), left: filled - points.length };
}

function mostCommon(words: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const word of words) counts.set(word, (counts.get(word) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0];
}

/** The row drawn before anybody chose: the first of those read in the most stays that have figures. */
export function mostTelling(rows: readonly Row[]): Row | undefined {
  const stays = (row: Row): number => new Set(row.values.filter((value) => parseFigure(value.text)).map((value) => value.visit)).size;
  let best: Row | undefined;
  for (const row of rows) if (!best || stays(row) > stays(best)) best = row;
  return best;
}
