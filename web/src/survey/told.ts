// What the survey says in words: figures, the crowns that stand off, what a reading changed. Pure.

import type { Entry, Figure, Place, Survey, SurveyAsked, SurveyNext, SurveyString } from "../api/types";
import { trueMinus } from "../look/words";
import { describePlace } from "../visit/places";

const told_mm = 0.02; // crowns off by less are not pointed out
const mostTold = 4;

export const noteName = (note: string): string => note.replace(/-?\d+$/, "");

/** "+0.02", "−0.04", "0". */
export function signedMm(mm: number, decimals = 2): string {
  if (Math.abs(mm) < 0.5 * 10 ** -decimals) return "0";
  return `${mm < 0 ? "−" : "+"}${Math.abs(mm).toFixed(decimals)}`;
}

/** "±0.03": to a hundredth, and never better than that. */
export const knownTo = (u_mm: number | undefined): string => `±${Math.max(0.01, u_mm ?? 0).toFixed(2)}`;

/** "0.14 ± 0.01", without its unit. */
export const plain = (value_mm: number, u_mm: number): string =>
  `${trueMinus(value_mm.toFixed(2).replace(/^-(0\.00)$/, "$1"))} ± ${Math.max(0.01, u_mm).toFixed(2)}`;

export const bracketed = (text: string, assumed: boolean): string => (assumed ? `[${text}]` : text);

/** As the report prints it, in brackets where it rests on what is usual. */
export const figureText = (figure: Figure, assumed: boolean): string =>
  bracketed(trueMinus(figure.text ?? figure.words ?? ""), assumed);

const upper = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** "String height, string 6, fret 12". */
export function askedWords(asked: SurveyAsked): string {
  const at: Place = asked.at ?? {};
  return upper(Object.keys(at).length > 0 ? `${asked.what}, ${describePlace(at)}` : asked.what);
}

/** "half a minute", "2 min". */
export const minutesTold = (minutes: number): string =>
  Math.abs(minutes - 0.5) < 0.01 ? "half a minute" : minutes < 0.5 ? `${Math.round(minutes * 60)} s` : `${Number(minutes.toFixed(1))} min`;

/** "least room known from ±0.05 to ±0.03 mm", with as many figures as tell the two apart. */
export function gainWords(next: Pick<SurveyNext, "before_mm" | "after_mm">): string {
  const apart = [2, 3, 4].find((decimals) => next.before_mm.toFixed(decimals) !== next.after_mm.toFixed(decimals)) ?? 4;
  return `least room known from ±${next.before_mm.toFixed(apart)} to ±${next.after_mm.toFixed(apart)} mm`;
}

/** "open, over fret 1", "held at 8, over fret 9". */
export const leastWhere = (string: Pick<SurveyString, "least_held" | "least_over">): string =>
  `${string.least_held === 0 ? "open" : `held at ${string.least_held}`}, over fret ${string.least_over}`;

/** The string and fret where there is least room of all: what is shown first. */
export function tightest(survey: Survey): { fret: number; string: number } {
  const [first, ...others] = survey.strings;
  if (!first) return { fret: 1, string: 1 };
  const room = (one: SurveyString) => one.least.value ?? Number.POSITIVE_INFINITY;
  const least = others.reduce((best, one) => (room(one) < room(best) ? one : best), first);
  return { fret: Math.max(1, least.least_held), string: least.string };
}

/** "Fret 9 stands proud by 0.05 ± 0.01 mm and fret 3 is low by …. ": the worst first, "" where nothing is sure. */
export function crownsTold(survey: Survey): string {
  const off = survey.crowns
    .map((crown) => ({ fret: crown.fret, value: crown.off.value ?? 0, u: crown.off.u ?? 0, text: crown.off.text ?? "" }))
    .filter((crown) => Math.abs(crown.value) >= told_mm && Math.abs(crown.value) > 2 * crown.u)
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value))
    .slice(0, mostTold)
    .map((crown) => `fret ${crown.fret} ${crown.value > 0 ? "stands proud" : "is low"} by ${crown.text.replace(/^[-−]/, "")}`);
  if (off.length === 0) return "";
  const last = off.pop() ?? "";
  return `${upper(off.length > 0 ? `${off.join(", ")} and ${last}` : last)}. `;
}

