// A row as typed under the neck: "1.7 1.7 1.6 1.6 1.5 1.5" is six strings in the direction that is written there.

import { parseField, type Field, type Parsed } from "./quantity";
import { meaningElsewhere, unitFromSuffix } from "./units";

export type Row = { kind: "figures"; figures: Parsed[] } | { kind: "refused"; says: string; at?: number };

/**
 * Splits a row into the texts of its figures. Blanks, semicolons and a comma before a blank part figures; a comma
 * inside digits is a decimal comma, unless every figure has its own point ("1.7,1.6"). A unit stays with its figure, and
 * a half with its whole ("4 1/2").
 */
export function splitRow(typed: string): string[] {
  const even = typed
    .replace(/[\s\u00a0\u2007\u202f]+/g, " ")
    .replace(/\s*(±|\+\/-)\s*/g, "$1")
    .trim();
  const parts = even
    .split(/[;,]? |;/)
    .flatMap(splitAtCommas)
    .filter((part) => part !== "");
  const out: string[] = [];
  for (const part of parts) {
    const before = out.at(-1);
    const goesOn = meaningElsewhere(part) !== null && /\d$/.test(before ?? "");
    if (before !== undefined && (goesOn || isMixed(before, part))) {
      out[out.length - 1] = `${before} ${part}`;
    } else {
      out.push(part);
    }
  }
  return out.map((part) => part.replace(/,$/, ""));
}

/** "4" and "1/2" are one number; "5" and "4/64" are two readings off a rule. */
const isMixed = (whole: string, part: string): boolean =>
  /^[+-]?\d+$/.test(whole) && /^([13]\/[248]|[57]\/8)(?!\d)/.test(part);

/** The texts a row falls into as it stands, the last perhaps still being typed: one a place. */
export function rowTexts(typed: string, field: Field): string[] {
  return parseField(typed, field).kind === "value" ? [typed.trim()] : splitRow(typed);
}

function splitAtCommas(part: string): string[] {
  const pieces = part.split(",");
  return pieces.length > 1 && pieces.every((piece) => /\d\.\d/.test(piece)) ? pieces : [part];
}

/** One unit at the very end holds for the row: "1.7 1.6 1.5 mm". */
function shareLastUnit(parts: string[], field: Field): string[] {
  const unit = /\d\s*([a-z"″°%]+)$/i.exec(parts.at(-1) ?? "")?.[1];
  if (unit === undefined || parts.length < 2 || !unitFromSuffix(unit, field.dimension)) return parts;
  const bare = parts.slice(0, -1);
  return bare.every((part) => /^[-–]?$|\d$/.test(part))
    ? [...bare.map((part) => (/\d$/.test(part) ? `${part} ${unit}` : part)), parts.at(-1) ?? ""]
    : parts;
}

/**
 * A row for at most `room` places. All figures are taken or none: the first that is refused refuses the row and says
 * which it is. A figure alone is a row of one.
 */
export function parseRow(typed: string, field: Field, room: number, placeWord = "place"): Row {
  const alone = parseField(typed, field);
  if (alone.kind === "value" || alone.kind === "skip" || room === 1) {
    return alone.kind === "refused"
      ? { kind: "refused", says: alone.says }
      : { kind: "figures", figures: alone.kind === "nothing" ? [] : [alone] };
  }
  const parts = shareLastUnit(rowTexts(typed, field), field);
  if (parts.length > room) {
    return {
      kind: "refused",
      says: `${parts.length} figures for ${room} ${placeWord}${room === 1 ? "" : "s"}. None was taken.`,
    };
  }
  const figures = parts.map((part) => parseField(part, field));
  const bad = figures.findIndex((figure) => figure.kind === "refused");
  const refused = figures[bad];
  if (refused?.kind === "refused") {
    return {
      kind: "refused",
      says: parts.length > 1 ? `Figure ${bad + 1} of ${parts.length}: ${refused.says}` : refused.says,
      at: bad,
    };
  }
  return { kind: "figures", figures };
}
