// Where the sheet goes next.

import type { Catalogue, VisitView } from "../api/types";
import { checkpointNamed } from "./catalogue";

/** What hands may do, also while the shop has not answered yet. */
export function handsOf(view: VisitView): string {
  const said = view.entries.filter((entry) => entry.path === "/hands").at(-1)?.value;
  return typeof said === "string" ? said : view.assessment.hands;
}

/** Work that takes a file or an iron, or opens something; all other work is a matter of screws and strings. */
const filesOrOpens = new Set(["nut slot", "fret seating", "fret levelling", "fret ends", "wiring", "shim", "hardware"]);

/** The hands that a kind of work needs and these are not; "" when these may do it. */
export function handsFor(work: string, hands: string): string {
  if (hands === "work") return "";
  if (filesOrOpens.has(work)) return "work";
  return hands === "adjust" ? "" : "adjust";
}

/** Why a checkpoint may not be taken with these hands, "" when it may: by what it would do, else as judged. */
export function barred(view: VisitView, catalogue: Catalogue, id: string): string {
  const hands = handsOf(view);
  const disturbs = checkpointNamed(catalogue, id)?.disturbs ?? "nothing";
  const rule =
    hands === "look only" ? disturbs !== "nothing" : hands === "adjust" && disturbs === "opens a cavity";
  if (rule) return `${hands === "adjust" ? "may adjust" : hands}: it ${disturbs}`;
  if (hands !== view.assessment.hands) return ""; // said here just now, not judged yet
  const answer = view.assessment.answers.find((one) => one.checkpoint === id);
  return answer?.state === "not allowed" ? (answer.because ?? "the hands rule does not allow it") : "";
}

/** Open checkpoints of the scope just before this one that the step onward passed over, each with its reason. */
export function passedOver(view: VisitView, catalogue: Catalogue, id: string): { id: string; why: string }[] {
  const scope = view.checkpoints.filter((one) => one.in_scope);
  const passed: { id: string; why: string }[] = [];
  for (let at = scope.findIndex((one) => one.id === id) - 1; at >= 0; --at) {
    const one = scope[at];
    const why = one && !one.done ? barred(view, catalogue, one.id) : "";
    if (!one || why === "") break;
    passed.unshift({ id: one.id, why });
  }
  return passed;
}

/** Checkpoints of the scope, in the order of work. */
export function scopeOrder(view: VisitView): string[] {
  return view.checkpoints.filter((one) => one.in_scope).map((one) => one.id);
}

/**
 * The next checkpoint of the scope that is still open and may be taken: after `from` in the order of work, then from the
 * top. `settled` are ids known to be done here although the server has not said so yet. Undefined when nothing is left.
 */
export function nextOpen(
  view: VisitView,
  catalogue: Catalogue,
  from: string | undefined,
  settled: ReadonlySet<string> = new Set(),
): string | undefined {
  const order = view.checkpoints;
  const start = order.findIndex((one) => one.id === from) + 1;
  const turned = [...order.slice(start), ...order.slice(0, start)];
  return turned.find(
    (one) => one.in_scope && !one.done && one.id !== from && !settled.has(one.id) && !barred(view, catalogue, one.id),
  )?.id;
}

/** The neighbour on the sheet, open or not: for the arrow keys and "back". */
export function neighbour(view: VisitView, from: string | undefined, step: 1 | -1): string | undefined {
  const order = scopeOrder(view);
  const at = from === undefined ? -1 : order.indexOf(from);
  if (at < 0) return order[0];
  return order[at + step];
}
