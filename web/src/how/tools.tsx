// What lies on the bench and in the hand, each drawn about its own origin: the place where it touches.

import { At, Motion, Shape, Solid, Stroke, Word } from "./pen";

type Spot = { x: number; y: number; turn?: number };

/** A fingertip that presses or feels; the origin is the skin, unturned it comes from above. */
export function Finger({ x, y, turn = 0, long = 46 }: Spot & { long?: number }) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape as="look" d={`M-8 ${-long}V-9C-8 -3 -4 0 0 0C4 0 8 -3 8 -9V${-long}`} />
      <Stroke as="look-fine" d="M8 -20C3 -20 3 -8 7 -6M-7 -24C-4 -23 -3 -23 -1 -24" />
    </At>
  );
}

/** A hand round something, fingers up, seen from the side of the thumb: only as much as tells where it holds. */
export function Hand({ x, y, turn = 0 }: Spot) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape as="look" d="M-26 40L-24 16C-26 4 -28 -6 -26 -10C-23 -14 -18 -12 -16 -6L-14 2V-24C-14 -31 -4 -31 -4 -24V-30C-4 -37 6 -37 6 -30V-25C7 -31 16 -31 16 -24V-14C17 -19 25 -19 25 -12V14C25 24 20 30 19 40" />
      <Stroke as="look-fine" d="M-4 -24V-4M6 -28V-4M16 -20V-3" />
    </At>
  );
}

/** A flat hand laid on or under something, seen from the side: palm at the origin, fingers to the right. */
export function Palm({ x, y, turn = 0 }: Spot) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape as="look" d="M-52 -12C-30 -20 -14 -20 0 -17L46 -9C53 -8 53 0 46 0H-14C-26 0 -36 4 -52 8" />
      <Stroke as="look-fine" d="M44 -8C39 -7 39 -4 44 -3M-4 -9C4 -10 12 -9 18 -8" />
    </At>
  );
}

/** An eye that looks along +x from the origin, with its line of sight. */
export function Eye({ x, y, turn = 0, sight = 0 }: Spot & { sight?: number }) {
  return (
    <At x={x} y={y} turn={turn}>
      {sight > 0 && <Stroke as="look-dashed" d={`M8 0H${sight}`} />}
      <Shape as="look" d="M2 -9L-18 0L2 9M-1 -8C5 -3 5 3 -1 8" />
      <Solid as="look" d="M-2 -4C2 -3 2 3 -2 4C-4 2 -4 -2 -2 -4Z" />
    </At>
  );
}

/** A lamp; light leaves the origin along +x. */
export function Lamp({ x, y, turn = 0, reach = 40 }: Spot & { reach?: number }) {
  const spread = reach * 0.16;
  return (
    <At x={x} y={y} turn={turn}>
      <Stroke as="look-dashed" d={`M4 0H${reach}M4 -3L${reach} ${-spread - 3}M4 3L${reach} ${spread + 3}`} />
      <Shape d="M0 -10V10L-16 5H-30V-5H-16Z" />
    </At>
  );
}

/** A magnifier with its middle on the origin; what is seen through it goes in as children of the drawing, on top. */
export function Magnifier({ x, y, turn = 45, r = 20, filled = false }: Spot & { r?: number; filled?: boolean }) {
  const ring = `M${r} 0A${r} ${r} 0 1 1 ${-r} 0A${r} ${r} 0 1 1 ${r} 0Z`;
  return (
    <At x={x} y={y} turn={turn}>
      {filled ? <Shape as="look" d={ring} /> : <Stroke as="look" d={ring} />}
      <Shape d={`M${r} -3H${r + 26}V3H${r}Z`} />
    </At>
  );
}

