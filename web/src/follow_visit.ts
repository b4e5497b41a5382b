import { signal, type ReadonlySignal, type Signal } from "@preact/signals";
import { ApiError, api } from "./api/client";
import { onLinkUp } from "./api/link";
import { listen } from "./api/live";
import type { Id, LiveMessage, VisitView } from "./api/types";
import { remember, recall } from "./kept_visit";
import { applyChange, applyJudged } from "./lay_over";

/** What the server says of one visit, followed live; the view kept from before stands in until it answers. */
export interface Followed {
  stored: Signal<VisitView | null>;
  put: (view: VisitView) => void;
  trouble: ReadonlySignal<ApiError | null>;
  fromBefore: ReadonlySignal<boolean>;
  here: ReadonlySignal<{ id: Id; name: string }[]>;
  /** Up to which entry the assessment counts. */
  judgedSeq: ReadonlySignal<number>;
  reload: () => Promise<void>;
  stop: () => void;
}

export function followVisit(id: Id): Followed {
  const stored = signal<VisitView | null>(null);
  const trouble = signal<ApiError | null>(null);
  const fromBefore = signal(false);
  const here = signal<{ id: Id; name: string }[]>([]);
  const judgedSeq = signal(0);
  const seq = () => stored.peek()?.seq ?? 0;
  const put = (next: VisitView): void => {
    stored.value = next;
    remember(next);
  };

  const heard = (message: LiveMessage): void => {
    const base = stored.peek();
    if (message.type === "here") here.value = message.devices;
    else if (base === null) void reload();
    else if (message.type === "visit")
      put({
        ...base,
        seq: Math.max(base.seq, message.seq),
        entries: applyChange(base.entries, message.put, message.drop),
      });
    else if (message.type === "judged" && message.seq >= judgedSeq.peek()) {
      judgedSeq.value = message.seq;
      put(applyJudged(base, message));
    }
  };

  const reload = async (): Promise<void> => {
    try {
      const fresh = await api.visit(id);
      trouble.value = null;
      // What the live line told in the meantime is newer; what was kept from before never is.
      if (fromBefore.peek() || fresh.seq >= seq()) {
        judgedSeq.value = fresh.seq;
        put(fresh);
      }
      fromBefore.value = false;
    } catch (error) {
      if (!(error instanceof ApiError)) throw error;
      if (stored.peek() === null || !error.mayPass) trouble.value = error;
    }
  };

  let closed = false;
  let stopLive = (): void => undefined;
  const begin = async (): Promise<void> => {
    const asked = reload();
    const old = await recall(id);
    if (old && stored.peek() === null) {
      fromBefore.value = true;
      put(old);
    }
    await asked;
    // Only now: the line then tells all that happened since the view that is here.
    if (!closed) stopLive = listen({ visit: id, since: seq, heard });
  };
  void begin();
  const stopLinkUp = onLinkUp(() => {
    if (fromBefore.peek() || stored.peek() === null) void reload();
  });
  const stop = (): void => {
    closed = true;
    stopLive();
    stopLinkUp();
  };
  return { stored, put, trouble, fromBefore, here, judgedSeq, reload, stop };
}
