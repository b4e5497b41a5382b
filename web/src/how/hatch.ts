// Hatching as lines of its own: a pattern would need an id for each drawing on the page.

export type Point = readonly [x: number, y: number];

/** Where the lines x - y = c, `gap` apart across the slope, run inside the polygon: 45 degrees, rising to the right is
 *  "ink" in every figure of the page. Returns path data; empty for fewer than three corners. */
export function hatch(corners: readonly Point[], gap: number): string {
  if (corners.length < 3) return "";
  const step = gap * Math.SQRT2;
  const sums = corners.map(([x, y]) => x + y);
  const strokes: string[] = [];
  for (let c = Math.ceil(Math.min(...sums) / step) * step; c <= Math.max(...sums); c += step) {
    const cuts = crossings(corners, c);
    for (let i = 0; i + 1 < cuts.length; i += 2) {
      strokes.push(`M${tidy(cuts[i]!)} ${tidy(c - cuts[i]!)}L${tidy(cuts[i + 1]!)} ${tidy(c - cuts[i + 1]!)}`);
    }
  }
  return strokes.join("");
}

/** The x at which the line x + y = c enters and leaves the polygon, in order. */
function crossings(corners: readonly Point[], c: number): number[] {
  const found: number[] = [];
  corners.forEach(([x1, y1], i) => {
    const [x2, y2] = corners[(i + 1) % corners.length]!;
    const a = x1 + y1 - c;
    const b = x2 + y2 - c;
    // Half open, so that a corner on the line counts once.
    if (a < 0 !== b < 0) found.push(x1 + ((x2 - x1) * a) / (a - b));
  });
  return found.sort((a, b) => a - b);
}

const tidy = (value: number): number => Math.round(value * 10) / 10;

/** Points along a circle's cap over the chord from x1 to x2 whose middle stands `rise` above `y`. */
export function cap(x1: number, x2: number, y: number, rise: number, count = 24): Point[] {
  const middle = (x1 + x2) / 2;
  const half = (x2 - x1) / 2;
  return Array.from({ length: count + 1 }, (_, i) => {
    const t = -1 + (2 * i) / count;
    // A parabola: at these small rises it is the circle to less than a line's width.
    return [tidy(middle + t * half), tidy(y - rise * (1 - t * t))] as const;
  });
}

export function pathOf(corners: readonly Point[], closed = true): string {
  return corners.map(([x, y], i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("") + (closed ? "Z" : "");
}
