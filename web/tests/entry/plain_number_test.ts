import { describe, expect, it } from "vitest";
import { bareNumber, currencyOf, forSum, takeMoney, takeQuantity } from "../../src/entry/plain_number";

describe("a bare number", () => {
  it.each([
    ["0,02", "0.02"], [".010", "0.010"], ["-0,4", "-0.4"], ["\u2212.4", "-0.4"], [" +3 ", "3"], ["45", "45"], ["-,5", "-0.5"],
    ["", null], ["-", null], ["1.2.3", null], ["45 EUR", null], ["1,", null], ["4/64", null], ["1 2", null],
  ])("%s", (typed, number) => expect(bareNumber(typed)).toBe(number));
});

describe("a quantity", () => {
  it.each([
    ["0,02", "length", "0.02 mm"], ["0,02 mm", "length", "0.02 mm"], ["-.4", "length", "-.4 mm"], ["4 1/2 in", "length", "4 1/2 in"],
    ["8,42", "resistance", "8.42 kohm"], ["45", "money", "45 EUR"], ["", "length", ""],
  ])("%s of %s", (typed, dimension, text) => expect(takeQuantity(typed, dimension)).toEqual({ text }));
  it("of another kind is refused in plain words", () => {
    const taken = takeQuantity("3 kg", "length");
    expect("says" in taken && taken.says).toContain("a weight");
  });
});

describe("money", () => {
  it.each([
    ["45", "45 EUR"], ["45,50", "45.50 EUR"], ["€45", "45 EUR"], ["45 €", "45 EUR"], ["EUR 45", "45 EUR"], ["45eur", "45 EUR"],
    ["120 CHF", "120 CHF"], ["45,-", "45 EUR"],
  ])("%s", (typed, text) => expect(takeMoney(typed, "EUR")).toEqual({ text }));
  it("is in the shop's own currency", () => {
    expect(takeMoney("45", currencyOf([{ amount: "60 CHF" }]))).toEqual({ text: "45 CHF" });
    expect(currencyOf([])).toBe("EUR");
  });
  it.each(["-45", "much", "4 5", "45 per hour"])("%s is refused", (typed) => expect("says" in takeMoney(typed, "EUR")).toBe(true));
});

describe("a field of a sum", () => {
  const length = { name: "change", kind: "quantity", dimension: "length" };
  const gauge = { name: "gauge", kind: "quantity", dimension: "length" };
  it.each([
    [length, "-0,4", "-0.4 mm"], [length, "9.5 in", "9.5 in"], [length, "466,2 mm ± 0,3 mm", "466.2 mm ± 0.3 mm"],
    [gauge, ".010", "0.010 in"], [gauge, "10", "10 thou"], [gauge, "0,25", "0.25 mm"],
    [{ name: "pitch", kind: "quantity", dimension: "frequency" }, "82,4", "82.4 Hz"],
    [{ name: "pitch", kind: "quantity", dimension: "frequency" }, "E4", "E4"],
    [{ name: "frets", kind: "quantity", dimension: "count" }, "22", "22"],
    [{ name: "p", kind: "quantity", dimension: "ratio" }, "0,95", "0.95"],
    [{ name: "thread", kind: "text" }, "0,5", "0.5 mm"], [{ name: "thread", kind: "text" }, "M3x0,35", "M3x0,35"],
    [{ name: "note", kind: "text" }, "E2", "E2"], [{ name: "readings", kind: "list" }, "1,6 1,7", "1.6 1.7"],
  ])("%o %s", (field, typed, sent) => expect(forSum(field, typed)).toBe(sent));
});
