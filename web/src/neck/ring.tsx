// The ring map of heard notes: rows strings, columns frets, string 1 on top. A cell is chosen by a tap or the arrow
// keys; what was heard there is said beside the map. On a phone five frets at a time.

import { useRef } from "preact/hooks";
import { RingSign, type HeardNote } from "./ring_signs";
import "./ring.css";

export interface RingCell {
  heard: HeardNote;
  dead: boolean;
  general: boolean; // from "all rang", not heard by itself
  says: string;
}

export interface RingAt {
  string: number;
  fret: number;
}

interface Props {
  strings: { number: number; note: string }[];
  frets: number[]; // on the page, 0 = open
  left: boolean; // a left-handed neck: columns mirrored, figures not
  cell: (at: RingAt) => RingCell;
  chosen: RingAt | null;
  complaints: RingAt[]; // where the player complains
  onChoose: (at: RingAt) => void;
}

const dots = new Set([0, 5, 8, 12, 17, 24]);

export function RingMap({ strings, frets, left, cell, chosen, complaints, onChoose }: Props) {
  const grid = useRef<HTMLTableElement>(null);
  const columns = left ? [...frets].reverse() : frets;
  const onKey = (event: KeyboardEvent, at: RingAt) => {
    const to = neighbourOf(strings, columns, at, event.key);
    if (!to) return;
    event.preventDefault();
    event.stopPropagation();
    onChoose(to);
    grid.current?.querySelector<HTMLButtonElement>(`[data-at="${to.string}.${to.fret}"]`)?.focus();
  };
  const isChosen = (at: RingAt) => chosen?.string === at.string && chosen.fret === at.fret;
  return (
    <table
      class={`ring-map ${left ? "ring-left" : ""}`}
      role="grid"
      aria-label="Ring map: strings down, frets across"
      ref={grid}>
      <FretHeads columns={columns} />
      <tbody>
        {strings.map(({ number, note }) => (
          <tr key={number}>
            <th scope="row">
              <b>{number}</b> {note}
            </th>
            {columns.map((fret) => {
              const at = { string: number, fret };
              const drawn = cell(at);
              const wept = complaints.some((one) => one.string === number && one.fret === fret);
              const first = chosen === null && number === strings[0]?.number && fret === columns[0];
              return (
                <td
                  key={fret}
                  class={`${fret === 0 ? "ring-open" : fret === 12 ? "ring-octave" : ""} ${wept ? "ring-complaint" : ""}`}
                  role="gridcell">
                  <button
                    type="button"
                    data-at={`${number}.${fret}`}
                    class={isChosen(at) ? "ring-chosen" : ""}
                    tabIndex={isChosen(at) || first ? 0 : -1}
                    aria-label={drawn.says}
                    aria-pressed={isChosen(at)}
                    onClick={() => onChoose(at)}
                    onKeyDown={(event) => onKey(event, at)}>
                    <RingSign heard={drawn.heard} dead={drawn.dead} general={drawn.general} />
                  </button>
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function FretHeads({ columns }: { columns: number[] }) {
  return (
    <thead>
      <tr>
        <td />
        {columns.map((fret) => (
          <th key={fret} scope="col" class={dots.has(fret) ? "ring-strong" : ""}>
            {fret === 0 ? "open" : fret}
          </th>
        ))}
      </tr>
    </thead>
  );
}

const steps: Record<string, [down: number, right: number]> = {
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
};

/** The cell that an arrow key leads to; null for any other key and at the edges. */
function neighbourOf(strings: Props["strings"], columns: number[], at: RingAt, key: string): RingAt | null {
  const step = steps[key];
  if (!step) return null;
  const string = strings[strings.findIndex((one) => one.number === at.string) + step[0]];
  const fret = columns[columns.indexOf(at.fret) + step[1]];
  return string && fret !== undefined ? { string: string.number, fret } : null;
}
