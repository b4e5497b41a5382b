import { describe, expect, it } from "vitest";
import { tidyCode } from "../../src/pair/code";
import { dueOf, sortTools } from "../../src/shop/due";

const today = "2026-11-25";
const tool = (id: string, more = {}) => ({ id, kind: "dial indicator", ...more });

describe("a tool's day", () => {
  it.each([
    [{}, "never calibrated", false],
    [{ calibrated: "2026-09-14" }, "calibrated Mon 14 Sep, no next day set", false],
    [{ due: "2026-11-24" }, "was due Tue 24 Nov, 1 day ago", true],
    [{ due: "2026-11-25" }, "due today", false],
    [{ due: "2026-12-25" }, "due in 30 days", false],
    [{ due: "2026-12-26" }, "due Sat 26 Dec", false],
    [{ due: "2027-09-14" }, "due Tue 14 Sep 2027", false],
  ])("%j: %s", (facts, words, over) => expect(dueOf(tool("a", facts), today)).toEqual({ words, over }));
  it("puts what is due first on top and retired tools last", () => {
    const tools = [
      tool("old", { retired: true, due: "2020-01-01" }),
      tool("b"),
      tool("a"),
      tool("soon", { due: "2026-12-01" }),
    ];
    expect(sortTools(tools).map((one) => one.id)).toEqual(["soon", "a", "b", "old"]);
  });
});

describe("a pairing code", () => {
  it.each([
    ["", ""],
    ["7kq4", "7KQ4"],
    ["7kq4m", "7KQ4-M"],
    [" 7kq4-mx2p ", "7KQ4-MX2P"],
    ["7KQ4MX2P99", "7KQ4-MX2P"],
  ])("%j is tidied to %j", (typed, tidy) => expect(tidyCode(typed)).toBe(tidy));
});
