import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { anchorSteps, cautionsFor, limitLines, stepsOf, whenWords, wordLines } from "../../src/how/words";

const procedure = JSON.parse(readFileSync(new URL("../../../data/procedures/inspection.json", import.meta.url), "utf8")) as {
  checkpoints: { id: string; how: string; severity: string; anchors?: string[]; limits?: object[]; disturbs?: string }[];
};
const byId = (id: string) => procedure.checkpoints.find((one) => one.id === id)!;

describe("steps", () => {
  it("part sentences, not figures", () => {
    expect(stepsOf("Rock and listen. A 0.03 mm leaf is a luxury.")).toEqual(["Rock and listen.", "A 0.03 mm leaf is a luxury."]);
  });
  it("lose no word of any checkpoint", () => {
    for (const { id, how } of procedure.checkpoints) expect(stepsOf(how).join(" "), id).toBe(how.replace(/\s+/g, " "));
  });
});

describe("anchors", () => {
  it("stand best first, the worst with the checkpoint's own weight", () => {
    expect(anchorSteps({ severity: "critical", anchors: ["open", "mended", "a line", "nothing"] })).toEqual([
      { step: 3, says: "nothing", counts: "passes" }, { step: 2, says: "a line", counts: "passes" },
      { step: 1, says: "mended", counts: "major" }, { step: 0, says: "open", counts: "critical" },
    ]);
  });
  it("are none where none are", () => expect(anchorSteps({ severity: "note" })).toEqual([]));
});

describe("answers in words", () => {
  it("stand right ones first, then by weight; what was not tried is no answer", () => {
    const words = [{ word: "clear gap", severity: "minor" as const }, { word: "dead", severity: "note" as const }];
    expect(wordLines({ words }, ["dead", "just moves", "clear gap", "not tried"])).toEqual([
      { word: "just moves", counts: "passes" }, { word: "dead", counts: "note" }, { word: "clear gap", counts: "minor" },
    ]);
  });
});

describe("limits", () => {
  it("tell both ends and whose they are", () => {
    expect(limitLines(byId("nut-height").limits)).toEqual([
      { when: "", range: "not above 0.08 mm, major above 0.12 mm", source: "common practice, no source", strict: false },
    ]);
    expect(limitLines(byId("back-bow").limits)[0]?.range).toBe("not below \u22120.02 mm");
    expect(limitLines(byId("jack-ground").limits)[0]?.strict).toBe(true);
  });
  it("name bass and treble, and the instruments", () => {
    const [first] = limitLines(byId("action-12").limits);
    expect(first?.when).toBe("bass, without frets");
    expect(first?.range).toBe("not below 1.4 mm bass to 1.1 mm treble, not above 2.8 mm bass to 2.2 mm treble");
  });
  it("say something of every limit of the procedure", () => {
    for (const { id, limits } of procedure.checkpoints)
      for (const limit of limitLines(limits)) {
        expect(limit.range, id).not.toBe("");
        expect(limit.source, id).not.toBe("");
      }
  });
  it("write a fact nobody has words for as it stands", () => expect(whenWords({ joints: ["bolt-on"] })).toBe("joints bolt-on"));
});

describe("cautions", () => {
  it("stand with everything that a checkpoint may disturb", () => {
    for (const kind of new Set(procedure.checkpoints.map((one) => one.disturbs)))
      expect(cautionsFor(kind).length > 0, String(kind)).toBe(kind !== undefined);
  });
});
