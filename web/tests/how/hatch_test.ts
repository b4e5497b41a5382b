import { describe, expect, it } from "vitest";
import { cap, hatch, pathOf, type Point } from "../../src/how/hatch";

function strokes(path: string): [number, number, number, number][] {
  return [...path.matchAll(/M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)/g)].map((m) => [Number(m[1]), Number(m[2]), Number(m[3]), Number(m[4])]);
}

const square: Point[] = [[0, 0], [40, 0], [40, 40], [0, 40]];
const rounding = 0.06; // figures are written to a tenth

describe("hatch", () => {
  it("draws nothing where there is no surface", () => {
    expect(hatch([], 7)).toBe("");
    expect(hatch([[0, 0], [10, 10]], 7)).toBe("");
  });

  it("runs at 45 degrees, inside, as far apart as asked", () => {
    const lines = strokes(hatch(square, 7));
    expect(lines.length).toBeGreaterThan(4);
    for (const [x1, y1, x2, y2] of lines) {
      expect(Math.abs((x2 - x1) + (y2 - y1))).toBeLessThanOrEqual(2 * rounding);
      for (const v of [x1, y1, x2, y2]) {
        expect(v).toBeGreaterThanOrEqual(-rounding);
        expect(v).toBeLessThanOrEqual(40 + rounding);
      }
    }
    const sums = lines.map(([x, y]) => x + y);
    for (let i = 1; i < sums.length; ++i) expect(sums[i]! - sums[i - 1]!).toBeCloseTo(7 * Math.SQRT2, 0);
  });

  it("leaves the notch of a hollow shape free", () => {
    const notched: Point[] = [[0, 0], [40, 0], [40, 40], [30, 40], [30, 10], [10, 10], [10, 40], [0, 40]];
    for (const [x1, y1, x2, y2] of strokes(hatch(notched, 5))) {
      const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2];
      expect(x > 10.1 && x < 29.9 && y > 10.1, `${x} ${y}`).toBe(false);
    }
  });
});

describe("cap", () => {
  it("stands on its chord and rises in the middle", () => {
    const points = cap(20, 80, 100, 12, 10);
    expect(points[0]).toEqual([20, 100]);
    expect(points.at(-1)).toEqual([80, 100]);
    expect(points[5]).toEqual([50, 88]);
  });
  it("becomes a path", () => expect(pathOf([[0, 1], [2, 3]], false)).toBe("M0 1L2 3"));
});
