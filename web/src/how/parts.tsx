// The instrument's parts, of no make: a neck along its length, across, in plan, head, body slab, bridge.
// Along the neck the head is at the left; in plan string 1 lies on top; across, the bass side is at the left.

import { cap, pathOf, type Point } from "./hatch";
import { At, box, breakLine, Cut, Shape, Solid, Stroke, Word } from "./pen";

/** A crown on the board's surface y, in a cut along the neck. `height` and `wide` in units; flat tops are worn. */
export function Crown({ x, y, height = 9, wide = 14, flat = false }:
  { x: number; y: number; height?: number; wide?: number; flat?: boolean }) {
  const a = wide / 2;
  const top = flat
    ? `C${x - a} ${y - height * 0.7} ${x - a + 1} ${y - height * 0.75} ${x - a + 3} ${y - height * 0.75}H${x + a - 3}C${x + a - 1} ${y - height * 0.75} ${x + a} ${y - height * 0.7} ${x + a} ${y}Z`
    : `C${x - a} ${y - height * 1.33} ${x + a} ${y - height * 1.33} ${x + a} ${y}Z`;
  return (
    <g>
      <Shape d={`M${x - 1.5} ${y}V${y + 9}H${x + 1.5}V${y}Z`} />
      <Shape d={`M${x - a} ${y}${top}`} />
    </g>
  );
}

/** Board and neck wood in a cut along the neck, crowns on it at the given places. */
export function Board({ from, to, y, thick = 18, crowns = [], height = 9, wide = 14 }:
  { from: number; to: number; y: number; thick?: number; crowns?: readonly number[]; height?: number; wide?: number }) {
  return (
    <g>
      <Cut corners={box(from, y, to, y + thick)} />
      {crowns.map((x) => <Crown key={x} x={x} y={y} height={height} wide={wide} />)}
    </g>
  );
}

/** The nut in a cut along the neck; its front edge stands at x, the board's surface at y. */
export function NutSide({ x, y, height = 22, thick = 18 }: { x: number; y: number; height?: number; thick?: number }) {
  return <Cut corners={[[x, y + 10], [x, y - height], [x - thick, y - height + 6], [x - thick, y + 10]]} />;
}

/** Fret numbers under a cut along the neck. */
export function Numbers({ y, at }: { y: number; at: readonly (readonly [x: number, says: string])[] }) {
  return <g>{at.map(([x, says]) => <Word key={x} x={x} y={y} says={says} hold="middle" tone="soft" />)}</g>;
}

/** A string seen from the side; the points are where it bends. */
export function StringLine({ through, thick = 2 }: { through: readonly Point[]; thick?: number }) {
  return <path class="pen-string" style={{ strokeWidth: `${thick}px` }} d={pathOf(through, false)} />;
}

/** Strings cut across, undersides at y. */
export function StringEnds({ at, y, r = 3 }: { at: readonly number[]; y: number | ((x: number) => number); r?: number }) {
  const under = typeof y === "number" ? () => y : y;
  return (
    <g>
      {at.map((x) => {
        const c = under(x) - r;
        return <Shape key={x} d={`M${x + r} ${c}A${r} ${r} 0 1 1 ${x - r} ${c}A${r} ${r} 0 1 1 ${x + r} ${c}Z`} />;
      })}
    </g>
  );
}

/** Fingerboard cut across: domed top, hatched; corners at y. */
export function BoardAcross({ from, to, y, rise = 14, thick = 22 }:
  { from: number; to: number; y: number; rise?: number; thick?: number }) {
  return <Cut corners={[...cap(from, to, y, rise), [to, y + thick], [from, y + thick]]} />;
}

/** A fret lying over a board cut across: bead from edge to edge, ends bevelled. */
export function FretAcross({ from, to, y, rise = 14, bead = 7, bevel = 8 }:
  { from: number; to: number; y: number; rise?: number; bead?: number; bevel?: number }) {
  const over = cap(from, to, y - bead, rise).filter(([x]) => x >= from + bevel && x <= to - bevel);
  const under = cap(from, to, y, rise);
  return <Shape d={pathOf([[from, y], ...over, [to, y], ...under.slice(1, -1).reverse()])} />;
}

/** Neck with its board cut across: the round of the back below a domed board. */
export function NeckAcross({ x, y, half = 56, deep = 58 }: { x: number; y: number; half?: number; deep?: number }) {
  const back: Point[] = Array.from({ length: 25 }, (_, i) => {
    const a = (Math.PI * i) / 24;
    return [Math.round((x + half * Math.cos(a)) * 10) / 10, Math.round((y + 14 + (deep - 14) * Math.sin(a) ** 0.8) * 10) / 10];
  });
  return (
    <g>
      <Cut corners={[[x - half, y], ...cap(x - half, x + half, y, 8).slice(1, -1), [x + half, y], ...back]} />
      <Stroke as="edge" d={`M${x - half} ${y + 14}H${x + half}`} />
    </g>
  );
}

/** Where fret n stands between nut and bridge, as a fraction of the scale: twelve equal steps. */
export const fretAt = (fret: number): number => 1 - 2 ** (-fret / 12);

export interface PlanShape { nut: number; end: number; y: number; nutHalf: number; endHalf: number; last: number }

/** x of a fret in a plan whose last fret stands just before `end`. */
export function planX(plan: PlanShape, fret: number): number {
  return Math.round((plan.nut + ((plan.end - 4 - plan.nut) * fretAt(fret)) / fretAt(plan.last)) * 10) / 10;
}

/** Half width of the board at x. */
export function planHalf(plan: PlanShape, x: number): number {
  return plan.nutHalf + ((plan.endHalf - plan.nutHalf) * (x - plan.nut)) / (plan.end - plan.nut);
}

