import { computed, signal } from "@preact/signals";
import { ApiError, api } from "./client";
import { keep, type Keep } from "./keep";
import { entrySaved, linkIsDown, linkIsUp, onLinkUp } from "./link";
import type { EntriesStored, Entry, Id, Medium, Photo, Problem } from "./types";

// What was typed and is not yet answered for. It is shown at once, kept in this browser until the server has it, and
// sent in the order it was typed; sending again is harmless, since every entry carries its own id. What the server
// refuses is set aside with the reason and its text, and the rest goes on.

export type OutboxItem = {
  /** Order of sending; also the key it is kept under. */
  key: string;
  visit: Id;
  state: "waits" | "refused";
  problem?: Problem;
} & (
  | { kind: "entries"; entries: Entry[] }
  | { kind: "photo"; entries: Entry[]; blob: Blob }
  | { kind: "undo"; id: Id; entries: Entry[] /* none */ }
);

/** An item without its place in the order. */
export type Unsent =
  | { kind: "entries"; visit: Id; entries: Entry[] }
  | { kind: "photo"; visit: Id; entries: Entry[]; blob: Blob }
  | { kind: "undo"; visit: Id; id: Id; entries: Entry[] };

export interface Sender {
  store(visit: Id, entries: Entry[]): Promise<EntriesStored>;
  undo(visit: Id, id: Id): Promise<EntriesStored>;
  putMedium(blob: Blob): Promise<Medium>;
}

/** Called when the server has an item: what was sent, and its answer. */
export type Stored = (item: OutboxItem, answer: EntriesStored) => void;

const retryMs = [1000, 2000, 5000, 10_000, 30_000];

/** Which entries of a refused request the reasons name: "/entries/2/value/at" is the third. Empty: it does not say. */
export function namedEntries(errors: Problem[], count: number): Map<number, Problem> {
  const named = new Map<number, Problem>();
  for (const error of errors) {
    const found = /^\/entries\/(\d+)(?:\/|$)/.exec(error.path);
    const index = found ? Number(found[1]) : -1;
    if (index >= 0 && index < count && !named.has(index)) named.set(index, error);
  }
  return named;
}

export class Outbox {
  readonly items = signal<OutboxItem[]>([]);
  /** How long what is kept here outlives the page; undefined until it is known. */
  readonly lasting = signal<Keep["lasting"] | undefined>(undefined);
  /** Entries not yet with the server (refused ones apart). */
  readonly waiting = computed(() =>
    this.items.value
      .filter((item) => item.state === "waits")
      .reduce((sum, item) => sum + Math.max(1, item.entries.length), 0),
  );
  readonly refused = computed(() => this.items.value.filter((item) => item.state === "refused"));

  readonly #sender: Sender;
  readonly #keeping: Promise<Keep>;
  readonly #listeners = new Set<Stored>();
  #writing: Promise<void> = Promise.resolve();
  #sending: string | undefined;
  #running = false;
  #attempt = 0;
  #again: ReturnType<typeof setTimeout> | undefined;
  #count = 0;

  constructor(sender: Sender, keeping: Promise<Keep>) {
    this.#sender = sender;
    this.#keeping = keeping;
  }

  /** Takes up what an earlier page left behind; sends it before anything typed since. */
  async start(): Promise<void> {
    const store = await this.#keeping;
    this.lasting.value = store.lasting;
    const left = (await store.all("outbox")) as OutboxItem[];
    const here = new Set(this.items.peek().map((item) => item.key));
    const older = left.filter((item) => !here.has(item.key)).sort((a, b) => (a.key < b.key ? -1 : 1));
    this.items.value = [...older, ...this.items.peek()];
    void this.flush();
  }

  onStored(call: Stored): () => void {
    this.#listeners.add(call);
    return () => this.#listeners.delete(call);
  }

