import { readFileSync } from "node:fs";
import type { VNode } from "preact";
import { describe, expect, it } from "vitest";
import { drawingFor, drawings } from "../../src/how/drawings/all";

const procedure = JSON.parse(readFileSync(new URL("../../../data/procedures/inspection.json", import.meta.url), "utf8")) as {
  checkpoints: { id: string; title: string }[];
};

/** Every word lettered in a figure, with what places it: components are called as the page would call them. */
function wordsIn(node: unknown): { x: number; says: string; hold: string; moved: boolean }[] {
  if (Array.isArray(node)) return node.flatMap(wordsIn);
  if (node === null || typeof node !== "object" || !("props" in node)) return [];
  const { type, props } = node as VNode<Record<string, unknown>>;
  if (type === "text") {
    return [{ x: Number(props["x"]), says: String(props["children"]), hold: String(props["text-anchor"]), moved: false }];
  }
  const inner = typeof type === "function"
    ? wordsIn((type as (props: unknown) => unknown)(props))
    : wordsIn(props["children"]);
  return props["transform"] === undefined ? inner : inner.map((word) => ({ ...word, moved: true }));
}

// Advances of Barlow Semi Condensed 600 at 15 units, measured with Chromium's canvas; letters that are not named here
// are no wider than the last.
const advances: [letters: string, units: number][] = [
  ["' ", 3], ["lij,.", 3.6], [";1:t", 5], ["fr", 5.1], ["z/", 6.3], ["7sy?", 6.8], ["v=x", 7], ["3569ack28eu", 7.3],
  ["Lghnobdpq04", 7.8], ["BV", 8.1], ["wm%", 12],
];
const unitsOf = (letter: string): number => advances.find(([letters]) => letters.includes(letter))?.[1] ?? 8.8;
const widthOf = (word: string): number => [...word].reduce((sum, letter) => sum + unitsOf(letter), 0);

describe("drawings", () => {
  it("cover every checkpoint of the procedure", () => {
    const without = procedure.checkpoints.filter((checkpoint) => drawingFor(checkpoint.id) === undefined);
    expect(without.map((checkpoint) => checkpoint.id)).toEqual([]);
  });

  it("are all used", () => {
    const used = new Set(procedure.checkpoints.map((checkpoint) => drawingFor(checkpoint.id)));
    expect(Object.entries(drawings).filter(([, drawing]) => !used.has(drawing)).map(([name]) => name)).toEqual([]);
  });

  it("know nothing of a checkpoint that is the shop's own", () => {
    expect(drawingFor("shop-own-list")).toBeUndefined();
  });

  it.each(Object.entries(drawings))("%s has a title of its own and one sentence that ends", (name, drawing) => {
    const same = Object.values(drawings).filter((one) => one.title === drawing.title);
    expect(same, name).toHaveLength(1);
    expect(drawing.says).toMatch(/^[A-Z].{20,}\.$/);
    expect(drawing.says.match(/\.\s+[A-Z]/)).toBeNull();
  });

  it.each(Object.entries(drawings))("%s letters inside its 300 units", (name, drawing) => {
    for (const word of wordsIn(drawing.draw()).filter((one) => !one.moved)) {
      const wide = widthOf(word.says);
      const left = word.hold === "end" ? word.x - wide : word.hold === "middle" ? word.x - wide / 2 : word.x;
      expect(left, `${name}: "${word.says}" starts`).toBeGreaterThanOrEqual(0);
      expect(left + wide, `${name}: "${word.says}" ends`).toBeLessThanOrEqual(300);
    }
  });
});
