// The neck, opened where the reading is taken. The figures stand between the break lines, on the strings themselves.

import type { ComponentChildren } from "preact";
import type { Neck } from "../api/types";
import type { Half, OpenedNeck } from "./layout";
import type { PlacedStation } from "./stations";
import "./neck.css";

interface Props {
  neck: Neck;
  layout: OpenedNeck;
  stations: PlacedStation[];
  labels: { head: string; tail: string }[]; // of the strings; shown at the head
  title: string;
  numbers: boolean; // of the first and last fret on the page, where the neck is not drawn whole
  onStation: (checkpoint: string) => void;
  children: ComponentChildren; // one figure a row
}

export function NeckOpened({ neck, layout, stations, labels, title, numbers, onStation, children }: Props) {
  const below = stations.length === 0 ? 0 : 26 * (1 + Math.max(...stations.map((one) => one.row))) + 4;
  const { opening, rows, rowHeight } = layout;
  const top = (rows[0] ?? 0) - rowHeight / 2;
  return (
    <div class="neck" style={{ height: `${layout.height + below}px`, "--drawn": layout.width }}>
      <svg class="neck-lines" width={layout.width} height={layout.height} role="img" aria-label={title}>
        <HalfDrawn half={layout.halves[0]} neck={neck} id="neck-head" />
        <HalfDrawn half={layout.halves[1]} neck={neck} id="neck-body" />
        {layout.halves.map(
          (half, side) =>
            half.clip.width > 24 && (
              <path
                key={side}
                class="line-fine"
                d={breakLine((side === 0) !== neck.left ? opening.left : opening.right, layout.height - 16)}
              />
            ),
        )}
        <Chain layout={layout} stations={stations} />
        {numbers && <FretNumbers layout={layout} />}
        {layout.labels.y.map((y, i) => (
          <StringLabel key={i} layout={layout} y={y} label={labels[i]} />
        ))}
      </svg>
      <div
        class="neck-figures"
        style={{
          left: `${opening.left + 12}px`,
          width: `${opening.right - opening.left - 24}px`,
          top: `${top}px`,
        }}>
        {children}
      </div>
      {stations.map((one) => (
        <StationWords key={`${one.checkpoint}`} station={one} top={layout.height} onStation={onStation} />
      ))}
    </div>
  );
}

function HalfDrawn({ half, neck, id }: { half: Half; neck: Neck; id: string }) {
  const board = half.outline.map(([x, y]) => `${x.toFixed(1)},${y.toFixed(1)}`).join(" ");
  const inset = neck.left ? -1 : 1;
  return (
    <g clip-path={`url(#${id})`}>
      <clipPath id={id}>
        <rect x={half.clip.x} y={half.clip.y} width={half.clip.width} height={half.clip.height} />
      </clipPath>
      <polygon class="neck-board" points={board} />
      {neck.fretted &&
        half.frets
          .filter((one) => one.fret > 0)
          .map((one) => <line key={one.fret} class="line-fret" {...ends(one)} />)}
      {!neck.fretted &&
        half.frets
          .filter((one) => one.fret > 0)
          .map((one) => <line key={one.fret} class="line-position" {...ends(one)} />)}
      {half.strings.map((one) => (
        <line key={one.string} class="line-string" {...ends(one)} stroke-width={Math.max(0.8, one.thick)} />
      ))}
      {half.frets
        .filter((one) => one.fret === 0)
        .map((one) => (
          <line
            key="nut"
            class="neck-nut"
            x1={one.x1 - 3 * inset}
            x2={one.x2 - 3 * inset}
            y1={one.y1}
            y2={one.y2}
          />
        ))}
    </g>
  );
}

const ends = (line: { x1: number; y1: number; x2: number; y2: number }) => ({
  x1: line.x1,
  y1: line.y1,
  x2: line.x2,
  y2: line.y2,
});

/** A drawing that is opened here: two zigzags in one upright line. */
function breakLine(x: number, height: number): string {
  const zig = "l6 5 l-12 8 l6 5";
  return `M${x} 2 V${(height / 3 - 9).toFixed(1)} ${zig} V${((height * 2) / 3 - 9).toFixed(1)} ${zig} V${height}`;
}

function Chain({ layout, stations }: { layout: OpenedNeck; stations: PlacedStation[] }) {
  const { y, left, right } = layout.chain;
  const { left: from, right: to } = layout.opening;
  return (
    <g>
      <line class="line-fine" x1={left} x2={right} y1={y} y2={y} />
      {stations.map((one) => (
        <g key={one.checkpoint}>
          {(one.x < from || one.x > to) && <line class="line-chain" x1={one.x} x2={one.x} y1={6} y2={y - 8} />}
          <line class="line-fine" x1={one.x} x2={one.x} y1={y - 8} y2={y + 6} />
          <line class="line-outline" x1={one.x - 5} y1={y + 5} x2={one.x + 5} y2={y - 5} />
        </g>
      ))}
    </g>
  );
}

function FretNumbers({ layout }: { layout: OpenedNeck }) {
  const { y } = layout.chain;
  return (
    <g aria-hidden="true">
      {[layout.shown.from, layout.shown.to]
        .filter((fret) => fret !== layout.fret)
        .map((fret) => {
          const x = layout.xOf(fret);
          return (
            <g key={fret}>
              <line class="line-outline" x1={x - 5} y1={y + 5} x2={x + 5} y2={y - 5} />
              <text class="neck-label" x={x} y={y + 24} text-anchor="middle">
                {fret === 0 ? "nut" : fret}
              </text>
            </g>
          );
        })}
    </g>
  );
}

function StringLabel({
  layout,
  y,
  label,
}: {
  layout: OpenedNeck;
  y: number;
  label: { head: string; tail: string } | undefined;
}) {
  const { x, anchor } = layout.labels;
  return (
    <text class="neck-label" x={x} y={y + 5} text-anchor={anchor} aria-hidden="true">
      <tspan class="neck-label-number">{label?.head}</tspan> {label?.tail}
    </text>
  );
}

function StationWords({
  station,
  top,
  onStation,
}: {
  station: PlacedStation;
  top: number;
  onStation: (checkpoint: string) => void;
}) {
  const style = { left: `${station.left}px`, width: `${station.width}px`, top: `${top + station.row * 26}px` };
  const words = (
    <>
      {station.place} {station.figure && <b>{station.figure}</b>} {station.tail}
    </>
  );
  if (station.now)
    return (
      <span class="station station-now" style={style}>
        <b>{station.place}</b>, {station.tail}
      </span>
    );
  return (
    <button type="button" class="station" style={style} onClick={() => onStation(station.checkpoint)}>
      {words}
    </button>
  );
}
