// Two sections of the neck, in pixels: across at a fret, and along one string. Pure. Height is stretched by a whole number
// of times, the same at every fret, so that two frets can be compared.

import type { Survey, SurveyBoard } from "../api/types";

/** Of a string's length, how far from the nut a fret lies: equal temperament. */
export const partOf = (fret: number): number => 1 - 2 ** (-fret / 12);

/** The board is a cone: its radius goes straight from the nut to the last fret. */
export function radiusAt(board: SurveyBoard, fret: number, frets: number): number {
  const part = partOf(fret) / partOf(frets);
  return board.radius_nut_mm + (board.radius_end_mm - board.radius_nut_mm) * part;
}

/** How far an arc has dropped at y from its top. */
export const dropAt = (y_mm: number, radius_mm: number): number =>
  radius_mm > Math.abs(y_mm) ? radius_mm - Math.sqrt(radius_mm * radius_mm - y_mm * y_mm) : Math.abs(y_mm);

export const acrossOf = (board: SurveyBoard, string: number, fret: number): number => {
  const nut = board.strings_nut_mm[string - 1] ?? 0;
  return nut + ((board.strings_saddle_mm[string - 1] ?? nut) - nut) * partOf(fret);
};

/** The largest of the usual factors with which so many mm fit into so many px. */
const factors = [60, 50, 40, 30, 25, 20, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1];
const factorFor = (room_px: number, height_mm: number, px_per_mm: number): number =>
  factors.find((factor) => factor * height_mm * px_per_mm <= room_px) ?? 1;

export interface Across {
  width: number;
  height: number;
  factor: number;
  radius: number; // mm
  fretTop: string; // path
  fret: string; // closed path; "" without wire
  board: string; // closed path
  boardY: number; // for its name
  fretY: number;
  strings: { string: number; x: number; y: number; r: number; crownY: number; figure: number; u: number }[];
}

const figuresRoom = 52; // two rows of figures on top
const drawn_px = 215;
const side = 10;
const block_mm = 0.8; // of wood below the lowest edge, where the drawing ends

/** Seen towards the head: the bass at the left, of a left-handed neck at the right. */
export function acrossAt(survey: Survey, fret: number, width: number, left: boolean, text = 1): Across {
  const { board, strings } = survey;
  const frets = survey.crowns.length;
  const edgeAt = (at: number) => {
    const [first, last] = [acrossOf(board, 1, at), acrossOf(board, strings.length, at)];
    const gap = strings.length > 1 ? Math.abs(first - last) / (strings.length - 1) : 7;
    return Math.max(Math.abs(first), Math.abs(last)) + 0.45 * gap;
  };
  const sx = (width - 2 * side) / (2 * edgeAt(frets));
  const every = Array.from({ length: frets }, (_, i) => i + 1);
  const above = Math.max(...every.flatMap((at) => strings.map((one) =>
    (one.open_mm[at - 1] ?? 0) - dropAt(acrossOf(board, one.string, at), radiusAt(board, at, frets)))), 0);
  const below = Math.max(...every.map((at) => dropAt(edgeAt(at), radiusAt(board, at, frets)))) + board.fret_height_mm + block_mm;
  const factor = factorFor(drawn_px - 16, above + below, sx);
  const sy = factor * sx;
  const top = figuresRoom * text + 16 + above * sy;
  const x = (y_mm: number) => width / 2 + (left ? -1 : 1) * y_mm * sx;
  const y = (z_mm: number) => top - z_mm * sy;
  const radius = radiusAt(board, fret, frets);
  const edge = edgeAt(fret);
  const arc = (down: number) =>
    Array.from({ length: 33 }, (_, i) => -edge + (2 * edge * i) / 32).map(
      (across) => `${x(across).toFixed(1)} ${y(-dropAt(across, radius) - down).toFixed(1)}`,
    );
  const wire = board.fret_height_mm;
  const floor = y(-below);
  const [crown, wood] = [arc(0), arc(wire)];
  return {
    width,
    height: floor + 4,
    factor,
    radius,
    fretTop: `M${crown.join("L")}`,
    fret: wire > 0 ? `M${crown.join("L")}L${[...wood].reverse().join("L")}Z` : "",
    board: `M${wood.join("L")}L${x(edge).toFixed(1)} ${floor.toFixed(1)}L${x(-edge).toFixed(1)} ${floor.toFixed(1)}Z`,
    boardY: (y(-wire) + floor) / 2,
    fretY: y(-wire / 2),
    strings: strings.map((one) => {
      const across = acrossOf(board, one.string, fret);
      const crownZ = -dropAt(across, radius);
      const r = 3 + (4 * (one.string - 1)) / Math.max(1, strings.length - 1);
      const figure = one.open_mm[fret - 1] ?? 0;
      return {
        string: one.string, x: x(across), y: y(crownZ + figure) - r, r, crownY: y(crownZ),
        figure, u: one.open_mm_se[fret - 1] ?? 0,
      };
    }),
  };
}

