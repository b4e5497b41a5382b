import { describe, expect, it } from "vitest";
import { otherUnit, parseField, type Field } from "../../src/entry/quantity";

const length: Field = { dimension: "length", unit: "mm" };
const in64: Field = { dimension: "length", unit: "64ths" };
const inches: Field = { dimension: "length", unit: "in" };
const ohm: Field = { dimension: "resistance", unit: "kohm" };
const cents: Field = { dimension: "interval", unit: "cents" };
const mass: Field = { dimension: "mass", unit: "kg" };
const angle: Field = { dimension: "angle", unit: "deg" };
const turn: Field = { dimension: "angle", unit: "turn" };
const share: Field = { dimension: "ratio", unit: "%" };
const count: Field = { dimension: "count", unit: "" };
const hours: Field = { dimension: "time", unit: "h" };

describe("what is kept is text with its unit", () => {
  it.each<[string, Field, string, number]>([
    ["1.7", length, "1.7 mm", 1.7],
    ["1.70", length, "1.70 mm", 1.7],
    ["1,7", length, "1.7 mm", 1.7],
    ["1,70 mm\r", length, "1.70 mm", 1.7],
    ["1.70\n", length, "1.70 mm", 1.7],
    ["  1.7mm ", length, "1.7 mm", 1.7],
    ["1.7\u00a0mm", length, "1.7 mm", 1.7],
    ["1.7 MM", length, "1.7 mm", 1.7],
    ["+0.25", length, "0.25 mm", 0.25],
    ["\u22120.02", length, "-0.02 mm", -0.02],
    ["1,234", length, "1.234 mm", 1.234],
    ["0.063in", length, "0.063 in", 0.063],
    [".063 in", length, ".063 in", 0.063],
    ['0.063"', length, "0.063 in", 0.063],
    ["1/16", length, "1/16 in", 0.0625],
    ["4/64", length, "4/64 in", 0.0625],
    ["25 1/2 in", length, "25 1/2 in", 25.5],
    ["70 µm", length, "70 um", 70],
    ["4", in64, "4/64 in", 0.0625],
    ["4.5", in64, "9/128 in", 0.0703125],
    ["4,5", in64, "9/128 in", 0.0703125],
    ["4 1/2", in64, "9/128 in", 0.0703125],
    ["5/64", in64, "5/64 in", 0.078125],
    ["3/32", in64, "3/32 in", 0.09375],
    ["1.6 mm", in64, "1.6 mm", 1.6],
    ["0,063", inches, "0.063 in", 0.063],
    ["8.42", ohm, "8.42 kohm", 8.42],
    ["8,42k", ohm, "8.42 kohm", 8.42],
    ["8.42 kΩ", ohm, "8.42 kohm", 8.42],
    ["470R", ohm, "470 ohm", 470],
    ["0.4 ohm", ohm, "0.4 ohm", 0.4],
    ["1.2 M", ohm, "1.2 Mohm", 1.2],
    ["8k42", ohm, "8k42", 8.42],
    ["-3", cents, "-3 cents", -3],
    ["−3,5 ct", cents, "-3.5 cents", -3.5],
    ["3.6", mass, "3.6 kg", 3.6],
    ["3600 g", mass, "3600 g", 3600],
    ["8 lbs", mass, "8 lb", 8],
    ["9.5°", angle, "9.5 deg", 9.5],
    ["1/8", turn, "1/8 turn", 0.125],
    ["92", share, "92 %", 92],
    ["22", count, "22", 22],
    ["12", hours, "12 h", 12],
    ["1.7 ± 0.05", length, "1.7 mm ± 0.05 mm", 1.7],
    ["1,7 +/- 0,05", length, "1.7 mm ± 0.05 mm", 1.7],
  ])("%j", (typed, field, text, number) => {
    const parsed = parseField(typed, field);
    expect(parsed).toMatchObject({ kind: "value", typed, text });
    expect(parsed.kind === "value" && parsed.number).toBeCloseTo(number, 12);
  });
});

describe("left out and empty", () => {
  it.each(["-", "–", "x", "skip", " - "])("%j leaves the place out", (typed) =>
    expect(parseField(typed, length).kind).toBe("skip"),
  );
  it.each(["", "  ", "\r\n", "\u00a0"])("%j is nothing", (typed) =>
    expect(parseField(typed, length).kind).toBe("nothing"),
  );
});

describe("refused with one sentence, text kept", () => {
  it.each<[string, Field, RegExp]>([
    ["abc", length, /no number.*1\.7 mm/],
    ["mm", length, /no number/],
    ["1.7 kg", length, /kg” goes with a weight/],
    ["3 mm", mass, /mm” goes with a length/],
    ["1.7 parsec", length, /no unit known/],
    ["1.", length, /digits are missing/],
    ["1,", length, /digits are missing/],
    ["1.234,5", length, /both a point and a comma/],
    ["1,234,567", length, /more than one decimal mark/],
    ["1..7", length, /more than one decimal mark/],
    ["1'000", length, /between thousands/],
    ["1 000 mm", length, /space inside/],
    ["8,420", ohm, /a thousand or a decimal/],
    ["1.5-1.7", length, /range/],
    ["1e3", length, /exponent/],
    ["017", length, /point missing/],
    ["1.7 1.6", length, /more than one number/],
    ["1/0", length, /divides by nothing/],
    ["1/2", ohm, /fraction/],
    ["1/2 mm", length, /fraction/],
    ["4.3", in64, /cannot be read off a rule/],
    ["-8", ohm, /below zero/],
    ["-1", mass, /below zero/],
    ["21.5", count, /not whole/],
    ["1.7 ± ", length, /no uncertainty/],
    ["1.7 ± x", length, /no uncertainty/],
    ["1.7 ± -1", length, /no uncertainty/],
    ["nan", length, /no number/],
    ["0x10", length, /no unit known/],
    ["1.7 mm x", length, /no unit known/],
    ["9".repeat(81), length, /81 characters/],
    ["8 m", ohm, /goes with a length/],
  ])("%j", (typed, field, says) => {
    const parsed = parseField(typed, field);
    expect(parsed.kind).toBe("refused");
    expect(parsed.typed).toBe(typed);
    expect(parsed.kind === "refused" && parsed.says).toMatch(says);
  });

  it("offers the likely meaning where there is one", () => {
    expect(parseField("1'000", length)).toMatchObject({ instead: "1000" });
    expect(parseField("1.7 parsec", length)).toMatchObject({ instead: "1.7" });
  });
});

describe("the other unit stands beside, what was typed is not rewritten", () => {
  it.each([
    [1.7, "mm", "0.067 in"],
    [0.0625, "in", "1.59 mm"],
    [8.42, "kohm", ""],
  ])("%d %s", (number, unit, beside) => expect(otherUnit(number, unit)).toBe(beside));
});