  /** Shows it at once, keeps it, sends it. */
  add(what: Unsent): OutboxItem {
    const item = { ...what, key: this.#nextKey(), state: "waits" } as OutboxItem;
    this.items.value = [...this.items.peek(), item];
    this.#write((store) => store.put("outbox", item.key, item));
    void this.flush();
    return item;
  }

  /** The item that holds an entry not yet sent or refused; undefined for one that is on its way or with the server. */
  holding(id: Id): OutboxItem | undefined {
    return this.items
      .peek()
      .find((item) => item.key !== this.#sending && item.entries.some((entry) => entry.id === id));
  }

  /** Takes an entry back that the server never saw. Answers it, or undefined when it is too late for that. */
  takeBack(id: Id): Entry | undefined {
    const item = this.holding(id);
    const entry = item?.entries.find((one) => one.id === id);
    if (!item || !entry) return undefined;
    const rest = item.entries.filter((one) => one.id !== id);
    if (rest.length === 0) this.drop(item.key);
    else this.#change({ ...item, entries: rest });
    return entry;
  }

  /** Forgets an item for good: a refused one that a person has dealt with. */
  drop(key: string): void {
    this.items.value = this.items.peek().filter((item) => item.key !== key);
    this.#write((store) => store.drop("outbox", key));
  }

  /** Tries a refused item once more, as it is or with other entries. */
  again(key: string, entries?: Entry[]): void {
    const item = this.items.peek().find((one) => one.key === key);
    if (!item) return;
    const { problem: _, ...rest } = item;
    this.#change({ ...rest, state: "waits", entries: entries ?? item.entries } as OutboxItem);
    void this.flush();
  }

  /** Sends what waits, in order, until nothing does or the line fails. */
  async flush(): Promise<void> {
    if (this.#running) return;
    this.#running = true;
    clearTimeout(this.#again);
    try {
      for (let item = this.#first(); item; item = this.#first()) {
        this.#sending = item.key;
        if (!(await this.#sendOne(item))) break;
      }
    } finally {
      this.#sending = undefined;
      this.#running = false;
    }
  }

  #first(): OutboxItem | undefined {
    return this.items.peek().find((item) => item.state === "waits");
  }

  /** Time and count, so that keys of one device sort as they were typed, across reloads. */
  #nextKey(): string {
    return `${Date.now().toString(36).padStart(9, "0")}-${(this.#count++).toString(36).padStart(5, "0")}`;
  }

  async #sendOne(item: OutboxItem): Promise<boolean> {
    try {
      const answer = await this.#send(item);
      this.#attempt = 0;
      linkIsUp();
      entrySaved();
      for (const call of this.#listeners) call(item, answer);
      this.drop(item.key);
      return true;
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      if (!error.mayPass) {
        this.#setAside(item, error);
        return true;
      }
      linkIsDown(this.#whyItWaits(error));
      const wait = error.retryAfterSeconds !== undefined ? error.retryAfterSeconds * 1000 : undefined;
      this.#again = setTimeout(
        () => void this.flush(),
        wait ?? retryMs[Math.min(this.#attempt++, retryMs.length - 1)],
      );
      return false;
    }
  }

  async #send(item: OutboxItem): Promise<EntriesStored> {
    if (item.kind === "undo") return this.#sender.undo(item.visit, item.id);
    if (item.kind === "entries") return this.#sender.store(item.visit, item.entries);
    const medium = await this.#sender.putMedium(item.blob);
    const entries = item.entries.map((entry) => ({
      ...entry,
      value: { ...(entry.value as Photo), path: medium.path },
    }));
    return this.#sender.store(item.visit, entries);
  }

  #whyItWaits(error: ApiError): string | undefined {
    if (error.status === 0) return undefined;
    if (error.status === 403) return "this device may not write here";
    if (error.status === 401) return "this device is not paired";
    if (error.status === 429) return "the server asks for patience";
    return error.message;
  }

  /** All or nothing is the server's rule: entries that are named stand aside, the others go again on their own. */
  #setAside(item: OutboxItem, error: ApiError): void {
    const named =
      item.kind === "entries" ? namedEntries(error.errors, item.entries.length) : new Map<number, Problem>();
    const good = item.entries.filter((_, index) => !named.has(index));
    if (named.size === 0 || item.kind !== "entries") {
      this.#change({
        ...item,
        state: "refused",
        problem: error.errors[0] ?? { code: error.code, path: error.path, message: error.message },
      });
      return;
    }
    const aside = [...named].map(
      ([index, problem], nth) =>
        ({
          ...item,
          key: `${item.key}.${nth}`,
          state: "refused",
          problem,
          entries: item.entries.slice(index, index + 1),
        }) as OutboxItem,
    );
    const parts = good.length > 0 ? [{ ...item, entries: good } as OutboxItem, ...aside] : aside;
    this.items.value = this.items.peek().flatMap((one) => (one.key === item.key ? parts : [one]));
    this.#write(async (store) => {
      for (const one of parts) await store.put("outbox", one.key, one);
      if (good.length === 0) await store.drop("outbox", item.key);
    });
  }

  #change(item: OutboxItem): void {
    this.items.value = this.items.peek().map((one) => (one.key === item.key ? item : one));
    this.#write((store) => store.put("outbox", item.key, item));
  }

  /** Writes follow one another, so that a drop never overtakes its put. A full store is said, not thrown. */
  #write(act: (store: Keep) => Promise<void>): void {
    this.#writing = this.#writing
      .then(async () => act(await this.#keeping))
      .catch(() => {
        this.lasting.value = "this page only";
      });
  }

  /** Resolves when everything told so far is kept. */
  async written(): Promise<void> {
    await this.#writing;
  }
}

export const outbox = new Outbox(api, keep());

export function startOutbox(): void {
  void outbox.start();
  onLinkUp(() => void outbox.flush());
  addEventListener("online", () => void outbox.flush());
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void outbox.flush();
  });
  // Only where nothing can be kept: elsewhere the page may be closed at any time.
  addEventListener("beforeunload", (event) => {
    if (outbox.lasting.peek() === "this page only" && outbox.waiting.peek() > 0) event.preventDefault();
  });
}
