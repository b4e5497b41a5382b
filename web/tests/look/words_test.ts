import { describe, expect, it } from "vitest";
import { linkSays } from "../../src/api/link";
import { waitBefore } from "../../src/api/live";
import { clock, counted, dayWords, trueMinus } from "../../src/look/words";

describe("days and clocks", () => {
  it("says a day with its weekday, and the year when it is another", () => {
    expect(dayWords("2026-11-28")).toBe("Sat 28 Nov");
    expect(dayWords("2028-02-29", "2026-11-25")).toBe("Tue 29 Feb 2028");
    expect(dayWords("2026-11-28T09:00:00+01:00", "2026-01-01")).toBe("Sat 28 Nov");
  });
  it("leaves alone what is no day", () => expect(dayWords("soon")).toBe("soon"));
  it("says the hour with two digits", () => {
    expect(clock(new Date(2026, 10, 25, 9, 5, 3), true)).toBe("09:05:03");
    expect(clock(new Date(2026, 10, 25, 9, 5, 3), false)).toBe("09:05");
  });
});

describe("figures", () => {
  it("get a true minus before digits only", () => {
    expect(trueMinus("-3.1 cents, 10-46, (-2)")).toBe("\u22123.1 cents, 10-46, (\u22122)");
  });
  it("are counted in words", () => {
    expect([counted(1, "entry", "entries"), counted(0, "entry", "entries")]).toEqual(["1 entry", "0 entries"]);
  });
});

describe("the line about the link", () => {
  const since = new Date(2026, 10, 25, 14, 9, 0);
  const savedAt = new Date(2026, 10, 25, 14, 7, 31);
  it.each([
    [{ up: true, since, savedAt }, 0, "saved at 14:07:31"],
    [{ up: true, since }, 0, "every entry is saved at once"],
    [{ up: true, since, savedAt }, 1, "sending, 1 entry waits"],
    [{ up: false, since, savedAt }, 6, "link is down since 14:09, 6 entries wait"],
    [{ up: false, since }, 0, "link is down since 14:09, nothing waits"],
    [
      { up: false, since, why: "this device is not paired" },
      1,
      "this device is not paired, 1 entry waits since 14:09",
    ],
  ])("%j with %i says %s", (link, waiting, words) => expect(linkSays(link, waiting)).toBe(words));
});

describe("coming back to the server", () => {
  it("waits longer each time, up to a bound, spread by a quarter", () => {
    expect([0, 1, 2, 3].map((attempt) => waitBefore(attempt, 0.5))).toEqual([500, 1000, 2000, 4000]);
    expect(waitBefore(99, 1)).toBe(18_750);
    expect(waitBefore(99, 0)).toBe(11_250);
  });
});
