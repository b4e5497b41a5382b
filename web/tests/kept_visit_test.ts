import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { VisitView } from "../src/api/types";
import { keptVisits, recall, remember, written } from "../src/kept_visit";

const view = (id: string, seq = 1) => ({ id, seq, title: `sheet ${id}` }) as VisitView;

/** Time is turned by hand. */
async function kept(...views: VisitView[]): Promise<void> {
  views.forEach(remember);
  vi.advanceTimersByTime(1000);
  await written();
}

describe("visits kept in the browser", () => {
  beforeEach(() => void vi.useFakeTimers({ toFake: ["setTimeout"] }));
  afterEach(() => void vi.useRealTimers());

  it("come back as they were last told", async () => {
    await kept(view("a", 1), view("a", 2));
    expect(await recall("a")).toEqual(view("a", 2));
    expect(await recall("nobody")).toBeUndefined();
  });
  it("are the six latest", async () => {
    for (const id of ["a", "b", "c", "d", "e", "f", "g"]) await kept(view(id, 3));
    await kept(view("c", 4));
    expect((await keptVisits()).map((line) => line.id)).toEqual(["c", "g", "f", "e", "d", "b"]);
    expect(await recall("a")).toBeUndefined();
    expect(await recall("b")).toEqual(view("b", 3));
  });
});
