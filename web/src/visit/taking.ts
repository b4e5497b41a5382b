// From what was typed to what is stored, and where the caret stands after it. Pure; the sheet sends the entries.

import type { Place, Reading, StoredEntry } from "../api/types";
import type { NewEntry } from "../visit_state";
import { parseField, type Field } from "../entry/quantity";
import { parseRow } from "../entry/row";
import type { Cell } from "./figures";
import { isOpen, readingOf, stageOf } from "./figures";

export interface Hand {
  stage: string;
  by: string; // who reads, "" unsaid
  tool: string; // id or kind, "" the shop's usual one
  when: string; // RFC 3339
  newId: () => string; // for the reading itself, so that the ending of a complaint can point at it
}

export type Taken =
  | { kind: "taken"; figures: { index: number; text: string; typed: string }[]; active: number | null }
  | { kind: "refused"; says: string; instead?: string };

/** The next place that is still open: after `from`, then from the top; null when none is. */
export function nextPlace(
  cells: readonly Cell[],
  from: number,
  stage: string,
  filled: ReadonlySet<number> = new Set(),
): number | null {
  for (let step = 1; step <= cells.length; ++step) {
    const index = (from + step) % cells.length;
    const cell = cells[index];
    if (index !== from && cell && !filled.has(index) && isOpen(cell, stage)) return index;
  }
  return null;
}

/** Enter: one figure for the active place, or a row from it onward. Nothing typed leaves the place as it is. */
export function take(
  typed: string,
  field: Field,
  cells: readonly Cell[],
  active: number,
  stage: string,
  word: string,
): Taken {
  const single = parseField(typed, field);
  if (single.kind === "nothing" || single.kind === "skip") {
    return { kind: "taken", figures: [], active: active + 1 < cells.length ? active + 1 : null };
  }
  const row = parseRow(typed, field, cells.length - active, word);
  if (row.kind === "refused") {
    const instead = single.kind === "refused" ? single.instead : undefined;
    return instead === undefined
      ? { kind: "refused", says: row.says }
      : { kind: "refused", says: row.says, instead };
  }
  const figures = row.figures.flatMap((figure, k) =>
    figure.kind === "value" ? [{ index: active + k, text: figure.text, typed: figure.typed.trim() }] : [],
  );
  const passed = active + row.figures.length - 1;
  const filled = new Set(Array.from({ length: row.figures.length }, (_, k) => active + k));
  return { kind: "taken", figures, active: nextPlace(cells, passed, stage, filled) };
}

/** Enter while a place is read again: whatever is typed, be it a row, are further readings of this one place. */
export function takeRepeats(typed: string, field: Field, active: number): Taken {
  const row = parseRow(typed, field, mostRepeats, "reading");
  if (row.kind === "refused") return { kind: "refused", says: row.says };
  const figures = row.figures.flatMap((figure) =>
    figure.kind === "value" ? [{ index: active, text: figure.text, typed: figure.typed.trim() }] : [],
  );
  return { kind: "taken", figures, active };
}

const mostRepeats = 20; // at one place in one go

/** Same for all: every place that is still open and the active one; where none is open, all of them. */
export function placesForAll(cells: readonly Cell[], active: number, stage: string): number[] {
  const open = cells.flatMap((cell, index) => (index === active || isOpen(cell, stage) ? [index] : []));
  return open.length > 1 || cells.length === 1 ? open : cells.map((_, index) => index);
}

/** Earlier readings of the same hand at the same stage: a new one corrects them. Another person's stays beside. */
export function corrected(entries: readonly StoredEntry[], hand: Pick<Hand, "stage" | "by">): string[] {
  return entries
    .filter((entry) => {
      const reading = readingOf(entry);
      return stageOf(reading) === hand.stage && (reading.by ?? "") === hand.by;
    })
    .map((entry) => entry.id);
}

export function readingEntry(
  observable: string,
  at: Place,
  text: string,
  before: readonly StoredEntry[],
  hand: Hand,
): NewEntry {
  const value: Record<string, unknown> = { id: hand.newId(), what: observable };
  if (Object.keys(at).length > 0) value["at"] = at;
  value["value"] = text;
  if (hand.tool) value["tool"] = hand.tool;
  if (hand.by) value["by"] = hand.by;
  value["when"] = hand.when;
  value["stage"] = hand.stage;
  const replaces = corrected(before, hand);
  return { path: "/readings", value, ...(replaces.length > 0 ? { replaces } : {}) };
}

/** The single readings of this hand at a place, at this stage, as they were typed. */
export function singlesAt(cell: Cell, hand: Pick<Hand, "stage" | "by">): string[] {
  const own = corrected(cell.entries, hand);
  return cell.entries
    .filter((one) => own.includes(one.id))
    .map(readingOf)
    .flatMap((reading) => reading.repeats ?? [String(reading.value)]);
}

/** A place read once more, or more than once: the single readings are all kept and their mean counts. */
export function repeatEntry(cell: Cell, texts: readonly string[], hand: Hand): NewEntry {
  const entry = readingEntry(cell.observable, cell.at, texts[0] ?? "", cell.entries, hand);
  const own = cell.entries.filter((one) => entry.replaces?.includes(one.id)).at(-1);
  const all = [...singlesAt(cell, hand), ...texts];
  if (all.length < 2) return entry;
  const value = entry.value as Partial<Reading>;
  delete value.value;
  value.repeats = all;
  const tool = own ? readingOf(own).tool : undefined;
  if (!hand.tool && tool) value.tool = tool;
  return entry;
}

/** "2026-11-24T09:10:00+01:00": this device's own time, with its offset. */
export function moment(date: Date): string {
  const two = (n: number) => String(Math.floor(Math.abs(n))).padStart(2, "0");
  const offset = -date.getTimezoneOffset();
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  const time = `${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
  return `${day}T${time}${offset < 0 ? "-" : "+"}${two(offset / 60)}:${two(offset % 60)}`;
}
