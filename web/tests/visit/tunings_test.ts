import { describe, expect, it } from "vitest";
import { stringNumbers, stringsCounted, stringsTuned, tuningFault, tuningsFor } from "../../src/visit/tunings";

const notes = (text: string) => text.split(" ");
const named = (kind: "electric guitar" | "electric bass", strings: number) =>
  Object.fromEntries(tuningsFor(kind, strings).map((one) => [one.says, one.notes.join(" ")]));

describe("tunings offered for a number of strings", () => {
  it("are those of the trade", () => {
    const six = named("electric guitar", 6);
    expect(six["usual"]).toBe("E4 B3 G3 D3 A2 E2");
    expect(six["lowest a tone down"]).toBe("E4 B3 G3 D3 A2 D2");
    expect(six["half a tone down"]).toBe("Eb4 Bb3 F#3 C#3 Ab2 Eb2");
    expect(six["a tone down"]).toBe("D4 A3 F3 C3 G2 D2");
    expect(six["a fourth down"]).toBe("B3 F#3 D3 A2 E2 B1");
    expect(named("electric bass", 5)["usual"]).toBe("G2 D2 A1 E1 B0");
    expect(named("electric bass", 4)["a fourth down"]).toBe("D2 A1 E1 B0");
    expect(named("electric guitar", 12)["lowest a tone down"]).toBe("E4 E4 B3 B3 G4 G3 D4 D3 A3 A2 D3 D2");
  });
  it("have a note for each string, for every number that can be picked", () => {
    for (const kind of ["electric guitar", "electric bass"] as const)
      for (const number of stringNumbers[kind])
        for (const tuning of tuningsFor(kind, number)) expect(tuningFault(tuning.notes, number)).toBe("");
  });
});

describe("another number of strings", () => {
  const four = notes("G2 D2 A1 E1").map((note, i) => ({ note, gauge: `0.0${45 + 20 * i} in` }));
  it("keeps what is known of those that stay, by their notes", () => {
    expect(stringsCounted("electric bass", four, 5)).toEqual([...four, {}]);
    expect(stringsCounted("electric bass", four, 6)).toEqual([{}, ...four, {}]);
  });
  it("takes the usual notes for strings that have none said", () => {
    const six = Array.from({ length: 6 }, (_, i) => ({ gauge: `${i}` }));
    expect(stringsCounted("electric guitar", six, 7)).toEqual([...six, {}]);
  });
  it("begins with nothing known where nothing was", () => {
    expect(stringsCounted("electric guitar", undefined, 4)).toEqual([{}, {}, {}, {}]);
  });
  it("is tuned without losing the gauges", () => {
    expect(stringsTuned(four, notes("D2 A1 E1 B0"))[3]).toEqual({ note: "B0", gauge: "0.0105 in" });
  });
});

it("notes that are no tuning are told", () => {
  expect(tuningFault(notes("G2 D2 A1 E1 B0"), 4)).toBe("5 notes, and the instrument has 4 strings.");
  expect(tuningFault(["H2"], 1)).toContain("“H2” is no note.");
});
