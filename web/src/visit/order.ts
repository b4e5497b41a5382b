// Where the sheet goes next.

import type { VisitView } from "../api/types";

/** Not to be taken with these hands: the reason, "" when it may be. */
export function forbidden(view: VisitView, id: string): string {
  const answer = view.assessment.answers.find((one) => one.checkpoint === id);
  return answer?.state === "not allowed" ? (answer.because ?? "the hands rule does not allow it") : "";
}

/** The same from the procedure, for what the judgement has not told: what it would do that these hands may not. */
export function barred(view: VisitView, id: string, disturbs: string | undefined): string {
  const hands = view.assessment.hands;
  const rule =
    hands === "look only"
      ? (disturbs ?? "nothing") !== "nothing"
      : hands === "adjust" && disturbs === "opens a cavity";
  const said = forbidden(view, id);
  return rule ? `${hands}: it ${disturbs}` : said;
}

/** Checkpoints of the scope, in the order of work. */
export function scopeOrder(view: VisitView): string[] {
  return view.checkpoints.filter((one) => one.in_scope).map((one) => one.id);
}

/**
 * The next checkpoint of the scope that is still open: after `from` in the order of work, then from the top. `settled`
 * are ids known to be done here although the server has not said so yet. Undefined when nothing is left.
 */
export function nextOpen(
  view: VisitView,
  from: string | undefined,
  settled: ReadonlySet<string> = new Set(),
): string | undefined {
  const order = view.checkpoints;
  const start = order.findIndex((one) => one.id === from) + 1;
  const turned = [...order.slice(start), ...order.slice(0, start)];
  return turned.find(
    (one) => one.in_scope && !one.done && one.id !== from && !settled.has(one.id) && !forbidden(view, one.id),
  )?.id;
}

/** The neighbour on the sheet, open or not: for the arrow keys and "back". */
export function neighbour(view: VisitView, from: string | undefined, step: 1 | -1): string | undefined {
  const order = scopeOrder(view);
  const at = from === undefined ? -1 : order.indexOf(from);
  if (at < 0) return order[0];
  return order[at + step];
}

/** "4 of 14": place of a checkpoint in the scope. */
export function placeInScope(view: VisitView, id: string | undefined): { at: number; of: number } {
  const order = scopeOrder(view);
  return { at: id === undefined ? 0 : order.indexOf(id) + 1, of: order.length };
}
