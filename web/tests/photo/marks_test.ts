import { describe, expect, it } from "vitest";
import { markAt, moved, placeWords, withMark, without, written } from "../../src/photo/marks";
import { fitWithin, goesAsItIs, longestSidePx } from "../../src/photo/picture";

const frame = { left: 100, top: 50, width: 400, height: 200 };

describe("a mark", () => {
  it("stands where the tap landed, as a share of the picture", () => {
    expect(markAt({ clientX: 200, clientY: 200 }, frame)).toEqual({ x: 0.25, y: 0.75 });
  });
  it("stays on the picture when the tap was a hair beside it", () => {
    expect(markAt({ clientX: 99, clientY: 260 }, frame)).toEqual({ x: 0, y: 1 });
  });
  it("moves by arrow keys, further with Shift, and keeps its words", () => {
    const mark = { x: 0.5, y: 0.5, says: "crack" };
    expect(moved(mark, "ArrowLeft", false)).toEqual({ x: 0.49, y: 0.5, says: "crack" });
    expect(moved(mark, "ArrowDown", true)).toEqual({ x: 0.5, y: 0.55, says: "crack" });
    expect(moved({ x: 1, y: 0 }, "ArrowRight", true)).toEqual({ x: 1, y: 0 });
    expect(moved(mark, "Enter", false)).toBeUndefined();
  });
  it("is changed and taken out by its number, the others kept", () => {
    const marks = [{ x: 0, y: 0 }, { x: 0.5, y: 0.5 }];
    expect(withMark(marks, 1, { x: 1, y: 1 })).toEqual([{ x: 0, y: 0 }, { x: 1, y: 1 }]);
    expect(without(marks, 0)).toEqual([{ x: 0.5, y: 0.5 }]);
  });
  it("is written without empty words", () => {
    expect(written([{ x: 0.1, y: 0.2, says: "  dent " }, { x: 0, y: 1, says: "   " }])).toEqual([{ x: 0.1, y: 0.2, says: "dent" }, { x: 0, y: 1 }]);
  });
  it("is told in words", () => expect(placeWords({ x: 0.62, y: 0.4 })).toBe("at 62 of 100 from the left, 40 from the top"));
});

describe("a picture", () => {
  it("keeps its proportion when made smaller", () => {
    expect(fitWithin({ width: 8192, height: 6144 }, longestSidePx)).toEqual({ width: 4096, height: 3072 });
    expect(fitWithin({ width: 3000, height: 9000 }, longestSidePx)).toEqual({ width: 1365, height: 4096 });
  });
  it("is left alone when it fits, and never vanishes", () => {
    expect(fitWithin({ width: 4096, height: 10 }, longestSidePx)).toEqual({ width: 4096, height: 10 });
    expect(fitWithin({ width: 100_000, height: 2 }, longestSidePx)).toEqual({ width: 4096, height: 1 });
  });
  it("goes as it is only in a format the shop takes", () => {
    expect(goesAsItIs("image/jpeg", { width: 4000, height: 3000 })).toBe(true);
    expect(goesAsItIs("image/heic", { width: 4000, height: 3000 })).toBe(false);
    expect(goesAsItIs("image/png", { width: 4097, height: 10 })).toBe(false);
  });
});
