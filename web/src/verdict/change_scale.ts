// Before and after on one line: where the values stand on the drawing, and how the mean change is told.

import type { Answer, Change, Place } from "../api/types";

export interface Scale {
  low: number;
  high: number;
  /** Position of a value, 0 to 1. */
  at: (value: number) => number;
}

/** Both ends a little outside the values, so that no stroke stands on the edge; a single value gets room around it. */
export function scaleOver(values: readonly number[]): Scale {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const pad = high > low ? (high - low) * 0.1 : Math.max(Math.abs(low) * 0.05, 0.05);
  const from = low - pad;
  const to = high + pad;
  return { low: from, high: to, at: (value) => Math.min(1, Math.max(0, (value - from) / (to - from))) };
}

/** Round marks for an axis, four to seven of them. */
export function marksOn(scale: Pick<Scale, "low" | "high">): number[] {
  const span = scale.high - scale.low;
  const rough = span / 5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((one) => span / one <= 6) ?? 10 * power;
  const first = Math.ceil(scale.low / step);
  const last = Math.floor(scale.high / step);
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
}

/** The 95 % interval of the mean change, where the places tell one: two and more of them, not all alike. */
export function intervalOf(change: Pick<Change, "n" | "ci95" | "mean">): [number, number] | undefined {
  const [low, high] = change.ci95;
  if (change.n < 2 || low === undefined || high === undefined || high <= low) return undefined;
  return [low, high];
}

const decimals = (unit: string): number => (unit === "mm" || unit === "s" || unit === "kg" ? 2 : 1);

/** "0.83", with the true minus sign and no minus nought. */
export function figureIn(value: number, unit: string): string {
  const text = value.toFixed(decimals(unit));
  return (Number(text) === 0 ? text.replace("-", "") : text).replace("-", "\u2212");
}

export const signedIn = (value: number, unit: string): string => {
  const text = figureIn(value, unit);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
};

/** Standard uncertainty of a reading that was drawn from the answers, in the unit of the change; undefined where the
 *  answers no longer carry that reading. */
export function uncertaintyOf(answers: readonly Answer[], title: string, at: Place, value: number): number | undefined {
  const where = key(at);
  for (const answer of answers) {
    for (const line of answer.lines) {
      const same = line.observable !== undefined && title.startsWith(line.observable) && covers(line.at, where);
      if (same && line.found.u !== undefined && Math.abs((line.found.value ?? NaN) - value) < 1e-6) return line.found.u;
    }
  }
  return undefined;
}

const key = (at: Place | undefined): Record<string, unknown> => ({ ...(at ?? {}) });

/** True when the line stands at the place: what the change names, the line names alike. */
function covers(at: Place | undefined, where: Record<string, unknown>): boolean {
  const here = key(at);
  return Object.entries(where).every(([part, value]) => here[part] === value);
}
