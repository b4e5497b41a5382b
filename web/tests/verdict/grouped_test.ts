import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/api/types";
import { settles } from "../../src/verdict/claims";
import { bySeverity, chance, headOf, oneLimit, tailOf } from "../../src/verdict/grouped";

const finding = (more: Partial<Finding>): Finding => ({
  id: "x", checkpoint: "fret-ends", severity: "minor", cure: "none", title: "Fret ends, fret 4, bass side",
  at: { fret: 4, side: "bass" }, standing: "fault", why: "w", remedy: "r", ...more,
});

describe("findings", () => {
  it("stand by severity, the weightiest first, empty ones left out", () => {
    const parts = bySeverity([finding({ severity: "note" }), finding({ severity: "critical" })]);
    expect(parts.map((part) => part.severity)).toEqual(["critical", "note"]);
    expect(bySeverity([])).toEqual([]);
  });
  it("share a heading when checkpoint, reason and remedy are the same", () => {
    const [part] = bySeverity([finding({ id: "a" }), finding({ id: "b", title: "Fret ends, fret 7, bass side", at: { fret: 7, side: "bass" } }), finding({ id: "c", checkpoint: "edge-feel" })]);
    expect(part?.groups.map((group) => [group.title, group.members.length])).toEqual([["Fret ends", 2], ["Fret ends", 1]]);
  });
  it("part their title from its place", () => {
    expect(tailOf(finding({}))).toBe("fret 4, bass side");
    expect(headOf(finding({}))).toBe("Fret ends");
    expect(tailOf(finding({ title: "Marks in the finish, lower edge", at: {} }))).toBe("");
    expect(headOf(finding({ title: "Every note rings, string 2, open", at: { string: 2, fret: 0 } }))).toBe("Every note rings");
    expect(tailOf(finding({ title: "Not as promised: winding resistance of a pickup, bridge pickup", at: { pickup: "bridge" } }))).toBe("bridge pickup");
  });
  it("say a limit once only where all stand against the same", () => {
    const a = finding({ limit: "up to 0.05 mm" });
    expect(oneLimit([a, a])).toBe(true);
    expect(oneLimit([a, finding({ limit: "up to 0.08 mm" })])).toBe(false);
    expect(oneLimit([a])).toBe(false);
  });
});

describe("a chance", () => {
  it.each([[0.9134, "91 in 100"], [0.99931, "over 99 in 100"], [1, "over 99 in 100"], [0, "under 1 in 100"], [0.5, "50 in 100"]])(
    "%d is %s", (p, says) => expect(chance(p)).toBe(says));
});

describe("a claim that stands open", () => {
  it("names what would settle it", () => {
    expect(settles({ checkable: true, advice: "a finer rule" })).toBe("Would settle it: a finer rule");
    expect(settles({ checkable: true, how: "read with: steel rule; too coarse for this claim", found: { text: "864 mm" } })).toContain("finer tool");
    expect(settles({ checkable: true })).toContain("not taken yet");
    expect(settles({ checkable: false })).toContain("only papers");
  });
});
