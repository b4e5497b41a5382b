import { describe, expect, it } from "vitest";
import { cellAt, isOpen, meanText, splitText, uncertaintyText } from "../../src/visit/figures";
import { judged, line, reading, view } from "./sample_view";

const at = { string: 2, fret: 5 };
const cell = (seen: ReturnType<typeof view>) => cellAt(seen, "heights", "string height", at);

describe("figures and their units", () => {
  it.each([
    ["1.70 mm", "1.70", "mm"],
    ["4/64 in", "4/64", "in"],
    ["1 3/8 in", "1 3/8", "in"],
    ["-3 cents", "-3", "cents"],
    ["1.7 mm ± 0.05 mm", "1.7", "mm"],
    ["just moves", "just moves", ""],
    ["22", "22", ""],
    ["8k42", "8k42", ""],
  ])("%s", (text, figure, unit) => expect(splitText(text)).toEqual({ figure, unit }));

  it.each([
    [0, ""],
    [0.029, "±0.03"],
    [0.15, "±0.15"],
    [0.1, "±0.10"],
    [0.05, "±0.05"],
    [0.006, "±0.006"],
    [3.7, "±4"],
    [1.2, "±1.2"],
  ])("u of %d is printed %s", (u, text) => expect(uncertaintyText(u)).toBe(text));

  it("means the repeats, to the digits that were read", () => {
    expect(meanText({ what: "x", value: "", repeats: ["1.55 mm", "1.60 mm", "1.55 mm"] })).toBe("1.57 mm");
    expect(meanText({ what: "x", value: "1.7 mm" })).toBe("1.7 mm");
  });
});

describe("states of a figure", () => {
  it("is blank where nobody looked", () => {
    expect(cell(view())).toMatchObject({ state: "blank", figure: "", says: "string 2, fret 5: not looked at" });
  });

  it("is assumed from the stay before", () => {
    const value = { what: "string height", at, text: "1.40 mm" };
    const seen = view({ last: { visit: "v", day: "2026-01-01", values: [value] } });
    expect(cell(seen)).toMatchObject({
      state: "assumed",
      figure: "1.40",
      last: "1.40",
      says: "string 2, fret 5: assumed 1.40 mm, from the last visit",
    });
  });

  it("is measured, with its u once it is judged", () => {
    const entries = [reading("string height", at, "1.70 mm")];
    expect(cell(view({ entries }))).toMatchObject({ state: "measured", figure: "1.70", u: "" });
    expect(cell(view({ entries }, [judged("heights", "partly read", [line(at)])]))).toMatchObject({
      u: "±0.03",
      limit: "1.3 to 2.2 mm",
      outside: false,
    });
  });

  it("brings u to the unit that was typed", () => {
    const entries = [reading("string height", at, "4/64 in")];
    const seen = view({ entries }, [
      judged("heights", "partly read", [line(at, { found: { value: 1.5875, unit: "mm", u: 0.0508, text: "" } })]),
    ]);
    expect(cell(seen)).toMatchObject({ figure: "4/64", unit: "in", beside: "1.59 mm", u: "±0.002" });
  });

  it("breaks its limit, goes stale, is accepted", () => {
    const entries = [reading("string height", at, "2.60 mm")];
    const outside = view({ entries }, [judged("heights", "fault found", [line(at, { standing: "outside" })])]);
    expect(cell(outside)).toMatchObject({ state: "measured", outside: true });
    expect(cell(outside).says).toContain("outside its limit 1.3 to 2.2 mm");
    const stale = view({ entries }, [judged("heights", "stale", [line(at, { stale: "read before: truss rod" })])]);
    expect(cell(stale)).toMatchObject({ state: "stale", reason: "read before: truss rod" });
    outside.assessment.findings = [
      {
        id: "f",
        checkpoint: "heights",
        severity: "major",
        cure: "set up",
        at,
        title: "",
        standing: "outside",
        why: "",
        remedy: "",
        accepted: { by: "Ruta", why: "wanted so", when: "2026-11-25T14:10:00+01:00" },
      },
    ];
    expect(cell(outside)).toMatchObject({ state: "accepted", reason: "accepted by Ruta, 14:10: wanted so" });
    // The value has moved since: it is told that it was accepted once, and holds no more.
    outside.assessment.findings[0]!.acceptance_lapsed = true;
    expect(cell(outside)).toMatchObject({ state: "measured", reason: "", outside: true });
  });

  it("shows both where two say different", () => {
    const entries = [
      reading("string height", at, "1.70 mm", { by: "Ruta" }),
      reading("string height", at, "1.50 mm", { by: "Joon" }),
    ];
    const seen = view({ entries, conflicts: [{ slot: "", earlier: entries[0]!.id, later: entries[1]!.id }] });
    expect(cell(seen)).toMatchObject({
      state: "two",
      says: "string 2, fret 5: Ruta 1.70, Joon 1.50: keep which?",
    });
    expect(cell(view({ entries })).state).toBe("measured");
  });

  it("takes the latest stage, and is open again at a later one", () => {
    const entries = [
      reading("string height", at, "1.90 mm", { stage: "after" }),
      reading("string height", at, "2.40 mm"),
    ];
    const seen = cell(view({ entries }));
    expect(seen).toMatchObject({ figure: "1.90", stage: "after" });
    expect([isOpen(seen, "after"), isOpen(seen, "hand-over"), isOpen(seen, "arrival")]).toEqual([
      false,
      true,
      false,
    ]);
    expect(isOpen(cell(view()), "arrival")).toBe(true);
  });
});
