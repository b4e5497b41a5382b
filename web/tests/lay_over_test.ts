import { describe, expect, it } from "vitest";
import type { OutboxItem } from "../src/api/outbox";
import type { Answer, EntriesStored, Entry, Judged, StoredEntry, VisitView } from "../src/api/types";
import { applyChange, applyJudged, layOver, mergeAnswers, settle } from "../src/lay_over";

const mine = "000000000000000a";
const theirs = "000000000000000b";
const visit = "00000000000000aa";
const stored = (id: string, seq: number, device = theirs): StoredEntry => ({
  id,
  path: "/readings",
  value: id,
  saw: 0,
  seq,
  device,
  at: "2026-11-25T14:00:00Z",
  place: seq,
});
const typed = (id: string, more: Partial<Entry> = {}): Entry => ({
  id,
  path: "/readings",
  value: id,
  saw: 0,
  ...more,
});
const waits = (...entries: Entry[]): OutboxItem => ({
  kind: "entries",
  key: entries[0]?.id ?? "",
  visit,
  state: "waits",
  entries,
});
const undo: OutboxItem = { kind: "undo", key: "u", visit, state: "waits", id: "u", entries: [] };
const ids = (entries: StoredEntry[]) => entries.map((entry) => entry.id);

describe("what waits, laid over what is stored", () => {
  it("stands at the end, marked as waiting", () => {
    const shown = layOver([stored("a", 1)], [waits(typed("b"), typed("c"))], mine);
    expect(ids(shown)).toEqual(["a", "b", "c"]);
    expect(shown.map((entry) => entry.waiting ?? false)).toEqual([false, true, true]);
    expect(shown.map((entry) => entry.seq)).toEqual([1, 2, 3]);
  });
  it("takes out what it replaces, stored or waiting", () => {
    const shown = layOver(
      [stored("a", 1)],
      [waits(typed("b", { replaces: ["a"] })), waits(typed("c", { replaces: ["b"] }))],
      mine,
    );
    expect(ids(shown)).toEqual(["c"]);
  });
  it("stands in the place of the one of its list that it replaces, also once it is stored", () => {
    const item = waits(typed("c", { replaces: ["a"] }));
    const shown = layOver([stored("a", 1), stored("b", 2)], [item], mine);
    expect(shown.map(({ id, seq, place }) => [id, seq, place])).toEqual([
      ["b", 2, 2],
      ["c", 3, 1],
    ]);
    const answer = { schema: "", seq: 7, stored: [{ id: "c", seq: 7 }], undo: null } as unknown as EntriesStored;
    const after = settle([stored("a", 1), stored("b", 2)], item, answer, mine);
    expect(after.map(({ id, seq, place }) => [id, seq, place])).toEqual([
      ["b", 2, 2],
      ["c", 7, 1],
    ]);
  });
  it("only takes out under an empty path", () => {
    expect(
      ids(layOver([stored("a", 1), stored("b", 2)], [waits(typed("c", { path: "", replaces: ["a"] }))], mine)),
    ).toEqual(["b"]);
  });
  it("shows nothing twice when the live line was quicker than the answer", () => {
    expect(ids(layOver([stored("a", 1)], [waits(typed("a"))], mine))).toEqual(["a"]);
  });
  it("leaves out what was refused", () => {
    expect(layOver([], [{ ...waits(typed("a")), state: "refused" }], mine)).toEqual([]);
  });
  it("undoes this device's latest and nobody else's", () => {
    const all = [stored("a", 1, mine), stored("b", 2, mine), stored("c", 3, theirs)];
    expect(ids(layOver(all, [undo], mine))).toEqual(["a", "c"]);
    expect(ids(layOver([stored("c", 3)], [undo], mine))).toEqual(["c"]);
  });
});

describe("what is answered", () => {
  it("stays where it was shown, with the server's seq", () => {
    const after = settle(
      [stored("a", 1)],
      waits(typed("b", { replaces: ["a"] })),
      { schema: "", seq: 9, stored: [{ id: "b", seq: 9 }] },
      mine,
    );
    expect(after).toHaveLength(1);
    expect(after[0]).toMatchObject({ id: "b", seq: 9, device: mine });
    expect(after[0]).not.toHaveProperty("waiting");
  });
  it("takes out what an undo took back", () => {
    const answer = { schema: "", seq: 9, stored: [], took_back: { id: "a", says: "" } };
    expect(
      settle([stored("a", 1, mine), stored("b", 2, mine)], undo, answer, mine).map((entry) => entry.id),
    ).toEqual(["b"]);
    const nothing = { schema: "", seq: 9, stored: [] };
    expect(settle([stored("a", 1, mine)], undo, nothing, mine)).toHaveLength(1);
  });
});

describe("what the live line tells", () => {
  it("puts and drops by id, in order of seq", () => {
    expect(ids(applyChange([stored("a", 1), stored("c", 3)], [stored("b", 2), stored("c", 3)], ["a"]))).toEqual([
      "b",
      "c",
    ]);
  });
  const answer = (checkpoint: string, state: string): Answer => ({
    checkpoint,
    section: "",
    question: "",
    in_scope: true,
    state: state as Answer["state"],
    lines: [],
  });
  it("merges changed answers by checkpoint and keeps their order", () => {
    const merged = mergeAnswers(
      [answer("x", "1"), answer("y", "1"), answer("z", "1")],
      [answer("y", "2"), answer("w", "2")],
      ["z"],
    );
    expect(merged.map((one) => one.checkpoint + one.state)).toEqual(["x1", "y2", "w2"]);
  });
  it("leaves alone what a message leaves out", () => {
    const view = {
      title: "Heron",
      minutes: { total: 35, left: 20 },
      assessment: { verdict: "ready", scope: "set-up", answers: [answer("x", "1"), answer("y", "1")] },
    } as unknown as VisitView;
    const judged: Judged = {
      type: "judged",
      seq: 4,
      whole: false,
      answers_gone: [],
      minutes: { total: 35, left: 18 },
      assessment: { verdict: "set up first", answers: [answer("y", "2")] },
    };
    const next = applyJudged(view, judged);
    expect(next).not.toHaveProperty("type");
    expect(next.title).toBe("Heron");
    expect(next.minutes.left).toBe(18);
    expect(next.assessment).toMatchObject({ verdict: "set up first", scope: "set-up" });
    expect(next.assessment.answers.map((one) => one.state)).toEqual(["1", "2"]);
  });
  it("takes away what is null, and only that", () => {
    const view = {
      closed: "2026-11-25T17:00:00Z",
      undo: { id: "a", says: "relief" },
      next: null,
      assessment: { answers: [] },
    } as unknown as VisitView;
    const judged: Judged = { type: "judged", seq: 4, whole: false, answers_gone: [], assessment: {} };
    expect(applyJudged(view, { ...judged, undo: null })).toEqual({
      closed: view.closed,
      next: null,
      assessment: { answers: [] },
    });
    expect(applyJudged(view, { ...judged, undo: { id: "b", says: "radius" } }).undo?.says).toBe("radius");
    expect(applyJudged(view, judged)).toEqual(view);
  });
  it("replaces all answers when told the whole", () => {
    const view = { assessment: { answers: [answer("x", "1")] } } as unknown as VisitView;
    const next = applyJudged(view, {
      type: "judged",
      seq: 4,
      whole: true,
      answers_gone: [],
      assessment: { answers: [answer("y", "2")] },
    });
    expect(next.assessment.answers.map((one) => one.checkpoint)).toEqual(["y"]);
  });
});
