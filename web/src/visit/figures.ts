// What stands at each place of a checkpoint: readings in force, what the judgement says of them, the stay before, and
// what two devices say differently. Pure: a view in, cells out. The states are those of the look's table.

import type { Finding, Line, Place, Reading, StoredEntry, VisitView } from "../api/types";
import { otherUnit } from "../entry/quantity";
import { toMm } from "../entry/units";
import { acceptedNow } from "../verdict/grouped";
import { describePlace, samePlace } from "./places";

export type CellState = "measured" | "assumed" | "stale" | "blank" | "two" | "accepted";

export interface Said {
  id: string; // of the entry
  figure: string;
  who: string;
  at: string;
}

export interface Cell {
  at: Place;
  observable: string;
  state: CellState;
  figure: string; // "1.70", "4/64", "just moves"
  unit: string; // "mm"; "" for words and counts
  beside: string; // the other unit of what was typed in inches: "1.59 mm"
  u: string; // "±0.05"
  reason: string; // why stale, accepted by whom; "" otherwise
  limit: string; // "1.3 to 2.2 mm"
  standing: string;
  outside: boolean; // breaks its limit
  last: string; // the figure of the stay before
  repeats: number;
  entries: StoredEntry[]; // readings in force here, at the latest stage
  two: Said[];
  stage: string;
  says: string; // all of it, read out
}

const stages = ["arrival", "before", "after", "hand-over"];
export const stageOf = (reading: { stage?: string }): string => reading.stage ?? "arrival";

export const readingOf = (entry: StoredEntry): Reading => entry.value as Reading;

/** "1.70 mm ± 0.05" to "1.70" and "mm"; words and counts have no unit. */
export function splitText(text: string): { figure: string; unit: string } {
  const bare = text.split(/\s*(?:±|\+\/-)/)[0]?.trim() ?? "";
  const match = /^([-+−]?[\d./]+(?: \d+\/\d+)?)\s+(.+)$/.exec(bare);
  return match ? { figure: match[1] ?? bare, unit: match[2] ?? "" } : { figure: bare, unit: "" };
}

/** Two digits where the first is a one, else one: more would say nothing. */
export function uncertaintyText(u: number): string {
  if (!(u > 0)) return "";
  const power = Math.floor(Math.log10(u));
  const first = u / 10 ** power;
  const digits = Math.max(0, (first < 1.95 ? 1 : 0) - power);
  return `±${u.toFixed(Math.min(digits, 6))}`;
}

function uIn(line: Line | undefined, unit: string): string {
  const { u, unit: given } = line?.found ?? {};
  if (u === undefined || given === undefined) return "";
  if (given === unit) return uncertaintyText(u);
  const [from, to] = [toMm(1, given), toMm(1, unit)];
  return from !== null && to !== null ? uncertaintyText((u * from) / to) : "";
}

/** Readings in force at a place, of the latest stage that has any; a mean of repeats counts as one. */
export function readingsAt(view: VisitView, observable: string, at: Place): StoredEntry[] {
  const here = view.entries.filter((entry) => {
    if (entry.path !== "/readings") return false;
    const reading = readingOf(entry);
    return reading.what === observable && samePlace(reading.at, at);
  });
  const latest = Math.max(-1, ...here.map((entry) => stages.indexOf(stageOf(readingOf(entry)))));
  return here.filter((entry) => stages.indexOf(stageOf(readingOf(entry))) === latest);
}

export function meanText(reading: Reading): string {
  const repeats = reading.repeats ?? [];
  if (repeats.length === 0) return String(reading.value ?? "");
  const parts = repeats.map((one) => splitText(String(one)));
  const numbers = parts.map((part) => (part.figure.includes("/") ? sizeOf(part.figure) : Number(part.figure)));
  const unit = parts[0]?.unit ?? "";
  if (numbers.some(Number.isNaN) || parts.some((part) => part.unit !== unit)) return String(repeats.at(-1) ?? "");
  const mean = numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
  const read = Math.max(...parts.map((part) => (part.figure.includes("/") ? 4 : (part.figure.split(".")[1]?.length ?? 0))));
  // Half way between two readings needs a digit more than they have.
  const half = Math.abs(mean - Number(mean.toFixed(read))) > 0.4 * 10 ** -read;
  return `${mean.toFixed(half ? read + 1 : read)} ${unit}`.trim();
}

/** The figure of the stay before. */
export function lastAt(view: VisitView, observable: string, at: Place): string {
  const values = [...(view.last?.values ?? [])].reverse();
  return values.find((one) => one.what === observable && samePlace(one.at, at))?.text ?? "";
}

function twoSay(view: VisitView, here: StoredEntry[], line: Line | undefined): Said[] {
  const ids = new Set(here.map((entry) => entry.id));
  const tied = view.conflicts
    .filter((one) => ids.has(one.earlier) && ids.has(one.later))
    .flatMap((one) => [one.earlier, one.later]);
  const disputed = line?.disputed && here.length > 1 ? here.map((entry) => entry.id) : [];
  const wanted = new Set([...tied, ...disputed]);
  return here
    .filter((entry) => wanted.has(entry.id))
    .map((entry) => {
      const reading = readingOf(entry);
      return {
        id: entry.id,
        figure: splitText(meanText(reading)).figure,
        who: reading.by ?? "another device",
        at: entry.at,
      };
    });
}

