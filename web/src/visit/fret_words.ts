// A fret as a person types it: one ("5"), a range ("5-7", "5 to 7") or a few ("5, 7"). A place of the bench file holds one
// fret, so of several the first is the place and all are said in words.

export type Frets =
  | { kind: "nothing" }
  | { kind: "frets"; frets: number[]; words: string } // words: "" for one, "frets 5 to 7" for more
  | { kind: "refused"; says: string };

const fretText = /^\d{1,3}$/;

export function fretsOf(typed: string, last: number): Frets {
  const text = typed.trim().toLowerCase().replace(/^frets?\s+/, "");
  if (text === "") return { kind: "nothing" };
  const expected = `The board has frets 0 to ${last}; expected is one such as 5, or a range such as 5-7.`;
  // A dash with nothing after it yet: the range is still being typed.
  const [from = "", to, ...more] = text.split(/\s*(?:-|–|−|\bto\b)\s*/);
  const several = to === undefined || to === "" ? from.split(/\s*(?:,|;|\+|\band\b|\s)\s*/) : [from, to];
  const numbers = several.filter((part) => part !== "");
  if (more.length > 0 || from === "" || !numbers.every((part) => fretText.test(part)))
    return { kind: "refused", says: `“${typed.trim()}” is no fret. ${expected}` };
  const frets = [...new Set(numbers.map(Number))].sort((a, b) => a - b);
  const beyond = frets.find((fret) => fret > last);
  if (beyond !== undefined) return { kind: "refused", says: `There is no fret ${beyond}. ${expected}` };
  return { kind: "frets", frets, words: to ? rangeWords(frets) : listWords(frets, "fret") };
}

const rangeWords = (frets: number[]): string =>
  frets.length < 2 ? "" : `frets ${frets[0]} to ${frets[frets.length - 1]}`;

/** "strings 5 and 6", "frets 5, 7 and 9"; "" for one or none. */
export function listWords(numbers: readonly number[], one: "fret" | "string"): string {
  if (numbers.length < 2) return "";
  return `${one}s ${numbers.slice(0, -1).join(", ")} and ${numbers[numbers.length - 1]}`;
}
