import { describe, expect, it } from "vitest";
import { openNeck, type Wanted } from "../../src/neck/layout";
import { placeStations, stationFret, stationsOf } from "../../src/neck/stations";
import { judged, line, neck, view } from "../visit/sample_view";

const wanted: Wanted = { width: 740, fret: 3, rows: 3, rowHeight: 44, opening: 200, around: null };

describe("the opened neck", () => {
  const drawn = openNeck(neck, wanted);

  it("stands the strings on the rows at the break lines", () => {
    expect(drawn.opening.right - drawn.opening.left).toBeCloseTo(200, 6);
    expect(drawn.rows).toHaveLength(3);
    expect(drawn.rows[1]! - drawn.rows[0]!).toBeCloseTo(44, 6);
    const strings = drawn.halves[0].strings;
    for (const [i, string] of strings.entries()) {
      const slope = (string.y2 - string.y1) / (string.x2 - string.x1);
      const atBreak = string.y1 + slope * (drawn.opening.left - string.x1);
      // Half a fret from the station the strings lie as far off their rows as they spread in it: under 2 px here.
      expect(Math.abs(atBreak - drawn.rows[i]!)).toBeLessThan(2);
    }
  });

  it("keeps one scale along the neck, with the opened fret in the opening", () => {
    const [head, body] = drawn.halves;
    expect(head.frets.map((one) => one.fret)).toEqual([0, 1, 2]);
    expect(body.frets.map((one) => one.fret)).toEqual([4, 5]);
    const scale = (a: { x1: number }, b: { x1: number }, i: number, j: number) =>
      (b.x1 - a.x1) / (neck.frets[j]!.x1 - neck.frets[i]!.x1);
    expect(scale(head.frets[0]!, head.frets[2]!, 0, 2)).toBeCloseTo(
      scale(body.frets[0]!, body.frets[1]!, 4, 5),
      9,
    );
    expect(drawn.xOf(3)).toBeCloseTo((drawn.opening.left + drawn.opening.right) / 2, 9);
    expect(drawn.xOf(5)).toBeGreaterThan(drawn.opening.right);
  });

  it("is mirrored for a left-handed neck, rows and all figures where they were", () => {
    const left = openNeck({ ...neck, left: true }, wanted);
    expect(left.opening.left).toBeCloseTo(740 - drawn.opening.right, 9);
    expect(left.xOf(5)).toBeCloseTo(740 - drawn.xOf(5), 9);
    expect(left.rows).toEqual(drawn.rows);
    expect(left.labels.anchor).toBe("end");
  });

  it("keeps only the frets around on a phone", () => {
    const few = openNeck(neck, { ...wanted, width: 300, opening: 190, around: 1 });
    expect(few.shown).toEqual({ from: 2, to: 4 });
    for (const half of few.halves) {
      expect(half.clip.width).toBeGreaterThan(10);
      expect(half.clip.x + half.clip.width).toBeLessThanOrEqual(300 + 8);
    }
  });

  it.each([0, 1, 5])("opens at fret %d without a line out of place", (fret) => {
    const seen = openNeck(neck, { ...wanted, fret });
    const numbers = [
      ...seen.rows,
      seen.height,
      seen.opening.left,
      seen.opening.right,
      ...seen.halves.flatMap((one) => Object.values(one.clip)),
    ];
    expect(numbers.every((n) => Number.isFinite(n) && n >= -8)).toBe(true);
    expect(seen.opening.right).toBeLessThanOrEqual(740);
  });
});

describe("stations", () => {
  it("belong to frets, or to none", () => {
    expect(stationFret("string height", 12, 22)).toBe(12);
    expect(stationFret("relief", undefined, 22)).toBe(7);
    expect(stationFret("room at the edge", undefined, 22)).toBe(22);
    expect(stationFret("weight", undefined, 22)).toBe(null);
  });

  it("say what was taken, one for each fret, the one in hand first", () => {
    const seen = view({}, [judged("tap", "fine", [line({ string: 1 }, { observable: "nut tap" })])]);
    const all = stationsOf(seen, "heights");
    expect(all.map((one) => [one.fret, one.place, one.figure, one.tail])).toEqual([
      [5, "fret 5", "", "taking now"],
      [0, "nut", "", "not taken"],
    ]);
  });

  it("never stand over one another nor off the page", () => {
    const many = [0, 1, 2, 3, 4, 5].map((fret) => ({
      fret,
      checkpoint: `c${fret}`,
      place: "fret",
      figure: "1.70 to 1.90",
      tail: "±0.05",
      now: fret === 5,
    }));
    const placed = placeStations(many, (fret) => 60 * fret, 0, 360);
    expect(placed[0]!.now).toBe(true);
    for (const one of placed) {
      expect(one.left).toBeGreaterThanOrEqual(0);
      expect(one.left + one.width).toBeLessThanOrEqual(360);
      for (const other of placed) {
        if (one === other || one.row !== other.row) continue;
        expect(one.left + one.width <= other.left || other.left + other.width <= one.left).toBe(true);
      }
    }
  });
});
