// The pen: line kinds, lettering, dimensions, cut surfaces. Colours and weights stand in how.css; here is only geometry.
// A drawing is 300 units wide, about 300 px on the narrowest screen, so lettering of 15 units stays readable there.

import type { ComponentChildren } from "preact";
import { hatch, pathOf, type Point } from "./hatch";

/** outline 2 px, edge 1.25, fine 0.8, chain = dash-dot for stations and centre lines, dashed = assumed or before,
 *  look = blue, where the eye or the hand goes, wrong = red. `-fine` is the thin one of each. */
export type Kind =
  | "outline" | "edge" | "fine" | "chain" | "dashed" | "look" | "look-fine" | "look-dashed" | "wrong" | "wrong-fine"
  | "string" | "rule";

export function Stroke({ d, as }: { d: string; as: Kind }) {
  return <path class={`pen-${as}`} d={d} />;
}

/** A closed shape that covers what lies behind it. */
export function Shape({ d, as = "edge" }: { d: string; as?: Kind }) {
  return <path class={`pen-${as} pen-filled`} d={d} />;
}

/** Solid, in the colour of its line: contact spots, slots, end grain pores. */
export function Solid({ d, as = "edge" }: { d: string; as?: "edge" | "look" | "wrong" }) {
  return <path class={`pen-solid-${as}`} d={d} />;
}

type Hold = "start" | "middle" | "end";
export type Tone = "ink" | "soft" | "look" | "wrong";

export function Word({ x, y, says, hold = "start", tone = "ink", strong = false }:
  { x: number; y: number; says: string; hold?: Hold; tone?: Tone; strong?: boolean }) {
  return (
    <text class={`pen-word pen-word-${tone}${strong ? " pen-strong" : ""}`} x={x} y={y} text-anchor={hold}>
      {says}
    </text>
  );
}

const oblique = (x: number, y: number): string => `M${x - 4} ${y + 4}L${x + 4} ${y - 4}`;

/** A dimension between two points on one level or one upright; ends in oblique strokes. */
export function Dimension({ from, to, as = "look-fine" }: { from: Point; to: Point; as?: Kind }) {
  const [x1, y1] = from;
  const [x2, y2] = to;
  return <Stroke as={as} d={`M${x1} ${y1}L${x2} ${y2}${oblique(x1, y1)}${oblique(x2, y2)}`} />;
}

/** A push or a turn. Arrow heads stand for motion only, never for a dimension. */
export function Motion({ d, end, angle }: { d: string; end: Point; angle: number }) {
  const wing = (turn: number): string => {
    const a = ((angle + 180 + turn) * Math.PI) / 180;
    return `L${round(end[0] + 8 * Math.cos(a))} ${round(end[1] + 8 * Math.sin(a))}`;
  };
  const tip = `M${end[0]} ${end[1]}`;
  return <Stroke as="look" d={`${d}${tip}${wing(24)}${tip}${wing(-24)}`} />;
}

const round = (value: number): number => Math.round(value * 10) / 10;

/** A cut surface: outline and 45 degree hatching, 7 units apart; red is metal or wood to take, 5 apart. */
export function Cut({ corners, tone = "ink" }: { corners: readonly Point[]; tone?: "ink" | "wrong" }) {
  const wrong = tone === "wrong";
  return (
    <g>
      <Shape as={wrong ? "wrong-fine" : "edge"} d={pathOf(corners)} />
      <Stroke as={wrong ? "wrong-fine" : "fine"} d={hatch(corners, wrong ? 5 : 7)} />
    </g>
  );
}

export function box(x1: number, y1: number, x2: number, y2: number): Point[] {
  return [[x1, y1], [x2, y1], [x2, y2], [x1, y2]];
}

export function At({ x, y, turn = 0, children }: { x: number; y: number; turn?: number; children: ComponentChildren }) {
  return <g transform={`translate(${x} ${y})${turn === 0 ? "" : ` rotate(${turn})`}`}>{children}</g>;
}

/** Zigzag: the thing goes on, drawing shortened here. */
export function breakLine(x: number, y1: number, y2: number): string {
  const m = (y1 + y2) / 2;
  return `M${x} ${y1}L${x} ${m - 6}L${x - 4} ${m - 2}L${x + 4} ${m + 2}L${x} ${m + 6}L${x} ${y2}`;
}
