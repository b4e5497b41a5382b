import { describe, expect, it } from "vitest";
import {
  describePlace,
  directionWords,
  inDirection,
  keyOf,
  placeWord,
  rowLabel,
  samePlace,
} from "../../src/visit/places";

describe("places", () => {
  it.each([
    [undefined, "", "whole instrument", "reading"],
    [{}, "", "whole instrument", "reading"],
    [{ string: 6, fret: 12 }, "s6.f12", "string 6, fret 12", "string"],
    [{ fret: 0 }, "f0", "open", "fret"],
    [{ fret: 9, side: "treble" as const }, "f9.treble", "fret 9, treble side", "edge"],
    [{ switch: "both" }, "switch:both", "switch both", "position"],
    [{ pickup: "neck" }, "pickup:neck", "neck pickup", "pickup"],
    [{ control: "tone" }, "control:tone", "tone", "control"],
    [{ string: 4, pressed: 20 }, "s4.p20", "string 4, held at fret 20", "string"],
    [{ spot: "back of head" }, "spot:back of head", "back of head", "reading"],
  ])("%j", (at, key, words, word) => {
    expect(keyOf(at)).toBe(key);
    expect(describePlace(at)).toBe(words);
    expect(placeWord(at)).toBe(word);
  });

  it("is the same whatever the order of its parts", () => {
    expect(samePlace({ fret: 12, string: 6 }, { string: 6, fret: 12 })).toBe(true);
    expect(samePlace({ string: 6 }, { string: 6, fret: 12 })).toBe(false);
  });

  it("goes bass first or treble first, strings only", () => {
    const strings = [1, 2, 3].map((string) => ({ at: { string } }));
    expect(inDirection(strings, true).map((one) => one.at.string)).toEqual([3, 2, 1]);
    expect(inDirection(strings, false).map((one) => one.at.string)).toEqual([1, 2, 3]);
    expect(directionWords(inDirection(strings, true))).toBe("Bass first, 3 to 1.");
    const edges = [{ at: { side: "bass" as const } }, { at: { side: "treble" as const } }];
    expect(inDirection(edges, false)).toEqual(edges);
    expect(directionWords(edges)).toBe("");
  });

  it("labels a row by what tells it from the next", () => {
    expect(rowLabel({ string: 2, fret: 12 }, ["E4", "B3"])).toEqual({ head: "2", tail: "B" });
    expect(rowLabel({ switch: "both" }, [])).toEqual({ head: "both", tail: "" });
  });
});
