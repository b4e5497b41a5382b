// The one way in which the page counts a scope: its checkpoints that apply to this instrument and that these hands may
// take, how many of them are answered, and what the others take at least. The work itself is not counted.

import type { Catalogue, VisitView } from "../api/types";
import { atLeast, counted } from "../look/words";
import { barred } from "./order";

export interface ScopeCount {
  answered: number;
  all: number;
  minutesLeft: number;
  minutes: number;
}

/** Of the scope chosen, or of one that could be. */
export function countOf(view: VisitView, catalogue: Catalogue, scope?: string): ScopeCount {
  const named = catalogue.procedure.scopes?.find((one) => one.name === scope)?.checkpoints;
  const count: ScopeCount = { answered: 0, all: 0, minutesLeft: 0, minutes: 0 };
  for (const one of view.checkpoints) {
    if (!(named ? named.includes(one.id) : one.in_scope)) continue;
    if (!one.done && barred(view, catalogue, one.id) !== "") continue;
    count.all += 1;
    count.minutes += one.minutes;
    if (one.done) count.answered += 1;
    else count.minutesLeft += one.minutes;
  }
  return count;
}

/** "3 of 40 answered". */
export const answeredWords = ({ answered, all }: ScopeCount): string => `${answered} of ${all} answered`;

/** "37 checkpoints to answer, at least 34 min"; for what is left. */
export function leftWords({ answered, all, minutesLeft }: ScopeCount): string {
  if (answered === all) return "every checkpoint of the scope is answered";
  return `${counted(all - answered, "checkpoint", "checkpoints")} to answer, ${atLeast(minutesLeft)}`;
}
