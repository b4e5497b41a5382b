// Where on the sheet an entry belongs: the checkpoint that reads it and the place, or the panel where it is written.

import type { Catalogue, Entry, Place, VisitView } from "../api/types";
import { checkpointNamed, readsOf } from "./catalogue";
import type { Panel } from "./desk";
import { describePlace, lies } from "./places";

export interface WhereOf {
  checkpoint?: string;
  at?: Place;
  panel?: Panel;
  /** "String height, string 6, fret 12": what it is about, in words. */
  says: string;
}

const panels: [string, Panel][] = [
  ["/wants", "wants"],
  ["/instrument", "facts"],
  ["/job", "facts"],
  ["/claims", "claims"],
  ["/work", "work"],
  ["/remarks", "remark"],
  ["/photos", "photo"],
  ["/accepted", "findings"],
];

/** `near` is looked at first: a reading may belong to more than one checkpoint. */
export function whereOf(view: VisitView, catalogue: Catalogue, entry: Partial<Entry>, near?: string): WhereOf {
  const value = (entry.value ?? {}) as { what?: string; checkpoint?: string; at?: Place };
  const path = entry.path ?? "";
  if (path === "/readings" && value.what !== undefined) {
    const checkpoint = checkpointReading(view, catalogue, value.what, value.at ?? {}, near);
    const at = value.at ?? {};
    return { ...(checkpoint === undefined ? {} : { checkpoint }), at, says: words(value.what, at) };
  }
  if (path === "/ratings" && value.checkpoint !== undefined) {
    const title = checkpointNamed(catalogue, value.checkpoint)?.title ?? value.checkpoint;
    return { checkpoint: value.checkpoint, ...(value.at ? { at: value.at } : {}), says: words(title, value.at) };
  }
  const panel = panels.find(([start]) => path === start || path.startsWith(`${start}/`))?.[1];
  return { ...(panel ? { panel } : {}), says: pathWords(path) };
}

const upper = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

function words(what: string, at: Place | undefined): string {
  return upper(at && Object.keys(at).length > 0 ? `${what}, ${describePlace(at)}` : what);
}

/** "/wants/height_bass": "Height bass". */
export function pathWords(path: string): string {
  const last = path.split("/").at(-1) ?? "";
  return last === "" ? "Entry" : upper(last.replaceAll("_", " "));
}

function checkpointReading(
  view: VisitView,
  catalogue: Catalogue,
  what: string,
  at: Place,
  near: string | undefined,
): string | undefined {
  const reads = view.checkpoints.filter((one) => {
    const known = checkpointNamed(catalogue, one.id);
    if (!known || !readsOf(known).includes(what)) return false;
    return (one.places ?? []).length === 0 || (one.places ?? []).some((place) => lies(at, place.at));
  });
  return (reads.find((one) => one.id === near) ?? reads.find((one) => one.in_scope) ?? reads[0])?.id;
}
