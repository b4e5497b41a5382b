import { describe, expect, it } from "vitest";
import type { Complaint } from "../../src/api/types";
import type { ShownEntry } from "../../src/lay_over";
import { complaintsTold, newComplaint } from "../../src/visit/complaints";

const entry = (id: string, text: string, seq: number, place = seq): ShownEntry => ({
  id,
  path: "/wants/complaints",
  value: { text },
  saw: 0,
  seq,
  place,
  device: "d",
  at: "",
});
const judged = (text: string, remark: string): Complaint => ({
  text,
  shown: true,
  evidence: [],
  findings: [],
  remark,
});
const told = (entries: ShownEntry[], complaints: Complaint[]) =>
  complaintsTold(entries, complaints).map((one) => [one.entry.id, one.told?.remark]);

describe("complaints and what is judged of them", () => {
  it("stay together when an ending makes the first a later entry", () => {
    const entries = [entry("x", "x", 2), entry("ended", "Buzzes", 3, 1)];
    expect(told(entries, [judged("Buzzes", "fell silent"), judged("x", "")])).toEqual([
      ["ended", "fell silent"],
      ["x", ""],
    ]);
  });
  it("stay together while one that was taken out is not judged yet", () => {
    expect(told([entry("x", "x", 2)], [judged("Buzzes", "fell silent"), judged("x", "open")])).toEqual([
      ["x", "open"],
    ]);
  });
  it("have nothing told while they are not judged", () => {
    expect(told([entry("a", "a", 1), entry("b", "b", 2)], [judged("a", "of a")])).toEqual([
      ["a", "of a"],
      ["b", undefined],
    ]);
  });
  it("go by their order where two say the same", () => {
    expect(told([entry("1", "buzzes", 1), entry("2", "buzzes", 2)], [judged("buzzes", "p"), judged("buzzes", "q")])).toEqual([
      ["1", "p"],
      ["2", "q"],
    ]);
  });
});

describe("a new complaint", () => {
  it("says behind its words what its place cannot hold", () => {
    expect(newComplaint(" Buzzes ", { string: 6, fret: 5 }, "frets 5 to 7")).toEqual({
      text: "Buzzes (frets 5 to 7)",
      at: { string: 6, fret: 5 },
    });
  });
  it("has no place where none was picked, and needs words", () => {
    expect(newComplaint("Buzzes", {}, "")).toEqual({ text: "Buzzes" });
    expect(newComplaint("  ", { fret: 5 }, "")).toBeNull();
  });
});