/** A rule lying from the origin to the right, graduations on its upper edge, `every` units apart. */
export function Rule({ x, y, turn = 0, long, every = 6, wide = 16 }:
  Spot & { long: number; every?: number; wide?: number }) {
  const marks = Array.from({ length: Math.floor(long / every) }, (_, i) =>
    `M${(i + 1) * every} 0v${(i + 1) % 5 === 0 ? wide * 0.6 : wide * 0.35}`).slice(0, -1);
  return (
    <At x={x} y={y} turn={turn}>
      <Shape d={`M0 0H${long}V${wide}H0Z`} />
      <Stroke as="fine" d={marks.join("")} />
    </At>
  );
}

/** A feeler leaf whose tip is at the origin, held from the right. */
export function Leaf({ x, y, turn = 0, long = 70 }: Spot & { long?: number }) {
  return (
    <At x={x} y={y} turn={turn}>
      <Solid as="look" d={`M0 -1.5H${long}V1.5H0Z`} />
      <Shape d={`M${long} -9H${long + 26}A9 9 0 0 1 ${long + 26} 9H${long}Z`} />
    </At>
  );
}

/** Caliper with jaws pointing down that close from x = -open/2 to open/2 at the origin's level. */
export function Caliper({ x, y, turn = 0, open, jaw = 34 }: Spot & { open: number; jaw?: number }) {
  const a = open / 2;
  return (
    <At x={x} y={y} turn={turn}>
      <Shape d={`M${-a - 14} ${-jaw - 14}H${a + 62}V${-jaw}H${-a - 14}Z`} />
      <Shape d={`M${-a} 4V${-jaw - 18}H${-a - 16}V${-jaw + 6}L${-a - 5} 4Z`} />
      <Shape d={`M${a} 4V${-jaw - 20}H${a + 36}V${-jaw + 4}H${a + 14}L${a + 5} 4Z`} />
      <Stroke as="fine" d={`M${a + 42} ${-jaw - 14}v5m5 -5v5m5 -5v8m5 -8v5`} />
    </At>
  );
}

/** Dial indicator, stem down, its point at the origin. */
export function Dial({ x, y, stem = 34, r = 19 }: Spot & { stem?: number; r?: number }) {
  const c = -stem - r;
  return (
    <At x={x} y={y}>
      <Shape d={`M-2 0L-3 -8V${-stem + 14}H3V-8L2 0Z`} />
      <Shape d={`M-6 ${-stem + 16}V${-stem}H6V${-stem + 16}Z`} />
      <Shape d={`M${r} ${c}A${r} ${r} 0 1 1 ${-r} ${c}A${r} ${r} 0 1 1 ${r} ${c}Z`} />
      <Stroke as="fine" d={`M0 ${c - r + 3}v5M${r - 3} ${c}h-5M${-r + 3} ${c}h5M0 ${c + r - 3}v-5`} />
      <Stroke as="edge" d={`M0 ${c}L7 ${c - 9}`} />
    </At>
  );
}

/** Tip of a meter lead at the origin, body to the upper right. */
export function Probe({ x, y, turn = 0, long = 34 }: Spot & { long?: number }) {
  return (
    <At x={x} y={y} turn={turn}>
      <Stroke as="look" d="M0 0V-14" />
      <Shape d={`M-3 -14H3L4 -22H6V${-long - 8}H-6V-22H-4Z`} />
    </At>
  );
}

/** Meter with a figure in its window; sockets at (x + 16, y) and (x + 54, y), its foot at y. */
export function Meter({ x, y, says }: Spot & { says: string }) {
  return (
    <At x={x} y={y}>
      <Shape as="outline" d="M0 0V-56H70V0Z" />
      <Shape d="M6 -50H64V-26H6Z" />
      <Word x={35} y={-32} hold="middle" says={says} strong />
      <Solid d="M13 -8a3 3 0 1 0 6 0a3 3 0 1 0 -6 0M51 -8a3 3 0 1 0 6 0a3 3 0 1 0 -6 0" />
    </At>
  );
}

