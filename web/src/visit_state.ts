import { computed, signal, type ReadonlySignal } from "@preact/signals";
import type { ApiError } from "./api/client";
import { deviceId, newId } from "./api/device";
import { link, linkSays } from "./api/link";
import { outbox, type Outbox, type OutboxItem } from "./api/outbox";
import type { Conflict, Entry, Id, Photo, Tried, VisitView } from "./api/types";
import { followVisit } from "./follow_visit";
import { layOver, settle, type ShownVisit } from "./lay_over";
import { shop } from "./shop_state";
import { tryingOut } from "./trying_out";

export { isList, type ShownEntry, type ShownVisit } from "./lay_over";

// One open visit: what the server last said, with what was typed here and is still on its way laid over it. Everything
// shown is a signal; nothing typed waits for an answer.

export interface Waiting {
  item: OutboxItem;
  entry: Entry | undefined;
  /** The server's reason, in its words. */
  says: string;
  code: string;
}

export interface OpenVisit {
  id: Id;
  /** null until the first answer (or the kept one) is here. */
  view: ReadonlySignal<ShownVisit | null>;
  /** Why the visit cannot be shown at all. */
  trouble: ReadonlySignal<ApiError | null>;
  /** True: the view is the one kept on this device, the server has not confirmed it yet. */
  fromBefore: ReadonlySignal<boolean>;
  waiting: ReadonlySignal<number>;
  refused: ReadonlySignal<Waiting[]>;
  conflicts: ReadonlySignal<Conflict[]>;
  /** "saved at 14:07:31", "link is down since 14:09, 6 entries wait". */
  linkSays: ReadonlySignal<string>;
  linkUp: ReadonlySignal<boolean>;
  /** Live answers for what is being typed; null when nothing is tried out. */
  tried: ReadonlySignal<Tried | null>;
  /** Others who have this visit open. */
  here: ReadonlySignal<{ id: Id; name: string }[]>;
  /** The server's sums for the latest entries are still to come. */
  judging: ReadonlySignal<boolean>;
  /** Adds entries in one piece (a row of heights is one piece); answers their ids. */
  add(...parts: NewEntry[]): Id[];
  /** Puts another value in place of an entry; the old one stays in the history. Answers the new id. */
  correct(id: Id, value: unknown): Id;
  /** Sets the one value under a path; null: not stated any more. */
  set(path: string, value: unknown): Id;
  /** Takes an entry out of force without another in its place. */
  remove(id: Id): void;
  /** Of two that differ: keeps one, takes the other out. */
  keepOne(keepId: Id, otherId: Id): void;
  /** A photo with its words; the path is filled in when the server has the bytes. */
  addPhoto(blob: Blob, photo: Omit<Photo, "path">): Id;
  /** Takes back this device's latest entry, sent or not. */
  undo(): void;
  /** What undo would take back, in words; "" when there is nothing. */
  undoSays: ReadonlySignal<string>;
  /** What the entries would change, without storing them. Latest call wins; no entries: nothing is tried. */
  tryOut(parts: NewEntry[]): void;
  /** A refused entry is sent again, with another value or as it is. */
  sendAgain(key: string, value?: unknown): void;
  /** A refused entry is given up by a person. */
  giveUp(key: string): void;
  reload(): Promise<void>;
  close(): void;
}

/** The parts of an entry that a page decides. */
export interface NewEntry {
  path: string;
  value?: unknown;
  replaces?: Id[];
}

/** Entries an item of the outbox stands for; taking back is one. */
const countOf = (items: OutboxItem[]): number =>
  items.reduce((sum, item) => sum + Math.max(1, item.entries.length), 0);

