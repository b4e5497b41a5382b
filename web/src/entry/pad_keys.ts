// Which keys the number pad shows: only those that make sense in the unit picked.

import { kindOf } from "./units";

export type PadKey = { press: string; says: string; label?: string };

export const digitRows: readonly (readonly string[])[] = [
  ["7", "8", "9"],
  ["4", "5", "6"],
  ["1", "2", "3"],
];

/** The keys beside 0: decimal point, or the half mark and the fraction bar of a rule; minus or nothing. */
export function lastRow(dimension: string, unit: string): PadKey[] {
  const keys: PadKey[] = [{ press: "0", says: "0" }];
  if (unit === "64ths") keys.push({ press: ".5", says: "½", label: "and a half" });
  if (unit === "64ths" || unit === "turn") keys.push({ press: "/", says: "/", label: "fraction bar" });
  else if (dimension !== "count") keys.push({ press: ".", says: ".", label: "decimal point" });
  if (wantsMinus(dimension)) keys.push({ press: "-", says: "−", label: "minus" });
  return keys;
}

/** Pitch and temperature go below zero every day; lengths so seldom that the pad leaves the key out. */
function wantsMinus(dimension: string): boolean {
  return kindOf(dimension).negative && dimension !== "length" && dimension !== "force" && dimension !== "angle";
}

/** May this character stand in a figure at all? For keyboards, calipers and foot switches that type. */
export function isFigureKey(key: string, draft: string): boolean {
  if (key.length !== 1) return false;
  if (/[\d.,\-−]/.test(key)) return true;
  // Units and row blanks only once a figure has begun, so that letters stay free as keys of the sheet.
  return draft !== "" && /[a-zA-Z%"°ΩµΩ \/±;()']/.test(key);
}
