// Where work on a visit was left on this device: reopened, it stands there again. A figure half typed outlives a reload of
// its own tab, not more.

import type { Place } from "../api/types";
import { settings } from "../settings";
import type { DeskState, Heading } from "./desk";

const most = 60; // visits

const draftKey = (visit: string) => `fallaway.draft.${visit}`;

export const leftAt = (visit: string): string | undefined => settings.leftAt.peek()[visit];

/** Called as an effect: follows the checkpoint, the place and what is typed there. */
export function rememberPlace(desk: DeskState): void {
  const id = desk.checkpoint.value?.id;
  const draft = desk.draft.value;
  const at = desk.cells.peek()[desk.active.value]?.at;
  if (id === undefined) return;
  const { [desk.visit.id]: before, ...others } = settings.leftAt.peek();
  if (before !== id)
    settings.leftAt.value = { ...Object.fromEntries(Object.entries(others).slice(1 - most)), [desk.visit.id]: id };
  try {
    if (draft === "") sessionStorage.removeItem(draftKey(desk.visit.id));
    else sessionStorage.setItem(draftKey(desk.visit.id), JSON.stringify({ id, at, draft }));
  } catch {
    // Forbidden storage: the figure lives as long as the page.
  }
}

/** The sheet, opened next, stands at this place. */
export function standAt(visit: string, to: Heading): void {
  try {
    sessionStorage.setItem(draftKey(visit), JSON.stringify({ draft: "", ...to }));
  } catch {
    // Forbidden storage: it opens at the checkpoint.
  }
}

/** What was half typed before a reload, where it was. */
export function halfTyped(visit: string): Heading | null {
  try {
    const kept: unknown = JSON.parse(sessionStorage.getItem(draftKey(visit)) ?? "null");
    const { id, at, draft, what } = (kept ?? {}) as { id?: unknown; at?: Place; draft?: unknown; what?: string };
    if (typeof id !== "string" || typeof draft !== "string") return null;
    return { id, draft, ...(at ? { at } : {}), ...(what ? { what } : {}) };
  } catch {
    return null;
  }
}
