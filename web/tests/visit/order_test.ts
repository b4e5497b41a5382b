import { describe, expect, it } from "vitest";
import { barred, forbidden, neighbour, nextOpen, placeInScope } from "../../src/visit/order";
import { summaryOf } from "../../src/visit/summary";
import { valueOf } from "../../src/visit/set_field";
import { catalogue, judged, line, reading, view } from "./sample_view";

describe("where the sheet goes next", () => {
  it("is the next open checkpoint of the scope, past what the hands rule forbids, then from the top", () => {
    expect(nextOpen(view(), undefined)).toBe("heights");
    expect(nextOpen(view(), "heights")).toBe("tap");
    expect(nextOpen(view(), "tap")).toBe("heights");
    expect(nextOpen(view(), "tap", new Set(["heights"]))).toBe(undefined);
    expect(forbidden(view(), "cavity")).toBe("look only: opens a cavity");
    expect(barred(view(), "seat", "slackens strings")).toBe("look only: it slackens strings");
    expect(barred(view(), "seat", "nothing")).toBe("");
  });

  it("knows neighbours and places", () => {
    expect([
      neighbour(view(), "heights", -1),
      neighbour(view(), "heights", 1),
      neighbour(view(), "tap", 1),
    ]).toEqual(["seat", "cavity", undefined]);
    expect(placeInScope(view(), "cavity")).toEqual({ at: 3, of: 4 });
    expect(placeInScope(view(), "weight")).toEqual({ at: 0, of: 4 });
  });
});

describe("what the list says", () => {
  const says = (seen: ReturnType<typeof view>, id: string) => summaryOf(seen, catalogue, id);
  const word = (string: number, words: string) =>
    line({ string }, { observable: "nut tap", found: { words }, standing: "good" });

  it("nothing, a count, a range, words", () => {
    expect(says(view(), "heights")).toEqual({ figure: "", tail: "", fault: false });
    expect(
      says(view({ entries: [reading("string height", { string: 1, fret: 5 }, "1.7 mm")] }), "heights").figure,
    ).toBe("1 of 3");
    const some = judged("heights", "partly read", [line({ string: 1 })]);
    expect(says(view({}, [some]), "heights").figure).toBe("1 of 3");
    const low = line(
      { string: 2 },
      { found: { value: -0.2, unit: "mm", u: 0.02, text: "-0.20 ± 0.02 mm" }, standing: "outside" },
    );
    expect(says(view({}, [judged("heights", "fault found", [line({ string: 1 }), low])]), "heights")).toEqual({
      figure: "−0.20 to 1.70",
      tail: "±0.03 mm",
      fault: true,
    });
    expect(
      says(
        view({}, [judged("tap", "fine", [word(1, "dead"), word(2, "just moves"), word(3, "just moves")])]),
        "tap",
      ),
    ).toEqual({ figure: "1 dead", tail: "others just moves", fault: false });
  });

  it("a sentence that was tapped, before the server has judged it", () => {
    const rating = { ...reading("", {}, ""), path: "/ratings", value: { checkpoint: "seat", step: 3 } };
    expect(says(view({ entries: [rating] }), "seat")).toEqual({
      figure: "noted",
      tail: "fully bedded",
      fault: false,
    });
  });
});

describe("what is set once", () => {
  const form = { dimension: undefined, list: false, separator: " ", whole: false };
  it.each([
    ["", form, null],
    [" Heron ", form, "Heron"],
    ["22", { ...form, whole: true }, 22],
    ["635", { ...form, dimension: "length" }, "635 mm"],
    ["25 1/2 in", { ...form, dimension: "length" }, "25 1/2 in"],
    ["E4 B3, G3", { ...form, list: true }, ["E4", "B3", "G3"]],
    ["bridge; both;", { ...form, list: true, separator: ";" }, ["bridge", "both"]],
  ])("%j", (text, how, value) => expect(valueOf(text, how)).toEqual({ value }));
  it.each([
    ["22.5", { ...form, whole: true }],
    ["long", { ...form, dimension: "length" }],
    ["3 kg", { ...form, dimension: "length" }],
  ])("%j is refused", (text, how) => expect(valueOf(text, how)).toHaveProperty("says"));
});