/** "Relief 0.24 ± 0.01 mm over fret 8", and whether it was read. */
export function shapeWords(survey: Survey): { relief: string; fallaway: string } {
  const assumed = (name: string) => survey.assumed.includes(name);
  return {
    relief: figureText(survey.relief, assumed("relief")),
    fallaway: figureText(survey.fallaway, assumed("fallaway")),
  };
}

interface Told {
  says: string; // "fret 9", "relief", "string 6 over fret 12"
  value: number;
  u: number;
}

function figuresOf(survey: Survey): Told[] {
  const of = (says: string, figure: Figure): Told => ({ says, value: figure.value ?? 0, u: figure.u ?? 0 });
  return [
    of("relief", survey.relief),
    of("fallaway", survey.fallaway),
    ...survey.crowns.map((crown) => of(`fret ${crown.fret}`, crown.off)),
    ...survey.strings.flatMap((one) => [
      of(`slot of string ${one.string}`, one.slot),
      of(`string ${one.string} over fret 1`, one.over_first),
      of(`string ${one.string} over fret 12`, one.over_twelfth),
      of(`string ${one.string} over the last fret`, one.over_last),
    ]),
  ];
}

/**
 * What changed most between two surveys: what is known better (or worse) by more than a hundredth, and the figure that
 * moved most for how well it was known. "" where neither can be seen.
 */
export function changeBetween(before: Survey, after: Survey): string {
  const old = new Map(figuresOf(before).map((one) => [one.says, one]));
  const pairs = figuresOf(after).flatMap((now) => {
    const was = old.get(now.says);
    return was && was.u > 0 && now.u > 0 ? [{ says: now.says, was, now }] : [];
  });
  const known = pairs
    .filter(({ was, now }) => knownTo(was.u) !== knownTo(now.u))
    .sort((a, b) => Math.abs(Math.log(b.now.u / b.was.u)) - Math.abs(Math.log(a.now.u / a.was.u)))[0];
  const moved = pairs
    .filter(({ was, now }) => Math.abs(now.value - was.value) >= Math.max(0.01, 0.5 * was.u))
    .sort((a, b) => Math.abs(b.now.value - b.was.value) / b.was.u - Math.abs(a.now.value - a.was.value) / a.was.u)[0];
  const parts = [];
  if (known) parts.push(`${known.says} now known to ${knownTo(known.now.u)}, was ${knownTo(known.was.u)}`);
  if (moved) {
    const text = (value: number) => (/^fret \d+$/.test(moved.says) ? signedMm(value) : trueMinus(value.toFixed(2)));
    parts.push(`${moved.says} ${text(moved.now.value)}, was ${text(moved.was.value)} mm`);
  }
  return parts.join("; ");
}

/** "Rocker, fret 9: no click". */
export function entryWords(entry: Pick<Entry, "path" | "value">): string {
  const value = (entry.value ?? {}) as { what?: string; at?: Place; value?: unknown; repeats?: unknown };
  if (entry.path !== "/readings" || typeof value.what !== "string") return "";
  const said = typeof value.value === "string" ? `: ${value.value}` : "";
  return `${askedWords({ what: value.what, ...(value.at ? { at: value.at } : {}) })}${said}`;
}

/** One line for what came in, or was taken out, between two surveys. */
export function lastChange(before: Survey, after: Survey, put: readonly string[], out: readonly string[]): string {
  const change = changeBetween(before, after) || "nothing on the neck changes by as much as can be told";
  const all = [...put, ...out.map((one) => `${one}, taken out`)].filter((one) => one !== "");
  if (all.length === 0) return upper(change);
  const more = all.length > 1 ? ` and ${all.length - 1} more` : "";
  return `${all.at(-1)}${more}: ${change}`;
}
