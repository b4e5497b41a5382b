import { describe, expect, it } from "vitest";
import type { Answer } from "../../src/api/types";
import { figureIn, intervalOf, marksOn, scaleOver, signedIn, uncertaintyOf } from "../../src/verdict/change_scale";

describe("the scale of a change", () => {
  it("keeps every value off its ends, in order", () => {
    const scale = scaleOver([1.98, 2.75, 3.3]);
    expect(scale.at(1.98)).toBeGreaterThan(0.05);
    expect(scale.at(3.3)).toBeLessThan(0.95);
    expect(scale.at(2.75)).toBeGreaterThan(scale.at(1.98));
  });
  it("stands for one value alone, nought too", () => {
    expect(scaleOver([0.26]).at(0.26)).toBeCloseTo(0.5, 9);
    expect(scaleOver([0, 0]).at(0)).toBeCloseTo(0.5, 9);
  });
  it("has round marks, no more than seven", () => {
    for (const [low, high] of [[0.2, 0.6], [1.9, 3.4], [-9, 1], [0.0012, 0.0031], [100, 4200]] as const) {
      const marks = marksOn({ low, high });
      expect(marks.length).toBeGreaterThanOrEqual(2);
      expect(marks.length).toBeLessThanOrEqual(7);
      for (const mark of marks) expect(mark >= low - 1e-9 && mark <= high + 1e-9).toBe(true);
    }
    expect(marksOn({ low: 1.9, high: 3.4 })).toEqual([2, 2.5, 3]);
  });
});

describe("the interval of the mean", () => {
  it("is told from two places on, when they differ at all", () => {
    expect(intervalOf({ n: 4, mean: -5.6, ci95: [-8.3, -2.9] })).toEqual([-8.3, -2.9]);
    expect(intervalOf({ n: 1, mean: -0.1, ci95: [0, 0] })).toBeUndefined();
    expect(intervalOf({ n: 2, mean: -0.305, ci95: [-0.305, -0.305] })).toBeUndefined();
    expect(intervalOf({ n: 3, mean: 1, ci95: [] })).toBeUndefined();
  });
});

describe("figures", () => {
  it("carry true minus signs and no minus nought", () => {
    expect(figureIn(-0.305, "mm")).toBe("\u22120.30");
    expect(figureIn(-0.001, "mm")).toBe("0.00");
    expect(signedIn(0.1875, "mm")).toBe("+0.19");
    expect(signedIn(-5.608, "cents")).toBe("\u22125.6");
  });
});

describe("uncertainty of a reading", () => {
  const answers = [{
    checkpoint: "action-12", section: "setup", question: "", in_scope: true, state: "fine",
    lines: [{ at: { string: 1, fret: 12 }, observable: "string height", found: { value: 1.975, unit: "mm", u: 0.029 }, standing: "usual" }],
  }] as Answer[];
  it("comes from the answer at that place with that value", () => {
    expect(uncertaintyOf(answers, "string height, fret 12", { string: 1, fret: 12 }, 1.975)).toBe(0.029);
    expect(uncertaintyOf(answers, "string height, fret 12", { string: 1 }, 1.975)).toBe(0.029);
  });
  it("is unknown for a reading the answers no longer carry", () => {
    expect(uncertaintyOf(answers, "string height, fret 12", { string: 1, fret: 12 }, 2.75)).toBeUndefined();
    expect(uncertaintyOf(answers, "relief", { string: 1 }, 1.975)).toBeUndefined();
    expect(uncertaintyOf(answers, "string height, fret 12", { string: 2, fret: 12 }, 1.975)).toBeUndefined();
  });
});
