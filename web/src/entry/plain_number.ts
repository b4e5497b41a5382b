// Figures in fields that are no place of the sheet: the shop, the wishes, the sums. As on the sheet, a decimal comma, a
// leading point, any minus and a figure without its unit are taken; what stands in the field is never rewritten.

import { parseField } from "./quantity";
import { unitsFor, usualUnit } from "./units";

/** What is kept of a field: text as the bench file has it; "" when it is empty. */
export type Taken = { text: string } | { says: string };

/** "-0,4" as "-0.4", ".010" as "0.010"; null for anything but one bare number. */
export function bareNumber(typed: string): string | null {
  const found = /^([+-]?)(\d*)(?:[.,](\d+))?$/.exec(typed.trim().replace(/[\u2212\u2013]/g, "-"));
  if (!found) return null;
  const [, sign = "", whole = "", part] = found;
  if (whole === "" && part === undefined) return null;
  return `${sign === "-" ? "-" : ""}${whole === "" ? "0" : whole}${part === undefined ? "" : `.${part}`}`;
}

/** A quantity of this dimension; a bare number is in `unit`, the usual one where none is said. */
export function takeQuantity(typed: string, dimension: string, unit = usualUnit("", dimension)): Taken {
  if (dimension === "money") return takeMoney(typed, unit);
  const parsed = parseField(typed, { dimension, unit });
  if (parsed.kind === "value") return { text: parsed.text };
  if (parsed.kind === "nothing") return { text: "" };
  return { says: parsed.kind === "refused" ? parsed.says : `“${typed.trim()}” is no figure.` };
}

const signs: Record<string, string> = { "€": "EUR", $: "USD", "£": "GBP", euro: "EUR", euros: "EUR" };

/** "45", "45,50 €", "EUR 45" as "45 EUR"; the currency may stand on either side. */
export function takeMoney(typed: string, currency: string): Taken {
  const text = typed.replace(/[\s\u00a0\u202f]+/g, " ").trim();
  if (text === "") return { text: "" };
  // "45,-" is 45 without cents.
  const found = /^([^\d.,+\-\u2212\u2013]*)([\d.,+\-\u2212\u2013]+)([^\d.,]*)$/.exec(text.replace(/,[-–—]+/, ""));
  const number = found ? bareNumber(found[2] ?? "") : null;
  const named = `${found?.[1] ?? ""}${found?.[3] ?? ""}`.trim();
  const unit = named === "" ? currency : (signs[named.toLowerCase()] ?? named.toUpperCase());
  if (number === null || !/^[A-Z]{3}$/.test(unit))
    return { says: `“${text}” is no amount of money. Expected is one such as 45 or 45.50 ${currency}.` };
  if (number.startsWith("-")) return { says: `“${text}” is below zero. Expected is an amount such as 45 ${currency}.` };
  return { text: `${number} ${unit}` };
}

/** The shop's own currency: that of its rates, EUR where it has none. */
export function currencyOf(rates: readonly { amount: string }[] | undefined): string {
  for (const { amount } of rates ?? []) {
    const found = /\b[A-Z]{3}\b/.exec(amount);
    if (found) return found[0];
  }
  return "EUR";
}

/** Units of dimensions that only sums have. */
const unitsOfSums: Record<string, string> = { frequency: "Hz", density: "kg/m3", "linear density": "g/m" };

/** The unit of a bare number in a field of a sum; "" where a plain number is meant. */
export function unitOfBare(field: { name: string; dimension?: string; kind: string }, typed: string): string {
  if (field.kind !== "quantity" && field.name !== "thread") return "";
  if (field.name === "thread") return "mm";
  if (field.name === "gauge") return gaugeUnit(typed);
  const { dimension = "" } = field;
  if (dimension === "ratio" || dimension === "count" || dimension === "") return "";
  return unitsOfSums[dimension] ?? unitsFor(dimension)[0]?.id ?? "";
}

/** Gauges are said in inches (".010"), thousandths ("10") or mm ("0.25"); the sizes do not overlap. */
function gaugeUnit(typed: string): string {
  const size = Number(bareNumber(typed) ?? Number.NaN);
  if (size < 0.15) return "in";
  return size >= 7 ? "thou" : "mm";
}

/** A field of a sum as it is sent: a bare number with its unit, commas between digits as points. */
export function forSum(field: { name: string; dimension?: string; kind: string }, typed: string): string {
  const text = typed.trim();
  const number = bareNumber(text);
  const isText = field.kind === "text" || field.kind === "word";
  if (number !== null && (!isText || field.name === "thread")) {
    const unit = unitOfBare(field, text);
    return unit === "" ? number : `${number} ${unit}`;
  }
  return isText ? text : text.replace(/[\u2212\u2013]/g, "-").replace(/(\d),(\d)/g, "$1.$2");
}
