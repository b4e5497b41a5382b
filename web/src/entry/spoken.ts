// An accepted figure as it is read aloud: place, value, unit.

import { spokenUnit } from "./units";

/** "string 2, 1.6 millimetres"; fractions as they stand on the rule: "4 sixty-fourths of an inch". */
export function spoken(place: string, text: string): string {
  const bare = text.split(/\s*±/)[0] ?? text;
  const fraction = /^(-?\d+)\/(\d+) in$/.exec(bare);
  if (fraction?.[2] === "64") return `${place}, ${minus(fraction[1] ?? "")} ${spokenUnit("64ths")}`;
  const match = /^(\S+) (\S+)$/.exec(bare);
  if (!match) return `${place}, ${minus(bare)}`;
  return `${place}, ${minus(match[1] ?? "")} ${spokenUnit(match[2] ?? "")}`;
}

const minus = (text: string) => text.replace(/^[-−]/, "minus ");
