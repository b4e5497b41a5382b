import { describe, expect, it } from "vitest";
import { atStage, cellAt, rowDone, type Cell } from "../../src/visit/figures";
import {
  moment,
  nextPlace,
  placesForAll,
  readingEntry,
  repeatEntry,
  take,
  takeRepeats,
  type Hand,
} from "../../src/visit/taking";
import { reading, view } from "./sample_view";

const mm = { dimension: "length", unit: "mm" };
const hand: Hand = {
  stage: "arrival",
  by: "Ruta",
  tool: "",
  when: "2026-11-25T14:07:31+01:00",
  newId: () => "00000000000000ff",
};
const cells = (values: Record<number, string> = {}): Cell[] => {
  const entries = Object.entries(values).map(([string, value]) =>
    reading("string height", { string: Number(string), fret: 5 }, value),
  );
  const seen = view({ entries });
  return [3, 2, 1].map((string) => cellAt(seen, "heights", "string height", { string, fret: 5 }));
};

describe("Enter", () => {
  it("takes one figure and goes to the next open place", () => {
    expect(take("1.7", mm, cells(), 0, "arrival", "string")).toMatchObject({
      figures: [{ index: 0, text: "1.7 mm" }],
      active: 1,
    });
    expect(take("1.7", mm, cells({ 2: "1.6 mm" }), 0, "arrival", "string")).toMatchObject({ active: 2 });
    expect(take("1.7", mm, cells({ 3: "1.8 mm", 2: "1.6 mm" }), 2, "arrival", "string")).toMatchObject({
      active: null,
    });
  });

  it("takes a whole row and is done", () => {
    expect(take("1.7 1.6 1.5", mm, cells(), 0, "arrival", "string")).toMatchObject({
      figures: [
        { index: 0, text: "1.7 mm" },
        { index: 1, text: "1.6 mm" },
        { index: 2, text: "1.5 mm" },
      ],
      active: null,
    });
  });

  it("leaves a string out and comes back to what is open", () => {
    expect(take("1.7 - 1.5", mm, cells(), 0, "arrival", "string")).toMatchObject({
      figures: [{ index: 0 }, { index: 2 }],
      active: null,
    });
    expect(take("", mm, cells(), 0, "arrival", "string")).toEqual({ kind: "taken", figures: [], active: 1 });
    expect(take("-", mm, cells(), 2, "arrival", "string")).toEqual({ kind: "taken", figures: [], active: null });
  });

  it("refuses a row that is too long, from where it stands", () => {
    expect(take("1 2 3", mm, cells(), 1, "arrival", "string")).toEqual({
      kind: "refused",
      says: "3 figures for 2 strings. None was taken.",
    });
    expect(take("1'000", mm, cells(), 2, "arrival", "string")).toMatchObject({ kind: "refused", instead: "1000" });
  });
});

describe("while a place is repeated", () => {
  it("a row belongs to that place, and no more of it is taken than all", () => {
    expect(takeRepeats("2.0 2.1 1.95", mm, 1)).toMatchObject({
      figures: [{ index: 1 }, { index: 1 }, { index: 1 }],
      active: 1,
    });
    expect(takeRepeats("2.0 abc", mm, 1)).toMatchObject({ kind: "refused" });
  });
});

describe("a finished row", () => {
  const full = cells({ 1: "1 mm", 2: "1 mm", 3: "1 mm" });
  it("is one with nothing open at this stage; earlier figures then stand in brackets", () => {
    expect(rowDone(full, "arrival")).toBe(true);
    expect(rowDone(cells({ 1: "1 mm" }), "arrival")).toBe(false);
    expect(rowDone(full, "after")).toBe(false);
    expect(full.map((cell) => atStage(cell, "after"))).toMatchObject([
      { state: "assumed", reason: "arrival", figure: "1" },
      { state: "assumed" },
      { state: "assumed" },
    ]);
    expect(full.map((cell) => atStage(cell, "arrival").state)).toEqual(["measured", "measured", "measured"]);
  });
});

describe("same for all", () => {
  it("fills what is open and where the caret stands; all when nothing is open", () => {
    expect(placesForAll(cells(), 0, "arrival")).toEqual([0, 1, 2]);
    expect(placesForAll(cells({ 3: "1.8 mm" }), 1, "arrival")).toEqual([1, 2]);
    expect(placesForAll(cells({ 1: "1 mm", 2: "1 mm", 3: "1 mm" }), 1, "arrival")).toEqual([0, 1, 2]);
    expect(nextPlace(cells({ 1: "1 mm", 2: "1 mm", 3: "1 mm" }), 1, "arrival")).toBe(null);
  });
});

describe("entries", () => {
  it("carry place, tool, who, when and stage; nothing that is not known", () => {
    expect(readingEntry("string height", { string: 1, fret: 5 }, "1.7 mm", [], { ...hand, tool: "card" })).toEqual(
      {
        path: "/readings",
        value: {
          id: "00000000000000ff",
          what: "string height",
          at: { string: 1, fret: 5 },
          value: "1.7 mm",
          tool: "card",
          by: "Ruta",
          when: hand.when,
          stage: "arrival",
        },
      },
    );
    expect(readingEntry("weight", {}, "3.6 kg", [], { ...hand, by: "" }).value).not.toHaveProperty("at");
  });

  it("correct one's own reading of the same stage, and stand beside another person's", () => {
    const own = reading("string height", {}, "1.7 mm", { by: "Ruta" });
    const others = reading("string height", {}, "1.6 mm", { by: "Joon" });
    const later = reading("string height", {}, "1.5 mm", { by: "Ruta", stage: "after" });
    expect(readingEntry("string height", {}, "1.8 mm", [own, others, later], hand).replaces).toEqual([own.id]);
  });

  it("keep the single readings of a repeat", () => {
    const entries = [reading("string height", { string: 2, fret: 5 }, "1.7 mm", { by: "Ruta", tool: "card" })];
    const cell = cellAt(view({ entries }), "heights", "string height", { string: 2, fret: 5 });
    const entry = repeatEntry(cell, ["1.75 mm"], hand);
    expect(entry).toMatchObject({
      replaces: [entries[0]!.id],
      value: { repeats: ["1.7 mm", "1.75 mm"], tool: "card" },
    });
    expect(entry.value).not.toHaveProperty("value");
  });

  it("keep every reading of one hand when a place is read again, also two at once", () => {
    const at = { string: 2, fret: 5 };
    const entries = [reading("string height", at, "1.7 mm", { by: "Ruta" }), reading("string height", at, "1.8 mm", { by: "Ruta" })];
    const cell = cellAt(view({ entries }), "heights", "string height", at);
    const entry = repeatEntry(cell, ["1.75 mm", "1.7 mm"], hand);
    expect(entry.replaces).toEqual(entries.map((one) => one.id));
    expect(entry.value).toMatchObject({ repeats: ["1.7 mm", "1.8 mm", "1.75 mm", "1.7 mm"] });
  });

  it("carry the device's own time with its offset", () => {
    expect(moment(new Date(2026, 10, 25, 14, 7, 31))).toMatch(/^2026-11-25T14:07:31[+-]\d\d:\d\d$/);
  });
});
