// The sums of the bench: what the server offers, and how answers read. The figures are never worked out here.

import { ask, ApiError } from "../api/client";
import { forSum } from "../entry/plain_number";

export interface SumField {
  name: string;
  says: string;
  kind: "quantity" | "list" | "table" | "word" | "text";
  dimension?: string;
  expects: string;
  words?: string[];
  usual?: string;
  required: boolean;
}

export interface SumOutput {
  name: string;
  says: string;
  dimension?: string;
  unit?: string;
}

export interface Sum {
  name: string;
  title: string;
  theme: string;
  says: string;
  inputs: SumField[];
  outputs: SumOutput[];
  formula: string;
  source: string;
  cautions: string[];
  example: Record<string, string>;
}

/** One figure of an answer; u is its standard uncertainty in the same unit. */
export interface SumFigure {
  value: number | null;
  unit?: string;
  u?: number;
}

export type SumValue = string | SumFigure | SumFigure[];

export interface SumAnswer {
  schema: string;
  sum: string;
  outputs: Record<string, SumValue>;
  notes: string[];
  cautions: string[];
}

export const sumsApi = {
  list: () => ask<{ schema: string; sums: Sum[] }>("/api/sums"),
  run: (name: string, inputs: Record<string, string>, signal: AbortSignal) =>
    ask<SumAnswer>(`/api/sums/${encodeURIComponent(name)}`, { method: "POST", json: { inputs }, signal }),
};

export interface Theme {
  title: string;
  sums: Sum[];
}

const escaped = (word: string): string => word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** What a sum is looked for by, besides its own words. */
const tradeWords: Record<string, string> = {
  "saddle-height": "action string height lower raise",
  "screw-turns": "action saddle turns",
  "intonation-move": "intonation compensation",
  "relief-reading": "neck bow truss rod",
  "inch-fraction": "64ths rule convert",
};

/** By theme in the order of the list; the search looks at everything a person might remember of a sum. */
export function themesOf(sums: readonly Sum[], search: string): Theme[] {
  const words = search.toLowerCase().split(/\s+/).filter((word) => word !== "");
  const themes = new Map<string, Theme>();
  for (const sum of sums) {
    const text = [sum.name, sum.title, sum.theme, sum.says, ...sum.inputs.map((input) => input.says),
      ...sum.outputs.map((output) => output.says), tradeWords[sum.name] ?? ""].join(" ").toLowerCase();
    // From the start of a word: "action" is not found in "fraction".
    if (!words.every((word) => ` ${text}`.search(new RegExp(`[^a-z0-9]${escaped(word)}`)) >= 0)) continue;
    const theme = themes.get(sum.theme);
    if (theme) theme.sums.push(sum);
    else themes.set(sum.theme, { title: sum.theme, sums: [sum] });
  }
  return [...themes.values()];
}

/** What is sent: as any field of the page takes it, empty fields left out. */
export function inputsOf(typed: Readonly<Record<string, string>>, fields: readonly SumField[]): Record<string, string> {
  const out: Record<string, string> = {};
  for (const field of fields) {
    const text = forSum(field, typed[field.name] ?? "");
    if (text !== "") out[field.name] = text;
  }
  return out;
}

/** Fields that must be filled before it is worth asking. */
export function missing(inputs: Readonly<Record<string, string>>, fields: readonly SumField[]): string[] {
  return fields.filter((field) => field.required && inputs[field.name] === undefined).map((field) => field.name);
}

export interface Refused {
  /** The field it belongs to; "" for the sum as a whole. */
  field: string;
  says: string;
}

/** Errors at their fields: the server names one by "scale" or "/inputs/scale", a part of a list by what follows. */
export function refusedAt(error: ApiError, fields: readonly SumField[]): Refused[] {
  return error.errors.map((problem) => {
    const parts = problem.path.split(/[/.[\]]/).filter((part) => part !== "" && part !== "inputs");
    const field = fields.find((one) => one.name === parts[0])?.name ?? "";
    return { field, says: sentence(problem.message) };
  });
}

