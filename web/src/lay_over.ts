import type { OutboxItem } from "./api/outbox";
import type { Answer, Assessment, EntriesStored, Id, Judged, StoredEntry, VisitView } from "./api/types";

// How what was typed here and what the server said become one view: pure functions over plain values.

/** An entry in force; `waiting` while the server has not answered for it. */
export interface ShownEntry extends StoredEntry {
  waiting?: boolean;
}

export type ShownVisit = Omit<VisitView, "entries"> & { entries: ShownEntry[] };

const listPaths = new Set([
  "/readings",
  "/ratings",
  "/claims",
  "/tools",
  "/room",
  "/recordings",
  "/photos",
  "/work",
  "/accepted",
  "/limits",
  "/remarks",
  "/wants/complaints",
]);

/** True for a path under which there may be many; any other path holds one value. */
export const isList = (path: string): boolean => listPaths.has(path);

/** Entries in force with those of the outbox laid over: replaced ones gone, new ones at the end, undone ones gone. */
export function layOver(stored: StoredEntry[], items: OutboxItem[], device: Id): ShownEntry[] {
  let shown: ShownEntry[] = stored;
  let seq = stored.reduce((latest, entry) => Math.max(latest, entry.seq), 0);
  for (const item of items) {
    if (item.state !== "waits") continue;
    if (item.kind === "undo") {
      const last = shown.reduce((found, entry, index) => (entry.device === device ? index : found), -1);
      shown = shown.filter((_, index) => index !== last);
      continue;
    }
    for (const entry of item.entries) {
      if (shown.some((one) => one.id === entry.id)) continue;
      const gone = new Set(entry.replaces ?? []);
      const before = shown.find((one) => gone.has(one.id) && one.path === entry.path);
      shown = shown.filter((one) => !gone.has(one.id));
      if (entry.path === "") continue;
      const at = new Date().toISOString();
      seq += 1;
      // What replaces one of its own list stands in its place, as on the server.
      shown = [...shown, { ...entry, seq, device, at, place: before?.place ?? seq, waiting: true }];
    }
  }
  return shown;
}

/** After a change on the server: `drop` gone, `put` in, by seq. */
export function applyChange(stored: StoredEntry[], put: StoredEntry[], drop: Id[]): StoredEntry[] {
  const gone = new Set([...drop, ...put.map((entry) => entry.id)]);
  return [...stored.filter((entry) => !gone.has(entry.id)), ...put].sort((a, b) => a.seq - b.seq);
}

/** Answers with the changed ones in place of the old, new ones at the end, `goneIds` left out. */
export function mergeAnswers(old: Answer[], changed: Answer[], goneIds: string[] = []): Answer[] {
  const fresh = new Map(changed.map((answer) => [answer.checkpoint, answer]));
  const gone = new Set(goneIds);
  const kept = old
    .filter((answer) => !gone.has(answer.checkpoint))
    .map((answer) => {
      const changedOne = fresh.get(answer.checkpoint);
      fresh.delete(answer.checkpoint);
      return changedOne ?? answer;
    });
  return [...kept, ...fresh.values()];
}

/** null: there is none any more; undefined: as it was. */
function withOrWithout<K extends "closed" | "last" | "undo">(
  view: VisitView,
  key: K,
  value: VisitView[K] | null,
): VisitView {
  if (value === undefined) return view;
  if (value !== null) return { ...view, [key]: value };
  const { [key]: _, ...rest } = view;
  return rest as VisitView;
}

/** What the server judged, laid into the view it belongs to. Keys that are left out did not change;
 *  the seq of the sums is not that of the entries. */
export function applyJudged(view: VisitView, judged: Judged): VisitView {
  const { type: _type, seq: _seq, whole, assessment, answers_gone, closed, last, undo, ...rest } = judged;
  const { answers, ...tops } = assessment;
  const old = view.assessment;
  const merged: Assessment = {
    ...old,
    ...tops,
    answers: whole ? (answers ?? old.answers) : mergeAnswers(old.answers, answers ?? [], answers_gone),
  };
  const next: VisitView = { ...view, ...rest, assessment: merged };
  return withOrWithout(withOrWithout(withOrWithout(next, "closed", closed), "last", last), "undo", undo);
}

/** Entries in force once the server has answered for an item. */
export function settle(stored: StoredEntry[], item: OutboxItem, answer: EntriesStored, device: Id): StoredEntry[] {
  if (item.kind === "undo") return stored.filter((entry) => entry.id !== answer.took_back?.id);
  const seqs = new Map(answer.stored.map((one) => [one.id, one.seq]));
  return layOver(stored, [{ ...item, state: "waits" }], device).map(({ waiting: _, ...entry }) => {
    const seq = seqs.get(entry.id) ?? entry.seq;
    return { ...entry, seq, place: entry.place === entry.seq ? seq : entry.place };
  });
}
