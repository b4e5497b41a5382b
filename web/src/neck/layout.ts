// Where the lines of the opened neck lie on the page. Pure: drawing units of the server's neck in, pixels out.
//
// The neck is cut at the station where figures are taken and pulled apart; between the two break lines stand the
// figures, one row on each string. Both parts keep one scale along the neck, and one stretch across it, chosen so that
// the strings meet the rows. A left-handed neck is mirrored; figures and numbers never are.

import type { Neck } from "../api/types";

export interface Line {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

export interface Half {
  clip: { x: number; y: number; width: number; height: number };
  outline: [number, number][];
  frets: (Line & { fret: number })[];
  strings: (Line & { string: number; thick: number })[];
}

export interface OpenedNeck {
  width: number;
  height: number;
  fret: number; // where it is opened
  rows: number[]; // centre of each row, string 1 first (or the one row)
  rowHeight: number;
  opening: { left: number; right: number };
  halves: [Half, Half];
  labels: { x: number; anchor: "start" | "end"; y: number[] }; // of the strings, at the head
  chain: { y: number; left: number; right: number };
  xOf(fret: number): number; // station of a fret on the page; inside the opening for the fret that is opened
  shown: { from: number; to: number }; // frets on the page
}

export interface Wanted {
  width: number; // px on the page
  fret: number; // where the neck is opened; 0 the nut
  rows: number; // 1, 2 (edges) or the number of strings
  rowHeight: number;
  opening: number; // px between the break lines
  around: number | null; // frets shown on each side; null shows the whole neck
}

const labelRoom = 34; // px at the head for "6 E"
const endRoom = 14; // px at the far end
const margin = 12; // px above and below the outline
const chainRoom = 16; // px from the outline to the chain line

interface Mapping {
  width: number;
  left: boolean;
  cutFrom: number; // along, drawing units
  cutTo: number;
  start: number; // along, left end of what is shown
  scale: number;
  openLeft: number; // px, before mirroring
  openRight: number;
  across: (y: number) => number;
}

export function openNeck(neck: Neck, wanted: Wanted): OpenedNeck {
  const along = stationsOf(neck);
  const range = shownRange(neck, along, wanted);
  const map = mapping(neck, along, range, wanted);
  const rows = rowCentres(neck, wanted, map);
  const ys = neck.edge.map((corner) => map.across(corner.y));
  const top = Math.min(...ys, rows[0]! - wanted.rowHeight / 2);
  const bottom = Math.max(...ys, rows.at(-1)! + wanted.rowHeight / 2);
  const lift = margin - top;
  const moved: Mapping = { ...map, across: (y) => map.across(y) + lift };
  const height = bottom - top + 2 * margin;
  const place = (x: number) => toPage(moved, x);
  const opened = ordered(mirror(moved, moved.openLeft), mirror(moved, moved.openRight));
  const edges: [number, number] = [mirror(moved, labelRoom), mirror(moved, wanted.width - endRoom)];
  const [chainLeft, chainRight] = ordered(...edges);
  return {
    width: wanted.width,
    height: height + chainRoom,
    fret: wanted.fret,
    rows: rows.map((y) => y + lift),
    rowHeight: wanted.rowHeight,
    opening: { left: opened[0], right: opened[1] },
    halves: [half(neck, moved, range, height, "head"), half(neck, moved, range, height, "body")],
    labels: labels(neck, moved, range),
    chain: { y: height + chainRoom / 2, left: chainLeft, right: chainRight },
    xOf: (fret) => (fret === wanted.fret ? (opened[0] + opened[1]) / 2 : place(along.get(fret) ?? range.to)),
    shown: { from: range.fromFret, to: range.toFret },
  };
}

/** Middle of each fret line along the neck. */
function stationsOf(neck: Neck): Map<number, number> {
  return new Map(neck.frets.map((line) => [line.fret, (line.x1 + line.x2) / 2]));
}

interface Range {
  from: number; // along, drawing units
  to: number;
  fromFret: number;
  toFret: number;
}

function shownRange(neck: Neck, along: Map<number, number>, wanted: Wanted): Range {
  const last = Math.max(...along.keys());
  const end = Math.max(
    ...neck.edge.map((corner) => corner.x),
    ...neck.strings.map((line) => Math.max(line.x1, line.x2)),
  );
  if (wanted.around === null) return { from: along.get(0) ?? 0, to: end, fromFret: 0, toFret: last };
  const fromFret = Math.max(0, wanted.fret - wanted.around);
  const toFret = Math.min(last, wanted.fret + wanted.around);
  const halfSpace = (fret: number) =>
    Math.abs((along.get(Math.min(last, fret + 1)) ?? end) - (along.get(Math.max(0, fret)) ?? 0)) * 0.4;
  const from = fromFret === 0 ? (along.get(0) ?? 0) : (along.get(fromFret) ?? 0) - halfSpace(fromFret - 1);
  const to =
    toFret === last && wanted.fret + wanted.around > last ? end : (along.get(toFret) ?? end) + halfSpace(toFret);
  return { from, to: Math.min(to, end), fromFret, toFret };
}

function mapping(neck: Neck, along: Map<number, number>, range: Range, wanted: Wanted): Mapping {
  const last = Math.max(...along.keys());
  const at = along.get(wanted.fret) ?? (range.from + range.to) / 2;
  const before = along.get(wanted.fret - 1) ?? at;
  const after = along.get(Math.min(last, wanted.fret + 1)) ?? range.to;
  const cutFrom = Math.max(range.from, at - (at - before) * 0.5);
  const cutTo = Math.min(range.to, wanted.fret >= last ? at + (at - before) * 0.5 : at + (after - at) * 0.5);
  const room = wanted.width - labelRoom - endRoom - wanted.opening;
  const scale = room / Math.max(1, range.to - range.from - (cutTo - cutFrom));
  const openLeft = labelRoom + (cutFrom - range.from) * scale;
  return {
    width: wanted.width,
    left: neck.left,
    cutFrom,
    cutTo,
    start: range.from,
    scale,
    openLeft,
    openRight: openLeft + wanted.opening,
    across: across(neck, at, wanted),
  };
}

/** Stretch across: the strings at the station stand one row height apart. */
function across(neck: Neck, at: number, wanted: Wanted): (y: number) => number {
  const [first, lastString] = [neck.strings[0], neck.strings.at(-1)];
  if (!first || !lastString) return (y) => y;
  const [top, bottom] = [acrossAt(first, at), acrossAt(lastString, at)];
  const middle = (top + bottom) / 2;
  const onStrings = wanted.rows === neck.strings.length && wanted.rows > 1;
  const spread = (onStrings ? wanted.rows - 1 : Math.max(wanted.rows, 4)) * wanted.rowHeight;
  const stretch = spread / Math.max(1, bottom - top);
  return (y) => (y - middle) * stretch;
}

function acrossAt(line: Line, x: number): number {
  const t = line.x2 === line.x1 ? 0 : (x - line.x1) / (line.x2 - line.x1);
  return line.y1 + t * (line.y2 - line.y1);
}

function rowCentres(neck: Neck, wanted: Wanted, map: Mapping): number[] {
  const at = (map.cutFrom + map.cutTo) / 2;
  if (wanted.rows === neck.strings.length && wanted.rows > 1) {
    const step = wanted.rowHeight;
    return neck.strings.map((_, i) => (i - (wanted.rows - 1) / 2) * step);
  }
  if (wanted.rows === 2) {
    const [first, last] = [neck.strings[0], neck.strings.at(-1)];
    if (first && last) return [map.across(acrossAt(first, at)), map.across(acrossAt(last, at))];
  }
  return Array.from({ length: wanted.rows }, (_, i) => (i - (wanted.rows - 1) / 2) * wanted.rowHeight);
}

/** Before mirroring: along the neck to px. Points inside the cut are not drawn. */
function straight(map: Mapping, x: number): number {
  if (x <= (map.cutFrom + map.cutTo) / 2) return Math.min(map.openLeft, labelRoom + (x - map.start) * map.scale);
  return Math.max(map.openRight, map.openRight + (x - map.cutTo) * map.scale);
}

const mirror = (map: Mapping, x: number) => (map.left ? map.width - x : x);
const toPage = (map: Mapping, x: number) => mirror(map, straight(map, x));
const ordered = (a: number, b: number): [number, number] => (a < b ? [a, b] : [b, a]);

function half(neck: Neck, map: Mapping, range: Range, height: number, which: "head" | "body"): Half {
  const [from, to] = which === "head" ? [range.from, map.cutFrom] : [map.cutTo, range.to];
  // Linear through the whole half, so that a line that leaves it is cut by the clip and keeps its slope.
  const px = (x: number) =>
    mirror(
      map,
      which === "head" ? labelRoom + (x - map.start) * map.scale : map.openRight + (x - map.cutTo) * map.scale,
    );
  const [x1, x2] = ordered(px(from), px(to));
  const inside = (line: { x1: number; x2: number }) =>
    Math.max(line.x1, line.x2) >= from - 1e-9 && Math.min(line.x1, line.x2) <= to + 1e-9;
  const map2 = (line: Line): Line => ({
    x1: px(line.x1),
    y1: map.across(line.y1),
    x2: px(line.x2),
    y2: map.across(line.y2),
  });
  return {
    clip: outwards(map, which, x1, x2, height),
    outline: neck.edge.map((corner) => [px(corner.x), map.across(corner.y)]),
    frets: neck.frets.filter(inside).map((line) => ({ fret: line.fret, ...map2(line) })),
    strings: neck.strings.map((line) => ({ string: line.string, thick: line.thick, ...map2(line) })),
  };
}

/** Cut sharp at the break line, with room for the nut's stroke at the other end. */
function outwards(map: Mapping, which: "head" | "body", x1: number, x2: number, height: number): Half["clip"] {
  const extra = 8;
  const grow = (which === "head") !== map.left ? { x: x1 - extra } : { x: x1 };
  return { ...grow, y: 0, width: Math.max(0, x2 - x1) + extra, height };
}

function labels(neck: Neck, map: Mapping, range: Range): OpenedNeck["labels"] {
  const raw = neck.strings.map((line) => map.across(acrossAt(line, range.from)));
  return { x: map.left ? map.width - 2 : 2, anchor: map.left ? "end" : "start", y: raw };
}
