// Complaints as entries, each with what the judgement says of it.

import type { Complaint, Place } from "../api/types";
import type { ShownEntry } from "../lay_over";

export interface ToldComplaint {
  entry: ShownEntry;
  /** Undefined: not judged yet. */
  told: Complaint | undefined;
}

/**
 * In the order of their list, which is not that of the entries: a complaint with an ending is a later entry in the place
 * of the first. Put together by their text, so that one added or taken out a moment ago moves no ending to another.
 */
export function complaintsTold(entries: readonly ShownEntry[], judged: readonly Complaint[]): ToldComplaint[] {
  const left = [...judged];
  return entries
    .filter((entry) => entry.path === "/wants/complaints")
    .sort((a, b) => a.place - b.place)
    .map((entry) => {
      const text = (entry.value as { text?: string } | null)?.text;
      const at = left.findIndex((one) => one.text === text);
      return { entry, told: at < 0 ? undefined : left.splice(at, 1)[0] };
    });
}

/** A complaint as it is kept; what its place cannot hold ("frets 5 to 7") stands behind the words. Null without words. */
export function newComplaint(said: string, at: Place, more: string): { text: string; at?: Place } | null {
  const words = said.trim();
  if (words === "") return null;
  const text = more === "" ? words : `${words} (${more})`;
  return Object.keys(at).length > 0 ? { text, at } : { text };
}
