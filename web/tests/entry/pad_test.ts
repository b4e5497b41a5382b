import { describe, expect, it } from "vitest";
import { isFigureKey, lastRow } from "../../src/entry/pad_keys";
import { spoken } from "../../src/entry/spoken";
import { unitFromSuffix, usualUnit } from "../../src/entry/units";

describe("the pad shows only keys that make sense", () => {
  it.each([
    ["length", "mm", ["0", "."]],
    ["length", "64ths", ["0", ".5", "/"]],
    ["angle", "turn", ["0", "/"]],
    ["interval", "cents", ["0", ".", "-"]],
    ["count", "", ["0"]],
  ])("%s in %s", (dimension, unit, keys) =>
    expect(lastRow(dimension, unit).map((key) => key.press)).toEqual(keys),
  );
});

describe("keys of a figure", () => {
  it.each([
    ["1", ""],
    [".", ""],
    [",", ""],
    ["-", ""],
    ["m", "1.7 "],
    [" ", "1.7"],
    ["/", "4"],
  ])("%j after %j", (key, draft) => expect(isFigureKey(key, draft)).toBe(true));
  it.each([
    ["m", ""],
    ["/", ""],
    [" ", ""],
    ["Enter", "1.7"],
    ["Tab", "1"],
    ["?", "1"],
  ])("%j after %j is none", (key, draft) => expect(isFigureKey(key, draft)).toBe(false));
});

describe("read aloud", () => {
  it.each([
    ["1.6 mm", "string 2, 1.6 millimetres"],
    ["4/64 in", "string 2, 4 sixty-fourths of an inch"],
    ["-3 cents", "string 2, minus 3 cents"],
    ["just moves", "string 2, just moves"],
    ["1.7 mm ± 0.05 mm", "string 2, 1.7 millimetres"],
    ["22", "string 2, 22"],
  ])("%s", (text, says) => expect(spoken("string 2", text)).toBe(says));
});

describe("units", () => {
  it("know their dimension, and M from m only where it matters", () => {
    expect(unitFromSuffix("M", "resistance")).toBe("Mohm");
    expect(unitFromSuffix("MM", "length")).toBe("mm");
    expect(unitFromSuffix("kg", "length")).toBe(null);
    expect(unitFromSuffix("", "length")).toBe("");
    expect([
      usualUnit("rest in the room", "time"),
      usualUnit("ground resistance", "resistance"),
      usualUnit("weight", "mass"),
    ]).toEqual(["h", "ohm", "kg"]);
  });
});
