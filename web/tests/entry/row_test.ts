import { describe, expect, it } from "vitest";
import { parseRow, rowTexts, splitRow } from "../../src/entry/row";
import type { Field } from "../../src/entry/quantity";

const mm: Field = { dimension: "length", unit: "mm" };
const texts = (typed: string, room = 6, field = mm) => {
  const row = parseRow(typed, field, room, "string");
  return row.kind === "refused"
    ? row.says
    : row.figures.map((figure) => (figure.kind === "value" ? figure.text : figure.kind));
};

describe("a row is split where a person sees the gaps", () => {
  it.each([
    ["", []],
    ["1.7", ["1.7"]],
    ["1.7 1.6", ["1.7", "1.6"]],
    ["1,7 1,6", ["1,7", "1,6"]],
    ["1.7, 1.6, 1.5", ["1.7", "1.6", "1.5"]],
    ["1.7,1.6,1.5", ["1.7", "1.6", "1.5"]],
    ["1.7;1.6", ["1.7", "1.6"]],
    ["1.7 mm 1.6 mm", ["1.7 mm", "1.6 mm"]],
    ["1.7\t1.6\r\n", ["1.7", "1.6"]],
    ["4/64 5/64", ["4/64", "5/64"]],
    ["4 1/2 5", ["4 1/2", "5"]],
    ["5 4 1/2 4/64", ["5", "4 1/2", "4/64"]],
    ["1.7 - 1.6", ["1.7", "-", "1.6"]],
    ["1.7 x 1.6", ["1.7", "x", "1.6"]],
    ["1.7 ± 0.05 1.6", ["1.7±0.05", "1.6"]],
  ])("%j", (typed, parts) => expect(splitRow(typed)).toEqual(parts));
});

describe("a row fills its places", () => {
  it.each([
    ["1.7 1.7 1.6 1.6 1.5 1.5", ["1.7 mm", "1.7 mm", "1.6 mm", "1.6 mm", "1.5 mm", "1.5 mm"]],
    ["1,70 1,65", ["1.70 mm", "1.65 mm"]],
    ["1.7 - 1.6", ["1.7 mm", "skip", "1.6 mm"]],
    ["1.7", ["1.7 mm"]],
    ["1.7 1.6 mm", ["1.7 mm", "1.6 mm"]],
    ["0.07 0.06 in", ["0.07 in", "0.06 in"]],
    ["4/64 1.6", ["4/64 in", "1.6 mm"]],
    ["", []],
  ])("%j", (typed, expected) => expect(texts(typed)).toEqual(expected));

  it("reads sixty-fourths", () => {
    expect(texts("5 4 4.5", 6, { dimension: "length", unit: "64ths" })).toEqual([
      "5/64 in",
      "4/64 in",
      "9/128 in",
    ]);
  });

  it("leaves a half mark with its whole one: one string, not two", () => {
    const field = { dimension: "length", unit: "64ths" };
    expect(texts("4 1/2", 6, field)).toEqual(["9/128 in"]);
    expect(texts("5 4 1/2 4", 6, field)).toEqual(["5/64 in", "9/128 in", "4/64 in"]);
    expect(texts("1/2", 6, field)).toMatch(/could be a part of one sixty-fourth/);
    expect(rowTexts("4 1/2", field)).toEqual(["4 1/2"]);
  });

  it.each([
    ["1 2 3 4 5 6 7", 6, "7 figures for 6 strings. None was taken."],
    ["1.7 abc 1.6", 6, "Figure 2 of 3: “abc” is no number. Expected a length such as 1.7 mm."],
    ["1.7 1.6 3 kg", 6, "Figure 3 of 3: “kg” goes with a weight. Expected a length such as 1.7 mm."],
    ["1.7 1.6", 1, "“1.7 1.6” holds more than one number. One reading is expected, such as 1.7 mm."],
    ["1 000", 6, "Figure 2 of 2: “000” begins with a nought: is the point missing?"],
  ])("%j is refused whole", (typed, room, says) => expect(texts(typed, room)).toBe(says));
});
