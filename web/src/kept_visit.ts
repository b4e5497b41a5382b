import { keep } from "./api/keep";
import type { Id, VisitView } from "./api/types";

// The visits last worked on are kept in this browser, so that they come back after a reload with a dead line.

const most = 6;
const everyMs = 400;
const listKey = "visits kept";
const keyOf = (id: Id) => `visit ${id}`;

export interface KeptLine {
  id: Id;
  title: string;
}

const latest = new Map<Id, VisitView>();
let writing: Promise<void> = Promise.resolve();
let timer: ReturnType<typeof setTimeout> | undefined;

/** Keeps a view, soon: a row of figures is one write. */
export function remember(view: VisitView): void {
  latest.set(view.id, view);
  timer ??= setTimeout(() => {
    timer = undefined;
    const views = [...latest.values()];
    latest.clear();
    // A full store costs the way back without a line, not the work.
    writing = writing.then(() => write(views)).catch(() => undefined);
  }, everyMs);
}

/** Resolves when what was remembered and is due has been written. */
export const written = (): Promise<void> => writing;

async function write(views: VisitView[]): Promise<void> {
  const store = await keep();
  for (const view of views) {
    const before = ((await store.get("answers", listKey)) as KeptLine[] | undefined) ?? [];
    const lines = [{ id: view.id, title: view.title }, ...before.filter((line) => line.id !== view.id)];
    await store.put("answers", keyOf(view.id), view);
    await store.put("answers", listKey, lines.slice(0, most));
    for (const line of lines.slice(most)) await store.drop("answers", keyOf(line.id));
  }
}

export async function recall(id: Id): Promise<VisitView | undefined> {
  try {
    return (await (await keep()).get("answers", keyOf(id))) as VisitView | undefined;
  } catch {
    return undefined;
  }
}

/** The visits kept here, the latest first. */
export async function keptVisits(): Promise<KeptLine[]> {
  try {
    return ((await (await keep()).get("answers", listKey)) as KeptLine[] | undefined) ?? [];
  } catch {
    return [];
  }
}