/** The free plug of a lead; the tip's end at the origin, pointing left. Sleeve from 24 to 60, tip from 0 to 18. */
export function Plug({ x, y, turn = 0 }: Spot) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape d="M0 0L6 -6L12 -3L16 -6H20V6H16L12 3L6 6Z" />
      <Solid d="M20 -6H24V6H20Z" />
      <Shape d="M24 -6H60V6H24Z" />
      <Shape as="outline" d="M60 -11H92L100 -6V6L92 11H60Z" />
      <Stroke as="outline" d="M100 0h12" />
    </At>
  );
}

/** A screw seen from the side, the underside of its head at the origin, thread downward. */
export function Screw({ x, y, turn = 0, long = 40 }: Spot & { long?: number }) {
  const turns = Array.from({ length: Math.floor((long - 8) / 5) }, (_, i) => `M-4 ${8 + i * 5}L4 ${5 + i * 5}`);
  return (
    <At x={x} y={y} turn={turn}>
      <Shape d={`M-9 0C-9 -8 9 -8 9 0Z`} />
      <Shape d={`M-3 0V${long - 6}L0 ${long}L3 ${long - 6}V0Z`} />
      <Stroke as="fine" d={turns.join("")} />
    </At>
  );
}

/** A screw's head from above. */
export function ScrewHead({ x, y, chewed = false, r = 8 }: Spot & { chewed?: boolean; r?: number }) {
  return (
    <At x={x} y={y}>
      <Shape d={`M${r} 0A${r} ${r} 0 1 1 ${-r} 0A${r} ${r} 0 1 1 ${r} 0Z`} />
      {chewed
        ? <Stroke as="wrong" d="M-5 -4L2 1L5 0M-4 4L0 -1L5 5M-1 -6L1 -1" />
        : <Stroke as="edge" d="M-5 0H5M0 -5V5" />}
    </At>
  );
}

/** A camera that looks along +x. */
export function Camera({ x, y, turn = 0 }: Spot) {
  return (
    <At x={x} y={y} turn={turn}>
      <Shape d="M-34 -14H-6V14H-34Z" />
      <Shape d="M-6 -8H0V8H-6Z" />
      <Stroke as="look-dashed" d="M4 -5L24 -13M4 5L24 13" />
    </At>
  );
}

/** A pick that strikes downward at the origin. */
export function Pick({ x, y }: Spot) {
  return (
    <At x={x} y={y}>
      <Shape as="look" d="M0 2C-7 -8 -12 -18 -9 -22C-5 -26 5 -26 9 -22C12 -18 7 -8 0 2Z" />
      <Motion d="M18 -20V-2" end={[18, 0]} angle={90} />
    </At>
  );
}

/** A thermometer standing on the origin. */
export function Thermometer({ x, y }: Spot) {
  return (
    <At x={x} y={y}>
      <Shape d="M-4 -14V-58A4 4 0 0 1 4 -58V-14A8 8 0 1 1 -4 -14Z" />
      <Solid d="M-1.5 -12V-40H1.5V-12A5 5 0 1 1 -1.5 -12Z" />
      <Stroke as="fine" d="M8 -24h5M8 -32h5M8 -40h5M8 -48h5" />
    </At>
  );
}

/** Sound in the air, leaving the origin along +x. */
export function Sound({ x, y, turn = 0 }: Spot) {
  return (
    <At x={x} y={y} turn={turn}>
      <Stroke as="look-fine" d="M0 -6C4 -3 4 3 0 6M6 -11C13 -5 13 5 6 11M12 -16C22 -8 22 8 12 16" />
    </At>
  );
}

/** Amplifier from the front, its foot at the origin. */
export function Amplifier({ x, y }: Spot) {
  return (
    <At x={x} y={y}>
      <Shape as="outline" d="M0 0V-56H62V0Z" />
      <Stroke as="edge" d="M0 -44H62M31 -38A16 16 0 1 0 31 -6A16 16 0 1 0 31 -38" />
      <Stroke as="fine" d="M31 -28A6 6 0 1 0 31 -16A6 6 0 1 0 31 -28M8 -50h6m6 0h6m6 0h6" />
    </At>
  );
}
