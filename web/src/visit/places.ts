// Places in words and as the short keys of the history ("s6.f12"); string 1 is the thinnest.

import type { Place } from "../api/types";

/** The number of the string; files may name it by its note, the server's view never does. */
export function stringOf(at: Place | undefined): number | undefined {
  return typeof at?.string === "number" ? at.string : undefined;
}

export function keyOf(at: Place | undefined): string {
  if (!at) return "";
  const parts: string[] = [];
  if (at.string !== undefined) parts.push(`s${at.string}`);
  if (at.fret !== undefined) parts.push(`f${at.fret}`);
  if (at.side !== undefined) parts.push(at.side);
  if (at.switch !== undefined) parts.push(`switch:${at.switch}`);
  if (at.pickup !== undefined) parts.push(`pickup:${at.pickup}`);
  if (at.control !== undefined) parts.push(`control:${at.control}`);
  if (at.pressed !== undefined) parts.push(`p${at.pressed}`);
  if (at.capo !== undefined) parts.push(`c${at.capo}`);
  if (at.spot !== undefined) parts.push(`spot:${at.spot}`);
  return parts.join(".");
}

/** "string 6, fret 12", "fret 9, treble side"; "whole instrument" where nothing narrows it. */
export function describePlace(at: Place | undefined): string {
  const parts: string[] = [];
  if (at?.string !== undefined) parts.push(`string ${at.string}`);
  if (at?.fret !== undefined) parts.push(at.fret === 0 ? "open" : `fret ${at.fret}`);
  if (at?.side !== undefined) parts.push(`${at.side} side`);
  if (at?.switch !== undefined) parts.push(`switch ${at.switch}`);
  if (at?.pickup !== undefined) parts.push(`${at.pickup} pickup`);
  if (at?.control !== undefined) parts.push(at.control);
  if (at?.pressed !== undefined) parts.push(`held at fret ${at.pressed}`);
  if (at?.capo !== undefined) parts.push(`capo at fret ${at.capo}`);
  if (at?.spot !== undefined) parts.push(at.spot);
  return parts.length > 0 ? parts.join(", ") : "whole instrument";
}

/** What tells one row from the next, the place common to all left out: "6 E", "bass side", "fret 9". */
export function rowLabel(at: Place, notes: string[]): { head: string; tail: string } {
  if (at.string !== undefined)
    return { head: `${at.string}`, tail: (notes[Number(at.string) - 1] ?? "").replace(/-?\d+$/, "") };
  if (at.side !== undefined) return { head: at.side, tail: "" };
  if (at.switch !== undefined) return { head: String(at.switch), tail: "" };
  if (at.pickup !== undefined) return { head: at.pickup, tail: "" };
  if (at.control !== undefined) return { head: at.control, tail: "" };
  if (at.fret !== undefined) return { head: `${at.fret}`, tail: "" };
  return { head: at.spot ?? "", tail: "" };
}

/** What a place is called in "Next string", "7 figures for 6 strings". */
export function placeWord(at: Place | undefined): string {
  if (!at) return "reading";
  if (at.string !== undefined) return "string";
  if (at.side !== undefined) return "edge";
  if (at.switch !== undefined) return "position";
  if (at.pickup !== undefined) return "pickup";
  if (at.control !== undefined) return "control";
  return at.fret !== undefined ? "fret" : "reading";
}

/** Is the narrow place within the wide one: "string 6, fret 12" within "fret 12"? */
export const lies = (narrow: Place, wide: Place): boolean =>
  Object.entries(wide).every(([key, part]) => (narrow as Record<string, unknown>)[key] === part);

export function samePlace(a: Place | undefined, b: Place | undefined): boolean {
  return keyOf(a) === keyOf(b);
}

/** The direction written above the neck; strings only, everything else stays in the order of work. */
export function inDirection<T extends { at: Place }>(places: readonly T[], bassFirst: boolean): T[] {
  if (!places.every((place) => place.at.string !== undefined)) return [...places];
  return [...places].sort((a, b) => (bassFirst ? 1 : -1) * ((stringOf(b.at) ?? 0) - (stringOf(a.at) ?? 0)));
}

export function directionWords(places: readonly { at: Place }[]): string {
  const first = stringOf(places[0]?.at);
  const last = stringOf(places.at(-1)?.at);
  if (first === undefined || last === undefined || first === last) return "";
  return `${first > last ? "Bass" : "Treble"} first, ${first} to ${last}.`;
}
