import { describe, expect, it } from "vitest";
import { ApiError } from "../../src/api/client";
import { copyText, figureText, inputsOf, laidOut, missing, refusedAt, themesOf, type Sum, type SumAnswer } from "../../src/sums/sums";

const sum: Sum = {
  name: "fret-places", title: "Fret places", theme: "Frets", says: "Where every fret stands.",
  inputs: [
    { name: "scale", says: "open length", kind: "quantity", dimension: "length", expects: "expected 200 mm to 1200 mm", required: true },
    { name: "frets", says: "how many", kind: "quantity", dimension: "count", expects: "expected 1 to 48", usual: "22", required: false },
    { name: "thread", says: "thread", kind: "text", expects: "expected a thread", required: false },
  ],
  outputs: [
    { name: "fret", says: "fret" }, { name: "place", says: "from the nut", unit: "mm" }, { name: "grows", says: "grows by" },
    { name: "rule", says: "by the old rule", unit: "mm" },
  ],
  formula: "", source: "", cautions: [], example: { scale: "647.7 mm" },
};
const answer: SumAnswer = {
  schema: "fallaway/sums/1", sum: "fret-places", notes: ["a note"], cautions: [],
  outputs: { fret: [{ value: 1 }, { value: 2 }], place: [{ value: 36.3526076761, unit: "mm" }, { value: 70.6649, unit: "mm" }], grows: { value: 1.39, u: 0.021 } },
};

describe("inputs", () => {
  it("are trimmed, decimal commas become points, empty ones are left out", () => {
    expect(inputsOf({ scale: " 647,7 mm ", frets: "  ", thread: "M3x0,35" }, sum.inputs)).toEqual({ scale: "647.7 mm", thread: "M3x0,35" });
  });
  it("that must be there are named", () => {
    expect(missing({}, sum.inputs)).toEqual(["scale"]);
    expect(missing({ scale: "1 m" }, sum.inputs)).toEqual([]);
  });
});

describe("a refusal", () => {
  const error = (...paths: string[]) => new ApiError(400, { code: "unit", path: paths[0] ?? "", message: "unit missing" },
    paths.map((path) => ({ code: "unit", path, message: "unit missing" })));
  it("stands at its field, however the server writes the path", () => {
    for (const path of ["scale", "/inputs/scale", "/inputs/scale/0", "scale[2]"])
      expect(refusedAt(error(path), sum.inputs)).toEqual([{ field: "scale", says: "Unit missing." }]);
  });
  it("of no field stands at the sum, and none is lost", () => {
    expect(refusedAt(error("", "frets"), sum.inputs).map((one) => one.field)).toEqual(["", "frets"]);
  });
});

describe("a figure", () => {
  it.each([
    [{ value: 36.3526076761, unit: "mm" }, "36.353 mm"], [{ value: 22 }, "22"], [{ value: -0.40, unit: "mm" }, "\u22120.4 mm"],
    [{ value: 7.1512745, unit: "kohm", u: 0.0459 }, "7.151 ± 0.046 kohm"], [{ value: 635.03361, u: 15.6, unit: "mm" }, "635 ± 16 mm"],
    [{ value: 0, unit: "mm" }, "0 mm"], [{ value: -0.001, u: 0.2 }, "0.00 ± 0.20"], [{ value: null }, "no figure"],
    [{ value: 0.032914, unit: "mm" }, "0.0329 mm"], [{ value: 0.00047123, unit: "mm" }, "0.00047 mm"], [{ value: 82.4069, unit: "Hz" }, "82.407 Hz"],
    [{ value: 0.0000012, unit: "m" }, "1.200e\u22126 m"],
  ])("%o", (figure, says) => expect(figureText(figure)).toBe(says));
});

describe("an answer", () => {
  it("lays single figures in lines and columns in one table, the unit in the head", () => {
    expect(laidOut(sum, answer)).toEqual({
      lines: [{ says: "grows by", text: "1.390 ± 0.021" }],
      table: { heads: ["fret", "from the nut, mm"], rows: [["1", "36.353"], ["2", "70.665"]] },
    });
  });
  it("keeps one number of decimals down a column", () => {
    const places = [{ value: 36.3526, unit: "mm" }, { value: 323.85, unit: "mm" }, { value: null, unit: "mm" }];
    expect(laidOut(sum, { ...answer, outputs: { place: places } }).table?.rows).toEqual([["36.35"], ["323.85"], ["no figure"]]);
  });
  it("is copied with what was asked, tabs between columns", () => {
    expect(copyText(sum, { scale: "647.7 mm" }, answer).split("\n")).toEqual([
      "Fret places: scale 647.7 mm", "grows by: 1.390 ± 0.021", "fret\tfrom the nut, mm", "1\t36.353", "2\t70.665", "a note",
    ]);
  });
});

describe("the list", () => {
  it("stands by theme and is searched in titles, words and fields", () => {
    const other = { ...sum, name: "weight", title: "Weight", theme: "Body", says: "How heavy.", inputs: [], outputs: [] };
    expect(themesOf([sum, other], "").map((theme) => theme.title)).toEqual(["Frets", "Body"]);
    expect(themesOf([sum, other], "open LENGTH").map((theme) => theme.title)).toEqual(["Frets"]);
    expect(themesOf([sum, other], "nothing like it")).toEqual([]);
  });
});