/** Fingerboard in plan with frets at their true places and `strings` strings running on to `stringEnd`. */
export function Plan({ plan, strings = 6, stringEnd = plan.end, fretted = true }:
  { plan: PlanShape; strings?: number; stringEnd?: number; fretted?: boolean }) {
  const { nut, end, y, nutHalf, endHalf, last } = plan;
  const frets = Array.from({ length: last }, (_, i) => {
    const x = planX(plan, i + 1);
    const half = planHalf(plan, x);
    return `M${x} ${y - half}V${y + half}`;
  });
  const spread = (i: number, half: number): number => y + (strings === 1 ? 0 : (i / (strings - 1) - 0.5) * 2 * half * 0.82);
  const far = planHalf(plan, stringEnd);
  return (
    <g>
      <Shape as="outline" d={`M${nut} ${y - nutHalf}L${end} ${y - endHalf}V${y + endHalf}L${nut} ${y + nutHalf}Z`} />
      {fretted && <Stroke as="rule" d={frets.join("")} />}
      {Array.from({ length: strings }, (_, i) => (
        <path key={i} class="pen-string" style={{ strokeWidth: `${0.8 + i * 0.25}px` }}
          d={`M${nut} ${spread(i, nutHalf)}L${stringEnd} ${spread(i, far)}`} />
      ))}
      <Solid d={`M${nut - 5} ${y - nutHalf - 1}H${nut}V${y + nutHalf + 1}H${nut - 5}Z`} />
    </g>
  );
}

/** A whole instrument in plan, as an abstract slab: head left, body right, about 240 x 90 about its middle. */
export function Slab({ x, y, turn = 0 }: { x: number; y: number; turn?: number }) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape as="outline" d="M38 -40H98Q120 -40 120 -18V18Q120 40 98 40H38Q16 40 16 18V-18Q16 -40 38 -40Z" />
      <Shape d="M-82 -7L36 -10V10L-82 7Z" />
      <Shape d="M-82 -7L-92 -12H-116C-120 -12 -122 -10 -122 -6V6C-122 10 -120 12 -116 12H-92L-82 7Z" />
      <Solid d="M-84 -8H-81V8H-84Z" />
      <Stroke as="edge" d="M50 -14H57V14H50ZM72 -14H79V14H72ZM92 -16H104V16H92Z" />
    </At>
  );
}

/** The same from the side, lying on its back: neck top at y, body from x + 20 on. */
export function SlabSide({ x, y }: { x: number; y: number }) {
  return (
    <At x={x} y={y}>
      <Shape as="outline" d="M20 2H120V34H24C22 34 20 32 20 30Z" />
      <Shape d="M-84 -2H40V2H20V14H-76C-90 14 -96 18 -122 24V16C-104 10 -94 6 -84 6Z" />
      <Shape d="M92 2V-6H106V2Z" />
      <path class="pen-string" d="M-116 13L-84 -5L98 -9" />
    </At>
  );
}

/** Bridge saddle from the side on its base plate; the string's break point at (x, y), plate `drop` lower. */
export function Saddle({ x, y, drop = 44 }: { x: number; y: number; drop?: number }) {
  return (
    <g>
      <Shape d={`M${x - 14} ${y + 22}V${y + 8}L${x - 4} ${y}H${x + 6}L${x + 26} ${y + 12}V${y + 22}Z`} />
      <Shape d={`M${x - 4} ${y + 6}V${y + drop}H${x + 1}V${y + 6}Z`} />
      <Shape as="outline" d={`M${x - 40} ${y + drop}H${x + 90}V${y + drop + 8}H${x - 40}Z`} />
      <Shape as="outline" d={`M${x + 82} ${y + drop}V${y - 8}H${x + 90}V${y + drop}Z`} />
      <Shape d={`M${x + 26} ${y + 15}H${x + 82}V${y + 20}H${x + 26}Z`} />
      <Shape d={`M${x + 90} ${y + 10}H${x + 97}V${y + 25}H${x + 90}Z`} />
    </g>
  );
}

/** A pickup cut across its length or along the string: cover and poles, tops of the poles at y. */
export function Pickup({ x, y, half = 40, poles = [0] }: { x: number; y: number; half?: number; poles?: readonly number[] }) {
  return (
    <g>
      <Shape as="outline" d={`M${x - half} ${y + 34}V${y + 6}Q${x - half} ${y + 3} ${x - half + 3} ${y + 3}H${x + half - 3}Q${x + half} ${y + 3} ${x + half} ${y + 6}V${y + 34}Z`} />
      {poles.map((p) => <Shape key={p} d={`M${x + p - 5} ${y + 34}V${y}H${x + p + 5}V${y + 34}Z`} />)}
    </g>
  );
}

/** Head of the instrument in plan, tuners in two rows, nut at (x, y), pointing left. */
export function Head({ x, y }: { x: number; y: number }) {
  return (
    <At x={x} y={y}>
      <Shape as="outline" d="M0 -20L-18 -34H-96Q-102 -34 -102 -28V28Q-102 34 -96 34H-18L0 20Z" />
      {[-26, -54, -82].map((p) => (
        <g key={p}>
          <Stroke as="edge" d={`M${p - 4} -20a4 4 0 1 0 8 0a4 4 0 1 0 -8 0M${p - 4} 20a4 4 0 1 0 8 0a4 4 0 1 0 -8 0`} />
          <Shape d={`M${p - 3} -34V-40H${p - 7}V-48H${p + 7}V-40H${p + 3}V-34ZM${p - 3} 34V40H${p - 7}V48H${p + 7}V40H${p + 3}V34Z`} />
        </g>
      ))}
      <Solid d="M-2 -21H4V21H-2Z" />
    </At>
  );
}

export { breakLine };
