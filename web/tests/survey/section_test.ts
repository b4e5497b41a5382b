import { describe, expect, it } from "vitest";
import { acrossAt, alongString, dropAt, partOf, radiusAt } from "../../src/survey/section";
import { nextAt, openAt, survey } from "./sample_survey";

describe("the section across", () => {
  const one = survey();
  const drawn = acrossAt(one, 4, 340, false);

  it("has a cone's radius: the stated ones at its ends", () => {
    expect(radiusAt(one.board, 0, 5)).toBeCloseTo(250, 9);
    expect(radiusAt(one.board, 5, 5)).toBeCloseTo(400, 9);
    // An arc of radius 5 has dropped by 1 at 3: the sides 3, 4, 5.
    expect(dropAt(3, 5)).toBeCloseTo(1, 12);
  });

  it("draws each string at its room over this fret, all in one scale", () => {
    const px = drawn.strings.map((string) => string.crownY - (string.y + string.r));
    const perMm = px.map((room) => room / openAt(4));
    for (const scale of perMm) expect(scale).toBeCloseTo(perMm[0]!, 6);
    expect(drawn.strings.map((string) => string.figure)).toEqual([openAt(4), openAt(4), openAt(4)]);
  });

  it("keeps its scale from fret to fret, so that two can be compared", () => {
    expect(acrossAt(one, 1, 340, false).factor).toBe(drawn.factor);
    expect(acrossAt(one, 1, 340, false).height).toBeCloseTo(drawn.height, 9);
  });

  it("has the bass at the left, for the left hand at the right", () => {
    expect(drawn.strings[2]!.x).toBeLessThan(drawn.strings[0]!.x);
    expect(acrossAt(one, 4, 340, true).strings[2]!.x).toBeCloseTo(340 - drawn.strings[2]!.x, 9);
  });

  it("has no wire where there is none", () => {
    expect(acrossAt({ ...one, board: { ...one.board, fret_height_mm: 0 } }, 4, 340, false).fret).toBe("");
  });
});

describe("the section along", () => {
  it("meets the crown it is held at, and has the room over the next that was told", () => {
    for (const left of [false, true]) {
      const drawn = alongString(survey(), 2, 2, 800, left);
      const crown = drawn.crowns[1]!;
      expect([drawn.held.x1, drawn.held.y1]).toEqual([crown.x, crown.y]);
      const { next, held, factor } = drawn;
      expect(next?.figure).toBeCloseTo(nextAt(2), 9);
      // The drawn line passes where the figure says: an independent way to the same height.
      const on = held.y1 + ((held.y2 - held.y1) * (next!.x - held.x1)) / (held.x2 - held.x1);
      expect(on).toBeCloseTo(next!.stringY, 4);
      const perMmAlong = Math.abs(drawn.crowns[4]!.x - drawn.nut) / (600 * partOf(5));
      expect((next!.crownY - next!.stringY) / nextAt(2)).toBeCloseTo(factor * perMmAlong, 6);
    }
  });

  it("has no next room at the last fret", () => {
    expect(alongString(survey(), 1, 5, 800, false).next).toBeUndefined();
  });
});