export interface Along {
  width: number;
  height: number;
  factor: number;
  base: number; // y of the straight line from fret 1 to the last
  nut: number; // x
  crowns: { fret: number; x: number; y: number }[];
  open: { x1: number; y1: number; x2: number; y2: number };
  held: { x1: number; y1: number; x2: number; y2: number };
  /** Room over the next crown; nothing at the last fret. */
  next: { fret: number; x: number; crownY: number; stringY: number; reach: number; figure: number; u: number } | undefined;
}

const alongRoom_px = 128;
const alongTop = 14;
const alongEnd = 16;

/** Crowns on the line of fret 1 to the last, and the string over them: open, and held at a fret. */
export function alongString(survey: Survey, string: number, fret: number, width: number, left: boolean, text = 1): Along {
  const one = survey.strings[string - 1];
  const frets = survey.crowns.length;
  const heights = survey.crowns.map((crown) => crown.heights_mm[string - 1] ?? 0);
  const head = 40 * text;
  const end = partOf(frets);
  const scale = survey.board.scales_mm[string - 1] ?? 648;
  const sx = (width - head - alongEnd) / (end * scale);
  const openZ = (at: number) => (heights[at - 1] ?? 0) + (one?.open_mm[at - 1] ?? 0);
  const slope = (openZ(frets) - openZ(1)) / (partOf(frets) - partOf(1));
  const openAt = (part: number) => openZ(1) + slope * (part - partOf(1));
  const above = Math.max(openZ(1), openZ(frets), openAt(0), 0.1);
  const below = Math.max(0, ...heights.map((height) => -height)) + 0.05;
  const factor = factorFor(alongRoom_px, above + below, sx);
  const sy = factor * sx;
  const base = alongTop + above * sy;
  const x = (part: number) => {
    const px = head + part * scale * sx;
    return left ? width - px : px;
  };
  const y = (z: number) => base - z * sy;
  const crownZ = heights[fret - 1] ?? 0;
  const heldAt = (part: number) => crownZ + ((openAt(1) - crownZ) * (part - partOf(fret))) / (1 - partOf(fret));
  const figure = one?.next_fret_mm[fret];
  const u = one?.next_fret_mm_se[fret] ?? 0;
  const after = heights[fret] ?? 0;
  return {
    width,
    height: y(-below) + 44 * text,
    factor,
    base,
    nut: x(0),
    crowns: heights.map((height, i) => ({ fret: i + 1, x: x(partOf(i + 1)), y: y(height) })),
    open: { x1: x(0), y1: y(openAt(0)), x2: x(end), y2: y(openAt(end)) },
    held: { x1: x(partOf(fret)), y1: y(crownZ), x2: x(end), y2: y(heldAt(end)) },
    next:
      figure === undefined || fret >= frets
        ? undefined
        : { fret: fret + 1, x: x(partOf(fret + 1)), crownY: y(after), stringY: y(after + figure), reach: 2 * u * sy, figure, u },
  };
}
