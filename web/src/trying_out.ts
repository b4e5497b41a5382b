import type { Signal } from "@preact/signals";
import { api } from "./api/client";
import type { Entry, Id, Tried } from "./api/types";

const tryAfterMs = 180;

/** Asks what entries would change, once the hand has paused; an older answer never overtakes a newer one. */
export function tryingOut<T>(id: Id, tried: Signal<Tried | null>, make: (part: T) => Entry) {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let asked: AbortController | undefined;
  const stop = () => {
    clearTimeout(timer);
    asked?.abort();
  };
  const tryOut = (parts: T[]): void => {
    stop();
    if (parts.length === 0) {
      tried.value = null;
      return;
    }
    timer = setTimeout(async () => {
      const mine = new AbortController();
      asked = mine;
      try {
        const answer = await api.tryOut(id, parts.map(make), mine.signal);
        if (!mine.signal.aborted) tried.value = answer;
      } catch {
        // Half typed, refused or without a line: there is nothing to show, and the entry itself says why when sent.
        if (!mine.signal.aborted) tried.value = null;
      }
    }, tryAfterMs);
  };
  return { tryOut, stop };
}
