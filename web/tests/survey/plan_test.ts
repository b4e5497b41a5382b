import { describe, expect, it } from "vitest";
import { planOf, sheetAt } from "../../src/survey/plan";
import { neck } from "../visit/sample_view";
import { survey } from "./sample_survey";

const right = planOf(neck, survey(), 800);
const left = planOf({ ...neck, left: true }, survey(), 800);

describe("the survey sheet in plan", () => {
  it("puts frets at their true places and what lies between them in proportion", () => {
    const x = (fret: number) => right.at(fret, 2)[0];
    const part = (fret: number) => 1 - 2 ** (-fret / 12);
    expect((x(3) - x(0)) / (x(5) - x(0))).toBeCloseTo(part(3) / part(5), 6);
    expect(x(2.25)).toBeCloseTo(x(2) + 0.25 * (x(3) - x(2)), 6);
    const [, y1] = right.at(4, 1);
    const [, y2] = right.at(4, 2);
    expect(right.at(4, 1.5)[1]).toBeCloseTo((y1 + y2) / 2, 6);
  });

  it("mirrors the drawing for the left hand, string 1 stays on top", () => {
    for (const fret of [0, 2, 5]) {
      expect(left.at(fret, 3)[0]).toBeCloseTo(800 - right.at(fret, 3)[0], 6);
      expect(left.at(fret, 3)[1]).toBeCloseTo(right.at(fret, 3)[1], 6);
    }
    expect(left.at(0, 1)[0]).toBeGreaterThan(left.at(5, 1)[0]);
  });

  it("finds the fret and the string under a finger, in both hands", () => {
    for (const layout of [right, left])
      for (const fret of [1, 3, 5])
        for (const string of [1, 2, 3]) {
          const [x, y] = layout.at(fret, string);
          expect(layout.nearest([x + 3, y - 3])).toEqual({ fret, string });
        }
    expect(right.nearest([-50, 0]).fret).toBe(1);
  });

  it("draws zero heavy, dashes what is not sure, and ticks only what lies below zero, on its lower side", () => {
    const [zero, below, above] = right.lines;
    expect([zero?.zero, below?.zero, above?.zero]).toEqual([true, false, false]);
    expect([zero?.sure, above?.sure]).toEqual([true, false]);
    expect(zero?.ticks).toEqual([]);
    expect(above?.ticks).toEqual([]);
    expect(below?.ticks.length).toBeGreaterThan(0);
    // The tops fall from the head to the body: to the right, and mirrored to the left.
    for (const one of below?.ticks ?? []) expect(one.x2).toBeGreaterThan(one.x1);
    for (const one of left.lines[1]?.ticks ?? []) expect(one.x2).toBeLessThan(one.x1);
  });

  it("writes heights where none stands over another", () => {
    const tall = planOf(neck, survey(), 2400);
    expect(tall.heights.map((one) => one.text).sort()).toEqual(["+0.02", "0", "−0.02"].sort());
    for (const a of tall.heights)
      for (const b of tall.heights)
        if (a !== b) expect(Math.abs(a.x - b.x) > (a.width + b.width) / 2 || Math.abs(a.y - b.y) > 20).toBe(true);
  });

  it("says how well each top is known, in brackets where that is assumed", () => {
    const one = survey();
    one.crowns[2] = { ...one.crowns[2]!, assumed: true, off: { value: 0, u: 0.041 } };
    const { marks } = planOf(neck, one, 800).chain;
    expect(marks.map((mark) => mark.says)).toEqual(["±0.02", "±0.02", "[±0.04]", "±0.02", "±0.02"]);
  });

  it("knows the sheet between crossings", () => {
    expect(sheetAt(survey(), 3.5, 1.5)).toBeCloseTo(-0.01, 9);
    expect(sheetAt(survey(), 0, 9)).toBeCloseTo(0.04, 9);
  });
});
