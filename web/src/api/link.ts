import { computed, signal } from "@preact/signals";
import { clock } from "../look/words";

// Whether the server can be reached, told by every request and by the live line. Time of day is that of this device.

export interface Link {
  up: boolean;
  /** Since when it is as it is. */
  since: Date;
  /** In words, when something other than a dead line keeps entries waiting: "this device is not paired". */
  why?: string;
  /** When the last entry was answered for. */
  savedAt?: Date;
}

export const link = signal<Link>({ up: true, since: new Date() });

const comeUp = new Set<() => void>();

/** Calls back whenever the line comes back. Answers how to stop. */
export function onLinkUp(call: () => void): () => void {
  comeUp.add(call);
  return () => comeUp.delete(call);
}

export function linkIsUp(): void {
  const was = link.peek();
  if (was.up && was.why === undefined) return;
  link.value = { up: true, since: new Date(), ...(was.savedAt ? { savedAt: was.savedAt } : {}) };
  for (const call of comeUp) call();
}

export function linkIsDown(why?: string): void {
  const was = link.peek();
  if (!was.up && was.why === why) return;
  link.value = {
    up: false,
    since: was.up ? new Date() : was.since,
    ...(why === undefined ? {} : { why }),
    ...(was.savedAt ? { savedAt: was.savedAt } : {}),
  };
}

export function entrySaved(at: Date = new Date()): void {
  link.value = { ...link.peek(), savedAt: at };
}

/** The line for the title block: "saved at 14:07:31", "link is down since 14:09, 6 entries wait". */
export function linkSays(state: Link, waiting: number): string {
  const wait = waiting === 0 ? "nothing waits" : waiting === 1 ? "1 entry waits" : `${waiting} entries wait`;
  if (!state.up && state.why !== undefined) return `${state.why}, ${wait} since ${clock(state.since, false)}`;
  if (!state.up) return `link is down since ${clock(state.since, false)}, ${wait}`;
  if (waiting > 0) return `sending, ${wait}`;
  return state.savedAt ? `saved at ${clock(state.savedAt, true)}` : "every entry is saved at once";
}

export const linkIsGood = computed(() => link.value.up);