/** The judged line of a place; where the judgement tells only what matters of it, that. */
export function lineAt(lines: readonly Line[], observable: string, at: Place): Line | undefined {
  const here = lines.filter((one) => one.observable === observable);
  const wider = (line: Line) =>
    Object.entries(line.at ?? {}).every(([key, part]) => (at as Record<string, unknown>)[key] === part);
  return (
    here.find((one) => samePlace(one.at, at)) ??
    here.find((one) => Object.keys(one.at ?? {}).length > 0 && wider(one))
  );
}

function findingAt(view: VisitView, checkpoint: string, at: Place): Finding | undefined {
  return view.assessment.findings.find((one) => one.checkpoint === checkpoint && samePlace(one.at, at));
}

const broken = new Set(["outside", "reject", "fault"]);

export function cellAt(view: VisitView, checkpoint: string, observable: string, at: Place): Cell {
  const here = readingsAt(view, observable, at);
  const answer = view.assessment.answers.find((one) => one.checkpoint === checkpoint);
  const line = lineAt(answer?.lines ?? [], observable, at);
  const finding = findingAt(view, checkpoint, at);
  const entry = here.at(-1);
  const lastText = lastAt(view, observable, at);
  const last = splitText(lastText).figure;
  const base = { at, observable, last, entries: here, limit: line?.limit ?? "", standing: line?.standing ?? "" };
  if (!entry) {
    const shown = splitText(lastText);
    const assumed = lastText !== "";
    const cell: Cell = {
      ...base,
      ...shown,
      state: assumed ? "assumed" : "blank",
      beside: "",
      u: "",
      outside: false,
      repeats: 0,
      two: [],
      stage: "",
      reason: assumed ? "last visit" : "",
      says: "",
    };
    return { ...cell, says: sentence(cell) };
  }
  const reading = readingOf(entry);
  const shown = splitText(meanText(reading));
  const two = twoSay(view, here, line);
  const accepted = acceptedNow(finding);
  const cell: Cell = {
    ...base,
    ...shown,
    state: two.length > 1 ? "two" : line?.stale ? "stale" : accepted ? "accepted" : "measured",
    beside: shown.unit === "in" ? otherUnit(sizeOf(shown.figure), "in") : "",
    u: uIn(line, shown.unit),
    outside: line !== undefined && broken.has(line.standing),
    repeats: reading.repeats?.length ?? 0,
    two,
    stage: stageOf(reading),
    reason: line?.stale ?? (accepted ? acceptedWords(accepted) : ""),
    says: "",
  };
  return { ...cell, says: sentence(cell) };
}

function acceptedWords(accepted: { by: string; when?: string; why: string }): string {
  const hour = accepted.when?.slice(11, 16);
  return `accepted by ${accepted.by}${hour ? `, ${hour}` : ""}: ${accepted.why}`;
}

function sizeOf(figure: string): number {
  const [whole, part] = figure.includes(" ") ? figure.split(" ") : ["0", figure];
  const [top = "", bottom = "1"] = (part ?? "").split("/");
  return Number(whole) + Number(top) / Number(bottom);
}

/** The figure in words, for whoever does not see how it is drawn. */
export function sentence(cell: Cell): string {
  const where = describePlace(cell.at);
  const figure = `${cell.figure}${cell.unit ? ` ${cell.unit}` : ""}${cell.u ? `, plus or minus ${cell.u.slice(1)}` : ""}`;
  const beyond = cell.outside && cell.limit ? `, outside its limit ${cell.limit}` : "";
  switch (cell.state) {
    case "blank":
      return `${where}: not looked at`;
    case "assumed":
      return cell.stage === ""
        ? `${where}: assumed ${figure}, from the last visit`
        : `${where}: ${figure} at the stage ${cell.stage}, not read again yet`;
    case "stale":
      return `${where}: was ${figure}, ${cell.reason}`;
    case "two":
      return `${where}: ${cell.two.map((one) => `${one.who} ${one.figure}`).join(", ")}: keep which?`;
    case "accepted":
      return `${where}: ${figure}${beyond}, ${cell.reason}`;
    case "measured":
      return `${where}: ${figure}${beyond}`;
  }
}

/** After the work an earlier figure is only what it was: in brackets, until it is read again. */
export function atStage(cell: Cell, stage: string): Cell {
  if (cell.state !== "measured" && cell.state !== "accepted") return cell;
  if (!isOpen(cell, stage)) return cell;
  const earlier: Cell = { ...cell, state: "assumed", reason: cell.stage, last: cell.figure, outside: false };
  return { ...earlier, says: sentence(earlier) };
}

/** Read at this stage already? A stale figure, an assumed one and two that differ are still open. */
export function isOpen(cell: Cell, stage: string): boolean {
  if (cell.state === "blank" || cell.state === "assumed" || cell.state === "stale") return true;
  return stages.indexOf(cell.stage) < stages.indexOf(stage) && (stage === "after" || stage === "hand-over");
}

/** Nothing is open in a row: what was read stands there, with its limits, until a person goes on. */
export const rowDone = (cells: readonly Cell[], stage: string): boolean =>
  cells.length > 0 && cells.every((cell) => !isOpen(cell, stage));
