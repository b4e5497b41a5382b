// One field as a person types it, a caliper sends it, or a rule shows it. What is kept is text with its unit, in the
// form of the bench file ("1.7 mm", "4/64 in"); what was typed is kept beside it and never rewritten.
//
// Taken: decimal comma, fractions, mixed numbers, letter codes of resistance, "± u". Refused with one sentence: marks
// between thousands, ranges, a unit of another kind, more than one number.

import { kindOf, meaningElsewhere, toMm, unitFromSuffix } from "./units";

export interface Field {
  dimension: string; // of the catalogue
  unit: string; // picked for this field; holds where none is typed
}

export type Parsed =
  | { kind: "value"; typed: string; text: string; number: number; unit: string } // number in `unit`, for showing only
  | { kind: "skip"; typed: string } // this place is left out
  | { kind: "nothing"; typed: string }
  | { kind: "refused"; typed: string; says: string; instead?: string }; // instead: the likely meaning, to be tapped

const skipWords = new Set(["-", "–", "—", "x", "skip"]);
const numberWithSuffix = /^([+-]?)(\d+ \d+\/\d+|\d+\/\d+|\d*\.\d+|\d+)\s*(.*)$/s;
const letterCode = /^\d*[RkKM]\d+$/;
const longest = 80; // characters; no reading is that long

/** The text as it would stand in a bench file, without line ends, odd blanks and odd minus signs. */
function cleaned(typed: string): string {
  return typed
    .replace(/[\s\u00a0\u2007\u202f]+/g, " ")
    .replace(/[\u2212\u2013]/g, "-")
    .trim();
}

export function parseField(typed: string, field: Field): Parsed {
  const text = cleaned(typed);
  if (text === "") return { kind: "nothing", typed };
  if (skipWords.has(text.toLowerCase())) return { kind: "skip", typed };
  if (text.length > longest)
    return refuse(typed, `That is ${text.length} characters. One reading is expected, such as ${example(field)}.`);

  const [main = "", ...uncertain] = text.split(/\s*(?:±|\+\/-|\+-)\s*/);
  const value = parseNumber(main, typed, field);
  if (value.kind !== "value" || uncertain.length === 0) return value;
  return withUncertainty(value, uncertain, typed, field);
}

function withUncertainty(value: Parsed & { kind: "value" }, parts: string[], typed: string, field: Field): Parsed {
  const u = parts.length === 1 ? parseNumber(parts[0] ?? "", typed, { ...field, unit: value.unit }) : null;
  if (!u || u.kind !== "value" || u.number < 0) {
    return refuse(
      typed,
      `What stands after ± in “${shown(typed)}” is no uncertainty. Write it such as “1.7 ± 0.05”.`,
    );
  }
  return { ...value, text: `${value.text} ± ${u.text}` };
}

function parseNumber(main: string, typed: string, field: Field): Parsed {
  if (field.dimension === "resistance" && letterCode.test(main)) return fromLetterCode(main, typed);
  const doubt = doubtfulMarks(main, field);
  if (doubt) return refuse(typed, doubt.says, doubt.instead);

  const match = numberWithSuffix.exec(main.replace(",", "."));
  if (!match) return refuse(typed, notANumber(main, field));
  const [, sign = "", digits = "", suffix = ""] = match;
  const unit = unitFromSuffix(suffix.trim(), field.dimension);
  // The figure alone is offered, unless it is one of several.
  const alone = /\d/.test(suffix) ? undefined : `${sign}${digits}`;
  if (unit === null) return refuse(typed, strangeSuffix(suffix.trim(), typed, field), alone);
  return kept(sign === "-" ? "-" : "", digits, unit, typed, field);
}

function kept(sign: string, digits: string, typedUnit: string, typed: string, field: Field): Parsed {
  const fraction = digits.includes("/");
  let unit = typedUnit || field.unit;
  // A bare fraction of a length comes off an inch rule, whatever the field is set to.
  if (fraction && field.dimension === "length" && typedUnit === "" && unit !== "in" && unit !== "64ths")
    unit = "in";
  if (fraction && unit !== "in" && unit !== "turn" && unit !== "64ths") {
    return refuse(
      typed,
      `“${shown(typed)}” is a fraction; ${unit || "a count"} is read in decimals, such as ${example(field)}.`,
    );
  }
  const size = sizeOf(digits);
  if (size === null) return refuse(typed, `“${shown(typed)}” divides by nothing.`);
  if (sign && size !== 0 && !kindOf(field.dimension).negative) {
    return refuse(
      typed,
      `“${shown(typed)}” is below zero. Expected ${kindOf(field.dimension).says} such as ${example(field)}.`,
    );
  }
  if (field.dimension === "count" && !Number.isInteger(size))
    return refuse(typed, `“${shown(typed)}” is not whole. A count is expected, such as 22.`);
  if (unit === "64ths") return inSixtyFourths(sign, digits, size, typed);
  const number = sign ? -size : size;
  return { kind: "value", typed, text: `${sign}${digits}${unit ? ` ${unit}` : ""}`, number, unit };
}

/**
 * "4" of the 64ths field is 4/64 in; half a mark, "4.5" or "4 1/2", is 9/128 in. A fraction that a rule is divided in,
 * "5/64" or "3/32", is one of an inch and taken as it is.
 */
