// What the last entry changed on the neck: the survey is compared before and after the sums for it came in.

import { effect, signal, type ReadonlySignal } from "@preact/signals";
import type { Survey } from "../api/types";
import type { OpenVisit, ShownEntry } from "../visit_state";
import { entryWords, lastChange } from "./told";

interface Base {
  survey: Survey;
  entries: Map<string, ShownEntry>;
}

/** The line, "" until something comes in while the page is open. Stop it when the page goes. */
export function followChange(visit: OpenVisit): { line: ReadonlySignal<string>; stop: () => void } {
  const line = signal("");
  let base: Base | null = null;
  let quiet: Base["entries"] = new Map(); // entries when there were no sums to come
  let weighing = false;
  const stop = effect(() => {
    const view = visit.view.value;
    const survey = view?.assessment.neck;
    if (!view || !survey || visit.fromBefore.value) return;
    if (visit.judging.value) {
      if (!weighing && base) base = { survey: base.survey, entries: quiet };
      weighing = true;
      return;
    }
    weighing = false;
    quiet = new Map(view.entries.filter((one) => !one.waiting).map((one) => [one.id, one]));
    const before = base;
    if (before?.survey === survey) return;
    const now: Base = { survey, entries: quiet };
    base = now;
    if (!before || JSON.stringify(before.survey) === JSON.stringify(survey)) return;
    const words = (from: Base, without: Base) =>
      [...from.entries.values()].filter((one) => !without.entries.has(one.id)).map(entryWords).filter((one) => one !== "");
    line.value = lastChange(before.survey, survey, words(now, before), words(before, now));
  });
  return { line, stop };
}
