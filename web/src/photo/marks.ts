// Marks on a photo: numbered by their order, places as shares of width and height, so that they hold at any size.

export interface Mark {
  /** 0 left to 1 right, 0 top to 1 bottom. */
  x: number;
  y: number;
  says?: string;
}

const finest = 1000;

/** Inside the picture, to a thousandth: finer than a fingertip. */
const share = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * finest) / finest;

/** Where on the picture a tap landed. */
export function markAt(tap: { clientX: number; clientY: number },
                       frame: { left: number; top: number; width: number; height: number }): Mark {
  return { x: share((tap.clientX - frame.left) / frame.width), y: share((tap.clientY - frame.top) / frame.height) };
}

const steps: Record<string, readonly [number, number]> = {
  ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1],
};

/** A mark moved by an arrow key, one hundredth a stroke, five with Shift; undefined for any other key. */
export function moved(mark: Mark, key: string, far: boolean): Mark | undefined {
  const step = steps[key];
  if (!step) return undefined;
  const by = far ? 0.05 : 0.01;
  return { ...mark, x: share(mark.x + step[0] * by), y: share(mark.y + step[1] * by) };
}

export const withMark = (marks: readonly Mark[], nth: number, mark: Mark): Mark[] =>
  marks.map((one, index) => (index === nth ? mark : one));

export const without = (marks: readonly Mark[], nth: number): Mark[] => marks.filter((_, index) => index !== nth);

/** As they are written down: words trimmed, empty words left out. */
export function written(marks: readonly Mark[]): Mark[] {
  return marks.map(({ x, y, says }) => {
    const words = says?.trim() ?? "";
    return words === "" ? { x, y } : { x, y, says: words };
  });
}

/** "at 62 of 100 from the left, 40 from the top": for who does not see the circle. */
export function placeWords(mark: Mark): string {
  return `at ${Math.round(mark.x * 100)} of 100 from the left, ${Math.round(mark.y * 100)} from the top`;
}
