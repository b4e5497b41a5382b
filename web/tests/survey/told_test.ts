import { describe, expect, it } from "vitest";
import { signal } from "@preact/signals";
import { followChange } from "../../src/survey/last_change";
import {
  changeBetween, crownsTold, entryWords, figureText, gainWords, knownTo, lastChange, minutesTold, plain, signedMm, tightest,
} from "../../src/survey/told";
import type { OpenVisit } from "../../src/visit_state";
import { reading, view } from "../visit/sample_view";
import { survey } from "./sample_survey";

const known = (fret: number, u: number) => {
  const one = survey();
  return { ...one, crowns: one.crowns.map((crown) => (crown.fret === fret ? { ...crown, off: { ...crown.off, u } } : crown)) };
};

describe("figures", () => {
  it("have a true minus, two places and never more certainty than a hundredth", () => {
    expect([signedMm(0.02), signedMm(-0.044), signedMm(-0.004)]).toEqual(["+0.02", "−0.04", "0"]);
    expect(plain(-0.123, 0.0002)).toBe("−0.12 ± 0.01");
    expect(plain(-0.001, 0.02)).toBe("0.00 ± 0.02");
    expect(knownTo(0.026)).toBe("±0.03");
  });

  it("stand in brackets where they are assumed", () => {
    expect(figureText({ text: "-0.06 ± 0.09 mm" }, true)).toBe("[−0.06 ± 0.09 mm]");
    expect(figureText({ text: "0.06 ± 0.01 mm" }, false)).toBe("0.06 ± 0.01 mm");
  });

  it("tell what a reading would gain with as many places as it takes", () => {
    expect(gainWords({ before_mm: 0.05, after_mm: 0.03 })).toBe("least room known from ±0.05 to ±0.03 mm");
    expect(gainWords({ before_mm: 0.0198, after_mm: 0.019 })).toBe("least room known from ±0.020 to ±0.019 mm");
    expect([minutesTold(0.5), minutesTold(0.25), minutesTold(2)]).toEqual(["half a minute", "15 s", "2 min"]);
  });
});

describe("the sheet in words", () => {
  it("begins where there is least room", () => expect(tightest(survey())).toEqual({ fret: 3, string: 2 }));

  it("points out crowns that surely stand off, the worst first", () => {
    expect(crownsTold(known(1, 0.03))).toBe("");
    expect(crownsTold(known(1, 0.01))).toBe("Fret 1 stands proud by 0.04 ± 0.02 mm. ");
    expect(crownsTold({ ...known(1, 0.01), crowns: known(1, 0.01).crowns.map((one) => ({ ...one, off: { ...one.off, u: 0.005 } })) }))
      .toMatch(/^Fret 1 stands proud by .*, fret 5 is low by .* and fret 4 is low by /);
  });
});

describe("what a reading changed", () => {
  it("names what is known better, with what it was", () => {
    expect(changeBetween(known(4, 0.03), known(4, 0.01))).toBe("fret 4 now known to ±0.01, was ±0.03");
  });

  it("names the figure that moved most", () => {
    const after = { ...survey(), relief: { ...survey().relief, value: 0.24 } };
    expect(changeBetween(survey(), after)).toBe("relief 0.24, was 0.20 mm");
  });

  it("says so when nothing moved", () => {
    expect(changeBetween(survey(), survey())).toBe("");
    expect(lastChange(survey(), survey(), ["Relief: 0.2 mm"], [])).toBe(
      "Relief: 0.2 mm: nothing on the neck changes by as much as can be told",
    );
  });

  it("tells of readings alone, by place", () => {
    expect(entryWords(reading("rocker", { fret: 9 }, "clicks"))).toBe("Rocker, fret 9: clicks");
    expect(entryWords({ path: "/remarks", value: "x" })).toBe("");
  });

  it("waits for the sums of an entry before it compares", () => {
    const before = known(4, 0.03);
    const shown = signal(view());
    shown.value.assessment.neck = before;
    const judging = signal(false);
    const visit = { view: shown, judging, fromBefore: signal(false) } as unknown as OpenVisit;
    const { line, stop } = followChange(visit);
    const late = reading("rocker gap", { fret: 4 }, "0.05 mm");
    shown.value = { ...shown.value, entries: [...shown.value.entries, reading("pickup gap", {}, "2 mm")] };
    judging.value = true;
    shown.value = { ...shown.value, entries: [...shown.value.entries, late] };
    expect(line.value).toBe("");
    judging.value = false;
    shown.value = { ...shown.value, assessment: { ...shown.value.assessment, neck: known(4, 0.01) } };
    expect(line.value).toBe("Rocker gap, fret 4: 0.05 mm: fret 4 now known to ±0.01, was ±0.03");
    judging.value = true;
    shown.value = { ...shown.value, entries: shown.value.entries.filter((one) => one.id !== late.id) };
    judging.value = false;
    shown.value = { ...shown.value, assessment: { ...shown.value.assessment, neck: before } };
    expect(line.value).toBe("Rocker gap, fret 4: 0.05 mm, taken out: fret 4 now known to ±0.03, was ±0.01");
    stop();
  });
});