export const sentence = (text: string): string => {
  const big = text.charAt(0).toUpperCase() + text.slice(1);
  return /[.?]$/.test(big) ? big : `${big}.`;
};

/** A figure with no more digits than its uncertainty bears (two of u), five significant ones where none is stated. */
export function figureText(figure: SumFigure): string {
  if (figure.value === null) return "no figure";
  const unit = figure.unit ? ` ${figure.unit}` : "";
  if (figure.u !== undefined && figure.u > 0) {
    const places = Math.min(9, Math.max(0, 1 - Math.floor(Math.log10(figure.u))));
    return `${minus(figure.value.toFixed(places))} ± ${figure.u.toFixed(places)}${unit}`;
  }
  return minus(plain(figure.value)) + unit;
}

const significant = 5;

function plain(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1e9) return String(value);
  const size = Math.abs(value);
  if (size !== 0 && (size >= 1e7 || size < 1e-4)) return value.toExponential(3);
  return String(Number(value.toFixed(placesFor(size))));
}

/** Decimals that show five significant digits, four decimals at most, but never fewer than two significant digits. */
function placesFor(size: number): number {
  const power = size === 0 ? 0 : Math.floor(Math.log10(size));
  return Math.max(0, Math.min(significant - 1 - power, Math.max(4, 1 - power)));
}

const minus = (text: string): string => (Number(text) === 0 ? text.replace("-", "") : text.replace("-", "\u2212"));

export const isColumn = (value: SumValue): value is SumFigure[] => Array.isArray(value);

export function valueText(value: Exclude<SumValue, SumFigure[]>): string {
  return typeof value === "string" ? value : figureText(value);
}

/** Outputs as they stand on the page: single lines, and columns of equal length as one table. */
export function laidOut(sum: Sum, answer: SumAnswer): {
  lines: { says: string; text: string }[];
  table: { heads: string[]; rows: string[][] } | undefined;
} {
  const given = sum.outputs.filter((output) => answer.outputs[output.name] !== undefined);
  const lines = given.flatMap((output) => {
    const value = answer.outputs[output.name] as SumValue;
    return isColumn(value) ? [] : [{ says: output.says, text: valueText(value) }];
  });
  const columns = given.flatMap((output) => {
    const value = answer.outputs[output.name] as SumValue;
    return isColumn(value) ? [{ head: headOf(output.says, value), cells: columnText(value) }] : [];
  });
  if (columns.length === 0) return { lines, table: undefined };
  const height = Math.max(...columns.map((column) => column.cells.length));
  const rows = Array.from({ length: height }, (_, i) => columns.map((column) => column.cells[i] ?? ""));
  return { lines, table: { heads: columns.map((column) => column.head), rows } };
}

/** The unit once, in the head of its column. */
const headOf = (says: string, value: SumFigure[]): string => (value[0]?.unit ? `${says}, ${value[0].unit}` : says);

/** A column keeps one number of decimals, that of its largest figure, so that it reads down. */
function columnText(figures: readonly SumFigure[]): string[] {
  const known = figures.flatMap(({ value }) => (value === null ? [] : [value]));
  const places = known.every(Number.isInteger) ? 0 : placesFor(Math.max(...known.map(Math.abs)));
  return figures.map(({ value, u }) =>
    value === null || (u !== undefined && u > 0) ? figureText({ value, ...(u === undefined ? {} : { u }) }) : minus(value.toFixed(places)));
}

/** For the clipboard: lines, then the table with tabs, as any sheet takes it. */
export function copyText(sum: Sum, inputs: Readonly<Record<string, string>>, answer: SumAnswer): string {
  const { lines, table } = laidOut(sum, answer);
  const asked = Object.entries(inputs).map(([name, text]) => `${name} ${text}`).join(", ");
  const parts = [`${sum.title}: ${asked}`, ...lines.map((line) => `${line.says}: ${line.text}`)];
  if (table) parts.push(table.heads.join("\t"), ...table.rows.map((row) => row.join("\t")));
  return [...parts, ...answer.notes].join("\n");
}
