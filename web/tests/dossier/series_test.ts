import { describe, expect, it } from "vitest";
import { cellOf, mostTelling, parseFigure, pointsOf, sectionsOf, type Row } from "../../src/dossier/series";

describe("a figure as typed", () => {
  it.each([
    ["1.95 mm", 1.95, "mm", undefined], ["-0.4 cents", -0.4, "cents", undefined], ["\u22122 cents", -2, "cents", undefined],
    ["4/64 in", 1.5875, "mm", undefined], ["1 1/16 in", 26.9875, "mm", undefined], ["0.063 in", 1.6002, "mm", undefined],
    ["0.260 ± 0.006 mm", 0.26, "mm", 0.006], ["1.60 mm ± 0.04", 1.6, "mm", 0.04], ["1.60 mm +/- 0.04", 1.6, "mm", 0.04],
    ["7.15 kohm", 7.15, "kohm", undefined], ["22", 22, "", undefined], ["52 %RH", 52, "%RH", undefined],
  ])("%s", (text, value, unit, u) => {
    const found = parseFigure(text);
    expect(found?.value).toBeCloseTo(value, 9);
    expect(found?.unit).toBe(unit);
    expect(found?.u).toBe(u);
  });
  it.each(["", "just moves", "click", "hex core", "±", "1/0 in"])("is none in \"%s\"", (text) => expect(parseFigure(text)).toBeUndefined());
});

const row: Row = {
  what: "string height", at: "string 6, fret 12",
  values: [
    { visit: "b", day: "2026-11-06", stage: "after", text: "2.38 mm" },
    { visit: "b", day: "2026-11-02", stage: "before", text: "3.30 mm" },
    { visit: "a", day: "2025-10-02", stage: "arrival", text: "6/64 in" },
    { visit: "a", day: "2025-10-02", stage: "after", text: "" },
  ],
};

describe("a row of the past", () => {
  it("says for each stay what it was last, and before that", () => {
    expect(cellOf(row, "b")).toEqual({ last: "2.38 mm", before: "before 3.30 mm" });
    expect(cellOf(row, "a")).toEqual({ last: "6/64 in", before: "" });
    expect(cellOf(row, "c")).toBeUndefined();
  });
  it("gives points by day, inches beside millimetres", () => {
    const { points, left } = pointsOf(row);
    expect(points.map((point) => point.after)).toEqual([0, 396, 400]);
    expect(points[0]?.value).toBeCloseTo(2.38125, 9);
    expect(left).toBe(0);
  });
  it("counts what cannot be drawn", () => {
    const mixed: Row = { what: "nut", at: "", values: [{ visit: "a", day: "2025-01-01", stage: "arrival", text: "dead" }, { visit: "b", day: "2025-02-01", stage: "arrival", text: "0.05 mm" }] };
    expect(pointsOf(mixed)).toMatchObject({ left: 1, points: [{ value: 0.05 }] });
  });
});

describe("the table", () => {
  const relief: Row = { what: "relief", at: "string 6", values: [{ visit: "a", day: "2025-10-02", stage: "arrival", text: "0.3 mm" }] };
  const empty: Row = { what: "weight", at: "", values: [{ visit: "a", day: "2025-10-02", stage: "arrival", text: "" }] };
  it("stands by what is read, rows with nothing left out", () => {
    expect(sectionsOf([row, relief, empty], "").map((section) => section.what)).toEqual(["string height", "relief"]);
  });
  it("draws first what was read in the most stays", () => {
    expect(mostTelling([relief, row])).toBe(row);
    expect(mostTelling([])).toBeUndefined();
  });
  it("is searched by every word", () => {
    expect(sectionsOf([row, relief], "height 12").map((section) => section.what)).toEqual(["string height"]);
    expect(sectionsOf([row, relief], "HEIGHT 13")).toEqual([]);
  });
});