export function openVisit(id: Id, box: Outbox = outbox): OpenVisit {
  const followed = followVisit(id);
  const { stored } = followed;
  const tried = signal<Tried | null>(null);
  // A paired device goes by the id the server gave it.
  const ownId = computed(() => shop.value?.device.id || deviceId());
  const items = computed(() => box.items.value.filter((item) => item.visit === id));
  const waiting = computed(() => countOf(items.value.filter((item) => item.state === "waits")));
  const view = computed<ShownVisit | null>(() => {
    const base = stored.value;
    return base === null ? null : { ...base, entries: layOver(base.entries, items.value, ownId.value) };
  });
  // What the server has is laid into the view here and now, so that nothing flickers before the live line tells it.
  const stopStored = box.onStored((item, answer) => {
    const base = stored.peek();
    if (item.visit !== id || base === null) return;
    // The seq stays: the live line still has to send what other devices did in between.
    followed.put({ ...base, entries: settle(base.entries, item, answer, ownId.peek()) });
  });
  const make = (part: NewEntry): Entry => ({
    id: newId(),
    path: part.path,
    saw: stored.peek()?.seq ?? 0,
    ...(part.value === undefined ? {} : { value: part.value }),
    ...(part.replaces && part.replaces.length > 0 ? { replaces: part.replaces } : {}),
  });
  const trying = tryingOut(id, tried, make);
  return {
    id,
    view,
    waiting,
    tried,
    trouble: followed.trouble,
    fromBefore: followed.fromBefore,
    here: computed(() => followed.here.value.filter((one) => one.id !== ownId.value)),
    refused: computed(() => items.value.filter((item) => item.state === "refused").map(asWaiting)),
    conflicts: computed(() => stored.value?.conflicts ?? []),
    linkSays: computed(() => linkSays(link.value, waiting.value)),
    linkUp: computed(() => link.value.up),
    judging: computed(() => (stored.value?.seq ?? 0) > followed.judgedSeq.value),
    undoSays: computed(() => undoWords(items.value, stored.value)),
    ...writing(id, box, view, items, tried, make),
    tryOut: trying.tryOut,
    reload: followed.reload,
    close() {
      followed.stop();
      stopStored();
      trying.stop();
    },
  };
}

/** What an entry in place of another has to replace. One the server never saw goes at once, and leaves what it replaced. */
function givesWay(box: Outbox, old: Id): Id[] {
  const unsent = box.takeBack(old);
  return unsent ? (unsent.replaces ?? []) : [old];
}

type Writing = Pick<
  OpenVisit,
  "add" | "correct" | "set" | "remove" | "keepOne" | "addPhoto" | "undo" | "sendAgain" | "giveUp"
>;

/** Everything that changes the visit: into the outbox, which shows it at once. */
function writing(
  id: Id,
  box: Outbox,
  view: ReadonlySignal<ShownVisit | null>,
  items: ReadonlySignal<OutboxItem[]>,
  tried: { value: Tried | null },
  make: (part: NewEntry) => Entry,
): Writing {
  const add = (...parts: NewEntry[]): Id[] => {
    const entries = parts.map(make);
    if (entries.length > 0) box.add({ kind: "entries", visit: id, entries });
    tried.value = null;
    return entries.map((entry) => entry.id);
  };
  const addOne = (part: NewEntry): Id => add(part)[0] as Id;
  return {
    add,
    correct(old, value) {
      const waits = box.holding(old)?.entries.find((one) => one.id === old);
      const path = waits?.path ?? view.peek()?.entries.find((one) => one.id === old)?.path;
      if (path === undefined) throw new Error(`no entry ${old} in force`);
      return addOne({ path, value, replaces: givesWay(box, old) });
    },
    set(path, value) {
      const before = (view.peek()?.entries ?? []).filter((entry) => entry.path === path).map((entry) => entry.id);
      return addOne({ path, value, replaces: before.flatMap((old) => givesWay(box, old)) });
    },
    remove(old) {
      const replaces = givesWay(box, old);
      if (replaces.length > 0) add({ path: "", replaces });
    },
    keepOne: (_keep, other) => void add({ path: "", replaces: [other] }),
    addPhoto(blob, photo) {
      const entry = make({ path: "/photos", value: { path: "", ...photo } });
      box.add({ kind: "photo", visit: id, entries: [entry], blob });
      return entry.id;
    },
    undo() {
      const last = items
        .peek()
        .filter((item) => item.state === "waits" && item.kind !== "undo")
        .at(-1)
        ?.entries.at(-1);
      if (last && box.takeBack(last.id)) return;
      box.add({ kind: "undo", visit: id, id: newId(), entries: [] });
    },
    sendAgain(key, value) {
      const item = items.peek().find((one) => one.key === key);
      if (!item) return;
      box.again(key, value === undefined ? item.entries : item.entries.map((entry) => ({ ...entry, value })));
    },
    giveUp: (key) => box.drop(key),
  };
}

function asWaiting(item: OutboxItem): Waiting {
  return { item, entry: item.entries[0], says: item.problem?.message ?? "", code: item.problem?.code ?? "" };
}

function undoWords(items: OutboxItem[], view: VisitView | null): string {
  const waits = items.filter((item) => item.state === "waits" && item.kind !== "undo");
  const last = waits.at(-1)?.entries.at(-1);
  if (!last) return view?.undo?.says ?? "";
  const value = last.value as { what?: string; checkpoint?: string; value?: unknown } | null | undefined;
  const what = value?.what ?? value?.checkpoint ?? last.path.split("/").at(-1) ?? "";
  return value && value.value !== undefined ? `${what} ${String(value.value)}` : what;
}
