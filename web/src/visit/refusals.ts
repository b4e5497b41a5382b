// Readings that the shop refused: the text goes back into the field it came from, with what is expected there.

import type { Reading } from "../api/types";
import type { Waiting } from "../visit_state";
import type { DeskState } from "./desk";
import type { Cell } from "./figures";
import { samePlace } from "./places";
import { singlesAt } from "./taking";

type Known = Pick<DeskState, "visit">;

export function refusedAt(desk: Known, cell: Cell | undefined): Waiting | undefined {
  return desk.visit.refused.value.find((one) => {
    const value = (one.entry?.value ?? {}) as Partial<Reading>;
    return one.entry?.path === "/readings" && value.what === cell?.observable && samePlace(value.at, cell?.at);
  });
}

/** What was typed, in the field's own unit without it: "18"; of a repeat only what was not kept before. */
export function typedText(one: Waiting, unit: string, kept: readonly string[] = []): string {
  const value = one.entry?.value as Partial<Reading> | string | string[] | null | undefined;
  if (Array.isArray(value)) return value.join(" ");
  if (value === null || value === undefined || typeof value !== "object") return String(value ?? "");
  const texts = value.repeats ? value.repeats.slice(kept.length) : [String(value.value ?? "")];
  return texts.map((text) => (unit !== "" && text.endsWith(` ${unit}`) ? text.slice(0, -unit.length - 1) : text)).join(" ");
}

/** The reason in plain words, with a full stop. */
export const reasonOf = (one: Waiting): string =>
  `${one.says.replace(/^"([^"]*)": /, "“$1”: ").replace(/[.\s]+$/, "")}.`;

/** Where the caret stands on a refused figure and nothing else is typed, its text stands in the field again, once. */
export function fillRefused(desk: DeskState): void {
  const index = desk.active.value;
  const cell = desk.cells.value[index];
  const one = refusedAt(desk, cell);
  if (!cell || !one || desk.draft.value !== "" || desk.mended.has(one.item.key)) return;
  desk.mended.add(one.item.key);
  const kept = singlesAt(cell, handOf(one));
  const typed = typedText(one, desk.field.peek().unit, kept);
  desk.repeating.value = (one.entry?.value as Partial<Reading>).repeats !== undefined;
  desk.draft.value = typed;
  desk.refused.value = { index, typed, says: reasonOf(one) };
}

const handOf = (one: Waiting) => {
  const { stage = "arrival", by = "" } = one.entry?.value as Partial<Reading>;
  return { stage, by };
};

/** A new figure stands there now, or none is to: the refused one is given up. */
export function dropRefused(desk: Known, cell: Cell | undefined): void {
  for (let one = refusedAt(desk, cell); one; one = refusedAt(desk, cell)) desk.visit.giveUp(one.item.key);
}
