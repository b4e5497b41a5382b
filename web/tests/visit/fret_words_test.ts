import { describe, expect, it } from "vitest";
import { fretsOf, listWords } from "../../src/visit/fret_words";

describe("a fret as it is typed", () => {
  it.each([
    ["5", [5], ""],
    [" 0 ", [0], ""],
    ["fret 22", [22], ""],
    ["5-7", [5, 7], "frets 5 to 7"],
    ["5 – 7", [5, 7], "frets 5 to 7"],
    ["5 to 7", [5, 7], "frets 5 to 7"],
    ["7-5", [5, 7], "frets 5 to 7"],
    ["5-5", [5], ""],
    ["5-", [5], ""], // the range is still being typed
    ["5, 7", [5, 7], "frets 5 and 7"],
    ["5 7 9", [5, 7, 9], "frets 5, 7 and 9"],
    ["frets 5 and 7", [5, 7], "frets 5 and 7"],
  ])("%s", (typed, frets, words) => {
    expect(fretsOf(typed, 22)).toEqual({ kind: "frets", frets, words });
  });
  it("is nothing when empty", () => {
    expect(fretsOf(" ", 22)).toEqual({ kind: "nothing" });
  });
  it.each([
    ["99", "There is no fret 99."],
    ["5-23", "There is no fret 23."],
    ["-5", "is no fret."],
    ["5.5", "is no fret."],
    ["high up", "is no fret."],
    ["5-7-9", "is no fret."],
  ])("%s is refused with what was expected", (typed, says) => {
    const read = fretsOf(typed, 22);
    expect(read.kind).toBe("refused");
    expect(read.kind === "refused" && read.says).toContain(says);
    expect(read.kind === "refused" && read.says).toContain("frets 0 to 22");
  });
});

it("several strings are said in words", () => {
  expect(listWords([6], "string")).toBe("");
  expect(listWords([5, 6], "string")).toBe("strings 5 and 6");
});
