import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";

// Contrast by WCAG 2.2, "relative luminance" and "contrast ratio", computed from the tokens themselves.
// https://www.w3.org/TR/WCAG22/#dfn-relative-luminance

type Colours = Record<string, string>;

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

const css = readFileSync(new URL("../../src/look/tokens.css", import.meta.url), "utf8");
const coloursOf = (block: string): Colours =>
  Object.fromEntries(
    [...block.matchAll(/--(\w+): (#[0-9A-F]{6});/g)].map(([, name, value]) => [name as string, value as string]),
  );
const blocks = [...css.matchAll(/color-scheme: (light|dark);([^}]*)}/g)].map(([, theme, block]) => ({
  theme,
  colours: coloursOf(block as string),
}));
const themes: [string, Colours][] = [
  ["light", blocks.find((one) => one.theme === "light")?.colours ?? {}],
  ["dark", blocks.find((one) => one.theme === "dark")?.colours ?? {}],
];

/** Text and the grounds it may stand on. Blue never stands on its wash, red only on its own. */
const text: [string, string][] = [
  ...["paper", "sheet", "bluewash", "redwash"].map((ground): [string, string] => ["ink", ground]),
  ...["paper", "sheet", "bluewash"].map((ground): [string, string] => ["ink2", ground]),
  ...["paper", "sheet"].map((ground): [string, string] => ["blue", ground]),
  ...["paper", "sheet", "redwash"].map((ground): [string, string] => ["red", ground]),
  ["sheet", "ink"],
];
const lines: [string, string][] = ["graphite", "line"].flatMap((name) =>
  ["paper", "sheet"].map((ground): [string, string] => [name, ground]),
);

describe("the formula", () => {
  it("gives what the standard says of black, white and a grey just passing", () => {
    expect(contrast("#000000", "#FFFFFF")).toBeCloseTo(21, 10);
    expect(contrast("#777777", "#777777")).toBe(1);
    expect(contrast("#767676", "#FFFFFF")).toBeGreaterThanOrEqual(4.5);
    expect(contrast("#777777", "#FFFFFF")).toBeLessThan(4.5);
  });
});

describe("the tokens", () => {
  it("say the same in both places that make it dark", () => {
    const dark = blocks.filter((one) => one.theme === "dark");
    expect(dark).toHaveLength(2);
    expect(dark[0]?.colours).toEqual(dark[1]?.colours);
    expect(Object.keys(dark[0]?.colours ?? {}).sort()).toEqual(Object.keys(themes[0]?.[1] ?? {}).sort());
  });
  describe.each(themes)("%s", (_, colours) => {
    it.each(text)("%s on %s reaches 7:1", (name, ground) => {
      expect(contrast(colours[name] ?? "#FFFFFF", colours[ground] ?? "#FFFFFF")).toBeGreaterThanOrEqual(7);
    });
    it.each(lines)("%s on %s reaches 3:1, as a line must", (name, ground) => {
      expect(contrast(colours[name] ?? "#FFFFFF", colours[ground] ?? "#FFFFFF")).toBeGreaterThanOrEqual(3);
    });
  });
});

describe("docs/look.md", () => {
  const doc = readFileSync(new URL("../../../docs/look.md", import.meta.url), "utf8");
  const rows = [...doc.matchAll(/^\| `(\w+)` \|[^|]*\| (#\w{6}) \| ([^|]*) \| (#\w{6}) \| ([^|]*) \|$/gm)];
  it("lists every token with its colour", () => {
    const listed = (at: number) => Object.fromEntries(rows.map((row) => [row[1], row[at]]));
    expect(listed(2)).toEqual(themes[0]?.[1]);
    expect(listed(4)).toEqual(themes[1]?.[1]);
  });
  it.each(
    rows.filter((row) => /^\d/.test(row[3] ?? "")).map((row): [string, string[]] => [row[1] as string, [...row]]),
  )("tells the contrast of %s truly", (name, row) => {
    const told = (at: number) => (row[at] ?? "").split(" / ").map(Number);
    themes.forEach(([, colours], nth) => {
      const real = ["sheet", "paper"].map((ground) =>
        Number(contrast(colours[name] ?? "", colours[ground] ?? "").toFixed(1)),
      );
      expect(told(3 + nth * 2)).toEqual(real);
    });
  });
});