function inSixtyFourths(sign: string, digits: string, size: number, typed: string): Parsed {
  const bottom = Number(digits.split("/")[1] ?? 0);
  if (bottom > 0 && bottom < 8 && !digits.includes(" "))
    return refuse(
      typed,
      `“${shown(typed)}” could be a part of one sixty-fourth or of an inch. Write it such as 0.5 or 1/2 in.`,
    );
  if (bottom >= 8)
    return { kind: "value", typed, text: `${sign}${digits} in`, number: sign ? -size : size, unit: "in" };
  const halves = size * 2;
  if (!Number.isInteger(halves)) {
    return refuse(
      typed,
      `“${shown(typed)}” sixty-fourths cannot be read off a rule. Whole or half ones are expected, such as 4 or 4.5.`,
    );
  }
  const text = Number.isInteger(size) ? `${sign}${size}/64 in` : `${sign}${halves}/128 in`;
  return { kind: "value", typed, text, number: (sign ? -size : size) / 64, unit: "in" };
}

function sizeOf(digits: string): number | null {
  const [whole, part] = digits.includes(" ") ? digits.split(" ") : ["0", digits];
  const [top = "", bottom] = (part ?? "").split("/");
  if (bottom === undefined) return Number(top);
  return Number(bottom) === 0 ? null : Number(whole) + Number(top) / Number(bottom);
}

/** "8k42", "470R": the letter stands for the point and names the unit (IEC 60062). */
function fromLetterCode(code: string, typed: string): Parsed {
  const letter = /[RkKM]/.exec(code)?.[0] ?? "R";
  const unit = letter === "R" ? "ohm" : letter === "M" ? "Mohm" : "kohm";
  return { kind: "value", typed, text: code.replace("K", "k"), number: Number(code.replace(letter, ".")), unit };
}

function doubtfulMarks(main: string, field: Field): { says: string; instead?: string } | null {
  const says = (what: string) => `“${shown(main)}” ${what}`;
  if (/\d['’]\d/.test(main))
    return {
      says: says("has a mark between thousands. Write the digits together."),
      instead: main.replace(/['’]/g, ""),
    };
  if (/\d \d{3}(?!\d|\/)/.test(main))
    return {
      says: says("has a space inside the number. Write the digits together."),
      instead: main.replace(/(\d) (?=\d)/g, "$1"),
    };
  if (main.includes(",") && main.includes("."))
    return { says: says("has both a point and a comma. Write one of them, before the decimals.") };
  if (/\d\s*-\s*\d/.test(main))
    return { says: says("is a range or a dash. One reading is expected; several go in as repeats.") };
  if ((main.match(/[.,]/g) ?? []).length > 1 && !/\d \d/.test(main))
    return { says: says("has more than one decimal mark.") };
  // A micrometer shows three decimals, so a length may have them; an ohm meter does not part 8,420 so.
  if (field.dimension !== "length" && /[1-9],\d{3}(?!\d)/.test(main)) {
    return {
      says: says("could be a thousand or a decimal. Write it with a point, or without a mark."),
      instead: main.replace(",", "."),
    };
  }
  if (/\d[.,](?!\d)/.test(main))
    return {
      says: says("ends in a decimal mark: digits are missing after it."),
      instead: main.replace(/[.,](?!\d)/, ""),
    };
  if (/^[+-]?0\d/.test(main))
    return {
      says: says("begins with a nought: is the point missing?"),
      instead: main.replace(/^([+-]?0)/, "$1."),
    };
  if (/\de[+-]?\d/i.test(main)) return { says: says("has an exponent. Write the number out.") };
  return null;
}

function notANumber(main: string, field: Field): string {
  return `“${shown(main)}” is no number. Expected ${kindOf(field.dimension).says} such as ${example(field)}.`;
}

function strangeSuffix(suffix: string, typed: string, field: Field): string {
  if (/^[\d\s.,]/.test(suffix))
    return `“${shown(typed)}” holds more than one number. One reading is expected, such as ${example(field)}.`;
  const elsewhere = meaningElsewhere(suffix);
  const expected = `Expected ${kindOf(field.dimension).says} such as ${example(field)}.`;
  return elsewhere
    ? `“${shown(suffix)}” goes with ${elsewhere}. ${expected}`
    : `“${shown(suffix)}” is no unit known here. ${expected}`;
}

function example(field: Field): string {
  if (field.dimension === "length" && field.unit === "in") return "0.063 in";
  if (field.dimension === "length" && field.unit === "64ths") return "4/64 in";
  if (field.dimension === "resistance" && field.unit === "ohm") return "0.4 ohm";
  return kindOf(field.dimension).example;
}

function shown(typed: string): string {
  const text = cleaned(typed);
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}

function refuse(typed: string, says: string, instead?: string): Parsed {
  return instead === undefined ? { kind: "refused", typed, says } : { kind: "refused", typed, says, instead };
}

/** The other unit of a length, to stand beside what was typed: "0.067 in" beside "1.7 mm". "" for all else. */
export function otherUnit(number: number, unit: string): string {
  const mm = toMm(number, unit);
  if (mm === null) return "";
  return unit === "in" || unit === "thou" ? `${mm.toFixed(2)} mm` : `${(mm / 25.4).toFixed(3)} in`;
}
