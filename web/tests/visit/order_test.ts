import { describe, expect, it } from "vitest";
import type { Catalogue, VisitView } from "../../src/api/types";
import { answeredWords, countOf, leftWords } from "../../src/visit/count";
import { barred, handsFor, neighbour, nextOpen, passedOver } from "../../src/visit/order";
import { summaryOf } from "../../src/visit/summary";
import { valueOf } from "../../src/visit/set_field";
import { catalogue, judged, line, reading, view } from "./sample_view";

describe("where the sheet goes next", () => {
  const next = (seen: VisitView, from?: string, settled?: Set<string>) => nextOpen(seen, catalogue, from, settled);
  const opened = (...ids: string[]) =>
    view().checkpoints.map((one) => (ids.includes(one.id) ? { ...one, done: false } : one));
  const withHands = (hands: string, more: Partial<VisitView> = {}): VisitView => {
    const seen = view(more);
    return { ...seen, assessment: { ...seen.assessment, hands, answers: [] } };
  };

  it("is the next open checkpoint of the scope, then from the top", () => {
    expect(next(view())).toBe("heights");
    expect(next(view(), "heights")).toBe("tap");
    expect(next(view(), "tap")).toBe("heights");
    expect(next(view(), "tap", new Set(["heights"]))).toBe(undefined);
  });

  it.each([
    ["look only", "look only: it slackens strings", "look only: it opens a cavity", "heights", "tap"],
    ["adjust", "", "may adjust: it opens a cavity", "seat", "tap"],
    ["work", "", "", "seat", "cavity"],
  ])("passes over what hands that may %s are barred from", (hands, seat, cavity, first, after) => {
    const seen = withHands(hands, { checkpoints: opened("seat") });
    expect([barred(seen, catalogue, "seat"), barred(seen, catalogue, "cavity")]).toEqual([seat, cavity]);
    expect([next(seen), next(seen, "heights")]).toEqual([first, after]);
  });

  it("passes over a barred one that was begun, and one that only the judgement knows to be barred", () => {
    const begun = { ...withHands("look only"), assessment: view({}, [judged("seat", "partly read")]).assessment };
    begun.checkpoints = opened("seat");
    expect(next(begun)).toBe("heights");
    const told = view({}, [judged("tap", "not allowed", [], "the hands rule does not allow it")]);
    expect(next(told, "heights")).toBe(undefined);
    expect(barred(told, catalogue, "tap")).toBe("the hands rule does not allow it");
  });

  it("goes by the hands that were said last, also before the shop has answered", () => {
    const said = { ...reading("", {}, ""), path: "/hands", value: "work" };
    const seen = view({ entries: [said] }); // judged under look only still
    expect([barred(seen, catalogue, "cavity"), next(seen, "heights")]).toEqual(["", "cavity"]);
  });

  it("says what was passed over on the way, and why", () => {
    const seen = withHands("look only");
    expect(passedOver(seen, catalogue, "tap")).toEqual([{ id: "cavity", why: "look only: it opens a cavity" }]);
    expect(passedOver(seen, catalogue, "heights")).toEqual([]); // the seat was read before: nothing is missing there
    expect(passedOver(withHands("work"), catalogue, "tap")).toEqual([]);
  });

  it("knows neighbours", () => {
    expect([
      neighbour(view(), "heights", -1),
      neighbour(view(), "heights", 1),
      neighbour(view(), "tap", 1),
    ]).toEqual(["seat", "cavity", undefined]);
  });
  it("knows the hands that work needs and these are not", () => {
    expect([handsFor("truss rod", "look only"), handsFor("truss rod", "adjust"), handsFor("truss rod", "work")]).toEqual(["adjust", "", ""]);
    expect([handsFor("fret levelling", "look only"), handsFor("fret levelling", "adjust")]).toEqual(["work", "work"]);
  });
  it("counts the checkpoints that may be taken, and what is left of them", () => {
    const count = countOf(view(), catalogue);
    expect(count).toEqual({ answered: 1, all: 3, minutesLeft: 3, minutes: 4 });
    expect(answeredWords(count)).toBe("1 of 3 answered");
    expect(leftWords(count)).toBe("2 checkpoints to answer, at least 3 min");
    const scopes = [{ name: "weights", minutes: 1, checkpoints: ["weight", "not here"] }];
    const known = { ...catalogue, procedure: { ...catalogue.procedure, scopes } } as Catalogue;
    expect(countOf(view(), known, "weights")).toEqual({ answered: 0, all: 1, minutesLeft: 1, minutes: 1 });
    expect(leftWords({ answered: 3, all: 3, minutes: 4, minutesLeft: 0 })).toBe("every checkpoint of the scope is answered");
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
