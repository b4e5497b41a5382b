import { describe, expect, it } from "vitest";
import type { VisitLine } from "../../src/api/types";
import { groupVisits, searchKept } from "../../src/visits/group";

const today = "2026-11-25";
const line = (title: string, more: Partial<VisitLine> = {}): VisitLine => ({
  id: title,
  dossier: "",
  title,
  serial: "",
  player: "",
  scope: "set-up",
  verdict: "cannot tell yet",
  next: "",
  minutes_total: 35,
  minutes_left: 10,
  readings: 0,
  opened: "2026-11-20T10:00:00+01:00",
  demo: true,
  ...more,
});
const told = (visits: VisitLine[]) =>
  groupVisits(visits, today).map((group) => [group.title, ...group.visits.map((visit) => visit.title)]);

describe("the list by promised day", () => {
  it("is empty without visits", () => expect(groupVisits([], today)).toEqual([]));
  it("goes from what is late over today to the days to come, then what has no day, then what is closed", () => {
    expect(
      told([
        line("closed", { promised: "2026-11-24", closed: "2026-11-24T17:00:00+01:00" }),
        line("no day"),
        line("friday", { promised: "2026-11-27" }),
        line("today", { promised: today }),
        line("next year", { promised: "2027-01-04" }),
        line("tomorrow", { promised: "2026-11-26" }),
        line("late", { promised: "2026-11-07" }),
        line("yesterday", { promised: "2026-11-24" }),
      ]),
    ).toEqual([
      ["Sat 7 Nov, 18 days past", "late"],
      ["Tue 24 Nov, promised for yesterday", "yesterday"],
      ["Today, Wed 25 Nov", "today"],
      ["Tomorrow, Thu 26 Nov", "tomorrow"],
      ["Fri 27 Nov", "friday"],
      ["Mon 4 Jan 2027", "next year"],
      ["No day promised", "no day"],
      ["Closed", "closed"],
    ]);
  });
  it("marks as late only what is over", () => {
    const late = groupVisits(
      [line("a", { promised: "2026-11-24" }), line("b", { promised: today }), line("c")],
      today,
    );
    expect(late.map((group) => group.late)).toEqual([true, false, false]);
  });
  it("puts the longest work of a day first", () => {
    expect(
      told([
        line("short", { promised: today, minutes_left: 5 }),
        line("long", { promised: today, minutes_left: 60 }),
      ]),
    ).toEqual([["Today, Wed 25 Nov", "long", "short"]]);
  });
  it("puts the latest first where no day was promised, whatever the offset of its clock", () => {
    expect(
      told([
        line("first", { opened: "2026-11-20T10:30:00+02:00" }),
        line("second", { opened: "2026-11-20T09:00:00Z" }),
      ]),
    ).toEqual([["No day promised", "second", "first"]]);
  });
});

describe("searching the kept list", () => {
  const all = [
    line("Ostrel Heron", { serial: "OH-0412", player: "Maren Tolk" }),
    line("Vannick Dray", { serial: "VD-088", player: "Ilse Corvin" }),
  ];
  it("wants every word, anywhere", () => {
    expect(searchKept(all, "tolk heron").map((one) => one.title)).toEqual(["Ostrel Heron"]);
    expect(searchKept(all, "tolk dray")).toEqual([]);
    expect(searchKept(all, "  ")).toHaveLength(2);
    expect(searchKept(all, "vd-0")).toHaveLength(1);
  });
});
